package outdir

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
)

// Result counts the files of a finished build against the site before it. The marker isn't counted.
type Result struct {
	Written int // new, or other bytes than before
	Same    int // the bytes of before
	Removed int // in the old site only
	// Uncleared is not nil if the new site stands but something of the old one could not be cleared
	// away. The next build tries again.
	Uncleared error
}

// Commit puts the stage in the target's place and ends it. If nothing differs from the old site, that one
// stays and only the stage goes. An error means that the old site stands, with one exception that the
// error names: the new site stands and the disk would not confirm that it is written.
func (s *Stage) Commit() (Result, error) {
	s.writing.Lock()
	defer s.writing.Unlock()
	if s.done {
		return Result{}, fmt.Errorf("the stage of %s is closed", s.shown)
	}
	if s.failed != nil {
		return Result{}, errors.Join(s.failed, s.end())
	}
	r, err := s.commit()
	if err != nil {
		return Result{}, errors.Join(err, s.end())
	}
	r.Uncleared = s.end()
	return r, nil
}

func (s *Stage) commit() (Result, error) {
	r := Result{Written: s.written, Same: s.same}
	for f := range s.old.files {
		if !s.files[f] {
			r.Removed++
		}
	}
	// Again, for what someone may have put there while the pages were written.
	now, err := look(s.target, s.shown)
	if err != nil {
		return r, err
	}
	mark := marker(slices.Collect(maps.Keys(s.files)))
	if now.exists && now.modes && r.Written == 0 && bytes.Equal(now.marker, mark) {
		return r, nil
	}
	// The marker comes last: a stage that has one is complete.
	if err := writeFile(s.disk, s.newPath(MarkerName), mark, false); err != nil {
		return r, fmt.Errorf("write the marker of %s: %w", s.shown, err)
	}
	if err := s.disk.syncTree(s.in(newSiteName)); err != nil {
		return r, fmt.Errorf("write the site for %s to disk: %w", s.shown, err)
	}
	if err := s.swap(now.exists); err != nil {
		return r, fmt.Errorf("put the new site at %s: %w", s.shown, err)
	}
	if err := s.disk.syncDir(s.parent); err != nil {
		return r, fmt.Errorf("the new site stands at %s, but the disk does not confirm it: %w", s.shown, err)
	}
	return r, nil
}

// swap moves the finished stage to the target.
func (s *Stage) swap(exists bool) error {
	if !exists {
		// A rename of folders fails where something has come to stand meanwhile.
		return s.disk.rename(s.in(newSiteName), s.target)
	}
	err := s.disk.exchange(s.in(newSiteName), s.target)
	if errors.Is(err, errCannotExchange) {
		return s.swapByJournal()
	}
	return err
}

// journalText is the journal's one line: the two renames are under way.
const journalText = "old site to old/, site/ to its place\n"

// swapByJournal does with two renames what can't be done in one step. From the journal's appearance on, a
// target that isn't there is put right by recover. A second rename that fails is undone here.
func (s *Stage) swapByJournal() error {
	if err := writeFile(s.disk, s.in(journalNewName), []byte(journalText), true); err != nil {
		return err
	}
	if err := s.disk.rename(s.in(journalNewName), s.in(journalName)); err != nil {
		return err
	}
	if err := s.disk.syncDir(s.work); err != nil {
		return err
	}
	if err := s.disk.syncDir(s.parent); err != nil { // the stage's own name
		return err
	}
	if err := s.disk.rename(s.target, s.in(oldSiteName)); err != nil {
		return err
	}
	err := s.disk.rename(s.in(newSiteName), s.target)
	if err != nil {
		// Failing that too, end() clears nothing, and the next build finds the journal.
		if back := s.disk.rename(s.in(oldSiteName), s.target); back != nil {
			return errors.Join(err, fmt.Errorf("and the old site could not be put back, it waits in %s: %w", s.work, back))
		}
	}
	return err
}
