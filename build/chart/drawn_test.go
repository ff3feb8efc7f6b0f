package chart

import (
	"encoding/xml"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// everything draws each kind of drawing with normal, sparse and odd data.
func everything() map[string]HTML {
	out := map[string]HTML{}
	put := func(name string, d Drawing) {
		out[name] = d.HTML
		if d.Key != "" {
			out[name+" key"] = d.Key
		}
	}
	for name, s := range map[string]SoilLine{
		"soil": wholeSoil(), "grades": sparseSoil(), "kinds": threeSoil(), "sixty": sixtySoil(), "long": longSoil(),
		"escape": escSoil(), "lost": lostSoil(), "stays": staySoil(), "none": {}, "marks only": {Events: []Event{{Day: 3, Mark: LeavesCut}}},
		"one": {Looks: []Look{{Day: 0, Leaf: Measured, AreaCm2: 214, Roots: Measured, Length: RootLength, LengthCm: 22}}},
	} {
		put(name, s.Draw())
	}
	for name, c := range map[string]Curve{"curve": importCurve(), "all lost": allLost(), "none lost": noneLost(), "1200": manyLines(), "no curve": {}} {
		put(name, c.Draw())
	}
	for name, c := range map[string]Curves{"seasons": threeSeasons(), "seven": six(), "no seasons": {}} {
		put(name, c.Draw())
	}
	for name, m := range map[string]Milestones{"milestones": sampleMilestones(), "no milestones": {}} {
		put(name, m.Draw())
	}
	put("tree", sampleTree().Draw())
	put("deep tree", deepTree().Draw())
	put("place", samplePlace(84).Draw())
	put("place 3", samplePlace(3).Draw())
	put("place 400", samplePlace(400).Draw())
	t := sampleThumbs().Draw()
	out["how to"] = t.HowTo
	for i, c := range t.Cells {
		out["thumb"+string(rune('a'+i))] = c
	}
	r := sampleRows().Draw()
	out["top"], out["bottom"], out["rows key"] = r.Top, r.Bottom, r.Key
	for i, b := range r.Bars {
		out["bar"+string(rune('a'+i))] = b
	}
	for m := NoMark; m <= lastMark; m++ {
		out["icon "+m.Word()] = Icon(m)
	}
	out["water"], out["emblem"], out["pips"], out["whisker"] = WaterKey(), Emblem(), Pips(30), Whisker(Interval{.64, .39, .84})
	return out
}

var (
	classAttr = regexp.MustCompile(`class="([^"]*)"`)
	cssClass  = regexp.MustCompile(`\.([a-z][a-z0-9-]*)`)
	numbers   = regexp.MustCompile(` (?:d|x|y|dx|height|viewBox)="([^"]*)"`)
	comment   = regexp.MustCompile(`(?s)/\*.*?\*/`)
)

func TestEverythingDrawnIsWellFormed(t *testing.T) {
	for name, h := range everything() {
		d := xml.NewDecoder(strings.NewReader("<x>" + string(h) + "</x>"))
		ids := map[string]bool{}
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, name)
			if e, ok := tok.(xml.StartElement); ok {
				for _, a := range e.Attr {
					if a.Name.Local == "id" {
						assert.False(t, ids[a.Value], "%s: id %s twice", name, a.Value)
						ids[a.Value] = true
					}
				}
			}
		}
		for _, bad := range []string{"NaN", "Inf", "<script", `style="`, "fill=", "stroke="} {
			assert.False(t, strings.Contains(string(h), bad), "%s holds %s", name, bad)
		}
		for _, m := range numbers.FindAllStringSubmatch(string(h), -1) {
			assert.NotRegexp(t, `-0(?:[^.\d]|$)|e[+-]?\d|\d\.\d{3}`, m[1], name)
		}
	}
}

// chartStyle is the style of drawings: what all pages carry, and what those with
// milestones do.
func chartStyle(t *testing.T) string {
	t.Helper()
	style := ""
	for _, name := range []string{"chart.css", "strips.css"} {
		css, err := os.ReadFile("../../themes/" + name)
		require.NoError(t, err)
		style += string(css)
	}
	return style
}

