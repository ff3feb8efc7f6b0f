package paper

import (
	"html/template"

	"wardian/build/cohort"
	"wardian/build/taxon"
	"wardian/content"
	"wardian/content/measure"
)

// rowsOnSheet is how many plants a round sheet holds: with fewer the lines would
// be easier to write on, with more a finger's width is no longer left.
const rowsOnSheet = 5

// Sheets makes the round sheets of places, one after another, two on a page: all
// living plants that stand there at the end of the day that the cohort was told
// to, in standing order. on is the day that plants' days are counted to. An odd
// number of sheets leaves a half with lines for notes.
func Sheets(c *cohort.Cohort, places []*content.Place, on measure.Day, size Size) ([]byte, error) {
	var halves []half
	for _, place := range places {
		halves = append(halves, sheetsOf(c, place, on)...)
	}
	if len(halves)%2 == 1 {
		halves = append(halves, half{})
	}
	data := sheetData{
		Title: "Round sheets", Style: size.style(true, rowsOnSheet), Degrees: "°C",
		Boxes: []string{"same", "firm", "soft", "limp", "resting", "new root", "new leaf"},
		Fills: [][]fill{
			{{"leaves", ""}, {"dropped", ""}, {"cut", "leaves"}, {"roots", ""}, {"longest", ""}, {"cut", "% roots"}},
			{{"rot", ""}, {"pests", ""}, {"to", ""}, {"medium", ""}, {"outcome", ""}},
		},
		Ruled: make([]struct{}, 18),
		// Common practice, no source; the diary's own scale.
		Grades: "0 none, 1 stubs, 2 few short, 3 several, 4 many, 5 fills the pot",
	}
	if c.Diary.Settings.Units.Fahrenheit {
		data.Degrees = "°F"
	}
	if len(places) == 1 {
		data.Title = "Round sheet: " + places[0].Name
	}
	for n := 0; n < len(halves); n += 2 {
		data.Pages = append(data.Pages, halves[n:n+2])
	}
	return set("sheet.html", data)
}

type sheetData struct {
	Title, Degrees, Grades string
	Style                  template.CSS
	Boxes                  []string
	Fills                  [][]fill
	Ruled                  []struct{}
	Pages                  [][]half
}

// fill is a phrase with a gap to write in: "cut __ leaves".
type fill struct{ Before, After string }

// half is one round sheet; without rows it is for notes.
type half struct {
	Place, ID  string
	Number, Of int
	Rows       []row
}

// row is one plant's.
type row struct {
	ID   string
	Name template.HTML
	Day  int
	On   string
	Last string
}

func sheetsOf(c *cohort.Cohort, place *content.Place, on measure.Day) []half {
	plants := c.Standing(place)
	of := (len(plants) + rowsOnSheet - 1) / rowsOnSheet
	halves := make([]half, of)
	for n := range halves {
		halves[n] = half{Place: place.Name, ID: place.ID, Number: n + 1, Of: of}
	}
	for n, p := range plants {
		last := p.KnownWords(c.Diary.Settings.Units)
		if last == "" {
			last = "no figures yet"
		}
		h := &halves[n/rowsOnSheet]
		h.Rows = append(h.Rows, row{ID: p.Specimen.ID, Name: taxon.Name(p.Specimen.NameOn(on)), Last: last,
			Day: int(on - p.Specimen.Root().Import.Day0()), On: on.Time().Format("2 Jan")})
	}
	return halves
}
