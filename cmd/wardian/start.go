package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"wardian/build/outdir"
	"wardian/content/format"
	"wardian/content/ledger"
	"wardian/content/measure"
	"wardian/content/schema"
)

//go:embed all:newdiary
var newDiary embed.FS

func newStart() *cobra.Command {
	var on string
	cmd := &cobra.Command{
		Use:  "start DIR",
		Long: helpText("start"),
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return wrongUse{message: "wardian start takes the folder to write the new diary into", next: "such as: wardian start sill"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			day, err := onDay(on)
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			return startDiary(v, args[0], day)
		},
	}
	onFlag(cmd, &on)
	return cmd
}

// startDiary writes a new diary whose plants arrived on a day. If one of its
// files is there already, none is written.
func startDiary(v voice, dir string, day measure.Day) error {
	paths, texts, err := firstFiles(day)
	if err != nil {
		return err
	}
	for _, path := range paths {
		switch _, err := os.Lstat(filepath.Join(dir, path)); {
		case err == nil:
			return wrongUse{message: fmt.Sprintf("%s is there already; nothing was written", filepath.Join(dir, path)), next: "a new diary goes into a folder without one"}
		case !errors.Is(err, fs.ErrNotExist):
			return err
		}
	}
	for i, path := range paths {
		if err := outdir.WriteNew(filepath.Join(dir, path), []byte(texts[i])); err != nil {
			return err
		}
		v.tell(filepath.Join(dir, path))
	}
	v.say(fmt.Sprintf("next: change what these files say, then wardian proof %s", dir))
	return nil
}

// firstFiles are the files of a new diary, by path.
func firstFiles(day measure.Day) (paths, texts []string, err error) {
	year := day.Time().Format("06")
	fill := strings.NewReplacer(
		"DATE", day.String(),
		"SEASON", ledger.SeasonOf(day),
		"YY", year,
	)
	err = fs.WalkDir(newDiary, "newdiary", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := newDiary.ReadFile(path)
		if err != nil {
			return err
		}
		paths = append(paths, filepath.FromSlash(fill.Replace(strings.TrimPrefix(path, "newdiary/"))))
		texts = append(texts, fill.Replace(string(text)))
		return nil
	})
	// The schema that the first line of diary.yaml names, so that an editor finds
	// it on the disk and asks nobody.
	paths = append(paths, "diary.schema.json")
	texts = append(texts, string(schema.Of(&format.Diary)))
	return paths, texts, err
}
