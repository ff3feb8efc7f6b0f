package main

import (
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"wardian/build/scaffold"
	"wardian/content/ledger"
)

// arrival are the words of one call of arrive.
type arrival struct {
	diary, on, id, season, origin, exporter, place string
	ordered, dispatched, box                       string
	costs, rates                                   []string
	yes, dryRun, edit                              bool
}

func newArrive() *cobra.Command {
	var a arrival
	cmd := &cobra.Command{
		Use:  "arrive LIST",
		Long: helpText("arrive"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return wrongUse{message: "wardian arrive takes the list of what came: a file, or - for standard input", next: "such as: wardian arrive box.txt"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := (writing{edit: a.edit, dryRun: a.dryRun}).editable(); err != nil {
				return err
			}
			text, err := listText(args[0], cmd.InOrStdin())
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			ask, done := answering(cmd.InOrStdin(), args[0] == "-", cmd.ErrOrStderr())
			defer done()
			return a.carryOut(v, text, ask)
		},
	}
	for name, words := range map[string]*string{
		"import": &a.id, "season": &a.season, "origin": &a.origin, "exporter": &a.exporter, "place": &a.place,
		"ordered": &a.ordered, "dispatched": &a.dispatched, "box": &a.box,
	} {
		cmd.Flags().StringVar(words, name, "", "")
	}
	cmd.Flags().StringVar(&a.diary, "diary", ".", "")
	cmd.Flags().StringArrayVar(&a.costs, "cost", nil, "")
	cmd.Flags().StringArrayVar(&a.rates, "rate", nil, "")
	cmd.Flags().BoolVar(&a.yes, "yes", false, "")
	cmd.Flags().BoolVar(&a.dryRun, "dry-run", false, "")
	cmd.Flags().BoolVar(&a.edit, "edit", false, "")
	onFlag(cmd, &a.on)
	return cmd
}

// listText reads a list, which no box of plants makes larger than a megabyte.
func listText(path string, in io.Reader) (string, error) {
	if path != "-" {
		f, err := os.Open(path)
		if err != nil {
			return "", err
		}
		defer f.Close()
		in = f
	}
	const most = 1 << 20
	data, err := io.ReadAll(io.LimitReader(in, most+1))
	if err == nil && len(data) > most {
		err = wrongUse{message: path + " is longer than any list of plants", next: "one line a plant"}
	}
	return string(data), err
}

func (a arrival) carryOut(v voice, text string, ask asker) error {
	l, err := openAsOf(v, a.diary, a.on)
	if err != nil {
		return err
	}
	defer l.close()
	lines, passed := ledger.OrderTable(text, l.diary.Settings.Currency)
	for _, head := range passed {
		v.say(fmt.Sprintf("column %q: not known; nothing of it is taken", head))
	}
	troubles := 0
	for _, line := range lines {
		v.say(understood(line))
		if line.Trouble != "" {
			troubles++
		}
	}
	switch {
	case len(lines) == 0:
		return wrongUse{message: "the list names no plant", next: "one line a plant, such as: 2x Hoya callistophylla M 45 USD"}
	case troubles > 0:
		return wrongUse{message: counted(troubles, "line was", "lines were") + " not understood; nothing was written", next: "change the list and call again"}
	}
	box, err := a.parcel(l, lines)
	if err != nil {
		return err
	}
	rounds, err := l.taken(scaffold.RoundFolder(l.diary, box.On))
	if err != nil {
		return err
	}
	files, ok := scaffold.Arrival(l.diary, box, rounds)
	if !ok {
		return wrongUse{message: "there are 26 rounds of " + box.On.String() + " already; nothing was written", next: "another --on"}
	}
	v.say(a.summary(box))
	o := newFiles{dir: l.dir, files: files, look: "lines", refused: "another --import or --on", yes: a.yes, dryRun: a.dryRun}
	if done, err := o.write(v, ask); !done || err != nil {
		return err
	}
	round := o.path(files[len(files)-1])
	if a.edit {
		if err := edit(v, round); err != nil {
			return err
		}
	}
	v.say("next: write what is seen into " + round + ", then " + command("proof", l.dir))
	return nil
}

// summary tells what the call was taken to say of the parcel.
func (a arrival) summary(b scaffold.Box) string {
	plants := 0
	for _, line := range b.Lines {
		plants += line.Count
	}
	at := "no place: the diary has none"
	if b.Place != nil {
		at = "to " + b.Place.ID
	}
	return fmt.Sprintf("import %s, %s, arrived %s: %s, %s", b.Import, b.Season, b.On, counted(plants, "plant", "plants"), at)
}

// understood tells what a line of the list was taken to say.
func understood(o ledger.OrderLine) string {
	if o.Trouble != "" {
		return fmt.Sprintf("line %d: not understood (%s): %s", o.Number, o.Trouble, short(o.Written))
	}
	words := fmt.Sprintf("line %d: %d × %s", o.Number, o.Count, o.Name)
	if o.Received != "" {
		words += ", received as " + o.Received
	}
	if o.Size != "" {
		words += ", " + o.Size
	}
	if o.SizeSold != "" {
		words += ", sold as " + o.SizeSold
	}
	switch {
	case o.Price == nil:
		words += ", no price"
	case o.Price.Zero():
		words += ", free"
	default:
		words += ", " + o.Price.String()
		if o.Count > 1 {
			words += " each"
		}
	}
	return words
}

// short is the opening of a line that may be any file's.
func short(line string) string {
	const most = 200
	if r := []rune(line); len(r) > most {
		return string(r[:most]) + "…"
	}
	return line
}
