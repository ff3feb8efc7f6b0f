package main

import (
	"github.com/spf13/cobra"

	"wardian/build/paper"
)

func newLabels() *cobra.Command {
	var p printing
	var of string
	cmd := &cobra.Command{
		Use:  "labels",
		Long: helpText("labels"),
		Args: noArguments("the import goes behind --import, the diary's folder behind --diary"),
		RunE: func(cmd *cobra.Command, args []string) error {
			size, err := p.size("a4")
			if err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			a, err := openAsOf(v, p.diary, p.on)
			if err != nil {
				return err
			}
			defer a.close()
			i, err := a.importNamed(of)
			if err != nil {
				return err
			}
			page, plants, err := paper.Labels(a.cohort, i, a.on, size)
			if err != nil {
				return err
			}
			name := "labels.html"
			if i != nil {
				name = "labels-" + i.ID + ".html"
			}
			if plants == 0 {
				return wrongUse{message: "no living plant to make a label for on " + a.on.String(), next: "another --import or --on"}
			}
			if a.diary.Settings.Address == "" {
				v.say("the labels bear no QR code: diary.yaml says no address, where the site will stand")
			}
			return p.put(v, a, name, page, counted(plants, "label", "labels")+"; next: open it in a browser, print it without margins of its own, and cut along the dashes")
		},
	}
	p.flags(cmd, "a4")
	cmd.Flags().StringVar(&of, "import", "", "")
	return cmd
}
