package opendata

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/example"
)

// The rules are those of the Data Package standard, version 2.0
// (datapackage.org/standard), from memory: required properties, field types, keys
// as arrays, foreign keys that hold, bytes and hashes of the very files.
func TestTheDataPackageTellsTheTruth(t *testing.T) {
	c := read(t, example.Files())
	files, err := Files(c, c.Comparisons(c.All(), 42, 3))
	require.NoError(t, err)
	bytesOf := map[string][]byte{}
	for _, f := range files {
		bytesOf[f.Name] = f.Bytes
	}
	var p dataPackage
	require.NoError(t, json.Unmarshal(bytesOf["datapackage.json"], &p))
	assert.Regexp(t, `^[a-z0-9-._]+$`, p.Name)
	assert.Regexp(t, `^\d+\.\d+\.\d+$`, p.Version)
	assert.Regexp(t, `^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$`, p.Created)
	require.Len(t, p.Resources, len(files)-1)
	assert.Equal(t, []license{{Name: c.Diary.Settings.Licence}}, p.Licenses)
	assert.Equal(t, []contributor{{Title: c.Diary.Settings.Grower, Roles: []string{"creator"}}}, p.Contributor)
	assert.Equal(t, diaryTerms{Horizon: c.Diary.Settings.Horizon, Landmark: c.Diary.Settings.Landmark}, p.Diary)
	values := map[string]map[string]bool{} // resource.field: its values
	for _, r := range p.Resources {
		data, ok := bytesOf[r.Path]
		require.True(t, ok, r.Path)
		assert.Equal(t, len(data), r.Bytes)
		sum := sha256.Sum256(data)
		assert.Equal(t, "sha256:"+hex.EncodeToString(sum[:]), r.Hash)
		header, _, _ := strings.Cut(string(data), "\n")
		var names []string
		for _, f := range r.Schema.Fields {
			names = append(names, f.Name)
			assert.NotEmpty(t, f.Description, f.Name)
			// Licence, unit, definition and provenance of every column (FAIR,
			// Wilkinson et al. 2016, R1, from memory).
			assert.Contains(t, []provenance{written, workedOut}, f.Provenance, "%s.%s", r.Name, f.Name)
			if f.Type == "integer" || f.Type == "number" {
				assert.NotEmpty(t, f.Unit, "%s.%s", r.Name, f.Name)
			}
			assert.Contains(t, []string{"string", "integer", "number", "boolean", "date"}, f.Type, f.Name)
		}
		assert.Equal(t, header, strings.Join(names, ","), "fields in the order of the columns")
		seen := map[string]bool{}
		for _, row := range readBack(t, data) {
			var key []string
			for _, k := range r.Schema.PrimaryKey {
				require.Contains(t, row, k)
				key = append(key, row[k])
			}
			joined := strings.Join(key, "\x00")
			assert.False(t, seen[joined], "%s: key %v stands twice", r.Name, key)
			seen[joined] = true
			for _, f := range r.Schema.Fields {
				v := row[f.Name]
				if values[r.Name+"."+f.Name] == nil {
					values[r.Name+"."+f.Name] = map[string]bool{}
				}
				values[r.Name+"."+f.Name][v] = true
				if v == "" {
					assert.False(t, f.Constraints != nil && f.Constraints.Required, "%s.%s is empty", r.Name, f.Name)
					continue
				}
				assert.Regexp(t, map[string]string{
					"integer": `^-?\d+$`, "number": `^-?\d+(\.\d+)?(e-?\d+)?$`, "boolean": `^(true|false)$`, "date": `^\d{4}-\d\d-\d\d$`, "string": `.`,
				}[f.Type], v, "%s.%s", r.Name, f.Name)
				if f.Categories != nil {
					assert.Contains(t, f.Categories, v, "%s.%s", r.Name, f.Name)
				}
			}
		}
	}
	keys := 0
	for _, r := range p.Resources {
		for _, k := range r.Schema.ForeignKeys {
			keys++
			to := k.Reference.Resource
			if to == "" {
				to = r.Name
			}
			for v := range values[r.Name+"."+k.Fields[0]] {
				assert.True(t, v == "" || values[to+"."+k.Reference.Fields[0]][v], "%s.%s %q is nowhere in %s", r.Name, k.Fields[0], v, to)
			}
		}
	}
	assert.Equal(t, 6, keys, "of lines, sections, looks, places twice, and groups")
}

func TestFormulasAreDefusedAndNumbersAreNot(t *testing.T) {
	for in, want := range map[string]string{
		"=HYPERLINK(1)": "'=HYPERLINK(1)", "+1": "'+1", "-1": "'-1", "@x": "'@x", "\t=1": "'\t=1", "\r=1": "'=1", "plain": "plain", "": "", "a\x00b\x1bc": "abc",
	} {
		assert.Equal(t, cell(want), text(in), "%q", in)
	}
	assert.Equal(t, cell("-0.5"), number(-0.5))
	assert.Equal(t, cell("-1"), whole(-1))
}
