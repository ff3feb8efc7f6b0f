package chart

import (
	"strconv"
)

// countRow is a row of counts under the axis.
type countRow struct {
	name, quiet string
	count       func(day int) int
	from        int
}

// lines are the row's name, broken where it is longer than the narrowest plot.
func (r countRow) lines() []string { return breakLines(r.name, narrowPx+padRight, true) }

// countRowsPx is the height of the rows.
func countRowsPx(rows []countRow) float64 {
	h := 0.0
	for _, r := range rows {
		h += countRowPx + float64(max(0, len(r.lines())-1))*countLinePx
	}
	return h
}

// countRows writes the rows, each under its name, on the days with words.
func (c *canvas) countRows(y float64, rows []countRow) {
	for _, r := range rows {
		lines := r.lines()
		for i, l := range lines {
			y += countLinePx
			quiet := ""
			if i == len(lines)-1 {
				quiet = r.quiet
			}
			c.textPlus(0, 0, y-4, start, "b", l, quiet)
		}
		if len(lines) == 0 {
			y += countLinePx
		}
		y += countRowPx - countLinePx
		for _, l := range dayLabels(int(c.days)) {
			if l.day < r.from {
				continue
			}
			class := ""
			if l.wide {
				class = "wide"
			}
			c.text(float64(l.day), 0, y-8, middle, class, strconv.Itoa(r.count(l.day)))
		}
	}
}

// groupHead stands over the counts of several groups.
var groupHead = [...]string{"under watch as those days begin;", "lost and left alive before them"}

const (
	groupRowPx  = 17  // a line of figures
	groupGapPx  = 8   // between two groups
	groupWordDx = -36 // the words of a row begin in the plot's padding
)

// groupNameLines are a group's name, broken where it is longer than the narrowest
// plot.
func groupNameLines(c stepCurve) []string {
	if lines := breakLines(c.Name, narrowPx+padRight, true); len(lines) > 0 {
		return lines
	}
	return []string{""} // a name of blanks alone
}

// groupCountsPx is the height of the counts of several groups.
func groupCountsPx(cs []stepCurve) float64 {
	h := float64(len(groupHead) * countLinePx)
	for _, c := range cs {
		h += float64(len(groupNameLines(c))*countLinePx + 3*groupRowPx + groupGapPx)
	}
	return h
}

// groupCounts writes, for each group, those under watch, lost and left on the days
// with words: together the group's n (KMunicate: Morris et al. 2019). The words of
// the two lower rows stand where day 0 would say that nobody was lost or left
// before it.
func (c *canvas) groupCounts(y float64, cs []stepCurve) {
	for _, words := range groupHead {
		y += countLinePx
		c.text(0, groupWordDx, y-4, start, "q", words)
	}
	for _, s := range cs {
		y += groupGapPx
		for _, l := range groupNameLines(s) {
			y += countLinePx
			c.text(0, groupWordDx, y-4, start, "b", l)
		}
		for row, words := range [...]string{"", "lost", "left alive"} {
			y += groupRowPx
			if words != "" {
				c.text(0, groupWordDx, y-5, start, "q", words)
			}
			for _, l := range dayLabels(int(c.days)) {
				if l.day < s.From || l.day == 0 && row > 0 {
					continue
				}
				class := ""
				if l.wide {
					class = "wide"
				}
				atRisk, lost, left := s.counts(l.day)
				c.text(float64(l.day), 0, y-5, middle, class, strconv.Itoa([...]int{atRisk, lost, left}[row]))
			}
		}
	}
}
