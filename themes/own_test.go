package themes

import (
	"bytes"
	"fmt"
	"html/template"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// told is a fault as a table of tests writes it: file, the stretch it stands at
// (or the byte, where it has none), and what.
func told(own []File, f *Fault) string {
	for _, o := range own {
		if o.Name == f.File {
			stretch := string(o.Text[f.Start:f.End])
			if stretch == "" {
				stretch = fmt.Sprint(f.Start)
			}
			return f.File + " at " + stretch + ": " + f.Message
		}
	}
	return "in no own file: " + f.Error()
}

func TestWhatIsWrongWithOwnTemplates(t *testing.T) {
	nested := `{{define "front"}}` + strings.Repeat("{{range .}}", 7) + strings.Repeat("{{end}}", 7) + "{{end}}"
	for name, row := range map[string]struct {
		file, text string
		want       string // "" where nothing is
	}{
		"a part in its place":        {"parts.html", `{{define "facts"}}<p>{{len .}}</p>{{end}}`, ""},
		"an empty part":              {"parts.html", `{{define "facts"}}{{end}}`, ""},
		"a frame":                    {"frame.html", "<!doctype html><title>{{.Title}}</title>{{.Main}}", ""},
		"a masthead alone":           {"frame.html", "{{define \"masthead\"}}{{end}}\n", ""},
		"nothing in a frame":         {"frame.html", " \n", "frame.html at 0: there is nothing in this template"},
		"the built-in functions":     {"front.html", `{{define "front"}}{{name .}}{{short .}}{{upper .}}{{inWords .}}{{day .}}{{table .}}{{end}}`, ""},
		"a mark at its start":        {"front.html", "\xef\xbb\xbf{{define \"front\"}}<p>{{end}}", ""},
		"six ranges":                 {"front.html", strings.Replace(strings.Replace(nested, "{{range .}}", "", 1), "{{end}}", "", 1), ""},
		"seven ranges":               {"front.html", nested, "front.html at 92: more than 6 ranges stand in one another"},
		"an action left open":        {"front.html", "<p>\n<b>{{.Title</b>", "front.html at <: bad character U+003C '<'"},
		"an action never closed":     {"front.html", "<p>\n{{.Title\n", "front.html at 4: unclosed action"},
		"a define never closed":      {"front.html", "x\n{{define \"front\"}}\ny", `front.html at 21: unexpected EOF`},
		"an end too many":            {"front.html", "<p>{{end}}", `front.html at end: unexpected {{end}}`},
		"no such function":           {"front.html", "é {{readFile \"x\"}}", `front.html at readFile: function "readFile" not defined`},
		"no such part":               {"front.html", `{{define "front"}}{{template "nothing"}}{{end}}`, `front.html at "nothing": no such template "nothing"`},
		"an attribute left open":     {"front.html", `{{define "front"}}<a href="{{.Home}}>x</a>{{end}}`, "front.html at 0: this template ends inside a tag, an attribute, a script or a style"},
		"an unquoted attribute":      {"front.html", "{{define \"front\"}}\né<a href={{.}}\"b>{{end}}", `front.html at 0: "\"" in unquoted attr: "\"b"`},
		"nothing in a part":          {"parts.html", "", `parts.html at 0: nothing of this file is used: it has no {{define "drawing"}}`},
		"words outside any define":   {"specimen.html", "<p>words</p>", `specimen.html at 0: nothing of this file is used: it has no {{define "specimen"}}`},
		"a part that breaks a page":  {"parts.html", `{{define "facts"}}<a href="{{end}}`, "parts.html at 0: this template ends inside a tag, an attribute, a script or a style"},
		"the counting function":      {"front.html", "{{oneMoreTurn}}", `front.html at oneMoreTurn: function "oneMoreTurn" not defined`},
		"a range that goes on":       {"front.html", `{{define "front"}}{{range 10}}<a title={{end}}{{end}}`, `front.html at 0: on range loop re-entry: "<" in unquoted attr: "<a"`},
		"a figure that isn't one":    {"front.html", "{{12abc}}", `front.html at 12a: bad number syntax: "12a"`},
		"a letter that isn't closed": {"front.html", "{{\"abc}}\n", `front.html at 0: unterminated quoted string`},
	} {
		t.Run(name, func(t *testing.T) {
			own := []File{{row.file, []byte(row.text)}}
			var got []string
			for _, f := range Check(own) {
				got = append(got, told(own, f))
			}
			assert.Equal(t, row.want, strings.Join(got, "\n"))
		})
	}
}

// funcs stand in for those of the pages.
func funcs() template.FuncMap {
	m := template.FuncMap{}
	for _, name := range Functions() {
		m[name] = func(v any) string { return fmt.Sprint(v) }
	}
	return m
}

func filled(s *Set, name string, data any) ([]byte, error) {
	var out bytes.Buffer
	err := s.ExecuteTemplate(&out, name, data)
	return out.Bytes(), err
}

func TestOwnTemplatesAreLaidOverTheBuiltInOnes(t *testing.T) {
	s, err := NewSet(funcs(), []File{{"parts.html", []byte(`{{define "facts"}}<i>{{range .}}{{.}},{{end}}</i>{{end}}{{define "tables"}}{{end}}`)}})
	require.NoError(t, err)
	out, err := filled(s, "facts", []string{"<a>", "b"})
	require.NoError(t, err)
	assert.Equal(t, "<i>&lt;a&gt;,b,</i>", string(out), "escaped as ever")
	out, err = filled(s, "tables", []string{"x"})
	require.NoError(t, err)
	assert.Empty(t, string(out), "an empty one takes its place, too")
	out, err = filled(s, "frame.html", map[string]any{"Main": template.HTML("<p>words</p>"), "Title": "a<b"})
	require.NoError(t, err)
	assert.Contains(t, string(out), "<p>words</p>")
	assert.Contains(t, string(out), "a&lt;b")
	out, err = filled(s, "causes", struct{ Causes []string }{})
	require.NoError(t, err)
	assert.Contains(t, string(out), "No loss was found", "what no own file has stays built in")
}

func TestTemplatesThatFailOrNeverEnd(t *testing.T) {
	for name, row := range map[string]struct{ text, want string }{
		"no such field":    {"{{define \"facts\"}}\n<p>é{{.Colour}}</p>{{end}}", "parts.html at .Colour: there is no .Colour here"},
		"out of range":     {`{{define "facts"}}{{index .List 5}}{{end}}`, "parts.html at index: error calling index: index out of range: 5"},
		"a billion turns":  {`{{define "facts"}}{{range 1000000000}}{{end}}{{end}}`, "parts.html at 0: " + errTurns.Error()},
		"turns in turns":   {`{{define "facts"}}{{range 3000}}{{range 3000}}{{end}}{{end}}{{end}}`, "parts.html at 0: " + errTurns.Error()},
		"calling itself":   {`{{define "facts"}}{{template "facts" .}}{{end}}`, `parts.html at "facts": exceeded maximum template depth (100000)`},
		"twice itself":     {`{{define "facts"}}{{template "own" "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"}}{{end}}{{define "own"}}{{if .}}{{template "own" (slice . 1)}}{{template "own" (slice . 1)}}{{end}}{{end}}`, "parts.html at 0: " + errTurns.Error()},
		"more than memory": {`{{define "facts"}}{{range 1000}}{{printf "%999999d" 1}}{{end}}{{end}}`, "parts.html at 0: " + errBytes.Error()},
		"built-in, misled": {`{{define "facts"}}{{template "label" 5}}{{end}}`, "parts.html at 0: line 3 of the built-in parts.html can't be filled beside it: there is no .Of here"},
	} {
		if racing && name == "twice itself" {
			continue // a billion turns are stopped in the same place, and much sooner
		}
		t.Run(name, func(t *testing.T) {
			own := []File{{"parts.html", []byte(row.text)}}
			require.Empty(t, Check(own))
			s, err := NewSet(funcs(), own)
			require.NoError(t, err)
			began := time.Now()
			_, err = filled(s, "facts", struct{ List []int }{[]int{1}})
			var fault *Fault
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, row.want, told(own, fault))
			t.Log(time.Since(began))
			out, err := filled(s, "tables", nil)
			require.NoError(t, err)
			assert.Empty(t, string(out), "the set is as good as before")
		})
	}
}

