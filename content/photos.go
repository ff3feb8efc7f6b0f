package content

import (
	"regexp"
	"strings"

	"wardian/content/measure"
)

// picturesByPath tells which pictures belong to a specimen by the day and the ID
// in their path, in the order of their paths.
func (d *Diary) picturesByPath() map[string][]dated {
	out := map[string][]dated{}
	longest := 0
	for _, s := range d.Specimens {
		longest = max(longest, len(s.ID))
	}
	known := func(id string) bool { return d.Specimen(id) != nil }
	for _, path := range d.Photos {
		if day, ok := dayInPath(path); ok {
			if id := idInPath(path, longest, known); id != "" {
				out[id] = append(out[id], dated{path, day})
			}
		}
	}
	return out
}

// join gives pictures that nobody named to the look they belong to by their path:
// that day's last.
func (p *plant) join(x *index) {
	for _, picture := range x.pictures[p.Specimen.ID] {
		if x.named[picture.path] > 0 {
			continue
		}
		for n := len(p.Looks) - 1; n >= 0; n-- {
			if l := p.Looks[n]; l.When.Day == picture.day {
				photos := append([]Photo{}, l.Photos...)
				l.Photos = append(photos, Photo{Path: picture.path, Taken: measure.NoDay})
				break
			} else if l.When.Day < picture.day {
				break
			}
		}
	}
}

// namedPhotos are the pictures that some entry names.
func (d *Diary) namedPhotos() map[string]bool {
	named := map[string]bool{}
	for _, e := range d.Entries {
		e.eachPhoto(func(p Photo) { named[p.Path] = true })
	}
	return named
}

// eachPhoto visits every picture that an entry names under a key.
func (e *Entry) eachPhoto(visit func(Photo)) {
	for _, p := range e.Photos {
		visit(p)
	}
	for _, c := range e.Named {
		for _, p := range c.Photos {
			visit(p)
		}
	}
}

var dayWritten = regexp.MustCompile(`\d{4}-\d\d-\d\d`)

// dayInPath finds the day that a picture's path holds, written as a diary
// writes days: 2026-04-06, with no letter or digit beside it. Of several days
// the last counts, since a file's name knows better than its folder.
func dayInPath(path string) (measure.Day, bool) {
	all := dayWritten.FindAllStringIndex(path, -1)
	for n := len(all) - 1; n >= 0; n-- {
		at := all[n]
		if !whole(path, at[0], at[1]) {
			continue
		}
		w := path[at[0]:at[1]]
		number := func(s string) (v int) {
			for _, c := range s {
				v = v*10 + int(c-'0')
			}
			return v
		}
		if d, ok := measure.Date(number(w[:4]), number(w[5:7]), number(w[8:])); ok {
			return d, true
		}
	}
	return measure.NoDay, false
}

// idInPath finds the longest known ID that stands whole in a path, with no
// letter or digit beside it; of equally long ones the last. The day isn't
// searched, so that an ID of digits isn't found in it. "" where there is none. No
// known ID is longer than longest.
func idInPath(path string, longest int, known func(string) bool) string {
	path = strings.ToLower(strings.TrimPrefix(path, "photos/"))
	path = dayWritten.ReplaceAllString(path, "\x00")
	var from []int
	for i := range len(path) {
		if idChar(path[i]) && (i == 0 || !idChar(path[i-1])) {
			from = append(from, i)
		}
	}
	best := ""
	for _, a := range from {
		for b := a + 1; b <= min(len(path), a+longest); b++ {
			if c := path[b-1]; !idChar(c) && c != '-' {
				break
			}
			if b < len(path) && idChar(path[b]) || path[b-1] == '-' {
				continue
			}
			if id := path[a:b]; len(id) >= len(best) && known(id) {
				best = id
			}
		}
	}
	return best
}

// whole says whether path[a:b] has no letter or digit beside it.
func whole(path string, a, b int) bool {
	return (a == 0 || !idChar(lower(path[a-1]))) && (b == len(path) || !idChar(lower(path[b])))
}

func idChar(c byte) bool { return 'a' <= c && c <= 'z' || '0' <= c && c <= '9' }

func lower(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A'
	}
	return c
}
