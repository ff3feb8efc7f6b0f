package page

import (
	"html/template"
	"strings"

	"wardian/build/address"
	"wardian/build/cohort"
	"wardian/build/said"
	"wardian/build/taxon"
)

// fieldRow is one field of a label.
type fieldRow struct {
	Term string
	Says template.HTML
}

// label is a herbarium label.
type label struct {
	Of          string // "Plants of North Sill"
	Left, Right string // of the head line
	Name        template.HTML
	As          template.HTML // under the name; may be ""
	Fields      []fieldRow
}

// specimenLabel is the label of a plant: what it is, and how it came.
func (v view) specimenLabel(p *cohort.Part) label {
	sp, im := p.Specimen, p.Specimen.Import
	l := label{
		Of: "Plants of " + v.s.Diary.Settings.Name, Left: "No. " + sp.ID, Right: "received " + span(im.Arrived), Name: taxon.Name(sp.Name),
	}
	if sp.Received != "" {
		l.As = "Received as " + taxon.Name(sp.Received)
	}
	add := func(term string, says template.HTML) {
		if says != "" {
			l.Fields = append(l.Fields, fieldRow{term, says})
		}
	}
	text := func(words ...string) template.HTML {
		var kept []string
		for _, w := range words {
			if w != "" {
				kept = append(kept, w)
			}
		}
		return template.HTML(template.HTMLEscapeString(strings.Join(kept, ", ")))
	}
	add("Origin", text(im.Origin, im.Exporter))
	add("Import", template.HTML(`<a href="`+v.Href(address.Import(im.ID))+`">`+template.HTMLEscapeString(im.Season+", "+im.ID)+"</a>"))
	if p.Parent != nil {
		add("Cut from", template.HTML(`<a href="`+v.Href(address.Specimen(p.Parent.Specimen.ID))+`">`+template.HTMLEscapeString(p.Parent.Specimen.ID)+"</a>"+
			template.HTMLEscapeString(", "+partWords(p))))
	}
	if known := arrivalWords(im.Arrived); known != "" {
		add("Day 0", text("the first possible day", known))
	}
	if listedRow(p) {
		add("Kept as", text("a row of a list"))
	}
	add("As received", text(v.asReceived(p)...))
	if sp.SizeSold != "" {
		add("Sold as", text(sp.SizeSold))
	}
	if sp.Renamed.Known() {
		add("Renamed", text(sp.Renamed.InWords()))
	}
	if sp.Climate != "" {
		add("Climate", text(sp.Climate+"-growing"))
	}
	for _, t := range sp.Traits {
		add(said.Upper(t.Word), text(t.Value))
	}
	if v.s.Diary.Settings.PublishCosts {
		if landed, ok := v.s.Cohort.Landed(sp); ok {
			price := ""
			if sp.Price != nil {
				price = "price " + sp.Price.String()
			}
			add("Landed cost", text(landed.String(), price))
		}
	}
	return l
}

// asReceived tells how a plant came: its size and what its record of arrival says.
func (v view) asReceived(p *cohort.Part) []string {
	if p.Parent != nil {
		return nil
	}
	words := []string{p.Specimen.Size}
	record := p.Line.Arrival()
	for i := range p.Points {
		if pt := &p.Points[i]; record != nil && pt.Look == record {
			words = append(words, v.s.leafWords(record, pt), v.s.rootWords(record, pt), string(record.Turgor))
		}
	}
	return words
}
