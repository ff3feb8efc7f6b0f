package cohort

import (
	"strings"

	"wardian/content"
)

// Earlier is what became of the lines before that are in one respect like plants
// of an order: counts and causes, and no share, since a few plants of one kind say
// little and the forecast takes no account of them.
type Earlier struct {
	By   string // "species", "genus", "size" or "exporter"
	Word string // "Hoya obovata", "Hoya", "small", "exporter B"
	Shares
	Lost []CauseRow
	// Apart counts lines like them that aren't among these: of imports bought
	// nearby, or whose diary began late.
	Apart int
}

// earlier looks up every species, genus and size of an order, each once and in the
// order's order, and its exporter.
func (c *Cohort) earlier(o *content.Order) []Earlier {
	var out []Earlier
	seen := map[string]bool{}
	add := func(by, word string, like func(*Line) bool) {
		if key := by + " " + plainName(word); word != "" && !seen[key] {
			seen[key] = true
			out = append(out, c.whatBecame(by, word, like))
		}
	}
	for _, p := range o.Lines {
		if named(p.Name) {
			add("species", p.Name, func(l *Line) bool { return plainName(l.Specimen.Name) == plainName(p.Name) })
		}
	}
	for _, p := range o.Lines {
		genus := genusOf(p.Name)
		add("genus", genus, func(l *Line) bool { return plainName(genusOf(l.Specimen.Name)) == plainName(genus) })
	}
	for _, size := range sizeBands {
		for _, p := range o.Lines {
			if p.Size == size {
				add("size", size, func(l *Line) bool { return l.Specimen.Size == size })
			}
		}
	}
	add("exporter", o.Exporter, func(l *Line) bool { return l.Import().Exporter == o.Exporter })
	return out
}

// whatBecame counts the lines that are alike.
func (c *Cohort) whatBecame(by, word string, like func(*Line) bool) Earlier {
	s := Scope{Name: word}
	e := Earlier{By: by, Word: word}
	for _, l := range c.Lines {
		switch {
		case !like(l):
		case Pooled(l.Import()):
			s.Lines = append(s.Lines, l) // causes need no day
		default:
			e.Apart++
		}
	}
	e.Shares, e.Lost = s.Shares(), s.Causes()
	return e
}

// named tells whether a name is of one species: "Hoya" and "Hoya sp." may each
// be of any.
func named(name string) bool {
	words := strings.Fields(plainName(name))
	if len(words) < 2 {
		return false
	}
	last := words[len(words)-1]
	return last != "sp." && last != "sp" && last != "spp." && last != "species"
}

// plainName is a name as names are compared: without the case of its letters, the
// x of a hybrid as its sign.
func plainName(name string) string {
	words := strings.Fields(strings.ToLower(name))
	for n, w := range words {
		if w == "x" {
			words[n] = "×"
		}
	}
	return strings.Join(words, " ")
}
