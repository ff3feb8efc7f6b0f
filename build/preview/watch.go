package preview

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// How a folder is watched, and why so.
//
// Folders are watched and never files: many editors save by writing another
// file and renaming it over the old one, and a watch on the old file would stay
// with what was thrown away. The system's watches don't reach into folders
// below, so each has its own, and a folder that appears gets one before it is
// listed: what is written after the listing sends an event, what was written
// before is in it.
//
// Saving one file sends up to six events, pulling a branch thousands. They are
// gathered until none has come for a few milliseconds, or for as long as a
// person takes for at once. A file that is empty just now was most often opened
// to be written and is waited for a little longer, since reading it would lay
// a slip over the page that is gone before it is read.
//
// Then every folder that an event named is listed again. Only the comparison
// with what was known counts, with three exceptions in the direction of care: a
// file that an event named is taken for changed though its size and time are as
// before (two writes may fall in one tick of the clock), a folder that an event
// named is taken for another one, and everything in it for changed, and what an
// event named though neither listing has it is told of, too, since the diary may
// have been read while it was there.
//
// A moved folder keeps its watch under its old path. So what is gone is
// unwatched before what is new is watched; the other way round the new watch
// would be taken for the old and end with it.
//
// Where the system can't watch (too many folders, a folder that is gone for
// now), everything is looked at every two seconds instead. A watched network
// folder that sends no events is not noticed.

// Timing of the gathering. Quiet is what a save by rename needs between its
// events, with room; the others are our own choice.
const (
	Quiet      = 5 * time.Millisecond   // without an event, until a change is told
	atOnce     = 100 * time.Millisecond // after which it is told though events go on
	unwritten  = 60 * time.Millisecond  // for an empty file to be written
	sweepEvery = 2 * time.Second        // where events can't be had
)

// Watcher tells what changes below a folder.
type Watcher struct {
	root  string
	pass  func(string) bool
	quiet time.Duration
	tell  func(Change)

	events  *fsnotify.Watcher // nil where events can't be had
	watched map[string]bool   // folders, from the root
	tree    tree

	began   time.Time
	touched map[string]bool // folders to list again
	named   map[string]bool // paths that events named; true: it may be another one now
	all     bool            // events were lost

	blind error // why everything is looked at instead
}

// Watch begins to watch a folder. What pass says yes to is passed over, as is
// every name that opens with a dot; paths are from the folder, with forward
// slashes. tell is called by Run, one change at a time; events that come
// meanwhile are gathered into the next.
func Watch(folder string, pass func(string) bool, tell func(Change)) (*Watcher, error) {
	root, err := filepath.Abs(folder)
	if err != nil {
		return nil, err
	}
	if info, err := os.Stat(root); err != nil {
		return nil, err
	} else if !info.IsDir() {
		return nil, fmt.Errorf("watch %s: it is no folder", folder)
	}
	w := &Watcher{root: root, pass: pass, quiet: Quiet, tell: tell, tree: tree{}, watched: map[string]bool{}}
	w.forget()
	w.afresh()
	return w, nil
}

// Blind tells why events can't be had, where they can't: then everything is
// looked at every two seconds.
func (w *Watcher) Blind() error { return w.blind }

// Run tells changes until the context ends.
func (w *Watcher) Run(ctx context.Context) {
	defer func() {
		if w.events != nil {
			w.events.Close()
		}
	}()
	sweep := time.NewTicker(sweepEvery)
	defer sweep.Stop()
	for {
		var events <-chan fsnotify.Event
		var faults <-chan error
		if w.events != nil {
			events, faults = w.events.Events, w.events.Errors
		}
		select {
		case <-ctx.Done():
			return
		case e, ok := <-events:
			if ok {
				w.note(e)
			}
		case err, ok := <-faults:
			if ok {
				w.fault(err)
			}
		case <-sweep.C:
			if w.blind != nil {
				w.began = time.Now()
				w.settle(true)
			}
			continue
		}
		if w.began.IsZero() {
			continue // nothing that counts
		}
		if !w.gather(ctx, events, faults) {
			return
		}
		w.settle(w.all)
	}
}

// gather takes events until it is quiet; false where the context ended.
func (w *Watcher) gather(ctx context.Context, events <-chan fsnotify.Event, faults <-chan error) bool {
	quiet := time.NewTimer(w.quiet)
	defer quiet.Stop()
	enough := time.NewTimer(atOnce)
	defer enough.Stop()
	waited := false
	for {
		select {
		case <-ctx.Done():
			return false
		case e, ok := <-events:
			if ok {
				w.note(e)
			}
			quiet.Reset(w.quiet)
		case err, ok := <-faults:
			if ok {
				w.fault(err)
			}
		case <-enough.C:
			return true
		case <-quiet.C:
			if waited || !w.emptied() {
				return true
			}
			waited = true
			quiet.Reset(unwritten)
		}
	}
}

// emptied says whether a file that an event named is empty and wasn't.
func (w *Watcher) emptied() bool {
	for name := range w.named {
		before, knew := w.tree[path.Dir(name)][path.Base(name)]
		if knew && before.size == 0 {
			continue
		}
		if info, err := os.Lstat(w.abs(name)); err == nil && info.Mode().IsRegular() && info.Size() == 0 {
			return true
		}
	}
	return false
}

// note takes an event.
func (w *Watcher) note(e fsnotify.Event) {
	if e.Name == "" {
		return // of a watch that ended
	}
	rel, err := filepath.Rel(w.root, e.Name)
	if err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
		return
	}
	name := filepath.ToSlash(rel)
	another := e.Has(fsnotify.Create) || e.Has(fsnotify.Remove) || e.Has(fsnotify.Rename)
	switch {
	case name == ".":
		if another {
			w.all = true // the folder itself went, or another one came
		}
	case w.hidden(name):
		return
	case e.Has(fsnotify.Write) || another:
		w.named[name] = w.named[name] || another
	}
	if w.touched[name] = true; name != "." {
		w.touched[path.Dir(name)] = true
	}
	if w.began.IsZero() {
		w.began = time.Now()
	}
}

// hidden says whether a path or a folder it lies in is passed over.
func (w *Watcher) hidden(name string) bool {
	for ; name != "."; name = path.Dir(name) {
		if passed(name, w.pass) {
			return true
		}
	}
	return false
}

// fault takes an error of the events: whatever it is, some may be lost.
func (w *Watcher) fault(err error) {
	if errors.Is(err, fsnotify.ErrClosed) {
		return
	}
	w.all = true
	if w.began.IsZero() {
		w.began = time.Now()
	}
}

func (w *Watcher) forget() {
	w.began, w.all = time.Time{}, false
	w.touched, w.named = map[string]bool{}, map[string]bool{}
}

func (w *Watcher) abs(name string) string { return filepath.Join(w.root, filepath.FromSlash(name)) }
