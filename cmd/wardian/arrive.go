package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/govalues/decimal"
	"github.com/spf13/cobra"

	"wardian/build/scaffold"
	"wardian/content"
	"wardian/content/ledger"
	"wardian/content/measure"
)

// arrival are the words of one call of arrive.
type arrival struct {
	diary, on, id, season, origin, exporter, place string
	rates                                          []string
	yes, dryRun                                    bool
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
			text, err := listText(args[0], cmd.InOrStdin())
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			return a.carryOut(v, text, asker(cmd.InOrStdin(), args[0] == "-"))
		},
	}
	cmd.Flags().StringVar(&a.diary, "diary", ".", "")
	cmd.Flags().StringVar(&a.id, "import", "", "")
	cmd.Flags().StringVar(&a.season, "season", "", "")
	cmd.Flags().StringVar(&a.origin, "origin", "", "")
	cmd.Flags().StringVar(&a.exporter, "exporter", "", "")
	cmd.Flags().StringVar(&a.place, "place", "", "")
	cmd.Flags().StringArrayVar(&a.rates, "rate", nil, "")
	cmd.Flags().BoolVar(&a.yes, "yes", false, "")
	cmd.Flags().BoolVar(&a.dryRun, "dry-run", false, "")
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

// asker asks on the terminal and tells whether the answer was a yes. Where the
// list itself came from standard input, or it is no terminal, nobody can be asked
// and ask is nil.
func asker(in io.Reader, listFromIn bool) func(v voice, question string) bool {
	f, ok := in.(*os.File)
	if listFromIn || !ok || !terminal(f) {
		return nil
	}
	return func(v voice, question string) bool {
		fmt.Fprint(v.talk, question+" [y/N] ")
		answer, _ := bufio.NewReader(f).ReadString('\n')
		answer = strings.ToLower(strings.TrimSpace(answer))
		return answer == "y" || answer == "yes"
	}
}

func (a arrival) carryOut(v voice, text string, ask func(voice, string) bool) error {
	on, err := onDay(a.on)
	if err != nil {
		return err
	}
	dir, err := folder([]string{a.diary})
	if err != nil {
		return err
	}
	l, err := loadFolder(dir, content.Options{Today: measure.NoDay})
	if err != nil {
		return err
	}
	defer l.close()
	box, err := a.box(l.diary, on, text)
	if err != nil {
		return err
	}
	troubles := 0
	for _, line := range box.Lines {
		v.say(understood(line))
		if line.Trouble != "" {
			troubles++
		}
	}
	switch {
	case len(box.Lines) == 0:
		return wrongUse{message: "the list names no plant", next: "one line a plant, such as: 2x Hoya callistophylla M 45 USD"}
	case troubles > 0:
		return wrongUse{message: counted(troubles, "line was", "lines were") + " not understood; nothing was written", next: "change the list and call again"}
	}
	files := scaffold.Arrival(l.diary, box)
	o := newFiles{dir: dir, files: files, look: "lines", refused: "another --import or --on", yes: a.yes, dryRun: a.dryRun}
	if done, err := o.write(v, ask); !done || err != nil {
		return err
	}
	v.say("next: write what is seen into " + o.path(files[len(files)-1]) + ", then wardian proof " + dir)
	return nil
}

// box is what the call and the list say of the parcel.
func (a arrival) box(d *content.Diary, on measure.Day, text string) (scaffold.Box, error) {
	b := scaffold.Box{On: on, Import: a.id, Season: a.season, Origin: a.origin, Exporter: a.exporter, Lines: ledger.OrderTable(text, d.Settings.Currency)}
	if b.Import == "" {
		id, ok := scaffold.FreeImport(d, on)
		if !ok {
			return b, wrongUse{message: "no import of that year has a letter left", next: "name it: --import ID"}
		}
		b.Import = id
	}
	if d.Import(b.Import) != nil {
		return b, wrongUse{message: "there is an import " + b.Import + " already", next: "another --import, or none"}
	}
	if b.Season == "" {
		b.Season = ledger.SeasonOf(on)
	}
	plants := 0
	for _, line := range b.Lines {
		plants += line.Count
	}
	for _, id := range scaffold.SpecimenIDs(b.Import, plants) {
		if d.Specimen(id) != nil {
			return b, wrongUse{message: "there is a specimen " + id + " already", next: "name the import otherwise: --import ID"}
		}
	}
	b.Place = firstPlace(d, a.place)
	if a.place != "" && b.Place == nil {
		return b, wrongUse{message: "there is no place " + a.place, next: "the places: " + strings.Join(placeIDs(d), ", ")}
	}
	for _, r := range a.rates {
		code, amount, ok := strings.Cut(r, "=")
		per, err := decimal.Parse(amount)
		if !ok || err != nil || !per.IsPos() || len(code) != 3 {
			return b, wrongUse{message: "--rate " + r + " can't be read", next: "write it like --rate USD=10.52"}
		}
		b.Rates = append(b.Rates, content.Rate{Currency: strings.ToUpper(code), PerOne: per})
	}
	return b, nil
}

// firstPlace is the place with an ID, or without one the wettest of the diary.
func firstPlace(d *content.Diary, id string) *content.Place {
	if id != "" {
		return d.Place(id)
	}
	var first *content.Place
	for _, p := range d.Places {
		if first == nil || p.Stage < first.Stage {
			first = p
		}
	}
	return first
}

func placeIDs(d *content.Diary) []string {
	var ids []string
	for _, p := range d.Places {
		ids = append(ids, p.ID)
	}
	return ids
}

// understood tells what a line of the list was taken to say.
func understood(o ledger.OrderLine) string {
	if o.Trouble != "" {
		return fmt.Sprintf("line %d: not understood (%s): %s", o.Number, o.Trouble, o.Written)
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
