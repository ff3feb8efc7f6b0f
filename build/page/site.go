// Package page makes the pages of a site: for each kind of page its data, drawn
// from the diary and its figures, and the template that sets it.
//
// A page says what is known and nothing more. Figures come from build/cohort,
// drawings from build/chart, addresses from build/address; what is chosen here
// is order and words. Whatever a grower wrote is escaped; only the Markdown of
// entries, without raw HTML, becomes markup.
package page

import (
	"wardian/build/cohort"
	"wardian/content"
)

// Picture is a picture as it stands in the site: made small, without what the
// camera wrote into it.
type Picture struct {
	Path          string // site path
	Width, Height int    // in pixels
}

// Inputs are what a site is made from.
type Inputs struct {
	Diary  *content.Diary // as it may be shown
	Cohort *cohort.Cohort // of the whole of it
	// Pictures tells where a picture of the diary (photos/…) stands in the
	// site; one that is missing here is left out of the pages.
	Pictures map[string]Picture
	Style    string   // site path of the style sheet
	Icon     string   // site path of the emblem; none where it stands nowhere
	Feeds    []string // site paths of the feeds; none where the diary has no address
	// Data tells of the open data, which is written when it is first asked for.
	Data func() ([]DataFile, error)
	// Compared are the comparisons of all pooled lines by every word, likewise.
	Compared func() []cohort.Comparison
}

// DataFile is one file of the open data, for the data page.
type DataFile struct {
	Path  string // site path
	Name  string
	Says  string // what a row is, in a sentence
	Rows  int
	Bytes int
}

// Page is one page of the plan: where it stands, and how to make it. Make may
// be called from several goroutines at once, for different pages.
type Page struct {
	Path string // site path
	Make func() ([]byte, error)
}
