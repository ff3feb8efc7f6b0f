package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// looking is what wardian forecast was asked.
type looking struct {
	on         string
	at, want   int
	unfinished bool
	asJSON     bool
}

func newForecast() *cobra.Command {
	var q looking
	cmd := &cobra.Command{
		Use:  "forecast [DIR] FILE",
		Long: helpText("forecast"),
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			see := "see wardian forecast --help"
			switch {
			case cmd.Flags().Changed("at") && q.at < 1:
				return wrongUse{message: fmt.Sprintf("--at %d: the day is counted from arrival and is at least 1", q.at), next: see}
			case cmd.Flags().Changed("want") && q.want < 1:
				return wrongUse{message: fmt.Sprintf("--want %d: the number wanted alive is at least 1", q.want), next: see}
			}
			dir, path, err := folderAndOrder(args)
			if err != nil {
				return err
			}
			options, err := dayOptions(q.on)
			if err != nil {
				return err
			}
			text, err := listText(path, cmd.InOrStdin())
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			l, err := v.read(dir, options)
			if err != nil {
				return err
			}
			defer l.close()
			order := content.ReadOrder(source.New(path, []byte(text)), &l.diary.Settings, l.report)
			if l.report.Errors() > 0 {
				return v.findings(l.report)
			}
			if n := order.Plants(); n > cohort.MostPlanned {
				return wrongUse{message: fmt.Sprintf("an order of %d plants; at most %d are forecast", n, cohort.MostPlanned), next: "leave lines out"}
			}
			shown := l.diary.Shown(content.ShowOptions{Unfinished: q.unfinished, On: l.diary.Today})
			if !cmd.Flags().Changed("at") {
				q.at = shown.Settings.Horizon
			}
			return q.forecast(v, cohort.At(shown, measure.NoDay).Forecast(order, q.at))
		},
	}
	cmd.Flags().IntVar(&q.want, "want", 0, "")
	cmd.Flags().IntVar(&q.at, "at", 0, "")
	cmd.Flags().BoolVar(&q.asJSON, "json", false, "")
	cmd.Flags().BoolVar(&q.unfinished, "unfinished", false, "")
	onFlag(cmd, &q.on)
	return cmd
}

// folderAndOrder parts the diary's folder from the order's file, which comes last.
func folderAndOrder(args []string) (dir, path string, err error) {
	such := "such as: wardian forecast sill order.yaml; wardian help order shows one"
	if len(args) < 1 || len(args) > 2 {
		return "", "", wrongUse{message: fmt.Sprintf("wardian forecast takes the diary's folder, which may be left out, and the planned order: %s given", counted(len(args), "argument was", "arguments were")), next: such}
	}
	path = args[len(args)-1]
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return "", "", wrongUse{message: path + " is a folder; the planned order is a file", next: such}
	}
	dir, err = folder(args[:len(args)-1])
	return dir, path, err
}

// forecast answers. Without an import to learn from, what there is to say is said,
// and the command ends as one that was refused.
func (q looking) forecast(v voice, o cohort.Outlook) error {
	if q.asJSON {
		if err := jsonForecast(v.out, o, q.want); err != nil {
			return err
		}
	} else if _, err := fmt.Fprint(v.out, forecastWords(o, q.want)); err != nil {
		return err
	}
	if o.Known {
		return nil
	}
	use := wrongUse{message: "no forecast: " + strings.TrimSuffix(o.Refusal, "."), next: fmt.Sprintf("come back when an import is at day %d", o.Horizon)}
	if o.Nearest > 0 {
		use.next = fmt.Sprintf("an import was followed to day %d: --at %d", o.Nearest, o.Nearest)
	}
	return use
}
