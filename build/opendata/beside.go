package opendata

import (
	"bytes"
	"encoding/json"
)

// Two growers' figures side by side, as JSON and CSV. The figures come ready made:
// this file knows how they are written and nothing of where they are from.

type (
	// Beside is two growers side by side on one day. Nothing in it is of both.
	Beside struct {
		Day     int         `json:"day"`
		By      *string     `json:"by"`
		Diaries []SideOfTwo `json:"diaries"`
	}
	// SideOfTwo is one of the growers. A pointer is null where there is no such
	// figure.
	SideOfTwo struct {
		Side       string        `json:"side"` // ours, theirs
		Diary      string        `json:"diary"`
		Homepage   *string       `json:"homepage"`
		Licences   []string      `json:"licences"`
		AsOf       *string       `json:"as_of"`
		Horizon    *int          `json:"horizon"`
		Landmark   *int          `json:"landmark"`
		SeenWithin *int          `json:"seen_within"`
		All        SideGroup     `json:"all"`
		Causes     []CauseCount  `json:"causes"`
		Apart      int           `json:"apart"`
		Undated    int           `json:"undated"`
		Groups     []SideGroup   `json:"groups"`
		Places     []PlaceBeside `json:"places"`
	}
	// SideGroup is a grower's lines, whole or of one group, on a day of theirs.
	SideGroup struct {
		Name     string   `json:"name"`
		Day      int      `json:"day"`
		Landmark *int     `json:"landmark"`
		Imports  int      `json:"imports"`
		N        int      `json:"n"`
		Lost     int      `json:"lost"`
		Left     int      `json:"left"`
		Alive    *int     `json:"alive_at"`
		Unknown  *int     `json:"unknown_at"`
		Share    *float64 `json:"share"`
		Lower    *float64 `json:"lower"`
		Upper    *float64 `json:"upper"`
	}
	// CauseCount is a cause of loss and how many lines were lost to it by the day.
	CauseCount struct {
		Cause string `json:"cause"`
		N     int    `json:"n"`
	}
	// PlaceBeside is a place as its grower defines it.
	PlaceBeside struct {
		ID          string   `json:"id"`
		Name        string   `json:"name"`
		Stage       string   `json:"stage"`
		Humidity    *float64 `json:"humidity"`
		Temperature *float64 `json:"temperature"`
		BottomHeat  bool     `json:"bottom_heat"`
		Quarantine  bool     `json:"quarantine"`
		CheckEvery  *int     `json:"check_every"`
	}
)

// JSON writes both sides as one object.
func (b Beside) JSON() ([]byte, error) {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(b)
	return out.Bytes(), err
}

type besideRow struct {
	b Beside
	s SideOfTwo
	g SideGroup
}

var besideColumns = []column[besideRow]{
	{field{name: "side", kind: "string", required: true, says: "ours or theirs", words: []string{"ours", "theirs"}}, func(r besideRow) cell { return text(r.s.Side) }},
	{field{name: "diary", kind: "string", required: true, says: "the diary's name"}, func(r besideRow) cell { return text(r.s.Diary) }},
	{field{name: "by", kind: "string", says: "the word by which lines are grouped; empty for all lines"}, func(r besideRow) cell {
		if r.b.By == nil || r.g.Name == "" {
			return missing
		}
		return text(*r.b.By)
	}},
	{field{name: "group", kind: "string", says: "the group; empty for all lines"}, func(r besideRow) cell { return text(r.g.Name) }},
	{field{name: "day", kind: "integer", unit: "days since arrival", required: true, says: "the day on which this grower's lines are counted"}, func(r besideRow) cell { return whole(r.g.Day) }},
	{field{name: "landmark", kind: "integer", unit: "days since arrival", says: "the day up to which records form groups"}, func(r besideRow) cell { return optionalWhole(r.g.Landmark) }},
	{field{name: "imports", kind: "integer", unit: "imports", required: true, says: "imports with a line in the group"}, func(r besideRow) cell { return whole(r.g.Imports) }},
	{field{name: "n", kind: "integer", unit: "lines", required: true, says: "lines in the group"}, func(r besideRow) cell { return whole(r.g.N) }},
	{field{name: "lost", kind: "integer", unit: "lines", required: true, says: "found lost up to the day"}, func(r besideRow) cell { return whole(r.g.Lost) }},
	{field{name: "left", kind: "integer", unit: "lines", required: true, says: "left alive before it"}, func(r besideRow) cell { return whole(r.g.Left) }},
	{field{name: "alive_at", kind: "integer", unit: "lines", says: "known alive on it; empty where not all have been followed so far"}, func(r besideRow) cell { return optionalWhole(r.g.Alive) }},
	{field{name: "unknown_at", kind: "integer", unit: "lines", says: "of which nothing is known on it"}, func(r besideRow) cell { return optionalWhole(r.g.Unknown) }},
	{field{name: "share", kind: "number", says: "share alive on it, as in groups.csv"}, func(r besideRow) cell { return optional(r.g.Share) }},
	{field{name: "lower", kind: "number", says: "its lower 95 % limit"}, func(r besideRow) cell { return optional(r.g.Lower) }},
	{field{name: "upper", kind: "number", says: "its upper 95 % limit"}, func(r besideRow) cell { return optional(r.g.Upper) }},
}

// CSV writes a row for each side, and behind it one for each of its groups.
func (b Beside) CSV() []byte {
	var rows []besideRow
	for _, s := range b.Diaries {
		rows = append(rows, besideRow{b, s, s.All})
		for _, g := range s.Groups {
			rows = append(rows, besideRow{b, s, g})
		}
	}
	return fillTable("beside", "A row is one grower's lines, all or of one group.", besideColumns, rows).data
}
