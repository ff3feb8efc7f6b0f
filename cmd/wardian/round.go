package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"wardian/build/scaffold"
	"wardian/content"
	"wardian/content/source"
)

func newRound() *cobra.Command {
	var w writing
	cmd := &cobra.Command{
		Use:  "round [PLACE]",
		Long: helpText("round"),
		Args: onePlace,
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
			place, err := a.placeFor(args, "round")
			if err != nil {
				return err
			}
			return w.round(v, a, place)
		},
	}
	w.flags(cmd)
	return cmd
}

// round writes a round of a place.
func (w writing) round(v voice, a *asOf, place *content.Place) error {
	taken, err := a.taken(scaffold.RoundFolder(a.diary, a.on))
	if err != nil {
		return err
	}
	file := scaffold.File{Text: scaffold.Round(a.cohort, place, a.on)}
	var ok bool
	if file.Path, ok = scaffold.RoundPath(a.diary, a.on, taken); !ok {
		return wrongUse{message: "there are 26 rounds of " + a.on.String() + " already", next: "write this one by hand, under a name of your own"}
	}
	for _, e := range a.diary.Entries {
		if e.Round && e.Place == place && e.When.Day == a.on && untouched(e) {
			v.say(fmt.Sprintf("%s.md, a round of %s of the same day, isn't filled in yet", e.Path, place.ID))
		}
	}
	return w.put(v, a, file, "write what you see on the plants' lines, and others: same or not seen; then "+command("proof", a.dir))
}

// untouched tells whether a round is still as its scaffold was.
func untouched(e *content.Entry) bool {
	for _, c := range e.Named {
		if !c.Empty {
			return false
		}
	}
	return e.Others == content.OthersUnsaid && len(e.NotSeen) == 0 && e.Event == ""
}

// onePlace takes at most the ID of one place.
func onePlace(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return wrongUse{message: fmt.Sprintf("%s takes one place, not %d", cmd.CommandPath(), len(args)), next: "the diary's folder goes behind --diary; see " + cmd.CommandPath() + " --help"}
	}
	return nil
}

// namedPlace is the place with an ID.
func (a *asOf) namedPlace(id string) (*content.Place, error) {
	if p := a.diary.Place(id); p != nil {
		return p, nil
	}
	next := "plants stand at: " + a.occupied()
	if near := source.Nearest(id, placeIDs(a.diary)); near != "" {
		next = "nearest: " + near
	} else if places, _ := a.cohort.Occupied(); len(places) == 0 {
		next = "write places/" + id + ".md first"
	}
	return nil, wrongUse{message: "there is no place " + id, next: next}
}
