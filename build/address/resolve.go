package address

import (
	"regexp"
	"slices"
	"strings"

	"wardian/content"
)

// Address is where a diary path leads.
type Address struct {
	Path     string // site path; "" for a picture, whose name only its bytes tell
	Fragment string // "#entry-2026.04-06", or ""
	Picture  string // diary path of a picture, or ""
}

// anchored is what may follow a diary path behind "#".
var anchored = regexp.MustCompile(`^[A-Za-z0-9._-]{1,200}$`)

// Resolve tells where a diary path written in a link leads: with ".md" or
// without, with an anchor behind "#" or without. ok is false where the diary as
// given holds no such thing; a link to what isn't shown is then its words alone.
//
// A check-in of one specimen is on that specimen's page, a round and a place note
// on its place's; a round without a place is on the page of the first specimen
// that it names. A season's words are on its page.
func Resolve(d *content.Diary, dest string) (to Address, ok bool) {
	dest, anchor, _ := strings.Cut(dest, "#")
	dest, _, _ = strings.Cut(dest, "?")
	if _, picture := slices.BinarySearch(d.Photos, dest); picture {
		return Address{Picture: dest}, true
	}
	dest = strings.TrimSuffix(dest, ".md")
	folder, id, _ := strings.Cut(dest, "/")
	switch folder {
	case "specimens":
		to.Path, ok = Specimen(id), d.Specimen(id) != nil
	case "imports":
		to.Path, ok = Import(id), d.Import(id) != nil
	case "places":
		to.Path, ok = Place(id), d.Place(id) != nil
	case "updates":
		to.Path, ok = Update(id), slices.ContainsFunc(d.Updates, func(u *content.Update) bool { return u.Slug == id })
	case "seasons":
		for _, s := range d.Seasons {
			if s.Slug == id {
				to.Path, ok = Season(s.Season), true
			}
		}
	case "check-ins":
		for _, e := range d.Entries {
			if e.Path == dest {
				to, ok = Entry(d, e)
				break
			}
		}
	}
	if !ok {
		return Address{}, false
	}
	if anchored.MatchString(anchor) {
		to.Fragment = "#" + anchor
	}
	return to, true
}

// Entry tells where an entry is shown (see Resolve).
func Entry(d *content.Diary, e *content.Entry) (to Address, ok bool) {
	to.Fragment = "#" + Anchor(e)
	if e.Place != nil && (e.Round || e.PlaceNote()) && d.Place(e.Place.ID) != nil {
		to.Path = Place(e.Place.ID)
		return to, true
	}
	for _, c := range e.Named {
		if !c.Empty && d.Specimen(c.ID) != nil {
			to.Path = Specimen(c.ID)
			return to, true
		}
	}
	return Address{}, false
}
