package build_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
)

// numberWords are small numbers as pages write them.
var numberWords = strings.Fields("no one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty")

func numberOf(t *testing.T, word string) int {
	t.Helper()
	for n, w := range numberWords {
		if strings.EqualFold(w, word) {
			return n
		}
	}
	n, err := strconv.Atoi(word)
	require.NoError(t, err, "%q is no number", word)
	return n
}

// flowOf is the sentence that says where everybody received went.
var flowOf = regexp.MustCompile(`(?:^|[.!] )([A-Z]?\w+) received, (\w+) looked at(?:: ([^.]+))?\.`)

// C4: who came is followed to what became of each: received, looked at, lost, passed
// on, not seen since, under watch; the parts add up (STROBE 13 and 14: von Elm et
// al. 2007, PLoS Med 4:e296).
func TestC4WhereEverybodyWent(t *testing.T) {
	told := 0
	eachPage(t, func(name string, root *html.Node) {
		for _, m := range flowOf.FindAllStringSubmatch(textIn(root), -1) {
			received, looked := numberOf(t, m[1]), numberOf(t, m[2])
			assert.LessOrEqual(t, looked, received, name)
			sum := 0
			for _, part := range regexp.MustCompile(`(\w+) (lost|passed on|not seen since|under watch)`).FindAllStringSubmatch(m[3], -1) {
				sum += numberOf(t, part[1])
			}
			assert.Equal(t, looked, sum, "%s: %s", name, m[0])
			told++
		}
	})
	assert.Greater(t, told, 5)
}

// C4, in the tables: at the stated days, under watch or known alive, lost, passed on
// and not seen make up all lines, and so do alive, lost and unknown of a group.
func TestC4RowsAddUp(t *testing.T) {
	rows := 0
	ofN := regexp.MustCompile(`^(\d+) of (\d+)`)
	eachPage(t, func(name string, root *html.Node) {
		for _, table := range find(root, named("table")) {
			d := tableIn(table)
			count := func(row int, column string) int {
				n, err := strconv.Atoi(d.get(row, column))
				require.NoError(t, err, "%s: %s %v", name, column, d.rows[row])
				return n
			}
			for i := range d.rows {
				switch {
				case d.has("day", "lost", "passed on", "not seen", "alive") && ofN.MatchString(d.get(i, "alive")):
					m := ofN.FindStringSubmatch(d.get(i, "alive"))
					alive, n := numberOf(t, m[1]), numberOf(t, m[2])
					assert.Equal(t, n, alive+count(i, "lost")+count(i, "passed on")+count(i, "not seen"), "%s: %v", name, d.rows[i])
					rows++
				case d.has("lines", "alive", "lost", "unknown") && ofN.MatchString(d.get(i, "alive")):
					m := ofN.FindStringSubmatch(d.get(i, "alive"))
					alive, n := numberOf(t, m[1]), numberOf(t, m[2])
					assert.Equal(t, n, count(i, "lines"), "%s: %v", name, d.rows[i])
					assert.Equal(t, n, alive+count(i, "lost")+count(i, "unknown"), "%s: %v", name, d.rows[i])
					rows++
				}
			}
		}
	})
	assert.Greater(t, rows, 50)
}

var (
	limitWords  = regexp.MustCompile(`(?:95% limits|limits drawn from 0 to 100%|drawn from 0 to 100%)`)
	percentage  = regexp.MustCompile(`\d ?%`)
	aShare      = regexp.MustCompile(`\b\d+ of \d+\b`)
	withDecimal = regexp.MustCompile(`\d\.\d+ ?%`)
	ofStudies   = regexp.MustCompile(`: (?:index|(?:compare|seasons|imports)/.*)\.html$`)
)

