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
	by, with, on string
	imports      []string
	at, landmark int
	costs        bool
	exporters    bool
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
			if err := q.judge(cmd.Flags().Changed); err != nil {
				return err
			}
			dir, err := folder(args)
			if err != nil {
				return err
			}
			options, err := dayOptions(q.on)
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			l, err := v.read(dir, options)
			if err != nil {
				return err
			}
			defer l.close()
			if l.report.Errors() > 0 {
				return v.findings(l.report)
			}
			if q.exporters {
				// Nothing of this goes out, so that nothing is too young for it.
				return exporters(v, q, l.diary.Shown(content.ShowOptions{Unfinished: q.unfinished, On: measure.NoDay}))
			}
			shown := l.diary.Shown(content.ShowOptions{Unfinished: q.unfinished, On: l.diary.Today})
			if !cmd.Flags().Changed("at") {
				q.at = shown.Settings.Horizon
			}
			if !cmd.Flags().Changed("landmark") {
				q.landmark = shown.Settings.Landmark
			}
			c := cohort.At(shown, measure.NoDay)
			if q.with != "" {
				return q.sideBySide(v, c)
			}
			return q.compare(v, c)
		},
	}
	cmd.Flags().StringVar(&q.by, "by", "", "")
	cmd.Flags().StringVar(&q.with, "with", "", "")
	cmd.Flags().BoolVar(&q.exporters, "exporters", false, "")
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

// judge says what is wrong with the flags, given which of them were written.
func (q comparing) judge(written func(string) bool) error {
	see := "see wardian compare --help"
	// What goes by plants, by growers and by exporters answers to flags of its own.
	for _, without := range []struct {
		flag  string
		flags []string
	}{
		{"exporters", []string{"by", "with", "at", "import", "landmark", "costs"}},
		{"with", []string{"import", "costs"}},
	} {
		for _, flag := range without.flags {
			if written(without.flag) && written(flag) {
				return wrongUse{message: fmt.Sprintf("--%s and --%s don't go together", without.flag, flag), next: see}
			}
		}
	}
	switch {
	case q.asJSON && q.csv:
		return wrongUse{message: "--json and --csv can't both be had", next: see}
	case written("with") && q.with == "":
		return wrongUse{message: "--with names a folder", next: see}
	case q.by == "" && q.with == "" && !q.exporters:
		return wrongUse{message: "--by says what to group by, such as --by size", next: see}
	case q.by == "" && written("landmark"):
		return wrongUse{message: "--landmark is for groups, and --by says which", next: see}
	case written("at") && q.at < 1:
		return wrongUse{message: fmt.Sprintf("--at %d: the day is counted from arrival and is at least 1", q.at), next: see}
	case written("landmark") && q.landmark < 0:
		return wrongUse{message: fmt.Sprintf("--landmark %d: the day is counted from arrival and is at least 0", q.landmark), next: see}
	}
	return nil
}
