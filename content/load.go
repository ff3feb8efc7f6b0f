package content

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"wardian/content/header"
	"wardian/content/measure"
	"wardian/content/source"
)

// A diary is read in one pass a file. Settings, places, imports and specimens
// come first, since check-ins name them; check-ins, of which there are many, are
// read by two workers; what ties files to each other (sections, references,
// links) is judged when all are known, and the walk in order of time comes last.
// YAML's trees are dropped file by file. Findings of every stage are collected:
// no stage is left out because one before it found something, only files that
// can't be read are.

// Options tell how a diary is read.
type Options struct {
	Today   measure.Day // days after it lie in the future; measure.NoDay: Now's day in the diary's time zone
	Now     time.Time   // read only without Today; the zero time: no day lies in the future
	Workers int         // check-ins read at once; 0 means two
}

// Load reads a diary and judges it. What is wrong with the diary is in the
// report; the error is for a disk that fails. The diary is never nil without an
// error, but fit for building only where the report holds no finding of
// severity Error.
func Load(root fs.FS, o Options) (*Diary, *source.Report, error) {
	l := newLoader(root, o)
	if err := l.load(); err != nil {
		return nil, nil, err
	}
	return l.diary, l.everything(), nil
}

// LoadFolder reads the diary in a folder of the disk. Nothing outside the folder
// is ever opened: a symbolic link that leads out of it is a finding.
func LoadFolder(folder string, o Options) (*Diary, *source.Report, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, nil, fmt.Errorf("opening the diary: %w", err)
	}
	defer root.Close()
	return Load(root.FS(), o)
}

// loader reads one diary.
type loader struct {
	folder
	diary   *Diary
	today   measure.Day
	now     time.Time
	workers int
	keeper  *Keeper // nil where nothing is kept
	base    ground

	photos    map[string]bool // the diary's pictures
	refused   map[string]bool // "specimen/ID": files and cuts that were refused, whose IDs are no news
	loggers   loggers
	listAmiss bool // what an import says of its list can't be read: a table that none names may be it
	noMoney   bool // it was told, or has another finding, that the diary names no currency

	ids      *idLists
	broken   map[*Specimen]bool // specimens whose front matter couldn't be read to its end
	undated  []*Entry           // entries without a day, or of nobody knows whom: they stand in no order
	searches *searches
	telling  *telling
	ledTo    map[string]bool             // diary paths that some words lead to
	dangling bool                        // some lead nowhere
	wrong    map[*Entry][]source.Finding // what is wrong with entries one by one; of files that are none, under nil
}

// ground is what entries are read against: the diary's settings, its pictures,
// its places and their loggers; and what was wrong with them.
type ground struct {
	settings Settings
	pictures []string
	places   []*Place
	refused  map[string]bool
	noMoney  bool
	wrong    []source.Finding
}

// searches counts, file by file, how often the nearest ID was looked for.
type searches struct {
	mu sync.Mutex
	of map[*source.File]int
}

func newLoader(root fs.FS, o Options) *loader {
	l := &loader{folder: folder{fs: root, report: &source.Report{}}, today: o.Today, now: o.Now, workers: max(o.Workers, 0),
		diary: &Diary{Settings: standard()}, refused: map[string]bool{}, photos: map[string]bool{}, broken: map[*Specimen]bool{}, ids: &idLists{}, searches: &searches{of: map[*source.File]int{}}, ledTo: map[string]bool{}, wrong: map[*Entry][]source.Finding{}}
	if l.workers == 0 {
		l.workers = 2
	}
	return l
}

// aside is the loader with another report.
func (l *loader) aside(report *source.Report) *loader {
	c := *l
	c.report = report
	return &c
}

// everything is all that was found wrong with the diary.
func (l *loader) everything() *source.Report {
	out := &source.Report{}
	for _, f := range l.report.Findings() {
		out.Add(nil, f)
	}
	for _, list := range l.wrong {
		for _, f := range list {
			out.Add(nil, f)
		}
	}
	l.telling.report(out)
	return out
}

func (l *loader) load() error {
	l.disk = openDisk(l.fs)
	defer l.disk.close()
	if err := l.readGround(); err != nil {
		return err
	}
	return l.readRest()
}

