package cohort

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// kept makes a cohort of a diary told in short, read as a folder is. A line of
// text is an import, "import ID DATE [keys]", or a plant of the import named last:
// "ID [keys]: DAY words; DAY words …", words as in a round. Keys stand in braces
// as in YAML. Day 0's round is the record of arrival. Places: bin, tub (a soak),
// shelf, and mat (a bin with bottom heat). "asof DAY" lets somebody look at a plant
// of the import named last on that day, which stands in no group: it is local and
// in an import of its own.
func kept(t testing.TB, text string) *Cohort {
	t.Helper()
	b := strings.Builder{}
	b.WriteString("\n== diary.yaml\nname: A test\ntime-zone: UTC\ncurrency: NOK\n")
	for id, keys := range map[string]string{"bin": "stage: bin", "tub": "stage: soak", "shelf": "stage: room", "mat": "stage: bin\nbottom-heat: yes"} {
		fmt.Fprintf(&b, "== places/%s.md\n---\nname: %s\n%s\n---\n", id, id, keys)
	}
	asOf := ""
	var day0 measure.Day
	box := ""
	rounds := map[string][]string{} // by "day|box"
	arrival := map[string]bool{}
	for _, row := range strings.Split(strings.TrimSpace(text), "\n") {
		row = strings.TrimSpace(row)
		head, looks, _ := strings.Cut(row, ": ")
		if open := strings.Index(row, "{"); open >= 0 && open < strings.Index(row+": ", ": ") {
			head, looks, _ = strings.Cut(row+":", "}:")
			head, looks = head+"}", strings.TrimSuffix(looks, ":")
		}
		words, keys, _ := strings.Cut(strings.TrimSuffix(head, ":"), "{")
		keys = strings.TrimSuffix(keys, "}")
		fields := strings.Fields(words)
		switch fields[0] {
		case "import":
			box = fields[1]
			first, _, _ := strings.Cut(fields[2], "..")
			day, trouble := measure.ParseDay(first)
			require.Nil(t, trouble)
			day0 = day
			fmt.Fprintf(&b, "== imports/%s.md\n---\narrived: %s\n%s\n---\n", box, fields[2], yamlLines(keys, "season: 2026 spring"))
			continue
		case "asof":
			n, err := strconv.Atoi(fields[1])
			require.NoError(t, err)
			asOf = (day0 + measure.Day(n)).String()
			continue
		}
		id := fields[0]
		fmt.Fprintf(&b, "== specimens/%s.md\n---\nimport: %s\n%s\n---\n", id, box, yamlLines(keys, "name: Hoya siariae"))
		for _, look := range strings.Split(looks, ";") {
			if look = strings.TrimSpace(look); look == "" {
				continue
			}
			at, said, ok := strings.Cut(look, " ")
			require.True(t, ok, look)
			offset, clock, timed := strings.Cut(at, "@")
			n, err := strconv.Atoi(offset)
			require.NoError(t, err, look)
			date := (day0 + measure.Day(n)).String()
			if timed {
				date += " " + clock
			}
			key := date + "|" + box
			if strings.HasPrefix(said, "{") {
				said = strings.ReplaceAll(said, "&", ";")
			}
			rounds[key] = append(rounds[key], "  "+id+": "+said)
			arrival[key] = arrival[key] || n == 0
		}
	}
	for _, key := range slices.Sorted(maps.Keys(rounds)) {
		date, box, _ := strings.Cut(key, "|")
		path := strings.NewReplacer(" ", "-", ":", "").Replace(date)
		extra := ""
		if arrival[key] {
			extra = "arrival: yes\n"
		}
		fmt.Fprintf(&b, "== check-ins/%s-%s.md\n---\ndate: %s\n%sspecimens:\n%s\n---\n", path, box, date, extra, strings.Join(rounds[key], "\n"))
	}
	if asOf != "" {
		fmt.Fprintf(&b, "== imports/nearby.md\n---\nseason: nearby\narrived: %s\nlocal: yes\n---\n== specimens/nearby-1.md\n---\nname: Hoya siariae\nimport: nearby\n---\n== check-ins/z.md\n---\ndate: %s\nspecimen: nearby-1\n---\n", asOf, asOf)
	}
	return At(readDiary(t, b.String()), measure.NoDay)
}

// yamlLines gives keys in braces, parted by "|", as lines, with one more unless it is among them.
func yamlLines(keys, otherwise string) string {
	var lines []string
	name, _, _ := strings.Cut(otherwise, ":")
	seen := false
	for _, k := range strings.Split(keys, "|") {
		if k = strings.TrimSpace(k); k != "" {
			lines = append(lines, k)
			seen = seen || strings.HasPrefix(k, name+":")
		}
	}
	if !seen {
		lines = append(lines, otherwise)
	}
	return strings.Join(lines, "\n")
}

// many repeats a plant: "small*5 {size: small}: looks" with IDs small-1 to small-5.
func many(name string, n int, keys, looks string) string {
	var rows []string
	for i := 1; i <= n; i++ {
		rows = append(rows, fmt.Sprintf("%s-%d {%s}: %s", name, i, keys, looks))
	}
	return strings.Join(rows, "\n") + "\n"
}

// by gives a grouping that must be there.
func (c *Cohort) by(t testing.TB, word string) Grouping {
	t.Helper()
	g, ok := c.Grouping(word)
	require.True(t, ok, word)
	return g
}
