package feed

import (
	"encoding/json"
	"encoding/xml"
	"io"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"wardian/content"
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/source"
)

func words(t *testing.T, text string) *prose.Document {
	t.Helper()
	var report source.Report
	doc := prose.Parse(source.New("updates/x.md", []byte(text)), 0, &report)
	require.Empty(t, report.Findings())
	return doc
}

func day(t *testing.T, y, m, d int) measure.Day {
	t.Helper()
	out, ok := measure.Date(y, m, d)
	require.True(t, ok)
	return out
}

// sill is an invented diary with three letters: a plain one, one with all that a
// letter can hold, and one without words and with signs in its title.
func sill(t *testing.T) *content.Diary {
	zone, err := time.LoadLocation("Europe/Oslo")
	require.NoError(t, err)
	full := &content.Update{Slug: "six-weeks-on", Title: "Six weeks on", Date: day(t, 2026, 4, 20), Plates: []content.Plate{{Show: "survival"}, {Show: "table"}}}
	full.Words = words(t, "Two *ferns* stand in [the tote](places/tote), [b 3](specimens/b26-03.md) left.[^1]\n\n"+
		"![Two leaves & a bud](photos/a.jpg)\n\n![hidden](photos/b.jpg)\n\n[out](https://example.com/?a=b&c) [nowhere](places/gone) [pic](photos/a.jpg)\n\n"+
		"```plate\nshow: survival\n```\n\n```plate\nshow: table\n```\n\n| a | b |\n|---|--:|\n| 1 | 2 |\n\n[^1]: It went to a friend.\n")
	full.Amended = []content.Amendment{{Date: day(t, 2026, 4, 22), Words: "two, not three"}}
	plain := &content.Update{Slug: "arrived", Title: "Arrived", Date: day(t, 2026, 3, 9), Page: content.Page{Words: words(t, "The box is here.")}}
	bare := &content.Update{Slug: "last", Title: "<b> & \x07\"]]>\uFFFE Ünïcode", Date: day(t, 2026, 4, 21)}
	return &content.Diary{
		Settings:  content.Settings{Name: "North Sill & co", Grower: "M.", Address: "https://example.org/sill/", Zone: zone, Licence: "CC-BY-4.0", About: "A north-facing flat; invented"},
		Specimens: []*content.Specimen{{ID: "b26-03"}},
		Places:    []*content.Place{{ID: "tote"}},
		Photos:    []string{"photos/a.jpg", "photos/b.jpg"},
		Updates:   []*content.Update{plain, full, bare},
	}
}

func pictures(path string) (string, int, int, bool) {
	return "pictures/a-0123456789.jpg", 1200, 900, path == "photos/a.jpg"
}

func feeds(t *testing.T, d *content.Diary) (atom, jsonFeed []byte) {
	t.Helper()
	files, err := UpdatesWith(d, pictures)
	require.NoError(t, err)
	require.Len(t, files, 2)
	assert.Equal(t, "feeds/updates.atom", files[0].Path)
	assert.Equal(t, "feeds/updates.json", files[1].Path)
	return files[0].Data, files[1].Data
}

// element is any XML element, for counting.
type element struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Children []element  `xml:",any"`
	Text     string     `xml:",chardata"`
}

func (e element) all(name string) (out []element) {
	for _, c := range e.Children {
		if c.XMLName.Local == name {
			out = append(out, c)
		}
	}
	return out
}