func TestEachClassIsListedAndDressed(t *testing.T) {
	plain := comment.ReplaceAllString(chartStyle(t), "")
	dressed := map[string]bool{}
	for _, m := range cssClass.FindAllStringSubmatch(plain, -1) {
		dressed[m[1]] = true
	}
	worn := map[string]bool{}
	for name, h := range everything() {
		for _, m := range classAttr.FindAllStringSubmatch(string(h), -1) {
			for _, c := range strings.Fields(m[1]) {
				worn[c] = true
				assert.Contains(t, Classes, c, "%s wears a class that isn't listed", name)
			}
		}
	}
	// these need no rule: they name a thing for a page's own style
	bare := map[string]bool{"bar48": true, "bar34": true, "mean": false, "days": false}
	for c := range Classes {
		assert.True(t, dressed[c] || bare[c], "class %s has no rule in the style", c)
	}
	frames := map[string]bool{"fig": true, "rows": true, "many": true, "strip": true, "thumb": true, "bar": true, "out": true, "sec": true, "axis": true, "strips": true, "strips-side": true, "scroll": true}
	for c := range dressed {
		if c[0] >= 'a' && !frames[c] {
			assert.Contains(t, Classes, c, "the style dresses a class that nothing wears")
		}
	}
	for _, c := range []string{"soil", "edge", "fill", "r", "km", "band", "gone", "lim", "wide", "broad", "narrow", "lanes2", "nu1", "wd1"} {
		assert.True(t, worn[c], "the samples don't wear %s", c)
	}
}

// A style that names a colour, or words under 13 px, would go round the theme.
func TestTheStyleNamesRolesOnly(t *testing.T) {
	plain := comment.ReplaceAllString(chartStyle(t), "")
	assert.NotRegexp(t, `#[0-9a-fA-F]{3,8}\b|rgb|hsl|oklch`, plain)
	role := regexp.MustCompile(`var\((--[a-z-]+)\)`)
	roles := "--ground --sheet --ink --ink-quiet --line --line-strong --soil --leaf --leaf-fill --root --stage-soak --stage-bin --stage-step --stage-room --loss --band --focus --voice --measure --no --nm --out"
	found := role.FindAllStringSubmatch(plain, -1)
	require.NotEmpty(t, found)
	for _, m := range found {
		assert.Contains(t, strings.Fields(roles), m[1])
	}
	for _, m := range regexp.MustCompile(`(?:font|font-size):[^;}]*?([0-9.]+)(px|rem)`).FindAllStringSubmatch(plain, -1) {
		size := map[string]string{"13px": "", ".8125rem": "", ".9375rem": ""}
		assert.Contains(t, size, m[1]+m[2], "words of another size")
	}
}

func TestWordsAreEscaped(t *testing.T) {
	d := escSoil().Draw()
	all := string(d.HTML) + string(d.Key)
	assert.NotContains(t, all, "<script>")
	assert.Contains(t, all, "&lt;script&gt;alert(&#34;a&amp;b&#34;)&lt;/script&gt;")
	assert.Contains(t, all, `<title id="e-t">&lt;b&gt;&amp;&#34;x&#34;&lt;/b&gt;</title>`)
	assert.Contains(t, all, "]]&gt;")
	for in, want := range map[string]string{
		"a\x00b\x1fc":      "abc",
		"tab\tand\nline":   "tab and line",
		"\xff\xfebroken":   "broken",
		"\u0085x\ufffe":    "x",
		"Bergen ‘Ø’ 雨":     "Bergen ‘Ø’ 雨",
		"it's <b> & \"q\"": "it&#39;s &lt;b&gt; &amp; &#34;q&#34;",
	} {
		assert.Equal(t, want, string(appendEsc(nil, in)))
	}
}

func TestIDs(t *testing.T) {
	for in, want := range map[string]string{"": "chart", "b26-03": "b26-03", "2026": "c2026", `x" onload="`: "xonload", "-a": "c-a", "ø": "chart"} {
		assert.Equal(t, want, cleanID(in), in)
	}
}

// Two builds, and two drawings side by side, give the same bytes.
func TestSideBySide(t *testing.T) {
	want := everything()
	got := make(chan map[string]HTML)
	for range 8 {
		go func() { got <- everything() }()
	}
	for range 8 {
		for name, h := range <-got {
			same(t, want[name], h, name)
		}
	}
}
