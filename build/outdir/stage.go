package outdir

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
)

// Names inside the stage. The evidence is written first and removed last, so that a stage with anything in it can
// be told from somebody's own folder of that name.
const (
	evidenceName   = "made-by-wardian"
	newSiteName    = "site"
	oldSiteName    = "old"
	journalName    = "journal"
	journalNewName = "journal.new"
)

// Stage is a site being made beside its target. WriteFile may be called by several goroutines; Commit
// or Discard ends it, and what is called after that does nothing but say so.
type Stage struct {
	disk   disk
	shown  string   // the target as it was given
	target string   // the same, resolved
	parent string   // the folder that holds it
	work   string   // the stage's own folder
	made   []string // parents that didn't exist
	lock   *lock
	old    site

	writing sync.RWMutex // held shared by each WriteFile, alone by Commit and Discard
	done    bool

	mu      sync.Mutex
	files   map[string]bool   // what was written
	claimed map[string]string // folded path of each file and folder → its spelling
	folder  map[string]bool   // folded paths that are folders
	written int
	same    int
	failed  error // the first write that failed: such a stage is never committed
}

// Open takes the target's lock, puts right what an interrupted build left, and opens a stage beside it. Missing
// folders above the target are made. The error is a *Refused for a target that isn't ours to replace,
// ErrBusy (errors.Is) if another build holds it, and otherwise the disk's.
func Open(target string, opts Options) (*Stage, error) {
	return open(target, opts, osDisk{})
}

func open(target string, opts Options, d disk) (*Stage, error) {
	full, err := resolve(target, opts)
	if err != nil {
		return nil, err
	}
	s := &Stage{
		disk: d, shown: target, target: full, parent: filepath.Dir(full),
		work:    beside(full, "stage"),
		files:   map[string]bool{},
		claimed: map[string]string{},
		folder:  map[string]bool{},
	}
	if s.made, err = makeParents(d, s.parent); err != nil {
		s.unmake()
		return nil, fmt.Errorf("make the folders above %s: %w", target, err)
	}
	if s.lock, err = d.lock(beside(full, "lock")); err != nil {
		s.unmake()
		return nil, fmt.Errorf("open a stage for %s: %w", target, err)
	}
	// Nothing beside a folder that isn't ours is mended or cleared either.
	if _, err := look(full, target); err != nil {
		return nil, errors.Join(err, s.letGo())
	}
	if err := s.begin(); err != nil {
		return nil, errors.Join(err, s.end())
	}
	return s, nil
}

// begin does what needs the lock.
func (s *Stage) begin() (err error) {
	if err := s.recover(); err != nil {
		return err
	}
	if s.old, err = look(s.target, s.shown); err != nil {
		return err
	}
	if err := s.disk.mkdir(s.work, stageMode); err != nil {
		return fmt.Errorf("open a stage beside %s: %w", s.shown, err)
	}
	if err := writeFile(s.disk, s.in(evidenceName), nil, false); err != nil {
		return fmt.Errorf("open a stage beside %s: %w", s.shown, err)
	}
	if err := s.disk.mkdir(s.in(newSiteName), dirMode); err != nil {
		return fmt.Errorf("open a stage beside %s: %w", s.shown, err)
	}
	return nil
}

// beside names a file of ours next to a path: .NAME.wardian-KIND.
func beside(path, kind string) string {
	return filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".wardian-"+kind)
}

func (s *Stage) in(name string) string { return filepath.Join(s.work, name) }

// WriteFile adds one file to the site. The path is relative to the site's folder, with slashes. A path that
// leaves the site, was written before, differs from another in case or Unicode form only, lies under a
// file, or has a name that some system can't write, is an error; and after any error the stage can't be
// committed.
func (s *Stage) WriteFile(path string, data []byte) error {
	s.writing.RLock()
	defer s.writing.RUnlock()
	if s.done {
		return fmt.Errorf("write %s: the stage of %s is closed", path, s.shown)
	}
	err := s.claim(path)
	if err == nil {
		if err = writeFile(s.disk, s.newPath(path), data, false); err != nil {
			err = fmt.Errorf("write %s for %s: %w", path, s.shown, err)
		}
	}
	same := err == nil && s.stands(path, data)
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case err != nil && s.failed == nil:
		s.failed = err
	case same:
		s.same++
	default:
		s.written++
	}
	return err
}

// claim notes a path and makes its folders.
func (s *Stage) claim(path string) error {
	if err := checkPath(path); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for i, c := range path {
		if c != '/' {
			continue
		}
		dir := path[:i]
		key := foldPath(dir)
		other, taken := s.claimed[key]
		switch {
		case taken && !s.folder[key]:
			return fmt.Errorf("the site can't hold %q: %q is a file", path, other)
		case taken && other != dir:
			return fmt.Errorf("the site can't hold %q: its folder is spelt %q elsewhere", path, other)
		case !taken:
			if err := s.disk.mkdir(s.newPath(dir), dirMode); err != nil {
				return fmt.Errorf("make the folder %s for %s: %w", dir, s.shown, err)
			}
			s.claimed[key], s.folder[key] = dir, true
		}
	}
	key := foldPath(path)
	if other, taken := s.claimed[key]; taken {
		if s.folder[key] {
			return fmt.Errorf("the site can't hold %q: %q is a folder", path, other)
		}
		if other == path {
			return fmt.Errorf("the site can't hold %q twice", path)
		}
		return fmt.Errorf("the site can't hold %q: on some systems it is the same as %q", path, other)
	}
	s.claimed[key] = path
	s.files[path] = true
	return nil
}

func (s *Stage) newPath(path string) string {
	return filepath.Join(s.work, newSiteName, filepath.FromSlash(path))
}

// stands tells whether the old site holds the same file.
func (s *Stage) stands(path string, data []byte) bool {
	if !s.old.files[path] {
		return false
	}
	old := filepath.Join(s.target, filepath.FromSlash(path))
	info, err := os.Lstat(old)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(data)) {
		return false
	}
	was, err := os.ReadFile(old)
	return err == nil && bytes.Equal(was, data)
}

// Discard ends a stage that is not to become the site. The old site stands as it was. After Commit it does
// nothing, so that it can be deferred. The error tells what could not be cleared away; the next build
// tries again.
func (s *Stage) Discard() error {
	s.writing.Lock()
	defer s.writing.Unlock()
	if s.done {
		return nil
	}
	return s.end()
}

// end clears the stage away and lets the target go.
func (s *Stage) end() error {
	s.done = true
	return errors.Join(s.clear(), s.letGo())
}

// letGo gives back the lock and removes the parents that were made for nothing.
func (s *Stage) letGo() error {
	err := s.disk.unlock(s.lock)
	s.unmake()
	if err != nil {
		return fmt.Errorf("give back the lock of %s: %w", s.shown, err)
	}
	return nil
}

// unmake removes the parents that were made for this target as far as they are empty.
func (s *Stage) unmake() {
	for i := len(s.made) - 1; i >= 0; i-- {
		if entries, err := os.ReadDir(s.made[i]); err != nil || len(entries) > 0 {
			return
		}
		if s.disk.remove(s.made[i]) != nil {
			return
		}
	}
}
