package schema_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/example"
	"wardian/content/format"
	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/schema"
	"wardian/content/source"
)

const diaries = "../../testdata/diaries"

var today, _ = measure.Date(2026, 12, 31)

// schemas are the compiled schemas of all kinds of file. Compiling checks each
// against the draft's own meta-schema.
func schemas(t testing.TB) map[string]*jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	for _, f := range format.Files() {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema.Of(f)))
		require.NoError(t, err, f.Name)
		require.NoError(t, c.AddResource(schema.ID(f), doc))
	}
	out := map[string]*jsonschema.Schema{}
	for _, f := range format.Files() {
		s, err := c.Compile(schema.ID(f))
		require.NoError(t, err, f.Name)
		out[f.Name] = s
	}
	return out
}

// part is what one schema judges: the keys of a file, or of a plate in one.
type part struct {
	kind     string
	instance any
	lines    [2]int // first and last, in the file
	words    []int  // lines on which plants' lines in plain words begin
}

// parts splits a file into what schemas judge; ok is false where YAML can't be
// read, or eats words.
func parts(path string, data []byte) (out []part, ok bool) {
	report := &source.Report{}
	f := source.New(path, data)
	if path == "diary.yaml" {
		h := header.Whole(f, report)
		return []part{{"diary", schema.Instance(&h.Top), [2]int{1, f.Lines()}, nil}}, report.Errors() == 0
	}
	h := header.Read(f, report)
	last := f.Position(h.Body).Line
	kind := strings.TrimSuffix(strings.Split(path, "/")[0], "s")
	if kind == "check-in" {
		top := &h.Top
		switch {
		case top.Field("specimens") != nil, top.Field("others") != nil, top.Field("not-seen") != nil:
			kind = "round"
		case top.Field("specimen") == nil && top.Field("place") != nil:
			kind = "place note"
		}
	}
	out = []part{{kind, schema.Instance(&h.Top), [2]int{1, last}, nil}}
	if specimens := h.Top.Field("specimens"); kind == "round" && specimens != nil {
		for _, plant := range specimens.Value.Fields {
			if plant.Value.Kind == header.Text {
				out[0].words = append(out[0].words, plant.Value.Span.Start.Line)
			}
		}
	}
	if kind == "update" && report.Errors() == 0 {
		for _, block := range prose.Parse(f, h.Body, &source.Report{}).Plates() {
			b := header.Fenced(f, block.Offset, block.Offset+len(block.Text), report)
			out = append(out, part{"plate", schema.Instance(&b.Top), [2]int{block.Span.Start.Line, f.Position(block.Offset + len(block.Text)).Line}, nil})
		}
	}
	return out, report.Errors() == 0
}

// judged counts what a test compared.
type judged struct {
	clean, refused, beyond, unread int
	codes                          map[string]bool // found by reading, and refused by a schema
}

// alike judges every file of a diary by schema and by reading.
func alike(t *testing.T, all map[string]*jsonschema.Schema, files fs.FS, count *judged) {
	_, report, err := content.Load(files, content.Options{Today: today})
	require.NoError(t, err)
	beyond := schema.Beyond()
	misnamed := slices.ContainsFunc(report.Findings(), func(f source.Finding) bool { return f.Code == "not-an-id" })
	require.NoError(t, fs.WalkDir(files, ".", func(path string, entry fs.DirEntry, err error) error {
		folder := strings.Split(path, "/")[0]
		if err != nil || entry.IsDir() || path != "diary.yaml" && (!strings.HasSuffix(path, ".md") || !slices.Contains([]string{"imports", "specimens", "check-ins", "places", "updates", "seasons"}, folder)) {
			return err
		}
		data, err := fs.ReadFile(files, path)
		require.NoError(t, err)
		list, ok := parts(path, data)
		if !ok {
			count.unread++
			return nil
		}
		for _, p := range list {
			var seen, hidden []string
			for _, f := range report.Findings() {
				line := f.Span.Start.Line
				if f.File != path || f.Severity != source.Error || line < p.lines[0] || line > p.lines[1] {
					continue
				}
				switch _, ok := beyond[f.Code]; {
				case ok, slices.Contains(p.words, line), f.Code == "missing-key" && p.kind == "specimen": // it may be a section's
					hidden = append(hidden, f.Line())
				default:
					count.codes[f.Code] = true
					seen = append(seen, f.Code+" "+f.Line())
				}
			}
			refusal := all[p.kind].Validate(p.instance)
			switch {
			case len(seen) > 0:
				count.refused++
				assert.Error(t, refusal, "%s %s: reading finds %v; the schema doesn't\n%s", p.kind, path, seen, data)
			case len(hidden) > 0:
				count.beyond++
			case misnamed:
				// A specimen's file has a name that can't be an ID. That is told
				// once, at the file, and not again where the ID is named.
			default:
				count.clean++
				assert.NoError(t, refusal, "%s %s: reading finds nothing\n%s", p.kind, path, data)
			}
		}
		return nil
	}))
}

