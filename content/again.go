package content

import (
	"io/fs"
	"slices"
	"strings"

	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

// again reads the diary where nothing but entries changed, and those in ways that
// reach no further than the specimens they name; nil, without an error, where
// something else did. Sections are made by cuts, undated entries stand in no
// order, and a link may lead to an entry that came or went: these ask for more.
func (k *Keeper) again(last *loader, root fs.FS, o Options, changed []string) (*loader, error) {
	l := last.aside(&source.Report{})
	l.fs = root
	var gone []*Entry
	var come []readEntry
	for _, at := range changed {
		if strings.Contains(at, "/.") {
			continue
		}
		had, known := k.entries[at]
		f, there, fits, err := k.changedSheet(l, at)
		switch {
		case err != nil:
			return nil, err
		case !there && !known && entered(at) && !last.speaksOf(at) && !k.holds(at):
			continue // it came and went, and was never met
		case !fits || !there && !known:
			return nil, nil
		case there && f == nil || known && there && had.entry.File == f:
			continue // a folder, or the same bytes
		case known && !had.entry.alone(), !known && len(last.wrong[nil]) > 0:
			return nil, nil
		case known:
			gone = append(gone, had.entry)
		}
		if !there || !known {
			if last.dangling || last.ledTo[strings.TrimSuffix(at, ".md")] {
				return nil, nil
			}
		}
		if !there {
			continue
		}
		own := &source.Report{}
		e := l.aside(own).entry(f)
		if !e.alone() {
			return nil, nil
		}
		come = append(come, readEntry{e, own.Findings()})
	}
	l.report = last.report
	l.change(gone, come)
	for _, e := range gone {
		delete(k.entries, e.File.Path)
	}
	for _, r := range come {
		k.entries[r.entry.File.Path] = r
	}
	return l, nil
}

// entered says whether a path lies where entries do.
func entered(at string) bool { return strings.HasPrefix(at, "check-ins/") }

// holds says whether the file of a path is kept, or any below it.
func (k *Keeper) holds(at string) bool {
	if k.sheets[at] != nil {
		return true
	}
	for path := range k.sheets {
		if strings.HasPrefix(path, at+"/") {
			return true
		}
	}
	return false
}

// speaksOf says whether any finding is about what lies at a path or below it.
func (l *loader) speaksOf(at string) bool {
	about := func(f source.Finding) bool { return f.File == at || strings.HasPrefix(f.File, at+"/") }
	return slices.ContainsFunc(l.report.Findings(), about) || slices.ContainsFunc(l.wrong[nil], about)
}

// changedSheet reads a path that changed. fits is false where it is neither a
// Markdown file under check-ins nor a folder there that was empty or unknown.
func (k *Keeper) changedSheet(l *loader, at string) (f *source.File, there, fits bool, err error) {
	if !entered(at) {
		return nil, false, false, nil
	}
	markdown := strings.HasSuffix(at, ".md")
	info, err := fs.Lstat(l.fs, at)
	switch {
	case err != nil:
		return nil, false, markdown, nil // gone
	case info.IsDir():
		// The files that are in it are named one by one. Of what was in it when it
		// was read last, and went before anybody listed it, none is.
		return nil, true, !k.holds(at), nil
	case !info.Mode().IsRegular() || !markdown:
		return nil, true, false, nil
	}
	data, err := l.read(at, header.MaxFile)
	if err != nil || data == nil {
		return nil, true, false, err
	}
	return k.file(at, data), true, true, nil
}

// alone says whether what an entry says reaches no further than the specimens that
// it concerns: it stands in the diary's order, and cuts no sections.
func (e *Entry) alone() bool {
	return e.dated() && !slices.ContainsFunc(e.Named, func(c *CheckIn) bool { return len(c.CutInto) > 0 })
}

// change puts entries in the place of others, and tells anew whom they concern.
func (l *loader) change(gone []*Entry, come []readEntry) {
	d := *l.diary
	d.Entries = slices.Clone(d.Entries)
	for _, e := range gone {
		if at, found := slices.BinarySearchFunc(d.Entries, e, inOrder); found {
			d.Entries = slices.Delete(d.Entries, at, at+1)
		}
	}
	entered := make([]*Entry, len(come))
	for n, r := range come {
		entered[n] = r.entry
		at, _ := slices.BinarySearchFunc(d.Entries, r.entry, inOrder)
		d.Entries = slices.Insert(d.Entries, at, r.entry)
	}
	l.diary = &d
	for _, e := range gone {
		delete(l.wrong, e)
		delete(l.searches.of, e.File)
	}
	t := &targets{l: l}
	for _, r := range come {
		if len(r.wrong) > 0 {
			l.wrong[r.entry] = slices.Clone(r.wrong)
		}
		l.ties(r.entry, t)
	}
	l.telling.change(&d, gone, entered)
	d.told = l.telling.timelines()
}

// change tells a diary anew in which some entries stand in the place of others:
// the lines of the specimens that either concern, and every entry that speaks of
// one of these.
func (t *telling) change(d *Diary, gone, come []*Entry) {
	t.diary = d
	lines := map[*Specimen]bool{}
	concerned := func(id string) {
		if p := t.byID[id]; p != nil {
			lines[p.Specimen.Root()] = true
		}
	}
	for _, e := range slices.Concat(gone, come) {
		e.eachMention(func(id string, _ mentioned) { concerned(id) })
		if e.speaksForAll() {
			for _, p := range t.plants {
				if p.stood(e.Place, e.When.Day) {
					concerned(p.Specimen.ID)
				}
			}
		}
		e.eachPhoto(func(p Photo) { concerned(t.index.owner[p.Path]) })
	}
	for _, e := range gone {
		t.index.leave(e)
		delete(t.spoken, e)
	}
	for _, e := range come {
		t.index.enter(e)
	}
	again := map[*Entry]bool{}
	var anew []*plant
	for n, p := range t.plants {
		if !lines[p.Specimen.Root()] {
			continue
		}
		for _, l := range p.Looks {
			again[l.Entry] = true
			if _, there := t.spoken[l.Entry]; there && !l.Named && !l.Cutting {
				t.spoken[l.Entry]--
			}
		}
		q := t.newPlant(p.Specimen)
		t.plants[n], t.byID[p.Specimen.ID] = q, q
		anew = append(anew, q)
	}
	for _, p := range anew {
		t.follow(p)
		for _, l := range p.Looks {
			again[l.Entry] = true
		}
		for _, m := range t.index.of[p.Specimen.ID] {
			again[m.entry] = true
		}
	}
	for _, e := range come {
		again[e] = true
	}
	for _, e := range gone {
		delete(again, e)
		delete(t.verdicts, e)
	}
	for e := range again {
		t.judge(e)
	}
}

// stood says whether a specimen stood at a place at some time of a day.
func (p *plant) stood(at *Place, day measure.Day) bool {
	return slices.ContainsFunc(p.Stays, func(s Stay) bool {
		return s.Place == at && s.From.Day <= day && (!s.Until.Known() || s.Until.Day >= day)
	})
}
