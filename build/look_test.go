package build_test

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
	"wardian/themes"
)

// ownLook is a look of a grower's own: two sheets, and a part of pages.
const ownLook = `
== style/1-colours.css
:root { --leaf: #0a5c2b; }
== style/2-masthead.css
.mast .title b { text-transform: lowercase; }
== style/parts.html
{{define "facts"}}{{if .}}<ul class="facts">{{range .}}<li>{{.Term}}: {{.Figure}}</li>{{end}}</ul>{{end}}{{end}}
`

// The style sheet is the built-in one with the own ones behind it, under a name
// of its own; a page is what it was but for its part.
func TestAnOwnLookIsLaidOverTheBuiltInOne(t *testing.T) {
	before, after := made(t, load(t, written(expectedDiary))), made(t, load(t, written(expectedDiary+ownLook)))
	sheet := func(s site) (at string) {
		for p := range s {
			if strings.HasPrefix(p, "look/style-") {
				require.Empty(t, at)
				at = p
			}
		}
		require.NotEmpty(t, at)
		return at
	}
	was, is := sheet(before), sheet(after)
	assert.NotEqual(t, was, is)
	assert.Equal(t, string(before[was])+"\n:root { --leaf: #0a5c2b; }\n.mast .title b { text-transform: lowercase; }", string(after[is]))
	assert.Len(t, after, len(before))
	same := 0
	for p, page := range before {
		switch {
		case p == was:
		case strings.Contains(string(page), `class="facts"`):
			assert.Contains(t, string(after[p]), `<ul class="facts"><li>`, p)
		default:
			same++
			assert.Equal(t, string(page), strings.ReplaceAll(string(after[p]), filepath.Base(is), filepath.Base(was)), p)
		}
	}
	assert.Greater(t, same, 10)

	got := fingerprints.ReplaceAll(after["specimens/p-1.html"], []byte("look/$1-FINGERPRINT."))
	got = bytes.ReplaceAll(got, []byte("\u00a0"), []byte(" ")) // where lines may part is another test's matter
	file := filepath.Join(top, "testdata", "expected", "own-look-specimens-p-1.html")
	if *update {
		require.NoError(t, os.WriteFile(file, got, 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "write it with: go test ./build -run OwnLook -update")
	assert.Equal(t, string(want), string(got))
}

// A copy of a built-in template in style changes no byte of any page, be it one or
// all of them.
func TestCopiesOfTheBuiltInTemplatesChangeNothing(t *testing.T) {
	before := made(t, load(t, written(expectedDiary)))
	all := written(expectedDiary)
	require.NotEmpty(t, themes.Names())
	for _, name := range themes.Names() {
		text, err := os.ReadFile(filepath.Join(top, "themes", name))
		require.NoError(t, err)
		all["style/"+name] = &fstest.MapFile{Data: text}
	}
	after := made(t, load(t, all))
	require.Len(t, after, len(before))
	for p := range before {
		require.Equal(t, string(before[p]), string(after[p]), p)
	}
}

// builds runs a build into a folder.
func builds(t *testing.T, files fs.FS, to string) (ok bool, report *source.Report) {
	t.Helper()
	d, report, err := content.Load(files, content.Options{Today: measure.NoDay})
	require.NoError(t, err)
	require.Zero(t, report.Errors(), "%v", report.Findings())
	_, ok, err = build.Run(context.Background(), d, files, report, build.Options{To: to, On: measure.NoDay})
	require.NoError(t, err)
	return ok, report
}

// What comes up only when pages are set is a finding, told once however many
// pages it is on; the site that stands isn't touched.
func TestATemplateThatFailsWritesNothing(t *testing.T) {
	to := filepath.Join(t.TempDir(), "site")
	ok, _ := builds(t, written(expectedDiary), to)
	require.True(t, ok)
	was, err := os.ReadFile(filepath.Join(to, "index.html"))
	require.NoError(t, err)

	broken := written(expectedDiary + `
== style/frame.html
<!doctype html>
<title>{{.Title}}</title>
<main>ø {{.Colour}}</main>
== style/parts.html
{{define "facts"}}{{index . 90}}{{end}}
`)
	ok, report := builds(t, broken, to)
	require.False(t, ok)
	var told []string
	for _, f := range report.Findings() {
		told = append(told, f.Line())
	}
	assert.Equal(t, []string{
		"style/frame.html:3:11: error: there is no .Colour here (set it right, or leave the file out)",
		"style/parts.html:1:21: error: error calling index: index out of range: 90 (set it right, or leave the file out)",
	}, told)
	assert.Equal(t, 2, report.Errors())
	is, err := os.ReadFile(filepath.Join(to, "index.html"))
	require.NoError(t, err)
	assert.Equal(t, string(was), string(is))

	s, _ := see(t, broken, measure.NoDay, build.NewPrints())
	_, ok, err = s.File("index.html")
	assert.False(t, ok)
	var unfit *build.Unfit
	require.ErrorAs(t, err, &unfit)
	assert.Equal(t, "style/frame.html", unfit.Finding().File)
	assert.Equal(t, "<main>ø {{.Colour}}</main>", unfit.Finding().Source)
}
