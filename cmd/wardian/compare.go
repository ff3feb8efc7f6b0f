package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"wardian/build/cohort"
	"wardian/content"
	"wardian/content/measure"
)

// comparing is what wardian compare was asked.
type comparing struct {
	by, on       string
	imports      []string
	at, landmark int
	costs        bool
	unfinished   bool
	asJSON, csv  bool
}

func newCompare() *cobra.Command {
	var q comparing
	cmd := &cobra.Command{
		Use:  "compare [DIR]",
		Long: helpText("compare"),
		Args: atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			see := "see wardian compare --help"
			switch {
			case q.asJSON && q.csv:
				return wrongUse{message: "--json and --csv can't both be had", next: see}
			case q.by == "":
				return wrongUse{message: "--by says what to group by, such as --by size", next: see}
			case cmd.Flags().Changed("at") && q.at < 1:
				return wrongUse{message: fmt.Sprintf("--at %d: the day is counted from arrival and is at least 1", q.at), next: see}
			case cmd.Flags().Changed("landmark") && q.landmark < 0:
				return wrongUse{message: fmt.Sprintf("--landmark %d: the day is counted from arrival and is at least 0", q.landmark), next: see}
			}
			dir, err := folder(args)
			if err != nil {
				return err
			}
			options, err := dayOptions(q.on)
			if err != nil {
				return err
			}
			l, err := loadFolder(dir, options)
			if err != nil {
				return err
			}
			defer l.close()
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			if l.report.Errors() > 0 {
				return v.findings(l.report)
			}
			shown := l.diary.Shown(content.ShowOptions{Unfinished: q.unfinished, On: l.diary.Today})
			if !cmd.Flags().Changed("at") {
				q.at = shown.Settings.Horizon
			}
			if !cmd.Flags().Changed("landmark") {
				q.landmark = shown.Settings.Landmark
			}
			return q.compare(v, cohort.At(shown, measure.NoDay))
		},
	}
	cmd.Flags().StringVar(&q.by, "by", "", "")
	cmd.Flags().IntVar(&q.at, "at", 0, "")
	cmd.Flags().StringSliceVar(&q.imports, "import", nil, "")
	cmd.Flags().IntVar(&q.landmark, "landmark", 0, "")
	cmd.Flags().BoolVar(&q.costs, "costs", false, "")
	cmd.Flags().BoolVar(&q.asJSON, "json", false, "")
	cmd.Flags().BoolVar(&q.csv, "csv", false, "")
	cmd.Flags().BoolVar(&q.unfinished, "unfinished", false, "")
	onFlag(cmd, &q.on)
	return cmd
}
