package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"wardian/build/paper"
	"wardian/content"
)

// printing are the words of a call that makes something to be printed.
type printing struct {
	diary, on, to, paper string
}

func (p *printing) flags(cmd *cobra.Command, paper string) {
	cmd.Flags().StringVar(&p.diary, "diary", ".", "")
	cmd.Flags().StringVar(&p.to, "to", "", "")
	cmd.Flags().StringVar(&p.paper, "paper", paper, "")
	onFlag(cmd, &p.on)
}

// size reads --paper.
func (p printing) size(a4 string) (paper.Size, error) {
	switch p.paper {
	case a4:
		return paper.A4, nil
	case "letter":
		return paper.Letter, nil
	}
	return 0, wrongUse{message: "--paper " + p.paper + " isn't known", next: "write --paper " + a4 + " or --paper letter"}
}

func newSheet() *cobra.Command {
	var p printing
	cmd := &cobra.Command{
		Use:  "sheet [PLACE]",
		Long: helpText("sheet"),
		Args: onePlace,
		RunE: func(cmd *cobra.Command, args []string) error {
			size, err := p.size("a5")
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			a, err := openAsOf(v, p.diary, p.on)
			if err != nil {
				return err
			}
			defer a.close()
			places, _ := a.cohort.Occupied()
			name := "sheets.html"
			if len(args) == 1 {
				place, err := a.placeFor(args, "sheet")
				if err != nil {
					return err
				}
				places, name = []*content.Place{place}, "sheet-"+place.ID+".html"
			}
			if len(places) == 0 {
				return a.nobodyThere()
			}
			page, err := paper.Sheets(a.cohort, places, a.on, size)
			if err != nil {
				return err
			}
			next := "wardian round writes the file to type them into, in the same order"
			if len(places) == 1 {
				next = "wardian round " + places[0].ID + " writes the file to type them into, in the same order"
			}
			return p.put(v, a, name, page, "next: open it in a browser and print it, without margins of its own; "+next)
		},
	}
	p.flags(cmd, "a5")
	return cmd
}

// ours stands in every page that is made to be printed.
var ours = []byte(`<meta name="generator" content="wardian paper">`)

// put writes a page to be printed: to --to, - for standard output, or among the
// diary's own files that may be deleted. A page is made anew as often as it is
// asked for, so one of ours is written over, and nothing else.
func (p printing) put(v voice, a *asOf, name string, page []byte, next string) error {
	if p.to == "-" {
		_, err := v.out.Write(page)
		return err
	}
	folder, to := a.dir, filepath.Join(".wardian", name)
	if p.to != "" {
		folder, to = filepath.Dir(p.to), filepath.Base(p.to)
	}
	at := filepath.Join(folder, to)
	root, err := os.OpenRoot(folder)
	if err != nil {
		return err
	}
	defer root.Close()
	old, err := root.ReadFile(to)
	switch {
	case err == nil && !bytes.Contains(old[:min(len(old), 400)], ours):
		return wrongUse{message: at + " is there already, and is no page of Wardian's; nothing was written", next: "another name behind --to"}
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("write %s: %w", at, err)
	}
	if err := replace(root, to, page); err != nil {
		return fmt.Errorf("write %s: %w", at, err)
	}
	v.tell(at)
	v.say(next)
	return nil
}

// replace writes a file with all of its bytes, or leaves the old one, and clears
// away what it wrote beside it.
func replace(root *os.Root, to string, data []byte) (err error) {
	if err := root.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	beside := filepath.Join(filepath.Dir(to), "."+filepath.Base(to)+".wardian-new")
	defer func() {
		if err != nil {
			root.Remove(beside)
		}
	}()
	f, err := root.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	// Without it a crash may leave the new name on no bytes, which is no page of ours.
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	return root.Rename(beside, to)
}
