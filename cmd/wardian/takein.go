package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"wardian/build/scaffold"
	"wardian/content"
	"wardian/content/ledger"
	"wardian/content/measure"
	"wardian/content/source"
)

// takingIn are the words of one call of take-in.
type takingIn struct {
	diary, season, arrived, on string
	yes, dryRun                bool
}

func newTakeIn() *cobra.Command {
	var t takingIn
	cmd := &cobra.Command{
		Use:  "take-in FILE",
		Long: helpText("take-in"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return wrongUse{message: "wardian take-in takes one sheet: a CSV file, or - for standard input", next: "such as: wardian take-in seasons.csv --dry-run"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := listText(args[0], cmd.InOrStdin())
			if err != nil {
				return err
			}
			name := filepath.Base(args[0])
			if args[0] == "-" {
				name = "standard input"
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			ask, done := answering(cmd.InOrStdin(), args[0] == "-", cmd.ErrOrStderr())
			defer done()
			return t.carryOut(v, source.New(name, []byte(text)), ask)
		},
	}
	cmd.Flags().StringVar(&t.diary, "diary", ".", "")
	cmd.Flags().StringVar(&t.season, "season", "", "")
	cmd.Flags().StringVar(&t.arrived, "arrived", "", "")
	cmd.Flags().BoolVar(&t.yes, "yes", false, "")
	cmd.Flags().BoolVar(&t.dryRun, "dry-run", false, "")
	onFlag(cmd, &t.on)
	return cmd
}

func (t takingIn) carryOut(v voice, f *source.File, ask asker) error {
	dir, err := folder([]string{t.diary})
	if err != nil {
		return err
	}
	options, err := dayOptions(t.on)
	if err != nil {
		return err
	}
	l, err := v.read(dir, options)
	if err != nil {
		return err
	}
	defer l.close()
	for _, f := range l.report.Findings() {
		if f.Code == "no-diary" {
			return wrongUse{message: dir + " is no diary: it has no diary.yaml", next: "name the diary's folder with --diary, or begin one: wardian start sill"}
		}
	}
	sheet, err := t.read(f, l.diary)
	if err != nil {
		return err
	}
	files, err := t.files(l, sheet)
	tellSheet(v, sheet)
	if err != nil {
		return err
	}
	o := newFiles{dir: dir, files: files, look: "rows", refused: "move it away, and call again", yes: t.yes, dryRun: t.dryRun}
	if done, err := o.write(v, ask); !done || err != nil {
		return err
	}
	v.say("next: look at the tables, then " + command("proof", dir))
	return nil
}

// read takes in the sheet with what the call says beside it.
func (t takingIn) read(f *source.File, d *content.Diary) (*ledger.Sheet, error) {
	o := ledger.SheetOptions{Currency: d.Settings.Currency, Today: d.Today, Season: strings.Join(strings.Fields(t.season), " "), Arrived: measure.NoSpan}
	if t.arrived != "" {
		span, trouble := measure.ParseSpan(t.arrived)
		if trouble != nil {
			return nil, wrongUse{message: fmt.Sprintf("--arrived %s: %s", t.arrived, trouble.Message), next: "write a day such as --arrived 2023-10-14, or what is known of it: 2023-10"}
		}
		o.Arrived = span
	}
	sheet, err := ledger.TakeIn(f, o)
	if err != nil {
		return nil, wrongUse{message: err.Error(), next: "see wardian take-in --help"}
	}
	if sheet.Rows == 0 {
		return nil, wrongUse{message: f.Path + " has no row below its headings", next: "one row a plant"}
	}
	return sheet, nil
}

// files names and writes the imports and their tables; an error says which
// parcels lack their season or their day.
func (t takingIn) files(l *loaded, sheet *ledger.Sheet) ([]scaffold.File, error) {
	sheet.GiveIDs(func(id string) bool { return content.CanBeID(id) && l.diary.Specimen(id) == nil })
	used := map[string]bool{}
	var out []scaffold.File
	for _, p := range sheet.Parcels {
		lacks := ""
		switch {
		case p.Season == "" && !p.Arrived.Known():
			lacks = "of which season it is and when it came"
		case !p.Arrived.Known():
			lacks = "when " + p.Season + " came"
		}
		if lacks != "" {
			return nil, wrongUse{message: fmt.Sprintf("nobody says %s (row %d and below); nothing was written", lacks, p.Rows[0].Line), next: `say it: --season "2023 autumn" --arrived 2023-10`}
		}
		id := freeImport(l, p.Stem(), used)
		if id == "" {
			return nil, wrongUse{message: "no name is left for an import of " + p.Season + "; nothing was written", next: "write the season otherwise: --season WORDS"}
		}
		table, columns := p.Table()
		path := "lists/" + id + ".csv"
		out = append(out, scaffold.File{Path: path, Text: string(table)}, scaffold.File{Path: "imports/" + id + ".md", Text: p.Import(path, columns)})
	}
	return out, nil
}

// freeImport is the first of STEM, STEM-b, STEM-c … that nothing bears; "" where
// none is left.
func freeImport(l *loaded, stem string, used map[string]bool) string {
	for c := 'a'; c <= 'z'; c++ {
		id := stem
		if c > 'a' {
			id += "-" + string(c)
		}
		_, err := fs.Stat(l.files, "lists/"+id+".csv")
		if content.CanBeID(id) && l.diary.Import(id) == nil && errors.Is(err, fs.ErrNotExist) && !used[id] {
			used[id] = true
			return id
		}
	}
	return ""
}

// tellSheet tells what the columns were taken for, and every row back.
func tellSheet(v voice, sheet *ledger.Sheet) {
	for _, c := range sheet.Columns {
		switch {
		case c.As != "":
			v.say(fmt.Sprintf("column %q: %s", c.Heading, c.As))
		case c.Heading != "":
			v.say(fmt.Sprintf("column %q: not known; kept, and not shown", c.Heading))
		}
	}
	unclear := 0
	for _, p := range sheet.Parcels {
		v.say(fmt.Sprintf("%s, arrived %s: %s", or(p.Season, "no season"), or(p.Arrived.Written, "nobody says when"), counted(len(p.Rows), "row", "rows")))
		for _, row := range p.Rows {
			says := "understood as it stands"
			if len(row.Told) > 0 {
				says = "understood; " + strings.Join(row.Told, "; ")
			}
			if len(row.Not) > 0 {
				unclear++
				says = "not understood: " + strings.Join(row.Not, "; ")
				if len(row.Told) > 0 {
					says += "; understood: " + strings.Join(row.Told, "; ")
				}
			}
			v.say(fmt.Sprintf("  line %d, %s %s: %s", row.Line, row.Cells[ledger.ID], row.Cells[ledger.Name], says))
		}
	}
	v.say(fmt.Sprintf("%s, none left out; in %s something wasn't understood, and is kept as written", counted(sheet.Rows, "row", "rows"), counted(unclear, "row", "rows")))
}

func or(words, otherwise string) string {
	if words == "" {
		return otherwise
	}
	return words
}
