package preview

import (
	"errors"
	"maps"
	"os"
	"path"
	"slices"

	"github.com/fsnotify/fsnotify"
)

// What a Watcher does once it is quiet: it lists what events named, compares,
// and keeps its watches where the folders are (see watch.go for why so).

// settle looks, and tells what changed.
func (w *Watcher) settle(all bool) {
	change := Change{Began: w.began, All: w.all}
	kinds := map[string]Kind{}
	if all {
		w.everything(kinds)
	} else {
		w.folders(kinds)
	}
	w.passing(kinds)
	for _, name := range slices.Sorted(maps.Keys(kinds)) {
		change.Paths = append(change.Paths, Path{name, kinds[name]})
	}
	w.forget()
	if len(change.Paths) > 0 || change.All {
		w.tell(change)
	}
}

// passing tells of what came and went between two listings, which shows in
// neither: a reading in between may have met it.
func (w *Watcher) passing(kinds map[string]Kind) {
	for name := range w.named {
		_, told := kinds[name]
		if _, there := w.tree[path.Dir(name)][path.Base(name)]; !told && !there {
			kinds[name] = Passing
		}
	}
}

// everything sees the whole tree afresh and says what differs. What events
// named counts as changed here, too. Where a folder's time is another something in
// it may have come and gone, and no event told of it.
func (w *Watcher) everything(kinds map[string]Kind) {
	before := w.tree
	named := w.named
	w.afresh()
	for folder, entries := range before {
		for name, was := range entries {
			at := path.Join(folder, name)
			if is, there := w.tree[folder][name]; !there {
				kinds[at] = Gone
			} else if is.mode.IsDir() && is.mode == was.mode {
				if !is.time.Equal(was.time) {
					kinds[at] = Passing
				}
			} else if _, hit := named[at]; is != was || hit {
				kinds[at] = Edited
			}
		}
	}
	for folder, entries := range w.tree {
		for name := range entries {
			if _, there := before[folder][name]; !there {
				kinds[path.Join(folder, name)] = New
			}
		}
	}
}

// folders lists the touched folders again. First all that went is let go, then
// what came is entered.
func (w *Watcher) folders(kinds map[string]Kind) {
	type arrival struct{ folder, name string }
	var arrivals []arrival
	for _, folder := range slices.Sorted(maps.Keys(w.touched)) {
		before, knew := w.tree[folder]
		if !knew {
			continue // no folder, or one that its parent's listing brings
		}
		after, err := list(w.root, folder, w.pass)
		if err != nil {
			if folder == "." {
				w.everything(kinds)
				return
			}
			continue // gone: its parent was touched, too, or will be
		}
		for name, was := range before {
			at := path.Join(folder, name)
			is, there := after[name]
			another, hit := w.named[at]
			if was.mode.IsDir() && (!there || !is.mode.IsDir() || another) {
				for _, gone := range w.leave(at) {
					kinds[gone] = Gone
				}
			}
			switch {
			case !there:
				kinds[at] = Gone
			case is.mode.IsDir() && (!was.mode.IsDir() || another):
				arrivals = append(arrivals, arrival{folder, name})
				kinds[at] = Edited
			case is.mode != was.mode, !is.mode.IsDir() && (is != was || hit):
				kinds[at] = Edited
			}
		}
		for name, is := range after {
			if _, there := before[name]; there {
				continue
			}
			at := path.Join(folder, name)
			kinds[at] = New
			if is.mode.IsDir() {
				arrivals = append(arrivals, arrival{folder, name})
			}
		}
		w.tree[folder] = after
	}
	for _, a := range arrivals {
		if _, there := w.tree[a.folder]; !there {
			continue
		}
		at := path.Join(a.folder, a.name)
		w.enter(at)
		for _, came := range w.tree.paths(at) {
			if kind, was := kinds[came]; was && kind == Gone {
				kinds[came] = Edited
			} else if !was {
				kinds[came] = New
			}
		}
	}
}

// leave forgets a folder and everything in it, and gives the paths of the
// latter.
func (w *Watcher) leave(folder string) []string {
	paths := w.tree.paths(folder)
	left := []string{folder}
	w.tree.below(folder, func(at string) { left = append(left, at) })
	for _, at := range left {
		delete(w.tree, at)
		if w.watched[at] {
			delete(w.watched, at)
			if w.events != nil {
				_ = w.events.Remove(w.abs(at)) // most often it ended by itself
			}
		}
	}
	return paths
}

// enter watches a folder, then lists it, then does the same for what is in it.
func (w *Watcher) enter(folder string) {
	if w.events != nil && !w.watched[folder] {
		switch err := w.events.Add(w.abs(folder)); {
		case err == nil:
			w.watched[folder] = true
		case errors.Is(err, os.ErrNotExist) && folder != ".":
			return // gone again
		default:
			w.blind = err
		}
	}
	entries, err := list(w.root, folder, w.pass)
	if err != nil {
		// Gone again, and its watch must not be taken for that of another
		// folder of this name later.
		w.leave(folder)
		if folder == "." {
			w.blind = err
		}
		return
	}
	w.tree[folder] = entries
	for name, k := range entries {
		if k.mode.IsDir() {
			w.enter(path.Join(folder, name))
		}
	}
}

// afresh begins anew: all watches and all that is known. Events that the old
// watches had still to tell are lost, and everything is looked at instead.
func (w *Watcher) afresh() {
	if w.events != nil {
		w.events.Close()
	}
	w.blind = nil
	w.watched, w.tree = map[string]bool{}, tree{}
	events, err := fsnotify.NewWatcher()
	if err != nil {
		w.events, w.blind = nil, err
	} else {
		w.events = events
	}
	w.enter(".")
}
