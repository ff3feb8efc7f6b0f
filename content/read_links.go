package content

import (
	"path"
	"slices"
	"strings"

	"wardian/content/header"
	"wardian/content/source"
)

// links judges what the words of all files lead to, and whom entries name.
func (l *loader) links() {
	t := &targets{l: l}
	d := l.diary
	for _, x := range d.Imports {
		t.page(&x.Page, l.report)
	}
	for _, x := range d.Specimens {
		t.page(&x.Page, l.report)
	}
	for _, x := range d.Places {
		t.page(&x.Page, l.report)
	}
	for _, x := range d.Entries {
		l.ties(x, t)
	}
	for _, x := range l.undated {
		l.ties(x, t)
	}
	for _, x := range d.Updates {
		t.page(&x.Page, l.report)
	}
	for _, x := range d.Seasons {
		t.page(&x.Page, l.report)
	}
}

// page judges the links and pictures in the words of a file: a diary path leads
// somewhere, with .md or without.
func (t *targets) page(p *Page, report *source.Report) {
	for _, link := range p.Words.Links() {
		if !link.External() && link.Dest != "" && link.Dest[0] != '#' {
			t.check(p.File, link.Dest, link.Image, link.Span, report)
		}
	}
}

// targets are the diary paths that a link can lead to. They are listed when the
// first link that isn't plainly right asks for it.
type targets struct {
	l     *loader
	known map[string]bool
	list  []string
}

// check reports a link that leads nowhere in the diary.
func (t *targets) check(f *source.File, dest string, image bool, at source.Span, report *source.Report) {
	to, _, _ := strings.Cut(dest, "#")
	to, _, _ = strings.Cut(to, "?")
	clean := strings.TrimSuffix(to, ".md")
	if image && !picture(to) {
		report.Add(f, header.Fault("not-a-picture", at, quoted(dest)+" isn't a picture", "a file ending in "+strings.Join(pictures, ", "), "leave the ! out, so that it is a link"))
		return
	}
	t.l.ledTo[clean] = true
	if t.l.photos[to] || t.has(clean) {
		return
	}
	t.l.dangling = true
	code, what := "unknown-link", "a diary path such as specimens/ID"
	if image {
		code, what = "missing-photo", "a picture under photos/"
	}
	report.Add(f, header.Fault(code, at, "there is no "+quoted(to)+" in the diary", what, t.hint(f, to, clean, image)))
}

// has says whether a diary path leads somewhere.
func (t *targets) has(to string) bool {
	d := t.l.diary
	switch folder, id, _ := strings.Cut(to, "/"); folder {
	case "specimens":
		return d.Specimen(id) != nil
	case "imports":
		return d.Import(id) != nil
	case "places":
		return d.Place(id) != nil
	}
	t.make()
	return t.known[to]
}

// make lists every diary path there is.
func (t *targets) make() {
	if t.known != nil {
		return
	}
	d := t.l.diary
	t.known = map[string]bool{}
	add := func(to string) { t.known[to] = true; t.list = append(t.list, to) }
	for _, x := range d.Specimens {
		add("specimens/" + x.ID)
	}
	for _, x := range d.Imports {
		add("imports/" + x.ID)
	}
	for _, x := range d.Places {
		add("places/" + x.ID)
	}
	for _, x := range d.Updates {
		add("updates/" + x.Slug)
	}
	for _, x := range d.Seasons {
		add("seasons/" + x.Slug)
	}
	for _, x := range d.Entries {
		add(x.Path)
	}
	for _, x := range t.l.undated {
		t.known[x.Path] = true
	}
}

// hint says what to write instead.
func (t *targets) hint(f *source.File, to, clean string, image bool) string {
	if !t.l.search(f) {
		return "write a path that starts at the diary's folder"
	}
	if image || strings.HasPrefix(to, "photos/") {
		if near := t.l.nearestPhoto(strings.TrimPrefix(to, "photos/")); near != "" {
			return "nearest: photos/" + near
		}
		return "put the picture there, or leave it out"
	}
	t.make()
	for _, from := range []string{path.Clean(strings.TrimLeft(clean, "/")), path.Join(path.Dir(f.Path), clean)} {
		if from != clean && t.known[from] {
			return "write " + from
		}
	}
	if !strings.Contains(clean, "/") {
		for _, folder := range []string{"specimens/", "imports/", "places/", "updates/"} {
			if t.known[folder+clean] {
				return "write " + folder + clean
			}
		}
	}
	// The nearest of the same folder before any other.
	folder, _, _ := strings.Cut(clean, "/")
	same := slices.DeleteFunc(slices.Clone(t.list), func(s string) bool { return !strings.HasPrefix(s, folder+"/") })
	if hint := nearest(clean, same); hint != "" {
		return hint
	}
	if hint := nearest(clean, t.list); hint != "" {
		return hint
	}
	return "write a path that starts at the diary's folder"
}
