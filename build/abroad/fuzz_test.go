package abroad

import (
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"wardian/content/patience"
	"wardian/content/source"
)

// plainPackage is the smallest package that is read.
const plainPackage = `{"$schema": "https://datapackage.org/profiles/2.0/datapackage.json", "name": "x", "created": "2026-06-01T00:00:00Z", "resources": [
{"name": "specimens", "path": "specimens.csv", "schema": {"primaryKey": ["specimen"], "foreignKeys": [{"fields": ["parent"], "reference": {"fields": ["specimen"]}}], "fields": [
{"name": "specimen", "type": "string"}, {"name": "parent", "type": "string"}, {"name": "import", "type": "string"}, {"name": "arrived", "type": "date"},
{"name": "pooled", "type": "boolean"}, {"name": "line_fate", "type": "string", "categories": ["alive", "lost"]}, {"name": "line_day", "type": "integer"}, {"name": "cause", "type": "string"}]}}]}`

const plainRows = "specimen,parent,import,arrived,pooled,line_fate,line_day,cause\na-1,,a,2026-03-09,true,lost,5,rot\na-1a,a-1,a,2026-03-09,true,,,\n"

func plain(descriptor, rows string) fstest.MapFS {
	return fstest.MapFS{Descriptor: {Data: []byte(descriptor)}, "specimens.csv": {Data: []byte(rows)}}
}

func TestTheSmallestPackage(t *testing.T) {
	d, faults := read(t, plain(plainPackage, plainRows))
	require.Empty(t, faults)
	require.Len(t, d.Lines, 1, "a section follows its line")
	require.Equal(t, 84, d.Lines[0].AsOfDay)
	require.False(t, d.HasPlaces || d.HasGroups)
	require.Nil(t, d.Terms)
}

// Whatever a stranger's folder holds, reading ends: with a diary or with findings,
// in the time that its size allows, and every figure is one.
func FuzzRead(f *testing.F) {
	f.Add([]byte(plainPackage), []byte(plainRows))
	f.Add([]byte(strings.Replace(plainPackage, `"fields": ["parent"]`, `"fields": ["parent", "parent"]`, 1)), []byte(plainRows))
	f.Add([]byte(`{"resources": [{"name": "specimens", "path": "../x", "schema": {}}]}`), []byte("\"\n,\n"))
	f.Add([]byte(strings.Repeat(`{"a":`, 40)+`0`+strings.Repeat(`}`, 40)), []byte("\xef\xbb\xbf"))
	f.Add([]byte(plainPackage), []byte(strings.Replace(plainRows, "5", "99999999999999", 1)))
	f.Add([]byte(plainPackage), []byte(plainRows+strings.Repeat("\"", 1001)))
	f.Fuzz(func(t *testing.T, descriptor, rows []byte) {
		var report source.Report
		began := time.Now()
		d, err := Read(fstest.MapFS{Descriptor: {Data: descriptor}, "specimens.csv": {Data: rows}}, &report)
		if took := time.Since(began); took > patience.For(len(descriptor)+len(rows)) {
			t.Fatalf("took %s for %d bytes", took, len(descriptor)+len(rows))
		}
		require.NoError(t, err)
		require.Equal(t, d == nil, len(report.Findings()) > 0)
		if d == nil {
			return
		}
		for _, l := range d.Lines {
			require.True(t, l.Day >= 0 && l.Day <= max(0, l.AsOfDay))
			require.NotEmpty(t, l.ID)
		}
	})
}

// 64 KiB of what is dearest to read each within its second.
func TestDearTexts(t *testing.T) {
	const size = 64 << 10
	for name, files := range map[string]fstest.MapFS{
		"quotes":       plain(plainPackage, strings.Repeat(`"`, size)),
		"commas":       plain(plainPackage, strings.Repeat(",", size)),
		"one cell":     plain(plainPackage, plainRows+strings.Repeat("é", size/2)),
		"short rows":   plain(plainPackage, plainRows+strings.Repeat("x\n", size/2)),
		"long lines":   plain(plainPackage, plainRows+strings.Repeat(strings.Repeat("x", 1000)+",\n", size/1000)),
		"same keys":    plain(plainPackage, plainRows+strings.Repeat("a-1,,a,2026-03-09,true,lost,5,rot\n", size/34)),
		"escapes":      plain(`{"name": "`+strings.Repeat(`A`, size/6)+`"}`, plainRows),
		"categories":   plain(strings.Replace(plainPackage, `"alive",`, strings.Repeat(`"x",`, size/4)+`"alive",`, 1), plainRows),
		"wrong in all": plain(strings.Replace(plainPackage, `"alive",`, strings.Repeat(`0,`, size/2)+`"alive",`, 1), plainRows),
	} {
		t.Run(name, func(t *testing.T) {
			began := time.Now()
			read(t, files)
			require.Less(t, time.Since(began), patience.For(2*size))
		})
	}
}
