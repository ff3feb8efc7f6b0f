package address

import (
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"wardian/content"
)

func TestRelative(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"index.html", "index.html", "index.html"},
		{"index.html", "specimens/b26-03.html", "specimens/b26-03.html"},
		{"specimens/b26-03.html", "index.html", "../index.html"},
		{"specimens/b26-03.html", "specimens/b26-04.html", "b26-04.html"},
		{"specimens/b26-03.html", "specimens/index.html", "index.html"},
		{"specimens/b26-03.html", "look/style-0123456789.css", "../look/style-0123456789.css"},
		{"a/b/c.html", "a/b.html", "../b.html"},
		{"a/b/c.html", "a/d/c.html", "../d/c.html"},
		{"a/b/c.html", "b/b/c.html", "../../b/b/c.html"},
	} {
		got := Relative(c.from, c.to)
		assert.Equal(t, c.want, got, "%s to %s", c.from, c.to)
		assert.Equal(t, c.to, path.Join(path.Dir(c.from), got), "a browser would go elsewhere")
	}
}

func TestAbsolute(t *testing.T) {
	assert.Equal(t, "https://example.org/sill/", Absolute("https://example.org/sill/", Front()))
	assert.Equal(t, "https://example.org/sill/updates/index.html", Absolute("https://example.org/sill/", Updates()))
}

// safe is a path that every file system keeps as it is written.
var safe = regexp.MustCompile(`^[a-z-]+/[a-z0-9_.-]+$`)

func TestNamesAreSafeAndTheirOwn(t *testing.T) {
	reserved := regexp.MustCompile(`^(con|prn|aux|nul|com[0-9]|lpt[0-9])\.`)
	seen := map[string]string{}
	take := func(path, of string) {
		t.Helper()
		assert.Regexp(t, safe, path)
		assert.NotRegexp(t, reserved, path[strings.IndexByte(path, '/')+1:])
		assert.Empty(t, seen[path], "%s of %s", path, of)
		seen[path] = of
	}
	for _, id := range []string{"b26-03", "b26-03a", "con", "prn", "aux", "nul", "com", "com1", "com10", "lpt9", "con1", "console", "con-", "oldest", "0"} {
		take(Specimen(id), id)
		take(SpecimenOldest(id), id)
		take(Import(id), id)
		take(Place(id), id)
		take(Update(id), id)
	}
	for _, p := range []string{Specimens(), Imports(), Places(), Updates(), Seasons(), Amendments(), Method(), Data(), OpenData("specimens.csv"), Atom(), JSONFeed(), Style("0a"), Script("0a")} {
		take(p, p)
	}
	assert.Equal(t, "specimens/con_.html", Specimen("con"))
	assert.Equal(t, "specimens/console.html", Specimen("console"))
}

func TestPicture(t *testing.T) {
	assert.Regexp(t, `^pictures/2026-04-06-b26-03-2-[0-9a-f]{10}\.jpg$`, Picture("photos/2026-04-06/b26-03-2.JPG", nil))
	assert.Regexp(t, `^pictures/picture-[0-9a-f]{10}\.jpg$`, Picture("photos/写真.jpg", nil))
	assert.Less(t, len(Picture("photos/"+strings.Repeat("long ", 100)+".jpg", nil)), 100)

	seen := map[string]bool{}
	for _, p := range []string{"photos/a b.jpg", "photos/a-b.jpg", "photos/A-b.jpg", "photos/a/b.jpg", "photos/a-b.png", "photos/å-b.jpg", "photos/con.jpg", "photos/../x", "photos/<b>.jpg"} {
		for _, data := range []string{"", "x", "y"} {
			name := Picture(p, []byte(data))
			assert.Regexp(t, safe, name)
			assert.False(t, seen[name], name)
			seen[name] = true
		}
	}
	assert.Equal(t, Picture("photos/a.jpg", []byte("x")), Picture("photos/a.jpg", []byte("x")))
}

func TestAnchor(t *testing.T) {
	at := func(path string) string { return Anchor(&content.Entry{Path: path}) }
	assert.Equal(t, "entry-2026.04-06", at("check-ins/2026/04-06"))
	assert.Equal(t, "entry-2026-04-06-evening", at("check-ins/2026-04-06-evening"))
	seen := map[string]string{}
	for _, p := range []string{"a/b", "a.b", "a b", "a-b", "A/b", "a/B", "a--b", "a-", "-a", "a", "å", "ä", "a_b", "a/b_", "", "a/b c", "#", "\"><script>"} {
		anchor := at("check-ins/" + p)
		assert.Regexp(t, `^entry-[a-z0-9._-]+$`, anchor)
		assert.Empty(t, seen[anchor], "%s is also the anchor of %q", anchor, p)
		seen[anchor] = p
	}
	assert.Equal(t, "season-2026-spring", SeasonAnchor("2026 spring"))
	assert.NotEqual(t, SeasonAnchor("2026 spring"), SeasonAnchor("2026-spring"))
	assert.NotEqual(t, SeasonAnchor("2026 spring"), SeasonAnchor("2026 Spring"))
}

