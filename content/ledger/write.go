package ledger

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// asWritten heads the column of what wasn't understood. No import names it, so
// that nothing of it is read or shown.
const asWritten = "as written"

var plainID = regexp.MustCompile(`^[a-z0-9][a-z0-9-]*$`)

// GiveIDs gives every row an ID: the sheet's own where it can be one and is free,
// else a new one. free says whether an ID may be used and is asked once for each.
func (s *Sheet) GiveIDs(free func(id string) bool) {
	used := map[string]bool{}
	take := func(id string) bool {
		if used[id] || !plainID.MatchString(id) || !free(id) {
			return false
		}
		used[id] = true
		return true
	}
	for _, p := range s.Parcels {
		for _, row := range p.Rows {
			written := row.Cells[ID]
			id := strings.ToLower(strings.ReplaceAll(written, " ", "-"))
			row.Cells[ID] = ""
			switch {
			case written == "":
			case regexp.MustCompile(`^[0-9]+$`).MatchString(id): // a number alone is a row's, not a plant's
				row.keep(ID, written)
			case take(id):
				row.Cells[ID] = id
			default:
				row.Told = append(row.Told, "the ID: "+quote(written)+" is taken or can't be one; it gets another")
				row.keep(ID, written)
			}
		}
	}
	for _, p := range s.Parcels {
		n := 0
		for _, row := range p.Rows {
			for row.Cells[ID] == "" {
				n++
				if id := fmt.Sprintf("%s-%02d", p.prefix(), n); take(id) {
					row.Cells[ID] = id
				}
			}
		}
	}
}

var digits = regexp.MustCompile(`[0-9]{4}`)

// prefix opens the IDs of a parcel: a letter of its season and two digits of its
// year, "a23".
func (p *Parcel) prefix() string {
	year := digits.FindString(p.Season)
	if year == "" && p.Arrived.Known() {
		year = p.Arrived.First.String()[:4]
	}
	letter := "l" // for list
	for _, c := range strings.ToLower(p.Season) {
		if c >= 'a' && c <= 'z' {
			letter = string(c)
			break
		}
	}
	if len(year) == 4 {
		year = year[2:]
	}
	return letter + year
}

// Stem is the parcel's season as a file's name: "2023-autumn".
func (p *Parcel) Stem() string {
	return strings.Trim(regexp.MustCompile(`[^a-z0-9]+`).ReplaceAllString(strings.ToLower(p.Season), "-"), "-")
}

// Table writes the parcel's rows as a list, and gives the roles of its columns,
// each headed by its role's key.
func (p *Parcel) Table() (data []byte, columns []Role) {
	columns = []Role{ID, Name}
	as := false
	for _, role := range Roles()[Size:] {
		if slices.ContainsFunc(p.Rows, func(r *Taken) bool { return r.Cells[role] != "" }) {
			columns = append(columns, role)
		}
	}
	header := []string{}
	for _, role := range columns {
		header = append(header, role.String())
	}
	for _, r := range p.Rows {
		as = as || len(r.As) > 0
	}
	if as {
		header = append(header, asWritten)
	}
	for _, h := range p.Kept { // a kept column can't be taken for one of ours
		for slices.ContainsFunc(header, func(had string) bool { return strings.EqualFold(had, h) }) {
			h += " (kept)"
		}
		header = append(header, defused(h))
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write(header) // writing into memory can't fail
	for _, r := range p.Rows {
		var cells []string
		for _, role := range columns {
			cells = append(cells, defused(r.Cells[role]))
		}
		if as {
			cells = append(cells, defused(strings.Join(r.As, "; ")))
		}
		for _, c := range r.Kept {
			cells = append(cells, defused(c))
		}
		w.Write(cells)
	}
	w.Flush()
	return b.Bytes(), columns
}

// defused puts an apostrophe before a text that a spreadsheet would take for a
// formula; reading takes it off again.
func defused(s string) string {
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}

// Import writes the file of an import that names the parcel's table.
func (p *Parcel) Import(table string, columns []Role) string {
	var b strings.Builder
	season := p.Season
	if !regexp.MustCompile(`^[\p{L}\p{N}][\p{L}\p{N} ]*$`).MatchString(season) {
		season = "'" + strings.ReplaceAll(season, "'", "''") + "'"
	}
	fmt.Fprintf(&b, "---\nseason: %s\narrived: %s\nlist: {file: %s", season, p.Arrived.Written, table)
	for _, role := range columns {
		fmt.Fprintf(&b, ", %s: %s", role, role)
	}
	b.WriteString("}\n---\n")
	return b.String()
}
