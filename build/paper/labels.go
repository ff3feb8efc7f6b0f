package paper

import (
	"fmt"
	"html/template"

	"wardian/build/address"
	"wardian/build/cohort"
	"wardian/build/taxon"
	"wardian/content"
	"wardian/content/measure"
)

// labelsOn is how many labels a page holds, three to a row: eight rows on A4,
// seven on Letter.
func labelsOn(size Size) int { return [...]int{24, 21}[size] }

// Labels makes the labels of an import's living plants, sections included, each
// behind what it was cut from; with nil, of all imports. plants is how many there
// are. Without an address in diary.yaml they bear no code. on is the day whose
// names they bear.
func Labels(c *cohort.Cohort, of *content.Import, on measure.Day, size Size) (page []byte, plants int, err error) {
	site := c.Diary.Settings.Address
	data := labelsData{Title: "Plant labels", Style: size.style(false, 1)}
	var tags []tag
	for _, l := range c.Lines {
		if of != nil && l.Import() != of {
			continue
		}
		for _, p := range l.Parts {
			if !p.Living() {
				continue
			}
			t, err := tagOf(p, site, on)
			if err != nil {
				return nil, 0, err
			}
			tags = append(tags, t)
		}
	}
	for n := 0; n < len(tags); n += labelsOn(size) {
		data.Pages = append(data.Pages, tags[n:min(n+labelsOn(size), len(tags))])
	}
	page, err = set("labels.html", data)
	return page, len(tags), err
}

type labelsData struct {
	Title string
	Style template.CSS
	Pages [][]tag
}

// tag is one label.
type tag struct {
	ID, Came string
	Name     template.HTML
	Cut      bool // from another
	Code     template.HTML
}

func tagOf(p *cohort.Part, site string, on measure.Day) (tag, error) {
	s := p.Specimen
	arrived := s.Root().Import.Arrived
	came := arrived.Written
	if !arrived.Half() && !arrived.About {
		came = short(arrived.First)
	}
	t := tag{ID: s.ID, Name: taxon.Name(s.NameOn(on)), Came: "arrived " + came}
	if s.Parent != nil {
		t.Cut = true
		t.Came += fmt.Sprintf("; cut from %s %s", s.Parent.ID, short(s.CutOn.Day))
	}
	if site == "" {
		return t, nil
	}
	url := address.Absolute(site, address.Specimen(s.ID))
	code, err := encode(url)
	if err != nil {
		return t, fmt.Errorf("the address in diary.yaml: %w", err)
	}
	t.Code = drawing(code, url)
	return t, nil
}

// short writes a day so that it fits beside a code: "6 Apr 2026".
func short(d measure.Day) string { return d.Time().Format("2 Jan 2006") }
