package content

import (
	"bytes"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"wardian/content/measure"
	"wardian/content/source"
	"wardian/themes"
)

// Keeper reads one diary again and again while it is written, and does no part of
// it twice: what a file says is kept as long as its bytes are the same, entries as
// long as what they are read against is, and where only entries changed, only the
// specimens that they concern are told anew. What it gives is what Load gives, to
// the last finding. It may be used by one goroutine at a time; the diaries that
// it gave stay as they are.
type Keeper struct {
	mu      sync.Mutex
	sheets  map[string]*sheet    // by path
	entries map[string]readEntry // by path
	own     []*source.File       // own templates that were judged last
	faults  []*themes.Fault      // what is wrong with them
	last    *loader              // the last reading that came to its end

	reading int             // counts them
	all     bool            // this reading: anything may have changed
	stale   map[string]bool // else: what did
}

// sheet is a file and what was made of it.
type sheet struct {
	file    *source.File
	opened  *opened // nil where it wasn't asked for
	wrong   []source.Finding
	reading int // that asked for it last
}

// NewKeeper keeps nothing yet.
func NewKeeper() *Keeper {
	return &Keeper{sheets: map[string]*sheet{}, entries: map[string]readEntry{}}
}

// Load reads the diary. changed are the paths that differ from the reading before,
// those of files and of folders that came or went; nil says that any may. After
// an error everything is read anew.
func (k *Keeper) Load(root fs.FS, o Options, changed []string) (*Diary, *source.Report, error) {
	last := k.last
	k.last = nil
	if last != nil && changed != nil && last.today == last.dayOf(o) {
		l, err := k.again(last, root, o, changed)
		if err != nil {
			return nil, nil, err
		}
		if l != nil {
			k.last = l
			return l.diary, l.everything(), nil
		}
	}
	l := newLoader(root, o)
	l.keeper = k
	k.all, k.stale = changed == nil || last == nil, map[string]bool{}
	for _, at := range changed {
		k.stale[at] = true
	}
	k.reading++
	if last != nil && changed != nil && last.today == last.dayOf(o) && !slices.ContainsFunc(changed, grounds) {
		l.standOn(last)
	} else {
		clear(k.entries)
		if err := l.readGround(); err != nil {
			return nil, nil, err
		}
	}
	if err := l.readRest(); err != nil {
		return nil, nil, err
	}
	k.forget()
	k.last = l
	return l.diary, l.everything(), nil
}

// dayOf is the day that options make today of the diary that was read.
func (l *loader) dayOf(o Options) measure.Day {
	if o.Today.Known() || o.Now.IsZero() {
		return o.Today
	}
	return measure.DayOf(o.Now.In(l.diary.Settings.Zone))
}

// grounds says whether entries are read against what stands at a path.
func grounds(at string) bool {
	top, _, _ := strings.Cut(at, "/")
	return !slices.Contains([]string{"check-ins", "imports", "specimens", "lists", "updates", "seasons", "style"}, top)
}

// standOn takes over what entries are read against.
func (l *loader) standOn(last *loader) {
	for _, f := range last.base.wrong {
		l.report.Add(nil, f)
	}
	l.today, l.base = last.today, last.base
	l.takeBase()
}

// forget lets go of files that this reading didn't ask for.
func (k *Keeper) forget() {
	for at, s := range k.sheets {
		if s.reading != k.reading {
			delete(k.sheets, at)
			delete(k.entries, at)
		}
	}
}

// fresh gives a file whose bytes are surely those kept; nil where they may not be.
// A Keeper that is nil keeps nothing.
func (k *Keeper) fresh(at string) *source.File {
	if k == nil {
		return nil
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	s := k.sheets[at]
	if s == nil || k.all || k.stale[at] {
		return nil
	}
	s.reading = k.reading
	return s.file
}

// file makes a file of what was read, the same as before where the bytes are.
func (k *Keeper) file(at string, data []byte) *source.File {
	if k == nil {
		return source.New(at, data)
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	s := k.sheets[at]
	if s == nil || !bytes.Equal(s.file.Bytes, data) {
		s = &sheet{file: source.New(at, data)}
		k.sheets[at] = s
	}
	s.reading = k.reading
	return s.file
}

// opened gives a file's front matter and words as they were read, and what was
// wrong with them.
func (k *Keeper) opened(f *source.File) (o opened, wrong []source.Finding, ok bool) {
	if k == nil {
		return opened{}, nil, false
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	s := k.sheets[f.Path]
	if s == nil || s.file != f || s.opened == nil {
		return opened{}, nil, false
	}
	return *s.opened, s.wrong, true
}

func (k *Keeper) keepOpened(f *source.File, o opened, wrong []source.Finding) {
	if k == nil {
		return
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if s := k.sheets[f.Path]; s != nil && s.file == f {
		s.opened, s.wrong = &o, wrong
	}
}

// entry gives an entry that was read from a file of these bytes against what
// entries are still read against.
func (k *Keeper) entry(f *source.File) (readEntry, bool) {
	if k == nil {
		return readEntry{}, false
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	had, ok := k.entries[f.Path]
	return had, ok && had.entry.File == f
}

func (k *Keeper) keepEntry(f *source.File, read readEntry) {
	if k == nil {
		return
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	k.entries[f.Path] = read
}