// C5: a share stands with its counts, "9 of 12", never as a bare percentage, and
// without decimals that few plants can't bear (SAMPL: Lang and Altman 2015, Int J
// Nurs Stud 52:5-9; limits: Brown, Cai and DasGupta 2001, Stat Sci 16:101-133).
// The table under a drawing has its counts in the same row.
func TestC5NoBarePercentage(t *testing.T) {
	met := 0
	eachPage(t, func(name string, root *html.Node) {
		if !ofStudies.MatchString(name) {
			return
		}
		for _, block := range find(root, func(n *html.Node) bool {
			return n.Data == "p" || n.Data == "li" || n.Data == "tr" || n.Data == "dd" || n.Data == "h1" || n.Data == "h2" || n.Data == "caption"
		}) {
			if hasClass(block, "said") || hasClass(block, "letter") || inGrowersWords(block) {
				continue
			}
			var b strings.Builder
			outsidePictures(block, &b)
			text := limitWords.ReplaceAllString(strings.Join(strings.Fields(b.String()), " "), "")
			text = bandName.ReplaceAllString(text, "")
			if !percentage.MatchString(text) {
				continue
			}
			met++
			assert.NotRegexp(t, withDecimal, text, name)
			if cells := tableRow(block); cells != nil && (cells.has("under watch", "lost", "share") || cells.has("waiting before", "reached it", "lost")) || aShare.MatchString(text) {
				continue
			}
			t.Errorf("%s: a bare percentage: %s", name, text)
		}
	})
	assert.Greater(t, met, 100)
}

// bandName is the name of a group of lines: a band of the share that was cut.
var bandName = regexp.MustCompile(`\b(?:0|1–33|34–66|67–100) %`)

func inGrowersWords(n *html.Node) bool {
	for up := n; up != nil; up = up.Parent {
		if hasClass(up, "said") || hasClass(up, "letter") || hasClass(up, "amended") {
			return true
		}
	}
	return false
}

// outsidePictures is the text of an element but for drawings in it.
func outsidePictures(n *html.Node, b *strings.Builder) {
	if n.Data == "svg" {
		return
	}
	if n.Type == html.TextNode {
		b.WriteString(n.Data + " ")
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		outsidePictures(c, b)
	}
}

// tableRow is the table that a row stands in.
func tableRow(n *html.Node) *drawnTable {
	if n.Data != "tr" {
		return nil
	}
	for up := n.Parent; up != nil; up = up.Parent {
		if up.Data == "table" {
			d := tableIn(up)
			return &d
		}
	}
	return nil
}

var (
	aP       = regexp.MustCompile(`\bp (?:is )?(\d[\d.]*\d|\d)`)
	ofMethod = regexp.MustCompile(`p \d[\d.]*(?:: | \()permutation log-rank(?: for a trend over the ordered groups)?, (?:every reshuffle counted|\d+ reshuffles drawn)\)`)
)

// C6: a p has two figures and its method, and is never 0 (SAMPL; Phipson and Smyth
// 2010, Stat Appl Genet Mol Biol 9:39).
func TestC6EveryPHasTwoFiguresAndAMethod(t *testing.T) {
	met := 0
	eachPage(t, func(name string, root *html.Node) {
		if !ofStudies.MatchString(name) {
			return
		}
		text := textIn(root)
		found := aP.FindAllStringSubmatch(text, -1)
		if len(found) == 0 {
			return
		}
		assert.Len(t, ofMethod.FindAllString(text, -1), len(found)-strings.Count(text, "(Holm)"), "%s: each p with its method", name)
		for _, m := range found {
			met++
			p, err := strconv.ParseFloat(m[1], 64)
			require.NoError(t, err, "%s: %s", name, m[0])
			assert.Greater(t, p, 0.0, "%s: %s", name, m[0])
			assert.LessOrEqual(t, p, 1.0, "%s: %s", name, m[0])
			figures := strings.TrimLeft(strings.Replace(m[1], ".", "", 1), "0")
			assert.True(t, len(figures) <= 2 || p == 1, "%s: %s has more than two figures", name, m[0])
		}
	})
	assert.Greater(t, met, 5)
	for name, s := range refereed(t) {
		for _, row := range readTable(t, s["open-data/comparisons.csv"]).rows {
			for _, column := range []string{"p", "p_adjusted"} {
				if row[column] == "" {
					continue
				}
				p, err := strconv.ParseFloat(row[column], 64)
				require.NoError(t, err)
				assert.True(t, p > 0 && p <= 1, "%s: %v", name, row)
				assert.NotEmpty(t, row["method"], "%s: %v", name, row)
			}
			assert.True(t, (row["p"] == "") == (row["reason"] != ""), "%s: a p or the reason why none: %v", name, row)
		}
	}
}

