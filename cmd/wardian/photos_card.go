package main

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"wardian/build/photo"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// snapshot is a picture of a camera's folder that no entry has. Its bytes stay on
// the disk: a card holds more than a memory.
type snapshot struct {
	name    string    // its path in the folder, with slashes
	taken   time.Time // by the camera's own clock, else the file's in the diary's time zone
	byClock bool      // the camera wrote it
}

func (s snapshot) day() measure.Day { return measure.DayOf(s.taken) }

// largest bounds a file that is looked at, in bytes: no camera's picture is as
// large, and a card holds films too.
const largest = 200 << 20

// strangers are the pictures of a folder and of those in it that belong to no
// entry, in order of time; held names those that do. A picture is the same
// wherever its bytes are the same.
func strangers(l *asOf, card string) (list []snapshot, held []string, err error) {
	bySize, err := belonging(l)
	if err != nil {
		return nil, nil, err
	}
	sums := map[string][sha256.Size]byte{}
	zone := l.diary.Settings.Zone
	if zone == nil {
		zone = time.Local
	}
	err = filepath.WalkDir(card, func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case path != card && strings.HasPrefix(e.Name(), "."):
			if e.IsDir() {
				return fs.SkipDir
			}
			return nil
		case !e.Type().IsRegular():
			return nil
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		if info.Size() > largest {
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		seen, err := photo.Inspect(data)
		if err != nil {
			return nil // no picture that a site can show
		}
		name, err := filepath.Rel(card, path)
		if err != nil {
			return err
		}
		s := snapshot{name: filepath.ToSlash(name), taken: info.ModTime().In(zone)}
		for _, has := range bySize[info.Size()] {
			sum, ok := sums[has]
			if !ok {
				old, err := fs.ReadFile(l.files, has)
				if err != nil {
					return fmt.Errorf("read %s: %w", has, err)
				}
				sum = sha256.Sum256(old)
				sums[has] = sum
			}
			if sum == sha256.Sum256(data) {
				held = append(held, s.name)
				return nil
			}
		}
		if !seen.Taken.IsZero() {
			s.taken, s.byClock = seen.Taken, true
		}
		list = append(list, s)
		return nil
	})
	slices.SortStableFunc(list, func(a, b snapshot) int { return a.taken.Compare(b.taken) })
	return list, held, err
}

// belonging lists the diary's pictures that belong to an entry, by their path or
// because it names them, by their size in bytes.
func belonging(l *asOf) (map[int64][]string, error) {
	used := l.diary.UsedPhotos()
	for _, t := range l.diary.Timelines(measure.NoDay).List {
		for _, look := range t.Looks {
			for _, p := range look.Photos {
				used[p.Path] = true
			}
		}
	}
	out := map[int64][]string{}
	for _, path := range l.diary.Photos {
		if !used[path] {
			continue
		}
		info, err := fs.Stat(l.files, path)
		if err != nil {
			return nil, fmt.Errorf("look at %s: %w", path, err)
		}
		out[info.Size()] = append(out[info.Size()], path)
	}
	return out, nil
}

// nearestRounds tells the rounds of the day nearest to a picture's, each with its
// place; "" where there are none.
func nearestRounds(d *content.Diary, day measure.Day) string {
	var on measure.Day
	var places []string
	best := -1
	for _, e := range d.Entries {
		away := abs(int(e.When.Day - day))
		if e.PlaceNote() || best >= 0 && away > best {
			continue
		}
		if best < 0 || away < best || e.When.Day != on {
			best, on, places = away, e.When.Day, nil
		}
		if e.Place != nil && !slices.Contains(places, e.Place.ID) {
			places = append(places, e.Place.ID)
		}
	}
	if best < 0 {
		return ""
	}
	words := "  nearest: " + on.String()
	if len(places) > 0 {
		words += " at " + strings.Join(places, ", ")
	}
	return words
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}

// farthest is how many days a picture may lie from the look it is given to: a
// picture belongs to what was written when it was taken.
const farthest = 3

// lookFor is the look at a plant that lies nearest to a day.
func lookFor(times *content.Timelines, id string, day measure.Day) (*content.Look, error) {
	var ids []string
	for _, t := range times.List {
		ids = append(ids, t.Specimen.ID)
		if t.Specimen.ID != id {
			continue
		}
		var best *content.Look
		for _, l := range t.Looks {
			if best == nil || abs(int(l.When.Day-day)) < abs(int(best.When.Day-day)) {
				best = l
			}
		}
		if best == nil || abs(int(best.When.Day-day)) > farthest {
			return nil, wrongUse{message: fmt.Sprintf("nothing was written of %s within %d days of %s", id, farthest, day), next: "write the check-in first, then call again"}
		}
		return best, nil
	}
	use := wrongUse{message: "there is no specimen " + id, next: "an ID is a file's name under specimens, without .md"}
	if near := source.Nearest(id, ids); near != "" {
		use.next = "nearest: " + near
	}
	return nil, use
}

// freePhoto names a picture after the day and the plant: photos/2026-04-06/b26-03.jpg,
// then b26-03-2.jpg and so on, until none of the diary bears the name.
func freePhoto(day measure.Day, id, name string, taken map[string]bool) string {
	ending := strings.ToLower(filepath.Ext(name))
	for n := 1; ; n++ {
		path := fmt.Sprintf("photos/%s/%s%s", day, id, ending)
		if n > 1 {
			path = fmt.Sprintf("photos/%s/%s-%d%s", day, id, n, ending)
		}
		if !taken[strings.ToLower(path)] {
			return path
		}
	}
}
