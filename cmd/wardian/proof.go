package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

func newProof() *cobra.Command {
	var on string
	var asJSON, asLines bool
	cmd := &cobra.Command{
		Use:  "proof [DIR]",
		Long: helpText("proof"),
		Args: atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			if asJSON && asLines {
				return wrongUse{message: "--json and --lines can't both be had", next: "see wardian proof --help"}
			}
			dir, err := folder(args)
			if err != nil {
				return err
			}
			options, err := dayOptions(on)
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr(), onOut: true}
			l, err := v.read(dir, options)
			if err != nil {
				return err
			}
			defer l.close()
			switch {
			case asJSON:
				v.form = jsonForm
			case asLines:
				v.form = lineForm
			}
			if err := v.findings(l.report); err != nil {
				return err
			}
			if len(l.report.Findings()) == 0 {
				v.say(fmt.Sprintf("nothing wrong in %s", counted(len(l.diary.Entries), "check-in", "check-ins")))
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "")
	cmd.Flags().BoolVar(&asLines, "lines", false, "")
	onFlag(cmd, &on)
	return cmd
}