func TestOwnSheetsStandBehindTheBuiltInOnes(t *testing.T) {
	assert.Equal(t, string(Style()), string(StyleWith(nil)))
	assert.Equal(t, string(Style())+"\na { b: c }\nd{}", string(StyleWith([]File{{"a.css", []byte("\xef\xbb\xbfa { b: c }")}, {"b.css", []byte("d{}")}})))
}

// Whatever stands in a file, reading it ends, and a fault stands inside it.
func FuzzOwnTemplates(f *testing.F) {
	for _, name := range Names() {
		text, err := files.ReadFile(name)
		require.NoError(f, err)
		f.Add(name, text)
	}
	f.Add("frame.html", []byte("{{range .}}<a href=\"{{.}}\"{{else}}>{{end}}"))
	f.Add("parts.html", []byte(`{{define "facts"}}<script>{{.}}</script>{{block "x" .}}{{end}}{{end}}`))
	f.Add("front.html", []byte("\xef\xbb\xbf{{/* a */ -}}{{- $a := 1 }}{{with $b := .}}{{break}}"))
	f.Fuzz(func(t *testing.T, name string, text []byte) {
		if builtIn().defined[name] == nil {
			name = "front.html"
		}
		own := []File{{name, text}}
		faults := Check(own)
		for _, fault := range faults {
			if fault.File != name || fault.Start < 0 || fault.Start > fault.End || fault.End > len(text) || fault.Message == "" || strings.Contains(fault.Message, "\n") {
				t.Errorf("%+v", fault)
			}
		}
		if faults == nil {
			s, err := NewSet(funcs(), own)
			require.NoError(t, err)
			_, err = filled(s, "front", struct{ Empty bool }{true})
			if _, ours := err.(*Fault); err != nil && !ours {
				t.Error(err)
			}
		}
	})
}
