package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"os/signal"
	"path"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"wardian/build/cohort"
	"wardian/build/outdir"
	"wardian/build/scaffold"
	"wardian/content"
	"wardian/content/measure"
)

// A scaffold is written into a diary that may have faults: the round of another
// place may lie there not filled in yet. So what can be read of the diary is
// used, and the faults are told of, not judged.

// writing are the words of a call that writes a scaffold.
type writing struct {
	diary, on    string
	edit, dryRun bool
}

// flags adds the flags that all scaffolds share.
func (w *writing) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&w.diary, "diary", ".", "")
	cmd.Flags().BoolVar(&w.edit, "edit", false, "")
	cmd.Flags().BoolVar(&w.dryRun, "dry-run", false, "")
	onFlag(cmd, &w.on)
}

// asOf is a diary told up to the day of a call.
type asOf struct {
	*loaded
	cohort *cohort.Cohort
	dir    string
	on     measure.Day
}

// openAsOf reads the diary in a folder and tells it up to --on, or to today. What
// was written for days between --on and today is no fault.
func openAsOf(v voice, dir, onWords string) (*asOf, error) {
	dir, err := folder([]string{dir})
	if err != nil {
		return nil, err
	}
	options, err := dayOptions(onWords)
	if err != nil {
		return nil, err
	}
	on := options.Today
	if on.Known() {
		options.Today = max(on, measure.DayOf(time.Now()))
	}
	l, err := v.read(dir, options)
	if err != nil {
		return nil, err
	}
	faults := l.report.Errors()
	for _, f := range l.report.Findings() {
		switch f.Code {
		case "no-diary":
			l.close()
			return nil, wrongUse{message: dir + " is no diary: it has no diary.yaml", next: "name the diary's folder with --diary, or begin one: wardian start sill"}
		case "empty-others": // a round that isn't filled in yet hides nobody
			faults--
		}
	}
	if !on.Known() {
		on = l.diary.Today
	}
	if faults > 0 {
		v.say(fmt.Sprintf("the diary has %s, so that something may be missing here: %s tells", counted(faults, "error", "errors"), command("proof", dir)))
	}
	return &asOf{loaded: l, cohort: cohort.At(l.diary, on), dir: dir, on: on}, nil
}

// command is a command on a diary's folder, which goes without saying where it
// is the one that the call runs in.
func command(verb, dir string) string {
	if dir == "." {
		return "wardian " + verb
	}
	return "wardian " + verb + " " + dir
}

// taken lists the files of one folder of the diary, by diary path.
func (a *asOf) taken(folder string) ([]string, error) {
	entries, err := fs.ReadDir(a.files, folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	var out []string
	for _, e := range entries {
		out = append(out, path.Join(folder, e.Name()))
	}
	return out, nil
}

// put writes a new file, or with --dry-run prints it, and opens it with --edit.
func (w writing) put(v voice, a *asOf, f scaffold.File, next string) error {
	at := filepath.Join(a.dir, filepath.FromSlash(f.Path))
	if w.dryRun {
		v.say("would write " + at)
		_, err := fmt.Fprint(v.out, f.Text)
		return err
	}
	err := outdir.WriteNew(at, []byte(f.Text))
	if errors.Is(err, fs.ErrExist) {
		return wrongUse{message: at + " is there already; nothing was written", next: "call again for the next free name"}
	}
	if err != nil {
		return err
	}
	v.tell(at)
	if w.edit {
		if err := edit(v, at); err != nil {
			return err
		}
	}
	v.say("next: " + next)
	return nil
}

// editable refuses --edit before anything is written where no editor is named,
// and beside --dry-run.
func (w writing) editable() error {
	switch {
	case w.edit && w.dryRun:
		return wrongUse{message: "--edit and --dry-run can't both be had", next: "leave one of them out"}
	case w.edit && editor() == "":
		return wrongUse{message: "--edit needs an editor, and neither VISUAL nor EDITOR names one", next: "such as: export VISUAL=nano, or leave --edit out"}
	}
	return nil
}

func editor() string {
	if e := strings.TrimSpace(os.Getenv("VISUAL")); e != "" {
		return e
	}
	return strings.TrimSpace(os.Getenv("EDITOR"))
}

// edit opens a file in the grower's editor and waits for its end. The variable
// may hold arguments and quotes, so a shell reads it where there is one. Ctrl-C is
// the editor's own as long as it is open: some use it, and none may be left behind
// at a terminal that the shell has taken back.
func edit(v voice, path string) error {
	words := editor()
	var cmd *exec.Cmd
	if fields := strings.Fields(words); runtime.GOOS == "windows" && len(fields) > 0 {
		cmd = exec.Command(fields[0], append(fields[1:], path)...)
	} else {
		cmd = exec.Command("sh", "-c", "trap : INT; "+words+` "$1"`, "editor", path)
	}
	cmd.Stdin, cmd.Stdout, cmd.Stderr = os.Stdin, v.talk, v.talk
	if _, ok := v.out.(*os.File); ok && terminal(v.out) {
		cmd.Stdout = v.out
	}
	err := cmd.Start()
	if err == nil {
		signal.Ignore(os.Interrupt) // not before, since a process hands on what it ignores
		err = cmd.Wait()
		signal.Reset(os.Interrupt)
	}
	if err != nil {
		return fmt.Errorf("%s was written, but the editor %q ended badly: %w", path, words, err)
	}
	return nil
}

// occupied tells which places hold how many plants: "tote 9, cabinet 4".
func (a *asOf) occupied() string {
	places, plants := a.cohort.Occupied()
	words := make([]string, len(places))
	for n, p := range places {
		words[n] = fmt.Sprintf("%s %d", p.ID, plants[n])
	}
	return strings.Join(words, ", ")
}

// nobodyThere refuses a call where no living plant stands at any place.
func (a *asOf) nobodyThere() error {
	return wrongUse{message: "no living plant stands anywhere on " + a.on.String(),
		next: "a plant stands where its first check-in says place; " + command("proof", a.dir) + " tells what can't be read"}
}

// placeFor finds the place that a call means; without a word the only one with
// plants.
func (a *asOf) placeFor(args []string, verb string) (*content.Place, error) {
	places, _ := a.cohort.Occupied()
	if len(args) == 0 {
		switch len(places) {
		case 0:
			return nil, a.nobodyThere()
		case 1:
			return places[0], nil
		}
		return nil, wrongUse{message: fmt.Sprintf("which place? plants stand at %d: %s", len(places), a.occupied()),
			next: fmt.Sprintf("such as: wardian %s %s", verb, places[0].ID)}
	}
	place, err := a.namedPlace(args[0])
	if err != nil {
		return nil, err
	}
	if len(a.cohort.Standing(place)) > 0 {
		return place, nil
	}
	if len(places) == 0 {
		return nil, a.nobodyThere()
	}
	return nil, wrongUse{message: fmt.Sprintf("nothing stands at %s on %s", place.ID, a.on), next: "plants stand at: " + a.occupied()}
}
