package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"wardian/build"
	"wardian/build/preview"
	"wardian/content/source"
)

// teller says in the terminal what each change came to: at length the findings
// that weren't there before, then one line.
type teller struct {
	v       voice
	address string // of the site
	began   bool
	wrong   map[string]bool // what was told and isn't mended
}

func (t *teller) told(c preview.Told) {
	var report source.Report
	for _, f := range c.Findings {
		report.Add(nil, f)
	}
	wrong := map[string]bool{}
	for _, f := range report.Findings() {
		long := f.Long()
		if !t.wrong[long] {
			fmt.Fprintf(t.v.talk, "%s\n", long)
		}
		wrong[long] = true
	}
	fault := ""
	if c.Err != nil {
		fault = plainly(c.Err)
		wrong[fault] = true
	}
	c.Paths = slices.DeleteFunc(slices.Clone(c.Paths), func(p preview.Path) bool { return p.Kind == preview.Passing })
	// What an editor writes for a moment while it saves is no change by itself.
	if !t.began || c.All || len(c.Paths) > 0 || c.Anew > 0 || !maps.Equal(wrong, t.wrong) {
		t.v.say(t.line(c, &report, fault, len(t.wrong) > 0 && len(wrong) == 0))
	}
	t.began, t.wrong = true, wrong
}

// line tells a change: what, what came of it, how long it took.
func (t *teller) line(c preview.Told, report *source.Report, fault string, mended bool) string {
	parts := []string{t.what(c)}
	errors := report.Errors()
	switch warnings := len(report.Findings()) - errors; {
	case fault != "":
		parts = append(parts, fault)
	case errors > 0 && warnings > 0:
		parts = append(parts, counted(errors, "error", "errors"), counted(warnings, "warning", "warnings"))
	case errors > 0:
		parts = append(parts, counted(errors, "error", "errors"))
	case warnings > 0:
		parts = append(parts, counted(warnings, "warning", "warnings"))
	case mended:
		parts = append(parts, "all mended")
	}
	switch {
	case c.Site == nil && t.began:
		parts = append(parts, "the pages stay as they were")
	case c.Site == nil:
		parts = append(parts, "the site comes when this is mended")
	case t.began && c.Open == 0:
		parts = append(parts, "no page is open")
	case t.began:
		parts = append(parts, fmt.Sprintf("%d of %s made anew", c.Anew, counted(c.Open, "open page", "open pages")))
	}
	parts = append(parts, roundly(c.Took))
	if at := where(c); at != "" && t.began && c.Anew == 0 {
		parts = append(parts, "it stands at "+t.address+at)
	}
	return strings.Join(parts, "; ")
}

// where is the site path at which the one file that changed is shown; "" where
// there are several, or it is shown nowhere.
func where(c preview.Told) string {
	sight, ok := c.Site.(*build.Sight)
	if !ok || len(c.Paths) != 1 || c.Paths[0].Kind == preview.Gone {
		return ""
	}
	return sight.Where(c.Paths[0].Name)
}

// what names the paths that changed, the first few of many.
func (t *teller) what(c preview.Told) string {
	const most = 3
	switch {
	case !t.began:
		return "the diary was read"
	case c.All && len(c.Paths) != 1:
		return "much changed at once"
	}
	if len(c.Paths) == 0 {
		return "something came and went"
	}
	var parts []string
	for i, p := range c.Paths {
		if i == most && len(c.Paths) > most+1 {
			parts = append(parts, fmt.Sprintf("%d more", len(c.Paths)-most))
			break
		}
		parts = append(parts, fmt.Sprintf("%s %s", p.Name, p.Kind))
	}
	return strings.Join(parts, ", ")
}

// roundly is a time to two figures, as far as a person cares.
func roundly(d time.Duration) string {
	switch {
	case d < 10*time.Millisecond:
		return d.Round(100 * time.Microsecond).String()
	case d < time.Second:
		return d.Round(time.Millisecond).String()
	}
	return d.Round(10 * time.Millisecond).String()
}
