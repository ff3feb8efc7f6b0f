package content

import (
	"slices"
	"strings"
)

// pictures keeps of an entry's pictures those that may be shown.
func (s *showing) pictures(photos []Photo) []Photo {
	var out []Photo
	for _, p := range photos {
		if !s.lateFile(p.Path) && !s.late(p.Taken) {
			out = append(out, p)
		}
	}
	return out
}

// lateFile says whether a picture's path holds a day that is too young.
func (s *showing) lateFile(path string) bool {
	day, ok := dayInPath(path)
	return ok && s.late(day)
}

// photos keeps the picture files that may be shown: not those of a day too
// young, nor those that belong by their path to a specimen left out, nor those
// that are named only where nothing is shown.
func (s *showing) photos(to *Diary) []string {
	was, is := s.from.UsedPhotos(), to.UsedPhotos()
	longest := 0
	for _, p := range s.from.Specimens {
		longest = max(longest, len(p.ID))
	}
	known := func(id string) bool { return s.from.Specimen(id) != nil }
	return slices.DeleteFunc(slices.Clone(s.from.Photos), func(path string) bool {
		return s.lateFile(path) || was[path] && !is[path] || !is[path] && !s.keeps(idInPath(path, longest, known))
	})
}

// UsedPhotos are the pictures that an entry names, or that the words of any file
// hold.
func (d *Diary) UsedPhotos() map[string]bool {
	used := d.namedPhotos()
	words := func(p *Page) {
		if p.Words == nil {
			return
		}
		for _, l := range p.Words.Links() {
			if strings.HasPrefix(l.Dest, "photos/") {
				used[l.Dest] = true
			}
		}
	}
	for _, i := range d.Imports {
		words(&i.Page)
	}
	for _, s := range d.Specimens {
		words(&s.Page)
	}
	for _, p := range d.Places {
		words(&p.Page)
	}
	for _, e := range d.Entries {
		words(&e.Page)
	}
	for _, u := range d.Updates {
		words(&u.Page)
	}
	for _, s := range d.Seasons {
		words(&s.Page)
	}
	return used
}
