package opendata

// resource is one table with what describes it.
type resource struct {
	name, says string
	fields     []field
	key        []string // fields that name a row
	foreign    []foreignKey
	data       []byte
	rows       int
	from       provenance // of the columns that don't say their own
}

// provenance says where a column's values are from.
type provenance string

const (
	written   provenance = "written by the grower"
	workedOut provenance = "worked out by Wardian from what the grower wrote, as the site's method page tells"
)

// field describes a column in the terms of Table Schema 2.0.
type field struct {
	name, kind string   // kind: string, integer, number, date, boolean
	unit       string   // "" where the figure has none
	says       string   // the definition
	words      []string // all words that can stand here; nil where they are open
	required   bool
	from       provenance // "" as the table's
}

// foreignKey says that the values of a field stand in another table.
type foreignKey struct{ field, resource, of string }

// column is a field with the function that fills it from one row's subject.
type column[T any] struct {
	field
	fill func(T) cell
}

// fillTable writes a table of rows by its columns.
func fillTable[T any](name, says string, columns []column[T], rows []T) resource {
	r := resource{name: name, says: says, rows: len(rows)}
	header := make([]string, len(columns))
	for i, c := range columns {
		r.fields = append(r.fields, c.field)
		header[i] = c.name
	}
	t := newTable(header)
	row := make([]cell, len(columns))
	for _, subject := range rows {
		for i, c := range columns {
			row[i] = c.fill(subject)
		}
		t.add(row...)
	}
	r.data = t.bytes()
	return r
}