func (e element) attr(name string) string {
	for _, a := range e.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func (e element) one(t *testing.T, name string) element {
	t.Helper()
	list := e.all(name)
	require.Len(t, list, 1, "exactly one %s", name)
	return list[0]
}

func absolute(t *testing.T, address string) {
	t.Helper()
	u, err := url.Parse(address)
	require.NoError(t, err)
	assert.True(t, u.IsAbs(), "%q is not absolute", address)
}

// The rules are RFC 4287's: sections 4.1.1 (feed), 4.1.2 (entry), 3.3 (dates),
// 4.2.6 (ids), 4.1.3 (content).
func TestAtomKeepsTheRules(t *testing.T) {
	atom, _ := feeds(t, sill(t))
	var f element
	require.NoError(t, xml.Unmarshal(atom, &f))
	assert.Equal(t, xml.Name{Space: "http://www.w3.org/2005/Atom", Local: "feed"}, f.XMLName)
	whole := func(e element) {
		absolute(t, e.one(t, "id").Text)
		assert.NotEmpty(t, e.one(t, "title").Text)
		_, err := time.Parse(time.RFC3339, e.one(t, "updated").Text)
		assert.NoError(t, err)
	}
	whole(f)
	assert.Equal(t, "M.", f.one(t, "author").one(t, "name").Text)
	rels := map[string]string{}
	for _, l := range f.all("link") {
		rels[l.attr("rel")] = l.attr("href")
	}
	assert.Equal(t, map[string]string{"self": "https://example.org/sill/feeds/updates.atom", "alternate": "https://example.org/sill/"}, rels)

	entries := f.all("entry")
	require.Len(t, entries, 3)
	ids := map[string]bool{}
	for _, e := range entries {
		whole(e)
		_, err := time.Parse(time.RFC3339, e.one(t, "published").Text)
		assert.NoError(t, err)
		link := e.one(t, "link")
		assert.Equal(t, "alternate", link.attr("rel"))
		absolute(t, link.attr("href"))
		ids[e.one(t, "id").Text] = true
		for _, c := range e.all("content") {
			assert.Equal(t, "html", c.attr("type"))
			assert.NotEmpty(t, c.Text)
		}
	}
	assert.Len(t, ids, 3, "ids are their own")
	assert.Equal(t, `<b> & "]]> Ünïcode`, entries[0].one(t, "title").Text, "signs stay, controls don't")
	assert.Equal(t, "2026-04-20T00:00:00+02:00", entries[1].one(t, "published").Text)
	assert.Equal(t, "2026-04-22T00:00:00+02:00", entries[1].one(t, "updated").Text, "an amendment counts")
	assert.Equal(t, "2026-04-22T00:00:00+02:00", f.one(t, "updated").Text)
	assert.Equal(t, "2026-03-09T00:00:00+01:00", entries[2].one(t, "updated").Text)
	assert.Equal(t, "The box is here.", entries[2].one(t, "summary").Text)
	// Neither summary nor content: the alternate link is required, and there.
	assert.Empty(t, entries[0].all("content"))
}

// The rules are those of jsonfeed.org/version/1.1.
func TestJSONFeedHoldsTheSameItems(t *testing.T) {
	atom, data := feeds(t, sill(t))
	var a element
	require.NoError(t, xml.Unmarshal(atom, &a))
	var f map[string]any
	require.NoError(t, json.Unmarshal(data, &f))
	assert.Equal(t, "https://jsonfeed.org/version/1.1", f["version"])
	assert.Equal(t, "North Sill & co", f["title"])
	assert.Equal(t, "https://example.org/sill/", f["home_page_url"])
	assert.Equal(t, "https://example.org/sill/feeds/updates.json", f["feed_url"])
	assert.Equal(t, []any{map[string]any{"name": "M."}}, f["authors"])
	items := f["items"].([]any)
	entries := a.all("entry")
	require.Len(t, items, len(entries))
	for i, e := range entries {
		it := items[i].(map[string]any)
		assert.Equal(t, e.one(t, "id").Text, it["id"])
		assert.Equal(t, e.one(t, "link").attr("href"), it["url"])
		assert.Equal(t, e.one(t, "title").Text, it["title"])
		assert.Equal(t, e.one(t, "published").Text, it["date_published"])
		content := ""
		for _, c := range e.all("content") {
			content = c.Text
		}
		assert.Equal(t, content, it["content_html"])
		if e.one(t, "updated").Text == e.one(t, "published").Text {
			assert.NotContains(t, it, "date_modified")
		} else {
			assert.Equal(t, e.one(t, "updated").Text, it["date_modified"])
		}
	}
}

func TestTheTextCanBeReadFarFromItsPage(t *testing.T) {
	atom, _ := feeds(t, sill(t))
	var f element
	require.NoError(t, xml.Unmarshal(atom, &f))
	text := f.all("entry")[1].one(t, "content").Text
	z := html.NewTokenizer(strings.NewReader(text))
	addresses := 0
	for {
		kind := z.Next()
		if kind == html.ErrorToken {
			require.ErrorIs(t, z.Err(), io.EOF)
			break
		}
		for _, a := range z.Token().Attr {
			if a.Key == "href" || a.Key == "src" {
				absolute(t, a.Val)
				addresses++
			}
		}
	}
	assert.Equal(t, 10, addresses, "tote, specimen, call, picture, hidden picture, out, link to a picture, two plates, back")
	for _, part := range []string{
		`<a href="https://example.org/sill/places/tote.html">the tote</a>`,
		`<a href="https://example.org/sill/specimens/b26-03.html">b 3</a>`,
		`<img src="https://example.org/sill/pictures/a-0123456789.jpg" alt="Two leaves &amp; a bud" width="1200" height="900">`,
		`<a href="https://example.org/sill/updates/six-weeks-on.html">A picture is on the page: hidden</a>`,
		` nowhere `,
		`<a href="https://example.org/sill/updates/six-weeks-on.html">The drawing is on the page</a>`,
		`<a href="https://example.org/sill/updates/six-weeks-on.html">The table is on the page</a>`,
		`href="https://example.org/sill/updates/six-weeks-on.html#note-`,
	} {
		assert.Contains(t, text, part)
	}

	files, err := Updates(sill(t))
	require.NoError(t, err)
	assert.NotContains(t, string(files[1].Data), "<img", "without pictures, the page has them")
}

func TestNoFeedWithoutAnAddressOrALetter(t *testing.T) {
	for _, change := range []func(d *content.Diary){
		func(d *content.Diary) { d.Settings.Address = "" },
		func(d *content.Diary) { d.Updates = nil },
	} {
		d := sill(t)
		change(d)
		files, err := Updates(d)
		assert.NoError(t, err)
		assert.Empty(t, files)
	}
}

func TestSameDiarySameBytes(t *testing.T) {
	a, j := feeds(t, sill(t))
	for range 3 {
		a2, j2 := feeds(t, sill(t))
		assert.Equal(t, string(a), string(a2))
		assert.Equal(t, string(j), string(j2))
	}
	for _, data := range [][]byte{a, j} {
		for _, r := range string(data) {
			require.False(t, r < ' ' && r != '\n' && r != '\t' || r == 0x7f || r == '\uFFFE', "%q got in", r)
		}
	}
}

func TestAFeedCarriesTheNewest(t *testing.T) {
	d := sill(t)
	d.Settings.Grower, d.Settings.Zone = "", nil
	d.Updates = nil
	for i := range Newest + 5 {
		d.Updates = append(d.Updates, &content.Update{Slug: "x" + strings.Repeat("y", i), Title: "t", Date: day(t, 2026, 1, 1) + measure.Day(i)})
	}
	atom, _ := feeds(t, d)
	var f element
	require.NoError(t, xml.Unmarshal(atom, &f))
	assert.Len(t, f.all("entry"), Newest)
	assert.Equal(t, "North Sill & co", f.one(t, "author").one(t, "name").Text, "an author's name is required")
	assert.Equal(t, "2026-02-24T00:00:00Z", f.all("entry")[0].one(t, "updated").Text)
}
