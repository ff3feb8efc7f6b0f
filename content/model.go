// Package content is the diary: imports, specimens, check-ins, places and
// updates. Load reads a folder into one checked Diary and reports everything
// that is wrong with it at once; Timelines then tells the diary specimen by
// specimen, up to a day.
//
// What a file says is kept as it was written (Entry, Facts); what follows from
// it (who stood where, whom "others: same" speaks for, which sections exist) is
// worked out in one walk over the entries in order (Timelines), so that an
// earlier state of the diary is the same walk ended earlier. What a check-in
// doesn't mention is unchanged or unknown, never zero.
//
// The package refuses to compute: shares, areas and costs are the business of
// the packages under build.
package content

import (
	"wardian/content/measure"
	"wardian/content/prose"
	"wardian/content/source"
)

// Diary is everything a grower's folder says.
type Diary struct {
	Today     measure.Day // the day that was taken for today; measure.NoDay where none was
	Settings  Settings
	Imports   []*Import      // by ID
	Specimens []*Specimen    // by ID, sections included
	Places    []*Place       // by ID
	Entries   []*Entry       // by day, then time (none before any), then file
	Updates   []*Update      // by date, then slug
	Seasons   []*SeasonWords // by season
	Photos    []string       // diary paths of all pictures under photos/, sorted
	Style     Style          // the grower's own look

	told *Timelines // all of it, as it was judged; nil for a copy
}

// KeySpan tells where a key's value stands in its file. Key is the key as
// written, with a dot between levels: "leaves.sizes".
type KeySpan struct {
	Key  string
	Span source.Span
}

// Spans tells where the values of one record stand.
type Spans []KeySpan

// Of gives the span of a key's value; where the key wasn't written, fallback.
func (s Spans) Of(key string, fallback source.Span) source.Span {
	for _, k := range s {
		if k.Key == key {
			return k.Span
		}
	}
	return fallback
}

// Page is what every file of a diary may carry besides its own keys.
type Page struct {
	File       *source.File
	Head       source.Span // the front matter's first line, for findings about the whole file
	Spans      Spans
	Unfinished bool
	Amended    []Amendment     // by date
	Words      *prose.Document // the body; nil where there is none
}

// Amendment is an entry set right in the open: what was changed, and when.
type Amendment struct {
	Date  measure.Day
	Words string
}

// Import gives the import with an ID, or nil.
func (d *Diary) Import(id string) *Import { return find(d.Imports, id) }

// Specimen gives the specimen or section with an ID, or nil.
func (d *Diary) Specimen(id string) *Specimen { return find(d.Specimens, id) }

// Place gives the place with an ID, or nil.
func (d *Diary) Place(id string) *Place { return find(d.Places, id) }

type identified interface{ key() string }

func (i *Import) key() string   { return i.ID }
func (s *Specimen) key() string { return s.ID }
func (p *Place) key() string    { return p.ID }

// find searches a list that is sorted by ID.
func find[T identified](sorted []T, id string) (none T) {
	lo, hi := 0, len(sorted)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		if sorted[mid].key() < id {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	if lo < len(sorted) && sorted[lo].key() == id {
		return sorted[lo]
	}
	return none
}
