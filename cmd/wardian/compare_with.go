package main

import (
	"cmp"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"wardian/build/abroad"
	"wardian/build/cohort"
	"wardian/build/opendata"
	"wardian/content/source"
)

// Two growers side by side. What each of them published is read through one door,
// ours too: it is published in memory first. So both are counted by the same
// definitions, and nothing of ours is told that our site doesn't tell. They are
// never pooled, and no difference or p is made of them: other hands, windows and
// eyes are in it.

// sideBySide answers compare --with.
func (q comparing) sideBySide(v voice, c *cohort.Cohort) error {
	theirs, err := openDataOf(v, q.with)
	if err != nil {
		return err
	}
	var compared []cohort.Comparison
	if q.by != "" {
		by, ok := c.Grouping(q.by)
		if !ok {
			return refused(c, c.Refuse(c.All(), q.by))
		}
		q.by = by.Word
		if by.Landmark && q.landmark >= q.at {
			return landmarkAhead(by, q)
		}
		compared = append(compared, c.Compare(c.All(), by, q.at, q.landmark))
	}
	files, err := opendata.Files(c, compared)
	if err != nil {
		return err
	}
	memory := map[string][]byte{}
	for _, f := range files {
		memory[f.Name] = f.Bytes
	}
	var report source.Report
	ours := abroad.ReadFiles(memory, &report)
	if ours == nil {
		return v.findings(&report)
	}
	b := opendata.Beside{Day: q.at, Diaries: []opendata.SideOfTwo{sideOf("ours", ours, q), sideOf("theirs", theirs, q)}}
	if q.by != "" {
		b.By = &q.by
	}
	switch {
	case q.asJSON:
		text, err := b.JSON()
		if err != nil {
			return err
		}
		_, err = v.out.Write(text)
		return err
	case q.csv:
		_, err := v.out.Write(b.CSV())
		return err
	}
	return besideTold(v, b)
}

// openDataOf reads and judges a published folder; the folder of a whole site will
// do. What is wrong with it is told, and ends the command as errors of a diary do.
func openDataOf(v voice, dir string) (*abroad.Diary, error) {
	info, err := os.Stat(dir)
	switch {
	case err != nil:
		return nil, wrongUse{message: dir + " is not there", next: "name the folder in which another grower's " + abroad.Descriptor + " stands"}
	case !info.IsDir():
		return nil, wrongUse{message: dir + " is a file", next: "name the folder in which " + abroad.Descriptor + " stands"}
	}
	if inside := filepath.Join(dir, "open-data"); !isThere(filepath.Join(dir, abroad.Descriptor)) && isThere(filepath.Join(inside, abroad.Descriptor)) {
		dir = inside // a whole site was named
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	var report source.Report
	d, err := abroad.Read(root.FS(), &report)
	if err != nil {
		return nil, err
	}
	if d == nil {
		return nil, v.findings(&report)
	}
	return d, nil
}

func isThere(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// fates are the words of specimens.csv.
var fates = map[string]cohort.Fate{abroad.Alive: cohort.Open, abroad.Lost: cohort.Lost, abroad.PassedOn: cohort.PassedOn, abroad.NotSeen: cohort.NotSeen}

// sideOf counts one grower's lines.
func sideOf(side string, d *abroad.Diary, q comparing) opendata.SideOfTwo {
	out := opendata.SideOfTwo{Side: side, Diary: d.Title, Licences: []string{}, Causes: []opendata.CauseCount{}, Groups: []opendata.SideGroup{}, Places: []opendata.PlaceBeside{}}
	out.Licences = append(out.Licences, d.Licences...)
	if d.Homepage != "" {
		out.Homepage = &d.Homepage
	}
	if d.AsOf.Known() {
		day := d.AsOf.String()
		out.AsOf = &day
	}
	if t := d.Terms; t != nil {
		out.Horizon, out.Landmark = &t.Horizon, &t.Landmark
		if t.SeenWithin >= 0 {
			out.SeenWithin = &t.SeenWithin
		}
	}
	var lines []cohort.Elsewhere
	causes := map[string]int{}
	for _, l := range d.Lines {
		switch {
		case !l.Pooled:
			out.Apart++
		case l.Undated:
			out.Undated++
		default:
			lines = append(lines, cohort.Elsewhere{Import: l.Import, Fate: fates[l.Fate], Day: l.Day, AsOfDay: l.AsOfDay})
			if l.Fate == abroad.Lost && l.Day <= q.at {
				causes[cmp.Or(l.Cause, "not said")]++
			}
		}
	}
	out.All = wholeOf(cohort.GroupElsewhere(lines, q.at), q.at)
	for _, cause := range slices.Sorted(maps.Keys(causes)) {
		out.Causes = append(out.Causes, opendata.CauseCount{Cause: cause, N: causes[cause]})
	}
	slices.SortStableFunc(out.Causes, func(a, b opendata.CauseCount) int { return cmp.Compare(b.N, a.N) })
	for _, g := range d.Groups {
		if q.by != "" && g.By == q.by {
			out.Groups = append(out.Groups, opendata.SideGroup{Name: g.Name, Day: g.Horizon, Landmark: g.Landmark, Imports: g.Imports, N: g.N, Lost: g.Lost, Left: g.Left,
				Alive: g.AliveAt, Unknown: g.UnknownAt, Share: g.Share, Lower: g.Lower, Upper: g.Upper})
		}
	}
	for _, p := range d.Places {
		place := opendata.PlaceBeside{ID: p.ID, Name: p.Name, Stage: p.Stage, Humidity: p.Humidity, Temperature: p.Temperature, BottomHeat: p.BottomHeat, Quarantine: p.Quarantine}
		if p.CheckEvery > 0 {
			place.CheckEvery = &p.CheckEvery
		}
		out.Places = append(out.Places, place)
	}
	return out
}

// wholeOf is all of a grower's lines on a day.
func wholeOf(g cohort.Group, day int) opendata.SideGroup {
	out := opendata.SideGroup{Day: day, Imports: len(g.Imports), N: g.N, Lost: g.Lost, Left: g.Left}
	if g.Ripe && g.N > 0 {
		out.Alive, out.Unknown = &g.Alive, &g.Unknown
	}
	if g.HasShare() {
		out.Share = &g.Row.Share
		if g.Row.HasLimits {
			out.Lower, out.Upper = &g.Row.Lower, &g.Row.Upper
		}
	}
	return out
}
