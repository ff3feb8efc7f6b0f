package page

import (
	"fmt"
	"html/template"
	"sort"

	"wardian/build/address"
	"wardian/build/cohort"
	"wardian/content"
)

// updateData fills update.html.
type updateData struct {
	Title, Date string
	Of          *way
	Day         string
	Body        template.HTML
	Earlier     *way
	Later       *way
	Feeds       []way
	All         string
	Amended     []content.Amendment
}

// updateRow is an update in a list.
type updateRow struct {
	Href, Title, Date, First string
}

// updatesByDate are the updates, the newest first.
func (s *site) updatesByDate() []*content.Update {
	list := append([]*content.Update(nil), s.Diary.Updates...)
	sort.SliceStable(list, func(i, j int) bool {
		if list[i].Date != list[j].Date {
			return list[i].Date > list[j].Date
		}
		return list[i].Slug < list[j].Slug
	})
	return list
}

func (v view) updateRow(u *content.Update) updateRow {
	r := updateRow{Href: v.Href(address.Update(u.Slug)), Title: u.Title, Date: u.Date.InWords()}
	if u.Words != nil {
		r.First = u.Words.FirstParagraph()
	}
	return r
}

func (s *site) updatePages() []Page {
	list := s.updatesByDate()
	pages := []Page{{Path: address.Updates(), Make: func() ([]byte, error) {
		return s.set(address.Updates(), "updates", updates, "Updates", "Letters to readers.", func(v view) any {
			var rows []updateRow
			for _, u := range list {
				rows = append(rows, v.updateRow(u))
			}
			return struct {
				Rows  []updateRow
				Feeds []way
			}{rows, v.feeds()}
		})
	}}}
	for n, u := range list {
		pages = append(pages, Page{Path: address.Update(u.Slug), Make: func() ([]byte, error) {
			description := ""
			if u.Words != nil {
				description = u.Words.FirstSentence()
			}
			return s.set(address.Update(u.Slug), "update", updates, u.Title, description, func(v view) any {
				d := updateData{Title: u.Title, Date: u.Date.InWords(), Feeds: v.feeds(), All: v.Href(address.Updates()), Amended: u.Amended}
				if u.Import != nil {
					d.Of = &way{Words: "import " + u.Import.ID + ", " + u.Import.Season, Href: v.Href(address.Import(u.Import.ID))}
					if day := int(u.Date - u.Import.Day0()); day >= 0 {
						d.Day = dayWord(day)
					}
				}
				d.Body = v.letter(u)
				if n+1 < len(list) {
					d.Earlier = &way{Words: list[n+1].Title, Href: v.Href(address.Update(list[n+1].Slug))}
				}
				if n > 0 {
					d.Later = &way{Words: list[n-1].Title, Href: v.Href(address.Update(list[n-1].Slug))}
				}
				return d
			})
		}})
	}
	return pages
}

// feeds are the ways to the feeds.
func (v view) feeds() []way {
	var out []way
	for _, path := range v.s.Feeds {
		words := "Atom"
		if feedType(path) == "application/feed+json" {
			words = "JSON Feed"
		}
		out = append(out, way{Words: words, Href: v.Href(path), Type: feedType(path)})
	}
	return out
}

// letter sets an update's body with its plates drawn as of its date.
func (v view) letter(u *content.Update) template.HTML {
	if u.Words == nil {
		return ""
	}
	then := v.s.earlier[u.Date]
	r := v.renderer(0)
	blocks := u.Words.Plates()
	r.Plate = func(i int) string {
		for n, p := range u.Plates {
			if p.Block.Offset == blocks[i].Offset {
				return v.plate(then(), u, p, fmt.Sprintf("plate-%d", n+1))
			}
		}
		return "" // it calls for something that isn't shown
	}
	return template.HTML(u.Words.HTML(r))
}

// asOf are the words over a plate: whose it is, and as of when.
func asOf(c *cohort.Cohort, of string) string {
	if !c.AsOf.Known() {
		return of + ". Nothing had been looked at by then."
	}
	return of + ", as of " + c.AsOf.InWords() + "."
}
