package page

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"sync"

	"wardian/build/address"
	"wardian/build/chart"
	"wardian/build/cohort"
	"wardian/content/measure"
	"wardian/themes"
)

// site is what all pages of one build share. Nothing of it changes once the
// plan is made but what is kept of frames, so that pages can be made side by side.
type site struct {
	Inputs
	templates *themes.Set
	earlier   map[measure.Day]func() *cohort.Cohort // the diary as of each update's day
	frames    sync.Map                              // *frame by where
}

// All plans the pages of a site, in no particular order.
func All(in Inputs) ([]Page, error) {
	t, err := templates(in.Diary.Style)
	if err != nil {
		return nil, err
	}
	s := &site{Inputs: in, templates: t, earlier: map[measure.Day]func() *cohort.Cohort{}}
	for _, u := range in.Diary.Updates {
		if s.earlier[u.Date] == nil {
			s.earlier[u.Date] = sync.OnceValue(func() *cohort.Cohort { return cohort.At(in.Diary, u.Date) })
		}
	}
	var pages []Page
	pages = append(pages, s.frontPage(), s.methodPage(), s.dataPage(), s.amendmentsPage(), s.seasonsPage())
	pages = append(pages, s.seasonPages()...)
	pages = append(pages, s.comparePages()...)
	pages = append(pages, s.specimenPages()...)
	pages = append(pages, s.importPages()...)
	pages = append(pages, s.placePages()...)
	pages = append(pages, s.updatePages()...)
	return withFaults(pages), nil
}

// room is one of the ways in that hang from the masthead.
type room int

const (
	noRoom room = iota - 1
	front
	imports
	specimens
	seasons
	places
	updates
	method
	data
)

var rooms = []struct {
	words string
	path  func() string
}{
	front:     {"Front", address.Front},
	imports:   {"Imports", address.Imports},
	specimens: {"Specimens", address.Specimens},
	seasons:   {"Seasons", address.Seasons},
	places:    {"Places", address.Places},
	updates:   {"Updates", address.Updates},
	method:    {"Method", address.Method},
	data:      {"Data", address.Data},
}

// way is one link of the masthead.
type way struct {
	Words, Href string
	Type        string // of what it leads to, where that is no page
	Here, Exact bool   // the page is of this room; it is this very page
}

// frame is what frame.html is filled with around a page's own part.
type frame struct {
	Title       string // of the page alone
	Description string
	Main        template.HTML

	// The rest is the same for all pages of a kind in a folder.
	Site       string
	About      string
	Home       string
	Style      string
	Beside     template.CSS // of this kind of page alone
	Icon       string
	Feeds      []way
	Ways       []way
	Emblem     template.HTML
	AsOf       string // in words; "" where nothing was ever looked at
	Method     string // href
	Amendments string // href
	Zone       string
	Contact    string
	Licence    string
	// Links, Masthead and Foot are the templates "links", "masthead" and "foot",
	// filled with what stands above.
	Links, Masthead, Foot template.HTML
}

// where is all that the part of a frame depends on that pages share.
type where struct {
	name   string // of the page's template
	in     room
	folder string // from which links lead
	exact  string // the page's path, if a way of the masthead leads to this very page
}

// view is what a page's own template is filled with: the page's data, and how to
// link from where the page stands.
type view struct {
	s    *site
	Path string
	Data any
}

// Href links to a site path from the page.
func (v view) Href(to string) string { return address.Relative(v.Path, to) }

// set makes a page: its own template filled with data, in the frame.
func (s *site) set(path, name string, in room, title, description string, fill func(v view) any) ([]byte, error) {
	v := view{s: s, Path: path}
	v.Data = fill(v)
	within, around := buffers.Get().(*bytes.Buffer), buffers.Get().(*bytes.Buffer)
	defer buffers.Put(within)
	defer buffers.Put(around)
	within.Reset()
	around.Reset()
	if err := s.templates.ExecuteTemplate(within, name, v.Data); err != nil {
		return nil, fmt.Errorf("make %s: %w", path, err)
	}
	main := within.Bytes()
	if in != specimens && in != places { // thousands, and hardly a count on them
		main = []byte(tie(within.String()))
	}
	f := s.frame(v, name, in)
	f.Title, f.Description, f.Main = title, description, mainHere
	if s.templates.Own() {
		f.Main = template.HTML(main) // an own frame may do with it what it likes
	}
	if err := s.templates.ExecuteTemplate(around, "frame.html", f); err != nil {
		return nil, fmt.Errorf("make %s: %w", path, err)
	}
	before, after, found := bytes.Cut(around.Bytes(), []byte(mainHere))
	if !found {
		return bytes.Clone(around.Bytes()), nil
	}
	return slices.Concat(before, main, after), nil
}

// mainHere stands in a frame for what is to stand in it, which would else be copied
// four times on its way through the frame.
const mainHere = "\x00main\x00"

// buffers are those that pages grow in.
var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// frame is the frame of a page, but for what is the page's own. Thousands of a
// site's pages share it, and it is made once for them.
func (s *site) frame(v view, name string, in room) frame {
	at := where{name: name, in: in, folder: v.Path[:strings.LastIndexByte(v.Path, '/')+1]}
	for _, r := range rooms {
		if r.path() == v.Path {
			at.exact = v.Path
		}
	}
	if kept, ok := s.frames.Load(at); ok {
		return *kept.(*frame)
	}
	settings := s.Diary.Settings
	f := frame{
		Site: settings.Name, About: settings.About,
		Home: v.Href(address.Front()), Style: v.Href(s.Style), Emblem: template.HTML(chart.Emblem()),
		Method: v.Href(address.Method()), Amendments: v.Href(address.Amendments()), Contact: settings.Contact, Licence: settings.Licence,
	}
	if settings.Zone != nil {
		f.Zone = settings.Zone.String()
	}
	if s.Cohort.AsOf.Known() {
		f.AsOf = s.Cohort.AsOf.InWords()
	}
	f.Beside = template.CSS(themes.Beside(name))
	if s.Icon != "" {
		f.Icon = v.Href(s.Icon)
	}
	for n, r := range rooms {
		f.Ways = append(f.Ways, way{Words: r.words, Href: v.Href(r.path()), Here: room(n) == in, Exact: r.path() == v.Path})
	}
	for _, feed := range s.Feeds {
		f.Feeds = append(f.Feeds, way{Words: settings.Name, Href: v.Href(feed), Type: feedType(feed)})
	}
	f.Links, f.Masthead, f.Foot = template.HTML(v.fill("links", f)), template.HTML(v.fill("masthead", f)), template.HTML(v.fill("foot", f))
	s.frames.Store(at, &f)
	return f
}

// feedType is the media type of a feed.
func feedType(path string) string {
	if strings.HasSuffix(path, ".json") {
		return "application/feed+json"
	}
	return "application/atom+xml"
}