// C7: groups are formed by what was known on arrival or by a landmark; who was lost
// before it is counted, and two other landmarks stand beside it (Anderson, Cain and
// Gelber 1983, J Clin Oncol 1:710-719; Dafni 2011, Circ Cardiovasc Qual Outcomes
// 4:363-371).
func TestC7LandmarksAreTold(t *testing.T) {
	landmarks, known := 0, 0
	comparePage := regexp.MustCompile(`: compare/[^/]+\.html$`)
	eachPage(t, func(name string, root *html.Node) {
		if !comparePage.MatchString(name) || strings.HasSuffix(name, "index.html") {
			return
		}
		text := textIn(root)
		m := regexp.MustCompile(`Groups as of day (\d+), from what was written down by then`).FindStringSubmatch(text)
		if m == nil {
			assert.Regexp(t, `Known of (?:each plant on arrival|the parcel when it came)`, text, name)
			known++
			return
		}
		landmarks++
		diary, _, _ := strings.Cut(name, ": ")
		if lostBy(t, refereed(t)[diary], numberOf(t, m[1])) > 0 {
			assert.Contains(t, text, "lost by then", name)
		}
		if !strings.Contains(text, "The grower chose which plants got this") {
			assert.Contains(t, text, "No p", name)
		}
		others := regexp.MustCompile(`With groups as of day (\d+) instead`).FindAllStringSubmatch(text, -1)
		var days []string
		for _, o := range others {
			days = append(days, o[1])
			assert.NotEqual(t, m[1], o[1], name)
		}
		if strings.HasPrefix(name, "the example") {
			assert.Equal(t, []string{"7", "14"}, days, name)
		}
	})
	assert.Greater(t, known, 10)
	assert.Greater(t, landmarks, 5)
}

// lostBy counts, in survival.csv, the lines of all pooled imports that were lost by
// a day.
func lostBy(t *testing.T, s site, day int) int {
	t.Helper()
	lost := 0
	for _, row := range readTable(t, s["open-data/survival.csv"]).rows {
		if row["scope"] == "all" && row["group_by"] == "" && numberOf(t, row["day"]) <= day {
			lost += numberOf(t, row["lost"])
		}
	}
	return lost
}

// C9: alive and lost stand side by side, counts first, then the difference, then the
// p, then what it can't say (Gigerenzer 2011, BMJ 343:d6386; Spiegelhalter 2017,
// Annu Rev Stat Appl 4:31-60).
func TestC9CountsFirstThenTheirLimits(t *testing.T) {
	met := 0
	eachPage(t, func(name string, root *html.Node) {
		for _, h := range find(root, named("h2")) {
			if !strings.Contains(name, ": compare/") || textIn(h) != "What they can and can’t bear" {
				continue
			}
			text, _, _ := strings.Cut(textIn(h.Parent), "With groups as of day")
			at := func(pattern string) int {
				if loc := regexp.MustCompile(pattern).FindStringIndex(text); loc != nil {
					return loc[0]
				}
				return -1
			}
			last := -1
			for _, pattern := range []string{`\d+ of \d+ (?:known )?alive and \w+ lost`, `[Pp]ut as plants in a hundred`, `\(p \d|No p:`, `Plants weren’t dealt|The grower chose|as if plants of one parcel|Whatever else`} {
				if i := at(pattern); i >= 0 {
					assert.Greater(t, i, last, "%s: %s", name, fmt.Sprintf("%q comes too early", pattern))
					last = i
				}
			}
			if strings.Contains(text, " alive") {
				assert.Regexp(t, `\d+ of \d+ (?:known )?alive and \w+ lost`, text, name)
				met++
			}
		}
	})
	assert.Greater(t, met, 5)
}
