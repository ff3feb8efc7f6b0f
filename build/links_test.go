package build_test

import (
	"bytes"
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// parsed is what a walk over one page finds.
type parsed struct {
	ids   map[string]int
	links []string // of href and src
}

func walk(t *testing.T, data []byte) parsed {
	t.Helper()
	root, err := html.Parse(bytes.NewReader(data))
	require.NoError(t, err)
	p := parsed{ids: map[string]int{}}
	var visit func(*html.Node)
	visit = func(n *html.Node) {
		for _, a := range n.Attr {
			switch a.Key {
			case "id":
				p.ids[a.Val]++
			case "href", "src":
				p.links = append(p.links, a.Val)
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			visit(c)
		}
	}
	visit(root)
	return p
}

// followLinks walks every href and src of a site: each must lead to a file of
// the site and, behind #, to something on it; and no page has one id twice.
// Since links are relative and files flat, what holds here holds over http,
// under any sub-path and from a folder opened as file://.
func followLinks(t *testing.T, s site) {
	t.Helper()
	at := map[string]parsed{}
	for _, p := range s.pages() {
		at[p] = walk(t, s[p])
	}
	require.NotEmpty(t, at)
	followed := 0
	for from, p := range at {
		for id, n := range p.ids {
			assert.Equal(t, 1, n, "%s has the id %s more than once", from, id)
		}
		for _, link := range p.links {
			if strings.HasPrefix(link, "https://") || strings.HasPrefix(link, "http://") || strings.HasPrefix(link, "mailto:") {
				continue
			}
			assert.NotRegexp(t, `^/|\\|^[a-z]+:`, link, "%s: a link that works under any address", from)
			target, fragment, _ := strings.Cut(link, "#")
			to := from
			if target != "" {
				to = path.Join(path.Dir(from), target)
			}
			if !assert.Contains(t, s, to, "%s links to %s", from, link) {
				continue
			}
			if fragment != "" {
				assert.Contains(t, at[to].ids, fragment, "%s links to %s", from, link)
			}
			followed++
		}
	}
	assert.NotZero(t, followed)
}

func TestNoLinkOfTheExampleIsBroken(t *testing.T) {
	followLinks(t, exampleSite(t))
}

// Every page can be reached from the front page.
func TestEveryPageOfTheExampleCanBeReached(t *testing.T) {
	s := exampleSite(t)
	reached := map[string]bool{"index.html": true}
	for queue := []string{"index.html"}; len(queue) > 0; queue = queue[1:] {
		for _, link := range walk(t, s[queue[0]]).links {
			target, _, _ := strings.Cut(link, "#")
			if target == "" || strings.Contains(target, ":") {
				continue
			}
			to := path.Join(path.Dir(queue[0]), target)
			if !reached[to] && strings.HasSuffix(to, ".html") {
				queue = append(queue, to)
			}
			reached[to] = true
		}
	}
	for _, p := range s.pages() {
		assert.True(t, reached[p], "nothing leads to %s", p)
	}
}