// readGround reads what entries are read against.
func (l *loader) readGround() error {
	d := l.diary
	if err := l.lookAround(); err != nil {
		return err
	}
	if err := l.readSettings(); err != nil {
		return err
	}
	if !l.today.Known() && !l.now.IsZero() {
		l.today = measure.DayOf(l.now.In(d.Settings.Zone))
	}
	d.Today = l.today
	if err := l.listPhotos(); err != nil {
		return err
	}
	if err := each(l, "places", func(f *source.File, id string) { d.Places = append(d.Places, l.place(f, id)) }); err != nil {
		return err
	}
	// The names of files, which are read in order, sort otherwise than IDs:
	// "spring-b.md" comes before "spring.md".
	slices.SortFunc(d.Places, func(a, b *Place) int { return cmpString(a.ID, b.ID) })
	if err := l.readLoggers(); err != nil {
		return err
	}
	l.base = ground{settings: d.Settings, pictures: d.Photos, places: d.Places, refused: maps.Clone(l.refused), noMoney: l.noMoney, wrong: l.report.Findings()}
	return nil
}

// takeBase begins a diary on what its entries are read against.
func (l *loader) takeBase() {
	b := l.base
	l.diary = &Diary{Today: l.today, Settings: b.settings, Places: b.places, Photos: b.pictures}
	l.refused, l.noMoney = maps.Clone(b.refused), b.noMoney
	for _, at := range b.pictures {
		l.photos[at] = true
	}
}

// readRest reads imports and specimens, entries and letters, and judges them.
func (l *loader) readRest() error {
	d := l.diary
	if err := each(l, "imports", func(f *source.File, id string) { d.Imports = append(d.Imports, l.importFile(f, id)) }); err != nil {
		return err
	}
	slices.SortFunc(d.Imports, func(a, b *Import) int { return cmpString(a.ID, b.ID) })
	if err := each(l, "specimens", func(f *source.File, id string) { d.Specimens = append(d.Specimens, l.specimen(f, id)) }); err != nil {
		return err
	}
	if err := l.readLists(); err != nil {
		return err
	}
	slices.SortFunc(d.Specimens, func(a, b *Specimen) int { return cmpString(a.ID, b.ID) })
	if err := l.entries(); err != nil {
		return err
	}
	l.tieSections()
	if err := each(l, "updates", func(f *source.File, id string) { d.Updates = append(d.Updates, l.update(f, id)) }); err != nil {
		return err
	}
	if err := each(l, "seasons", func(f *source.File, id string) { d.Seasons = append(d.Seasons, l.season(f, id)) }); err != nil {
		return err
	}
	slices.SortStableFunc(d.Updates, func(a, b *Update) int { return int(a.Date - b.Date) })
	slices.SortStableFunc(d.Seasons, func(a, b *SeasonWords) int { return strings.Compare(a.Season, b.Season) })
	l.references()
	l.links()
	l.judge()
	return l.readStyle()
}

// readSettings reads diary.yaml.
func (l *loader) readSettings() error {
	l.noMoney = true // until diary.yaml was read, and says none
	info, err := fs.Lstat(l.fs, "diary.yaml")
	if err != nil {
		return nil // reported by lookAround, where it isn't there
	}
	if info.Mode()&fs.ModeSymlink != 0 && !l.linked("diary.yaml") {
		return nil
	}
	data, err := l.read("diary.yaml", header.MaxFile)
	if err != nil || data == nil {
		return err
	}
	l.settings(source.New("diary.yaml", data))
	return nil
}

// listPhotos lists the diary's pictures.
func (l *loader) listPhotos() error {
	files, err := l.files("photos", true)
	if err != nil {
		return err
	}
	for _, f := range files {
		if picture(f) {
			l.diary.Photos = append(l.diary.Photos, f)
			l.photos[f] = true
		}
	}
	return nil
}

