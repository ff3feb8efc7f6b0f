// Package feed writes the diary's letters as feeds: Atom (RFC 4287) and JSON Feed
// 1.1 (jsonfeed.org/version/1.1), with the same items and the whole text of each.
//
// A feed is read far from the site, so every address in it is absolute, and a
// diary that doesn't say where its site will stand has none. An item's id is its
// page's address and never changes while the site stays where it is. No clock is
// asked: a letter counts as published on its date and as updated on that of its
// last amendment, both at midnight in the diary's time zone. Drawings stay on the
// page, and the feed says so.
//
// What the formats forbid, control characters above all, doesn't get in.
package feed

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"wardian/build/address"
	"wardian/content"
)

// Newest is how many letters a feed carries, the newest first. Older ones are on
// the site.
const Newest = 50

// File is one feed: its site path, its media type and its bytes.
type File struct {
	Path string
	Type string
	Data []byte
}

// Pictures tells where a picture of the diary stands on the site, and its size in
// pixels; ok is false for one that isn't shown.
type Pictures func(diaryPath string) (sitePath string, width, height int, ok bool)

// Updates gives the feeds of a diary's letters, with a link to the page in place
// of each picture. See UpdatesWith.
func Updates(d *content.Diary) ([]File, error) { return UpdatesWith(d, nil) }

// UpdatesWith gives the feeds of a diary's letters; none where the diary has no
// address or no letter. pictures may be nil.
func UpdatesWith(d *content.Diary, pictures Pictures) ([]File, error) {
	if d.Settings.Address == "" || len(d.Updates) == 0 {
		return nil, nil
	}
	c := channelOf(d, pictures)
	atom, err := c.atom()
	if err != nil {
		return nil, fmt.Errorf("write %s: %w", address.Atom(), err)
	}
	json, err := c.json()
	if err != nil {
		return nil, fmt.Errorf("write %s: %w", address.JSONFeed(), err)
	}
	return []File{
		{Path: address.Atom(), Type: "application/atom+xml", Data: atom},
		{Path: address.JSONFeed(), Type: "application/feed+json", Data: json},
	}, nil
}

// channel is what both formats say of the diary.
type channel struct {
	site    string // address of the site, with its last slash
	title   string
	about   string
	author  string
	rights  string
	updated time.Time
	items   []item
}

// item is what both formats say of one letter.
type item struct {
	page      string // address of its page, and its id
	title     string
	published time.Time
	updated   time.Time // the same, where nothing was amended
	summary   string    // the first paragraph's words; may be ""
	html      string    // the whole text; may be ""
}

func channelOf(d *content.Diary, pictures Pictures) channel {
	s := d.Settings
	c := channel{site: s.Address, title: clean(s.Name), about: clean(s.About), author: clean(s.Grower), rights: clean(s.Licence)}
	if c.author == "" {
		c.author = c.title // RFC 4287 wants an author's name
	}
	for _, u := range slices.Backward(d.Updates) { // they are sorted by date
		if len(c.items) == Newest {
			break
		}
		i := itemOf(d, u, pictures)
		if i.updated.After(c.updated) {
			c.updated = i.updated
		}
		c.items = append(c.items, i)
	}
	return c
}

func itemOf(d *content.Diary, u *content.Update, pictures Pictures) item {
	t := text{diary: d, update: u, page: address.Absolute(d.Settings.Address, address.Update(u.Slug)), pictures: pictures}
	i := item{
		page: t.page, title: clean(u.Title), published: midnight(u.Date.Time(), d.Settings.Zone),
		summary: clean(u.Words.FirstParagraph()), html: clean(t.html()),
	}
	i.updated = i.published
	for _, a := range u.Amended {
		if on := midnight(a.Date.Time(), d.Settings.Zone); on.After(i.updated) {
			i.updated = on
		}
	}
	return i
}

// midnight is the time at which a day, given in UTC, begins in a zone; where that
// isn't known, in UTC.
func midnight(day time.Time, zone *time.Location) time.Time {
	if zone == nil {
		zone = time.UTC
	}
	return time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, zone)
}

func stamp(t time.Time) string { return t.Format(time.RFC3339) }

// clean drops what XML 1.0 forbids (section 2.2) or advises against: controls but
// tab and line feed, and noncharacters; bytes that aren't UTF-8 become U+FFFD.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r < ' ' && r != '\n' && r != '\t', r >= 0x7f && r < 0xa0, r >= 0xfdd0 && r <= 0xfdef, r&0xfffe == 0xfffe:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}
