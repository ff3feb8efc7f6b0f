package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wholly holds a value to a schema and to its keys: every key that the schema tells
// of is there, and no other, at every level. It counts the keys.
func wholly(t *testing.T, s *jsonschema.Schema, value any, at string) (keys int) {
	t.Helper()
	switch v := value.(type) {
	case map[string]any:
		assert.ElementsMatch(t, s.Required, keysOf(s.Properties), "%s: every key is always there", at)
		for key, of := range s.Properties {
			assert.NotEmpty(t, of.Description, "%s/%s", at, key)
		}
		for key, part := range v {
			if assert.Contains(t, s.Properties, key, at) {
				keys += 1 + wholly(t, s.Properties[key], part, at+"/"+key)
			}
		}
	case []any:
		for _, part := range v {
			keys += wholly(t, s.Items2020, part, at+"/-")
		}
	}
	return keys
}

func printed(t *testing.T, schema string, args ...string) any {
	t.Helper()
	code, out, talk := said(t, args...)
	require.Equal(t, exitClean, code, talk)
	assert.NotContains(t, out, "NaN")
	assert.NotContains(t, out, "Inf")
	value, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
	require.NoError(t, err)
	s := outputSchema(t, schema)
	require.NoError(t, s.Validate(value), out)
	require.Greater(t, wholly(t, s, value, ""), 20, "%v", args)
	return value
}

// Whatever compare prints as JSON fits its schema, key by key.
func TestWhatCompareTellsFitsItsSchemas(t *testing.T) {
	dir := exampleFolder(t)
	for _, args := range [][]string{
		{"--by", "size", "--costs"}, {"--by", "medium", "--landmark", "7", "--costs"}, {"--by", "size", "--at", "400", "--costs"},
		{"--by", "genus", "--import", "2026-spring-c"}, {"--by", "leaves", "--at", "1", "--import", "2026-spring-c"},
	} {
		printed(t, "compare", append([]string{"compare", dir, "--json"}, args...)...)
	}
	printed(t, "compare-exporters", "compare", dir, "--exporters", "--json")
}

// small are the two diaries of a script: "sill", a folder, and "box", published.
func small(t *testing.T) (sill, box string) {
	t.Helper()
	archive, err := txtar.ParseFile(filepath.Join("..", "..", "testdata", "scripts", "compare-with.txtar"))
	require.NoError(t, err)
	dir := t.TempDir()
	for _, f := range archive.Files {
		if name := filepath.Join(dir, f.Name); strings.Contains(f.Name, "/") {
			require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
			require.NoError(t, os.WriteFile(name, f.Data, 0o644))
		}
	}
	return filepath.Join(dir, "sill"), filepath.Join(dir, "box")
}

func TestTwoGrowersFitTheirSchema(t *testing.T) {
	sill, box := small(t)
	for _, args := range [][]string{nil, {"--by", "size"}, {"--at", "400"}, {"--by", "medium", "--landmark", "7"}} {
		printed(t, "compare-with", append([]string{"compare", sill, "--with", box, "--json"}, args...)...)
	}
	// A diary beside its own site: two sides alike in all but their names.
	site := filepath.Join(t.TempDir(), "site")
	code, _, talk := said(t, "build", sill, "--to", site)
	require.Equal(t, exitClean, code, talk)
	both := printed(t, "compare-with", "compare", sill, "--with", site, "--json", "--by", "size")
	sides := both.(map[string]any)["diaries"].([]any)
	ours, theirs := sides[0].(map[string]any), sides[1].(map[string]any)
	assert.Equal(t, []any{"ours", "theirs"}, []any{ours["side"], theirs["side"]})
	delete(ours, "side")
	delete(theirs, "side")
	assert.Len(t, ours["groups"], 2)
	assert.Equal(t, ours, theirs)
}

// The costs of the groups add up to what the imports cost, whatever the word.
func TestCostsOfGroupsAddUp(t *testing.T) {
	dir := exampleFolder(t)
	sums := map[string]int{}
	for _, by := range []string{"season", "exporter", "size", "genus"} {
		// All imports, each by its ID: so no other word has to be looked at.
		code, out, talk := said(t, "compare", dir, "--by", by, "--costs", "--json", "--import", "2025-spring-a,2025-autumn-b,2026-spring-c")
		require.Equal(t, exitClean, code, talk)
		var got struct {
			Costs struct {
				Groups []struct{ Landed, Refunds json.Number }
			}
		}
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		for _, g := range got.Costs.Groups {
			for name, amount := range map[string]json.Number{"landed": g.Landed, "refunds": g.Refunds} {
				cents, err := json.Number(strings.Replace(amount.String(), ".", "", 1)).Int64()
				require.NoError(t, err)
				sums[by+" "+name] += int(cents)
			}
		}
	}
	require.Greater(t, sums["season landed"], 100000)
	require.Positive(t, sums["season refunds"])
	for _, by := range []string{"exporter", "size", "genus"} {
		assert.Equal(t, sums["season landed"], sums[by+" landed"], by)
		assert.Equal(t, sums["season refunds"], sums[by+" refunds"], by)
	}
}

// A stranger's words can't steer the terminal.
func TestAnotherGrowersWordsAreUnsteered(t *testing.T) {
	sill, box := small(t)
	name := filepath.Join(box, "datapackage.json")
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Contains(t, string(text), `"title": "`)
	require.NoError(t, os.WriteFile(name, []byte(strings.Replace(string(text), `"title": "`, `"title": "\u001b[31m\u202e`, 1)), 0o644))
	code, out, talk := said(t, "compare", sill, "--with", box)
	require.Equal(t, exitClean, code, talk)
	assert.NotContains(t, out, "\x1b")
	assert.NotContains(t, out, "\u202e")
}
