package main

import (
	"bufio"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"wardian/build/outdir"
	"wardian/build/photo"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// snapshot is a picture of a camera's folder that the diary doesn't hold yet.
type snapshot struct {
	name    string // in the folder
	data    []byte
	taken   time.Time // by the camera's own clock, else the file's
	byClock bool      // the camera wrote it
}

func (s snapshot) day() measure.Day { return measure.DayOf(s.taken) }

func newPhotos() *cobra.Command {
	var diary string
	var dryRun bool
	cmd := &cobra.Command{
		Use:  "photos FOLDER [PICTURE=ID ...]",
		Long: helpText("photos"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return wrongUse{message: "wardian photos takes the folder with the camera's pictures", next: "such as: wardian photos /media/card"}
			}
			for _, a := range args[1:] {
				if picture, id, ok := strings.Cut(a, "="); !ok || picture == "" || id == "" {
					return wrongUse{message: a + " names no plant", next: "write it like IMG_0123.jpg=b26-03"}
				}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			dir, err := folder([]string{diary})
			if err != nil {
				return err
			}
			card, err := folder(args[:1])
			if err != nil {
				return err
			}
			l, err := loadFolder(dir, content.Options{Today: measure.NoDay})
			if err != nil {
				return err
			}
			defer l.close()
			list, err := strangers(l, card)
			if err != nil {
				return err
			}
			pick := picks(args[1:])
			if in, ok := cmd.InOrStdin().(*os.File); ok && len(args) == 1 && terminal(in) {
				pick = askEach(v, bufio.NewReader(in))
			}
			return takeIn(v, l, dir, list, pick, dryRun)
		},
	}
	cmd.Flags().StringVar(&diary, "diary", ".", "")
	cmd.Flags().BoolVar(&dryRun, "dry-run", false, "")
	return cmd
}

// strangers are the pictures of a folder that the diary doesn't hold under any
// name, in order of time.
func strangers(l *loaded, card string) ([]snapshot, error) {
	held := map[[sha256.Size]byte]bool{}
	for _, path := range l.diary.Photos {
		data, err := fs.ReadFile(l.files, path)
		if err != nil {
			return nil, err
		}
		held[sha256.Sum256(data)] = true
	}
	entries, err := os.ReadDir(card)
	if err != nil {
		return nil, err
	}
	var list []snapshot
	for _, e := range entries {
		if !e.Type().IsRegular() {
			continue
		}
		info, err := e.Info()
		if err != nil {
			return nil, err
		}
		data, err := os.ReadFile(filepath.Join(card, e.Name()))
		if err != nil {
			return nil, err
		}
		seen, err := photo.Inspect(data)
		if err != nil || held[sha256.Sum256(data)] {
			continue // no picture, or no stranger
		}
		s := snapshot{name: e.Name(), data: data, taken: info.ModTime()}
		if !seen.Taken.IsZero() {
			s.taken, s.byClock = seen.Taken, true
		}
		list = append(list, s)
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].taken.Before(list[j].taken) })
	return list, nil
}

// picks takes the plants from the call; a picture that isn't named is skipped.
func picks(pairs []string) func(snapshot, string) (string, bool) {
	of := map[string]string{}
	for _, p := range pairs {
		picture, id, _ := strings.Cut(p, "=")
		of[picture] = id
	}
	return func(s snapshot, _ string) (string, bool) { return of[s.name], true }
}

// askEach asks for each picture's plant; an empty answer skips it, the end of
// input skips all.
func askEach(v voice, in *bufio.Reader) func(snapshot, string) (string, bool) {
	return func(s snapshot, line string) (string, bool) {
		fmt.Fprintf(v.talk, "%s  which plant? ", line)
		answer, err := in.ReadString('\n')
		return strings.TrimSpace(answer), err == nil
	}
}

// takeIn tells each stranger with its time and the nearest round, and copies
// those that have a plant to where they belong without a mention.
func takeIn(v voice, l *loaded, dir string, list []snapshot, pick func(snapshot, string) (string, bool), dryRun bool) error {
	times := l.diary.Timelines(measure.NoDay)
	taken := map[string]bool{}
	for _, path := range l.diary.Photos {
		taken[strings.ToLower(path)] = true
	}
	copied := 0
	for _, s := range list {
		line := fmt.Sprintf("%s  %s%s", s.name, s.taken.Format("2006-01-02 15:04"), nearestRound(l.diary, s.day()))
		id, more := pick(s, line)
		if id == "" {
			v.say(line)
			if !more {
				break
			}
			continue
		}
		look, err := lookFor(times, id, s.day())
		if err != nil {
			return err
		}
		path := freePhoto(look.When.Day, id, s.name, taken)
		taken[strings.ToLower(path)] = true
		if !dryRun {
			switch err := outdir.WriteNew(filepath.Join(dir, filepath.FromSlash(path)), s.data); {
			case errors.Is(err, fs.ErrExist):
				return wrongUse{message: path + " is there already", next: "call again: it is numbered then"}
			case err != nil:
				return err
			}
		}
		v.tell(filepath.Join(dir, filepath.FromSlash(path)))
		copied++
	}
	switch {
	case len(list) == 0:
		v.say("no picture there that the diary doesn't hold")
	case copied == 0:
		v.say("next: name the plants, such as: wardian photos FOLDER " + list[0].name + "=ID")
	default:
		v.say(counted(copied, "picture", "pictures") + " belong without a mention; next: wardian proof " + dir)
	}
	return nil
}

// nearestRound tells the round nearest to a day; "" where there is none.
func nearestRound(d *content.Diary, day measure.Day) string {
	var best *content.Entry
	apart := func(e *content.Entry) int { return abs(int(e.When.Day - day)) }
	for _, e := range d.Entries {
		if !e.PlaceNote() && (best == nil || apart(e) < apart(best)) {
			best = e
		}
	}
	if best == nil {
		return ""
	}
	words := "  nearest: " + best.When.Day.String()
	if best.Place != nil {
		words += " at " + best.Place.ID
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
	use := wrongUse{message: "there is no specimen " + id}
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
