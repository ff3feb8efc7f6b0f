package page

import (
	"html/template"
	"strings"

	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/content"
)

// figure is a picture of the diary on a page.
type figure struct {
	Src           string
	Width, Height int
	Alt           string
	Bold          string        // the day, in bold, where pictures are set against one another
	Caption       template.HTML // may be ""
	Later         bool          // far down the page: fetched when it comes near
}

// shown gives a picture as a figure; ok is false where the site has none of it.
func (v view) shown(p content.Photo, alt string) (f figure, ok bool) {
	made, ok := v.s.Pictures[p.Path]
	if !ok {
		return figure{}, false
	}
	if p.Alt != "" {
		alt = p.Alt
	}
	return figure{Src: v.Href(made.Path), Width: made.Width, Height: made.Height, Alt: alt}, true
}

// photoOf is a picture of a part with the look that took it.
type photoOf struct {
	content.Photo
	Look *content.Look
}

// photos are a part's pictures that the site has, in order of time.
func (s *site) photos(p *cohort.Part) []photoOf {
	var out []photoOf
	for _, l := range p.Looks {
		for _, photo := range l.Facts.Photos {
			if _, ok := s.Pictures[photo.Path]; ok {
				out = append(out, photoOf{photo, l})
			}
		}
	}
	return out
}

// altOf says what a plant's picture shows where the grower didn't: who and when,
// and how it stood.
func altOf(p *cohort.Part, l *content.Look) string {
	words := p.Specimen.ID + " on " + dayWord(l.Day)
	if l.Turgor != "" {
		words += ", " + string(l.Turgor)
	}
	if l.At != nil {
		words += ", in " + l.At.Name
	}
	return words
}

// caption tells of a plant's picture under it.
func caption(l *content.Look) string {
	words := []string{said.Upper(dayWord(l.Day)), l.When.Day.InWords()}
	if l.At != nil {
		words = append(words, l.At.Name)
	}
	return strings.Join(words, ", ")
}
