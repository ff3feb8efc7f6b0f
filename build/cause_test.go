package build_test

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// causeWords claim more than counts of a few plants can: that one thing made
// another, or that a difference is settled.
var causeWords = regexp.MustCompile(`(?i)\b(?:because|caused|works|proves|effect\s+of|improved\s+by|significant(?:ly)?)\b`)

// ownWords is what a page says by itself: the grower's words, letters and what was
// written into the diary's own fields are left out.
func ownWords(n *html.Node, b *strings.Builder) {
	if n.Type == html.TextNode {
		b.WriteString(n.Data + " ")
	}
	for _, a := range n.Attr {
		if a.Key == "class" {
			for _, class := range strings.Fields(a.Val) {
				if class == "said" || class == "letter" || class == "amended" || class == "causes" {
					return
				}
			}
		}
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		ownWords(c, b)
	}
}

func TestNoWordOfCauseOnThePagesThatCompare(t *testing.T) {
	if racing {
		t.Skip("one text after the other is searched here: it is done without the race detector")
	}
	s := exampleSite(t)
	read := 0
	for path, data := range s {
		if !strings.HasSuffix(path, ".html") || !regexp.MustCompile(`^(?:compare|seasons|imports|method|data|index)\b`).MatchString(path) {
			continue
		}
		root, err := html.Parse(bytes.NewReader(data))
		require.NoError(t, err)
		var b strings.Builder
		ownWords(root, &b)
		assert.Empty(t, causeWords.FindAllString(b.String(), -1), path)
		read++
	}
	assert.Greater(t, read, 25, "compared words, seasons, imports and the front page")
	assert.Contains(t, s, "compare/size.html")
}

// Templates hold none of these words, and neither does a sentence in the code of
// the pages and of comparisons.
func TestNoWordOfCauseInTemplatesAndSentences(t *testing.T) {
	templates, err := filepath.Glob(filepath.Join(top, "themes", "*.html"))
	require.NoError(t, err)
	require.NotEmpty(t, templates)
	for _, name := range templates {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Empty(t, causeWords.FindAllString(string(data), -1), name)
	}
	files := append(goFiles(t)["build/page"], goFiles(t)["build/said"]...)
	require.NotEmpty(t, files)
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		ast.Inspect(f, func(n ast.Node) bool {
			if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
				assert.Empty(t, causeWords.FindAllString(l.Value, -1), "%s: %s", name, l.Value)
			}
			return true
		})
	}
	for _, word := range []string{"because", "Caused", "it works", "proves", "effect  of", "improved by", "significant", "significantly"} {
		assert.Regexp(t, causeWords, word)
	}
	assert.NotRegexp(t, causeWords, "causes of loss, the cause, networks")
}
