package main

import (
	"fmt"
	"strings"

	"wardian/build/cohort"
	"wardian/build/opendata"
	english "wardian/build/said"
	"wardian/content/source"
)

// The plants of one diary in groups, side by side on one day.

// compare answers.
func (q comparing) compare(v voice, c *cohort.Cohort) error {
	scope, err := q.scope(c)
	if err != nil {
		return err
	}
	by, ok := c.Grouping(q.by)
	if !ok {
		return refused(c, c.Refuse(scope, q.by))
	}
	if by.Landmark && q.landmark >= q.at {
		return landmarkAhead(by, q)
	}
	r := q.adjusted(c, scope, by)
	costs := q.costsOf(v, c, r)
	switch {
	case q.asJSON:
		text, err := opendata.ComparisonJSON(r, costs)
		if err != nil {
			return err
		}
		_, err = v.out.Write(text)
		return err
	case q.csv:
		_, err := v.out.Write(opendata.ComparisonCSV(r, costs))
		return err
	}
	var beside []cohort.Comparison
	if by.Landmark {
		for _, day := range cohort.OtherLandmarks(q.landmark) {
			if day < q.at {
				beside = append(beside, c.Compare(scope, by, q.at, day))
			}
		}
	}
	return told(v, r, beside, costs)
}

func landmarkAhead(by cohort.Grouping, q comparing) error {
	return wrongUse{
		message: fmt.Sprintf("%s forms groups up to day %d, so that nothing can be compared on day %d", by.Word, q.landmark, q.at),
		next:    fmt.Sprintf("compare on a later day, such as --at %d", q.landmark+14),
	}
}

// adjusted compares, with the p adjusted for all words where it is one of those
// that the seasons page shows: over all imports and at the diary's own landmark.
func (q comparing) adjusted(c *cohort.Cohort, s cohort.Scope, by cohort.Grouping) cohort.Comparison {
	if len(q.imports) > 0 || by.Landmark && q.landmark != c.Diary.Settings.Landmark {
		return c.Compare(s, by, q.at, q.landmark)
	}
	for _, r := range c.Comparisons(s, q.at, c.Diary.Settings.Landmark) {
		if r.By.Word == by.Word {
			return r
		}
	}
	panic("wardian: a grouping that isn't among all groupings") // both come from the same list
}

// scope is the imports that were asked for; without any, all that may be pooled.
func (q comparing) scope(c *cohort.Cohort) (cohort.Scope, error) {
	if len(q.imports) == 0 {
		return c.All(), nil
	}
	s := cohort.Scope{Name: strings.Join(q.imports, ", ")}
	seen := map[string]bool{}
	for _, id := range q.imports {
		i := c.Diary.Import(id)
		if i == nil {
			var ids []string
			for _, i := range c.Diary.Imports {
				ids = append(ids, i.ID)
			}
			use := wrongUse{message: fmt.Sprintf("there is no import %q", id), next: "the imports: " + strings.Join(ids, ", ")}
			if near := source.Nearest(id, ids); near != "" {
				use.next = "nearest: " + near
			}
			return s, use
		}
		if seen[id] {
			continue
		}
		seen[id] = true
		one := c.Import(i)
		s.Imports, s.Lines, s.Undated = append(s.Imports, i), append(s.Lines, one.Lines...), append(s.Undated, one.Undated...)
	}
	return s, nil
}

// refused tells why lines can't be grouped by a word.
func refused(c *cohort.Cohort, r cohort.Refusal) error {
	var words []string
	for _, g := range c.Groupings() {
		words = append(words, g.Word)
	}
	use := wrongUse{message: fmt.Sprintf("nothing is grouped by %q", r.Word), next: "the words: " + strings.Join(words, ", ")}
	if r.Nearest != "" {
		use.next = "nearest: " + r.Nearest + "; all words: wardian compare --help"
	}
	if why := english.Refusal(r); why != "" {
		use.message += "\n" + why
	}
	return use
}
