// Package themes holds what every page is dressed in: the built-in templates
// and styles. A colour appears in one place only, as a role in base.css; the
// templates and all other styles name roles. What is said is set in a serif,
// what is measured in a narrow sans; no font is fetched.
package themes

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"regexp"
	"strings"
	"sync"
)

//go:embed *.css *.html *.svg
var files embed.FS

// sheets are joined in this order into the one style of the site.
var sheets = []string{"base.css", "parts.css", "chart.css", "media.css"}

var (
	remark = regexp.MustCompile(`(?s)/\*.*?\*/`)
	blank  = regexp.MustCompile(`\s+`)
	joint  = regexp.MustCompile(` ?([{};,]) ?`)
)

// Style is the site's style sheet, without what only its authors need: remarks
// and the blanks between rules. That takes a sixth off what a reader waits for.
// (No string in the sheets holds a remark, a brace or a run of blanks; a test
// holds them to that.)
func Style() []byte { return style() }

var style = sync.OnceValue(func() []byte { return squeeze(source(sheets...)) })

// beside are the sheets that only some kinds of page need, by the name of their
// template: no other reader has to wait for them.
var beside = map[string][]string{
	"import": {"strips.css", "stacked.css"}, "update": {"strips.css"}, "comparison": {"strips.css", "compare.css", "stacked.css"}, "comparisons": {"stacked.css"},
	"seasons": {"compare.css", "stacked.css"}, "method": {"compare.css"}, "season": {"strips.css", "stacked.css", "season.css"}, // a season is one sheet of paper
}

// Beside is what a kind of page needs beside Style, by the name of its template;
// it stands in those pages alone. It is empty for most.
func Beside(template string) []byte { return besides()[template] }

var besides = sync.OnceValue(func() map[string][]byte {
	out := map[string][]byte{}
	for template, names := range beside {
		out[template] = squeeze(source(names...))
	}
	return out
})

// squeeze leaves out remarks and blanks.
func squeeze(s string) []byte {
	s = blank.ReplaceAllString(remark.ReplaceAllString(s, ""), " ")
	s = joint.ReplaceAllString(s, "$1")
	s = strings.ReplaceAll(strings.ReplaceAll(s, ": ", ":"), ";}", "}")
	return []byte(strings.TrimSpace(s))
}

// source is sheets as they were written, joined.
func source(names ...string) string {
	var b strings.Builder
	for _, name := range names {
		text, err := files.ReadFile(name)
		if err != nil {
			panic("themes: " + err.Error()) // embedded: can't be missing
		}
		b.Write(text)
	}
	return b.String()
}

// Icon is the emblem as an SVG file of its own. It stands outside every page, so
// its colours are the roles' light values written out.
func Icon() []byte {
	icon, err := files.ReadFile("emblem.svg")
	if err != nil {
		panic("themes: " + err.Error()) // embedded: can't be missing
	}
	return icon
}

// Fingerprint shortens the hash of an asset's bytes for use in its name, so
// that a page always finds the style it was written for.
func Fingerprint(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:5])
}