// each reads the Markdown files of a folder one after another, in the order of
// their names, which are their IDs.
func each(l *loader, name string, read func(f *source.File, id string)) error {
	files, err := l.markdown(name, false)
	if err != nil {
		return err
	}
	for _, at := range files {
		if lower := strings.ToLower(at); lower != at && slices.Contains(files, lower) {
			l.refused[strings.TrimSuffix(name, "s")+"/"+baseName(at)] = true
			l.fault("id-case", at, "this name differs from "+lower+" by the case of its letters alone", "names that stay apart on every disk", "name the file "+strings.ToLower(baseName(at))+"-2.md, or otherwise")
			continue
		}
		id := l.fileID(at)
		f, err := l.sheet(at)
		if err != nil {
			return err
		}
		if f == nil || id == "" {
			l.refused[strings.TrimSuffix(name, "s")+"/"+baseName(at)] = true
			continue
		}
		read(f, id)
	}
	return nil
}

// baseName is a file's name without its folders and without .md.
func baseName(at string) string {
	return strings.TrimSuffix(at[strings.LastIndexByte(at, '/')+1:], ".md")
}

// markdown lists the Markdown files of a folder; files of other kinds are passed
// over with a warning.
func (l *loader) markdown(name string, deep bool) ([]string, error) {
	files, err := l.files(name, deep)
	if err != nil {
		return nil, err
	}
	out := files[:0]
	for _, f := range files {
		if strings.HasSuffix(f, ".md") {
			out = append(out, f)
			continue
		}
		hint := "move it elsewhere"
		if ext := strings.ToLower(f); strings.HasSuffix(ext, ".md") || strings.HasSuffix(ext, ".markdown") || strings.HasSuffix(ext, ".txt") {
			hint = "name it " + f[strings.LastIndexByte(f, '/')+1:strings.LastIndexByte(f, '.')] + ".md"
		}
		l.fault("passed-over", f, "only Markdown files are read in "+name, "a file ending in .md", hint)
	}
	return out, nil
}

// entries reads the check-ins.
func (l *loader) entries() error {
	files, err := l.markdown("check-ins", true)
	if err != nil {
		return err
	}
	l.placeIDs() // made once, before the workers ask for it
	read := make([]readEntry, len(files))
	failed := make([]error, l.workers)
	var next atomic.Int64
	var workers sync.WaitGroup
	for w := range l.workers {
		workers.Go(func() {
			for {
				n := int(next.Add(1)) - 1
				if n >= len(files) {
					return
				}
				if read[n], failed[w] = l.entryAt(files[n]); failed[w] != nil {
					return
				}
			}
		})
	}
	workers.Wait()
	for _, err := range failed {
		if err != nil {
			return err
		}
	}
	for _, r := range read {
		e := r.entry
		if len(r.wrong) > 0 {
			l.wrong[e] = append(l.wrong[e], r.wrong...)
		}
		switch {
		case e == nil:
		case e.dated():
			l.diary.Entries = append(l.diary.Entries, e)
		default:
			l.undated = append(l.undated, e)
		}
	}
	slices.SortStableFunc(l.diary.Entries, inOrder)
	return nil
}

// readEntry is an entry as it was read; nil where the file can't be one.
type readEntry struct {
	entry *Entry
	wrong []source.Finding
}

// entryAt reads a file under check-ins/.
func (l *loader) entryAt(at string) (readEntry, error) {
	report := &source.Report{}
	aside := l.aside(report)
	f, err := aside.sheet(at)
	if err != nil || f == nil {
		return readEntry{wrong: report.Findings()}, err
	}
	if had, ok := l.keeper.entry(f); ok {
		return had, nil
	}
	read := readEntry{entry: aside.entry(f)}
	read.wrong = report.Findings()
	l.keeper.keepEntry(f, read)
	return read, nil
}

// dated says whether an entry stands in the diary's order: its day is known, and
// whom it speaks for.
func (e *Entry) dated() bool { return e.When.Known() && !e.unread }

// sheet reads a Markdown file; nil, without an error, for one that was reported.
func (l *loader) sheet(at string) (*source.File, error) {
	if f := l.keeper.fresh(at); f != nil {
		return f, nil
	}
	data, err := l.read(at, header.MaxFile)
	if err != nil || data == nil {
		return nil, err
	}
	return l.keeper.file(at, data), nil
}
