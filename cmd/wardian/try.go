package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"wardian/content"
	"wardian/content/example"
)

func newTry() *cobra.Command {
	var to string
	var noServe bool
	var port int
	cmd := &cobra.Command{
		Use:  "try",
		Long: helpText("try"),
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return wrongUse{message: fmt.Sprintf("wardian try takes no folder; it builds the embedded example (%s was given)", args[0]), next: "your own diary: wardian build " + args[0]}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			keep := to != ""
			if !keep {
				temp, err := os.MkdirTemp("", "wardian-try-")
				if err != nil {
					return err
				}
				if !noServe {
					passing.add(temp)
					defer passing.clear()
				}
				to = filepath.Join(temp, "site")
			}
			v.say("building the example, an invented diary")
			// The example ends on a day of its own; whatever day it is where
			// it is tried, nothing of it lies in the future.
			err := buildSite(cmd.Context(), v, job{open: func(o content.Options) (*loaded, error) { return loadFS(example.Files(), o) }, to: to, ageless: true})
			if err != nil {
				return err
			}
			if noServe {
				v.tell(filepath.Join(to, "index.html"))
				return nil
			}
			return serve(cmd.Context(), v, to, port)
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "")
	cmd.Flags().BoolVar(&noServe, "no-serve", false, "")
	cmd.Flags().IntVar(&port, "port", 0, "")
	return cmd
}