func TestResolve(t *testing.T) {
	tote := &content.Place{ID: "tote"}
	gone := &content.Place{ID: "unfinished-place"}
	one := &content.Entry{Path: "check-ins/2026/04-06", Place: tote, Named: []*content.CheckIn{{Mention: content.Mention{ID: "b26-03"}}}}
	round := &content.Entry{Path: "check-ins/2026/04-07 evening", Place: tote, Round: true, Named: []*content.CheckIn{{Mention: content.Mention{ID: "b26-03"}}}}
	loose := &content.Entry{Path: "check-ins/loose", Round: true, Named: []*content.CheckIn{
		{Mention: content.Mention{ID: "b26-03a"}, Empty: true}, {Mention: content.Mention{ID: "not-shown"}}, {Mention: content.Mention{ID: "b26-03"}}}}
	elsewhere := &content.Entry{Path: "check-ins/elsewhere", Place: gone, Round: true, Named: []*content.CheckIn{{Mention: content.Mention{ID: "b26-03"}}}}
	note := &content.Entry{Path: "check-ins/power-cut", Place: tote, Event: "power cut"}
	nobody := &content.Entry{Path: "check-ins/nobody", Round: true}
	d := &content.Diary{
		Specimens: []*content.Specimen{{ID: "b26-03"}, {ID: "b26-03a"}},
		Imports:   []*content.Import{{ID: "2026-spring-b"}},
		Places:    []*content.Place{tote},
		Entries:   []*content.Entry{one, round, loose, elsewhere, note, nobody},
		Updates:   []*content.Update{{Slug: "six-weeks-on"}},
		Seasons:   []*content.SeasonWords{{Slug: "spring", Season: "2026 spring"}},
		Photos:    []string{"photos/2026/a b.jpg", "photos/x.md"},
	}
	for _, c := range []struct {
		dest string
		want Address
		ok   bool
	}{
		{"specimens/b26-03", Address{Path: "specimens/b26-03.html"}, true},
		{"specimens/b26-03.md", Address{Path: "specimens/b26-03.html"}, true},
		{"specimens/b26-03.md#entry-x", Address{Path: "specimens/b26-03.html", Fragment: "#entry-x"}, true},
		{"specimens/b26-03#\"><b>", Address{Path: "specimens/b26-03.html"}, true},
		{"specimens/b26-03a", Address{Path: "specimens/b26-03a.html"}, true},
		{"specimens/not-shown", Address{}, false},
		{"specimens/../specimens/b26-03", Address{}, false},
		{"specimens", Address{}, false},
		{"imports/2026-spring-b.md", Address{Path: "imports/2026-spring-b.html"}, true},
		{"places/tote", Address{Path: "places/tote.html"}, true},
		{"updates/six-weeks-on.md", Address{Path: "updates/six-weeks-on.html"}, true},
		{"updates/seven-weeks-on", Address{}, false},
		{"seasons/spring", Address{Path: "seasons/2026-spring.html"}, true},
		{"seasons/autumn", Address{}, false},
		{"photos/2026/a b.jpg", Address{Picture: "photos/2026/a b.jpg"}, true},
		{"photos/x.md", Address{Picture: "photos/x.md"}, true},
		{"photos/x", Address{}, false},
		{"check-ins/2026/04-06.md", Address{Path: "specimens/b26-03.html", Fragment: "#entry-2026.04-06"}, true},
		{"check-ins/2026/04-07 evening", Address{Path: "places/tote.html", Fragment: "#" + Anchor(round)}, true},
		{"check-ins/loose", Address{Path: "specimens/b26-03.html", Fragment: "#entry-loose"}, true},
		{"check-ins/elsewhere", Address{Path: "specimens/b26-03.html", Fragment: "#entry-elsewhere"}, true},
		{"check-ins/power-cut", Address{Path: "places/tote.html", Fragment: "#entry-power-cut"}, true},
		{"check-ins/nobody", Address{}, false},
		{"check-ins/2026/04-08", Address{}, false},
		{"#anchor", Address{}, false},
		{"", Address{}, false},
		{"diary.yaml", Address{}, false},
	} {
		got, ok := Resolve(d, c.dest)
		assert.Equal(t, c.want, got, c.dest)
		assert.Equal(t, c.ok, ok, c.dest)
	}
}

// A season's words and a grower's own trait are anybody's text: their pages never
// meet, are never the list of all, and have names that every file system takes.
func TestPagesOfLabels(t *testing.T) {
	assert.Equal(t, "seasons/2026-spring.html", Season("2026 spring"))
	assert.Equal(t, "compare/root-grade.html", Comparison("root-grade"))
	labels := []string{"2026 spring", "2026-spring", "2026 Spring", "2026  spring", "index", "Index", "con", "con.1", "..", "/", "", "høst 2026", "host 2026", strings.Repeat("a", 300), strings.Repeat("a", 301)}
	for _, of := range []func(string) string{Season, Comparison} {
		seen := map[string]bool{Seasons(): true, Comparisons(): true}
		for _, label := range labels {
			p := of(label)
			assert.False(t, seen[p], "%q: %s", label, p)
			seen[p] = true
			assert.Regexp(t, `^[a-z]+/[a-z0-9_-]+\.html$`, p, label)
			assert.LessOrEqual(t, len(p), 100)
			assert.NotRegexp(t, `/(con|prn|aux|nul)\.`, p)
		}
	}
}
