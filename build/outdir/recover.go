package outdir

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// recover puts right what a build left that was killed, and clears its stage away. The caller holds the lock, so
// whatever stands there belongs to nobody alive.
//
// With a journal and no target, the process died between the two renames: the stage was complete and on the
// disk by then, so the new site takes its place. Should it be gone or incomplete (a disk that lied about
// writing), the old one goes back.
func (s *Stage) recover() error {
	ours, err := s.stageIsOurs()
	if err != nil || !ours {
		return err
	}
	if from := s.halfway(); from != "" {
		if err := s.disk.rename(from, s.target); err != nil {
			return fmt.Errorf("put back the site at %s: %w", s.shown, err)
		}
		if err := s.disk.syncDir(s.parent); err != nil {
			return fmt.Errorf("put back the site at %s: %w", s.shown, err)
		}
	}
	return s.clear()
}

// halfway returns the site in the stage that belongs at the target, if the two renames were begun and not
// ended, and "" otherwise. What can't be looked at is taken for halfway: then nothing is cleared.
func (s *Stage) halfway() string {
	if _, err := os.Lstat(s.in(journalName)); errors.Is(err, os.ErrNotExist) {
		return ""
	}
	if exists(s.target) {
		return ""
	}
	for _, name := range []string{newSiteName, oldSiteName} {
		if exists(filepath.Join(s.in(name), MarkerName)) {
			return s.in(name)
		}
	}
	return ""
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// clear removes the stage's folder: the journal before anything it speaks of, the evidence last. It leaves a
// folder alone that is not ours by its contents, and a stage that holds the only site there is.
func (s *Stage) clear() error {
	ours, err := s.stageIsOurs()
	if err != nil || !ours {
		return err
	}
	if s.halfway() != "" {
		return nil
	}
	for _, name := range []string{journalName, journalNewName, newSiteName, oldSiteName, evidenceName} {
		if err := removeTree(s.disk, s.in(name)); err != nil {
			return fmt.Errorf("clear the stage of %s: %w", s.shown, err)
		}
	}
	if err := s.disk.remove(s.work); err != nil {
		return fmt.Errorf("clear the stage of %s: %w", s.shown, err)
	}
	return nil
}

// stageIsOurs tells whether there is a stage, and refuses a folder of its name with anything else in it.
func (s *Stage) stageIsOurs() (bool, error) {
	info, err := os.Lstat(s.work)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	strange := &Refused{s.shown, s.work + " beside it isn't a stage of Wardian's", "move that away"}
	if !info.IsDir() {
		return false, strange
	}
	entries, err := os.ReadDir(s.work)
	if err != nil {
		return false, err
	}
	known := 0
	evidence := false
	for _, e := range entries {
		evidence = evidence || e.Name() == evidenceName
		switch e.Name() {
		case evidenceName, newSiteName, oldSiteName, journalName, journalNewName:
			known++
		}
	}
	if known < len(entries) || known > 0 && !evidence {
		return false, strange
	}
	return true, nil
}
