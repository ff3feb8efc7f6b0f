package main

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"wardian/build/outdir"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// sorting are the words of one call of photos.
type sorting struct {
	diary  string
	dryRun bool
}

func newPhotos() *cobra.Command {
	var s sorting
	cmd := &cobra.Command{
		Use:  "photos [FOLDER] [PICTURE=ID ...]",
		Long: helpText("photos"),
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			card := ""
			if len(args) > 0 && (!strings.Contains(args[0], "=") || isFolder(args[0])) {
				card, args = args[0], args[1:]
			}
			picked := map[string]string{}
			for _, a := range args {
				picture, id, ok := strings.Cut(a, "=")
				if !ok || picture == "" || id == "" {
					return wrongUse{message: a + " names no plant", next: "write it like IMG_0123.jpg=b26-03"}
				}
				if picked[picture] != "" {
					return wrongUse{message: picture + " is named twice", next: "a picture of two plants is named under photos in both their entries"}
				}
				picked[picture] = id
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			l, err := openAsOf(v, s.diary, "")
			if err != nil {
				return err
			}
			defer l.close()
			if card == "" {
				card = filepath.Join(l.dir, "photos")
				if !isFolder(card) {
					return wrongUse{message: "the diary has no folder photos yet", next: "name the folder with the camera's pictures, such as: wardian photos /media/card"}
				}
			}
			if _, err := folder([]string{card}); err != nil {
				return wrongUse{message: err.Error(), next: "name the folder with the camera's pictures, such as: wardian photos /media/card"}
			}
			list, held, err := strangers(l, card)
			if err != nil {
				return err
			}
			d := desk{sorting: s, v: v, l: l, card: card, times: l.diary.Timelines(measure.NoDay), taken: map[string]bool{}}
			for _, path := range l.diary.Photos {
				d.taken[strings.ToLower(path)] = true
			}
			in := person(cmd.InOrStdin())
			switch {
			case len(picked) > 0:
				err = d.pairs(list, held, picked)
			case in != nil:
				err = d.each(list, bufio.NewReader(in))
			default:
				for _, p := range list {
					v.say(d.line(p))
				}
			}
			if err != nil {
				return err
			}
			d.farewell(list)
			return nil
		},
	}
	cmd.Flags().StringVar(&s.diary, "diary", ".", "")
	cmd.Flags().BoolVar(&s.dryRun, "dry-run", false, "")
	return cmd
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// desk is where pictures are sorted to their plants.
type desk struct {
	sorting
	v      voice
	l      *asOf
	card   string
	times  *content.Timelines
	taken  map[string]bool // diary paths in small letters, for disks that don't tell A from a
	copied int
}

// line tells of a picture: its name, its time, the rounds nearest to it.
func (d *desk) line(p snapshot) string {
	words := fmt.Sprintf("%s  %s%s", p.name, p.taken.Format("2006-01-02 15:04"), nearestRounds(d.l.diary, p.day()))
	if !p.byClock {
		words += "  (the file's time: the camera wrote none)"
	}
	return words
}

// pairs copies the pictures that the call names. All are looked at before one is
// copied.
func (d *desk) pairs(list []snapshot, held []string, picked map[string]string) error {
	type pair struct {
		p    snapshot
		id   string
		look *content.Look
	}
	var pairs []pair
	for _, p := range list {
		id, ok := picked[p.name]
		if !ok {
			continue
		}
		delete(picked, p.name)
		look, err := lookFor(d.times, id, p.day())
		if err != nil {
			return err
		}
		pairs = append(pairs, pair{p, id, look})
	}
	for name := range picked {
		for _, h := range held {
			if h == name {
				return wrongUse{message: "an entry has " + name + " already; nothing was copied", next: "leave it out of the call"}
			}
		}
		var names []string
		for _, p := range list {
			names = append(names, p.name)
		}
		use := wrongUse{message: fmt.Sprintf("no picture %s in %s; nothing was copied", name, d.card), next: "wardian photos " + d.card + " shows which there are"}
		if near := source.Nearest(name, names); near != "" {
			use.next = "nearest: " + near
		}
		return use
	}
	for _, p := range pairs {
		if err := d.copy(p.p, p.id, p.look); err != nil {
			return err
		}
	}
	return nil
}

// each asks for each picture's plant, again where the answer is none; an empty
// answer leaves a picture out, the end of input all that are left.
func (d *desk) each(list []snapshot, in *bufio.Reader) error {
	for _, p := range list {
		for {
			fmt.Fprintf(d.v.talk, "%s  which plant? ", d.line(p))
			answer, end := in.ReadString('\n')
			id := strings.TrimSpace(answer)
			if end != nil {
				fmt.Fprintln(d.v.talk)
			}
			if id == "" && end != nil {
				return nil
			}
			if id == "" {
				break
			}
			look, err := lookFor(d.times, id, p.day())
			if use := (wrongUse{}); errors.As(err, &use) {
				d.v.say(use.message)
				d.v.say(use.next)
				if end != nil {
					return nil
				}
				continue
			}
			if err := d.copy(p, id, look); err != nil {
				return err
			}
			break
		}
	}
	return nil
}

// copy copies a picture, as the camera wrote it, to where it belongs without a
// mention.
func (d *desk) copy(p snapshot, id string, look *content.Look) error {
	path := freePhoto(look.When.Day, id, p.name, d.taken)
	at := filepath.Join(d.l.dir, filepath.FromSlash(path))
	if !d.dryRun {
		data, err := os.ReadFile(filepath.Join(d.card, filepath.FromSlash(p.name)))
		if err != nil {
			return err
		}
		switch err := outdir.WriteNew(at, data); {
		case errors.Is(err, fs.ErrExist):
			return wrongUse{message: path + " is there already", next: "call again: it is numbered then"}
		case err != nil:
			return err
		}
	}
	d.taken[strings.ToLower(path)] = true
	d.v.tell(at)
	d.copied++
	return nil
}

// farewell says what came of it, and what comes next.
func (d *desk) farewell(list []snapshot) {
	switch {
	case len(list) == 0:
		d.v.say("every picture there belongs to an entry already")
	case d.copied == 0:
		d.v.say("next: name the plants, such as: wardian photos " + d.card + " " + list[0].name + "=ID")
	case d.dryRun:
		d.v.say(counted(d.copied, "picture", "pictures") + " would belong without a mention; nothing was copied")
	default:
		d.v.say(counted(d.copied, "picture belongs", "pictures belong") + " without a mention; next: " + command("proof", d.l.dir))
	}
}