// sound is the small sound diary with files laid over it.
func sound(t testing.TB, more []txtar.File) fstest.MapFS {
	t.Helper()
	base, err := txtar.ParseFile(filepath.Join(diaries, "sound.txtar"))
	require.NoError(t, err)
	out := fstest.MapFS{}
	for _, f := range slices.Concat(base.Files, more) {
		if f.Name != "wanted" {
			out[f.Name] = &fstest.MapFile{Data: f.Data}
		}
	}
	return out
}

// Every file of the small diaries, of the codes' examples, of the whole examples
// and of the example diary is judged alike by schema and by reading.
func TestSchemasJudgeAsReadingDoes(t *testing.T) {
	all := schemas(t)
	count := judged{codes: map[string]bool{}}
	t.Run("the example diary", func(t *testing.T) { alike(t, all, example.Files(), &count) })
	require.Greater(t, count.clean, 150, "files of the example diary")
	for _, f := range format.Files() {
		t.Run("example of a "+f.Name, func(t *testing.T) {
			w := f.Example()
			log := txtar.File{Name: "readings/shelf-1.csv", Data: []byte("Time,Temp (C),RH %\n2026-04-06 12:00,25,98\n")}
			alike(t, all, sound(t, []txtar.File{{Name: w.Path, Data: []byte(w.Text)}, log}), &count)
		})
	}
	for _, c := range format.Codes() {
		t.Run("examples of "+c.Name, func(t *testing.T) {
			alike(t, all, sound(t, txtar.Parse([]byte(c.Wrong)).Files), &count)
			alike(t, all, sound(t, txtar.Parse([]byte(c.Right)).Files), &count)
		})
	}
	faults, err := filepath.Glob(filepath.Join(diaries, "faults", "*.txtar"))
	require.NoError(t, err)
	require.Greater(t, len(faults), 100)
	tried := 0
	for _, file := range faults {
		a, err := txtar.ParseFile(file)
		require.NoError(t, err)
		text := string(txtar.Format(a))
		if strings.Contains(text, "@@") || len(bytes.TrimSpace(a.Comment)) > 0 && strings.Contains(string(a.Comment), "link: ") {
			continue // bytes that no editor shows, and links: nothing that a schema judges
		}
		tried++
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) { alike(t, all, sound(t, a.Files), &count) })
	}
	t.Logf("%d fault diaries; parts of files: %d clean, %d refused, %d beyond schemas, %d not YAML; %d codes refused", tried, count.clean, count.refused, count.beyond, count.unread, len(count.codes))
	require.Greater(t, tried, 100)
	require.Greater(t, count.refused, 60, "refused both ways")
	for _, c := range format.Codes() {
		if _, ok := schema.Beyond()[c.Name]; !ok && !c.Warning {
			assert.True(t, count.codes[c.Name], "no diary shows that a schema sees %s", c.Name)
		}
	}
}

// What is said to be beyond a schema is a code of the table, and the codes that
// aren't are told apart from them by the test above.
func TestBeyondNamesCodes(t *testing.T) {
	beyond := schema.Beyond()
	require.NotEmpty(t, beyond)
	for code, why := range beyond {
		assert.True(t, format.Explained(code), "there is no code %s", code)
		assert.NotEmpty(t, why, code)
		if format.Explained(code) {
			assert.False(t, format.CodeOf(code).Warning, "%s is a warning, which a schema never judges", code)
		}
	}
}

// Each key's example fits its own key's schema, and each key has a description.
func TestExamplesFitTheirSchemas(t *testing.T) {
	c := jsonschema.NewCompiler()
	for _, f := range format.Files() {
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema.Of(f)))
		require.NoError(t, err)
		require.NoError(t, c.AddResource(schema.ID(f), doc))
	}
	tried := 0
	for _, f := range format.Files() {
		var doc any
		require.NoError(t, json.Unmarshal(schema.Of(f), &doc))
		var walk func(at string, node any)
		walk = func(at string, node any) {
			switch n := node.(type) {
			case map[string]any:
				if props, ok := n["properties"].(map[string]any); ok && !strings.Contains(at, "/allOf/") {
					for name, prop := range props {
						where := fmt.Sprintf("%s/properties/%s", at, name)
						p := prop.(map[string]any)
						assert.NotEmpty(t, p["description"], "%s%s", f.Name, where)
						s, err := c.Compile(schema.ID(f) + "#" + where)
						require.NoError(t, err)
						examples, _ := p["examples"].([]any)
						if assert.NotEmpty(t, examples, "%s%s", f.Name, where) {
							tried++
							assert.NoError(t, s.Validate(examples[0]), "%s%s", f.Name, where)
						}
					}
				}
				for key, sub := range n {
					if key != "examples" {
						walk(at+"/"+key, sub)
					}
				}
			case []any:
				for i, sub := range n {
					walk(fmt.Sprintf("%s/%d", at, i), sub)
				}
			}
		}
		walk("", doc)
	}
	require.Greater(t, tried, 150)
}
