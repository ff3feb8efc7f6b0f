package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"wardian/build/scaffold"
	"wardian/content"
	"wardian/content/source"
)

func newTell() *cobra.Command {
	var w writing
	var about string
	cmd := &cobra.Command{
		Use:  "tell",
		Long: helpText("tell"),
		Args: noArguments("the import goes behind --import, the diary's folder behind --diary"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := w.editable(); err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			a, err := openAsOf(v, w.diary, w.on)
			if err != nil {
				return err
			}
			defer a.close()
			i, err := a.importNamed(about)
			if err != nil {
				return err
			}
			return w.tell(v, a, i)
		},
	}
	w.flags(cmd)
	cmd.Flags().StringVar(&about, "import", "", "")
	return cmd
}

// tell writes an update about an import, or about all.
func (w writing) tell(v voice, a *asOf, about *content.Import) error {
	last := scaffold.LastLetter(a.diary, about, a.on)
	stem, text := scaffold.Letter(a.cohort, about, last, a.on)
	if stem == "" {
		message := "nothing happened up to " + a.on.String()
		if last != nil {
			message = fmt.Sprintf("nothing changed between %s, the day of updates/%s.md, and %s", last.Date, last.Slug, a.on)
		}
		return wrongUse{message: message + "; nothing was written", next: "write a round first: wardian round"}
	}
	for _, u := range a.diary.Updates {
		if u.Unfinished {
			v.say(fmt.Sprintf("updates/%s.md is unfinished still", u.Slug))
		}
	}
	taken, err := a.taken("updates")
	if err != nil {
		return err
	}
	path, ok := scaffold.FreePath(stem, taken)
	if !ok {
		return wrongUse{message: "there are 26 updates of that name already", next: "write this one by hand, under a name of your own"}
	}
	return w.put(v, a, scaffold.File{Path: path, Text: text},
		"make a letter of it (its file's name will be its address), delete unfinished, then "+command("build", a.dir))
}

// importNamed is the import with an ID; nil for no ID.
func (a *asOf) importNamed(id string) (*content.Import, error) {
	if id == "" {
		return nil, nil
	}
	if i := a.diary.Import(id); i != nil {
		return i, nil
	}
	var ids []string
	for _, i := range a.diary.Imports {
		ids = append(ids, i.ID)
	}
	use := wrongUse{message: "there is no import " + id, next: "the imports: " + strings.Join(ids, ", ")}
	if near := source.Nearest(id, ids); near != "" {
		use.next = "nearest: " + near
	}
	return nil, use
}

// noArguments takes none, and says where what was given belongs.
func noArguments(where string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 0 {
			return wrongUse{message: fmt.Sprintf("%s takes no argument such as %s", cmd.CommandPath(), args[0]), next: where}
		}
		return nil
	}
}
