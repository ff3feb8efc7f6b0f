package opendata

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strings"

	"wardian/build/cohort"
)

// The shape of a Data Package 2.0 (datapackage.org/standard/data-package, 2024),
// as far as it is used here. Field order is the order in the file.
type (
	dataPackage struct {
		Schema      string         `json:"$schema"`
		Name        string         `json:"name"`
		Title       string         `json:"title"`
		Description string         `json:"description"`
		Version     string         `json:"version"`
		Created     string         `json:"created,omitempty"`
		Homepage    string         `json:"homepage,omitempty"`
		Licenses    []license      `json:"licenses,omitempty"`
		Contributor []contributor  `json:"contributors,omitempty"`
		Diary       diaryTerms     `json:"diary"`
		Resources   []dataResource `json:"resources"`
	}
	// diaryTerms are ours, as the standard allows: the days by which this grower
	// judges, counted from arrival.
	diaryTerms struct {
		Horizon    int  `json:"horizon"`
		Landmark   int  `json:"landmark"`
		SeenWithin *int `json:"seen_within"` // null: by the place, see places.csv
	}
	contributor struct {
		Title string   `json:"title"`
		Roles []string `json:"roles"`
	}
	license struct {
		Name string `json:"name"`
	}
	dataResource struct {
		Name        string      `json:"name"`
		Type        string      `json:"type"`
		Path        string      `json:"path"`
		Description string      `json:"description"`
		Format      string      `json:"format"`
		Mediatype   string      `json:"mediatype"`
		Encoding    string      `json:"encoding"`
		Bytes       int         `json:"bytes"`
		Hash        string      `json:"hash"`
		Schema      tableSchema `json:"schema"`
	}
	tableSchema struct {
		Schema        string           `json:"$schema"`
		Fields        []schemaField    `json:"fields"`
		PrimaryKey    []string         `json:"primaryKey"`
		ForeignKeys   []schemaForeign  `json:"foreignKeys,omitempty"`
		MissingValues []labelledAbsent `json:"missingValues"`
	}
	schemaField struct {
		Name        string       `json:"name"`
		Type        string       `json:"type"`
		Description string       `json:"description"`
		Unit        string       `json:"unit,omitempty"`
		Provenance  provenance   `json:"provenance"`
		Categories  []string     `json:"categories,omitempty"`
		Constraints *constraints `json:"constraints,omitempty"`
	}
	constraints struct {
		Required bool `json:"required"`
	}
	schemaForeign struct {
		Fields    []string         `json:"fields"`
		Reference foreignReference `json:"reference"`
	}
	foreignReference struct {
		Resource string   `json:"resource,omitempty"`
		Fields   []string `json:"fields"`
	}
	labelledAbsent struct {
		Value string `json:"value"`
		Label string `json:"label"`
	}
)

// describe writes the descriptor. It is dated by the as-of day, not by a clock.
func describe(c *cohort.Cohort, resources []resource) ([]byte, error) {
	settings := c.Diary.Settings
	p := dataPackage{
		Schema: "https://datapackage.org/profiles/2.0/datapackage.json",
		Name:   "plant-import-diary",
		Title:  settings.Name,
		Description: "The public figures of a plant-import diary. A text that opens with = + - @ or a tab has an apostrophe put in front, " +
			"so that no spreadsheet takes it for a formula. Units of fields stand under unit, where their values are from under provenance; the days by which this grower judges, counted from arrival, under diary.",
		Version:  "1.1.0",
		Homepage: settings.Address,
	}
	if c.AsOf.Known() {
		p.Created = c.AsOf.String() + "T00:00:00Z"
	}
	if settings.Licence != "" {
		p.Licenses = []license{{Name: settings.Licence}}
	}
	p.Diary = diaryTerms{Horizon: settings.Horizon, Landmark: settings.Landmark, SeenWithin: given(settings.SeenWithin, settings.SeenWithin >= 0)}
	if settings.Grower != "" {
		p.Contributor = []contributor{{Title: settings.Grower, Roles: []string{"creator"}}}
	}
	for _, r := range resources {
		p.Resources = append(p.Resources, r.describe())
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(p)
	return b.Bytes(), err
}

func (r resource) describe() dataResource {
	sum := sha256.Sum256(r.data)
	d := dataResource{
		Name: r.name, Type: "table", Path: r.name + ".csv", Description: r.says,
		Format: "csv", Mediatype: "text/csv", Encoding: "utf-8", Bytes: len(r.data), Hash: "sha256:" + hex.EncodeToString(sum[:]),
		Schema: tableSchema{
			Schema: "https://datapackage.org/profiles/2.0/tableschema.json", PrimaryKey: r.key,
			MissingValues: []labelledAbsent{{Value: "", Label: "not known, or does not exist"}},
		},
	}
	for _, f := range r.fields {
		s := schemaField{Name: f.name, Type: f.kind, Description: strings.ToUpper(f.says[:1]) + f.says[1:] + ".", Unit: f.unit, Provenance: cmp.Or(f.from, r.from)}
		if f.kind == "string" {
			s.Categories = f.words
		}
		if f.required {
			s.Constraints = &constraints{Required: true}
		}
		d.Schema.Fields = append(d.Schema.Fields, s)
	}
	for _, k := range r.foreign {
		ref := foreignReference{Resource: k.resource, Fields: []string{k.of}}
		if k.resource == r.name {
			ref.Resource = "" // a table's own rows are meant where none is named
		}
		d.Schema.ForeignKeys = append(d.Schema.ForeignKeys, schemaForeign{Fields: []string{k.field}, Reference: ref})
	}
	return d
}
