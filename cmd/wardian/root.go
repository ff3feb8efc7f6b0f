package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"wardian/content/source"
)

// What a command ends with.
const (
	exitClean    = 0   // done
	exitFindings = 1   // the diary has findings of kind error, or the disk failed
	exitUsage    = 2   // the command was called wrongly
	exitStopped  = 130 // stopped by the user
)

// findings is the error of a command that told findings of kind error: there is
// nothing left to say.
type findings struct{ errors int }

func (f findings) Error() string { return fmt.Sprintf("%d findings of kind error", f.errors) }

// wrongUse is the error of a call that can't be understood.
type wrongUse struct{ message, next string }

func (w wrongUse) Error() string { return w.message }

// run carries out one command line and gives the exit code. Data goes to out,
// talk to err.
func run(ctx context.Context, args []string, in io.Reader, out, talk io.Writer) int {
	root := newRoot()
	root.SetArgs(helpFirst(root, args))
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(talk)
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil:
		return exitClean
	case ctx.Err() != nil:
		fmt.Fprintln(talk, "wardian: stopped")
		return exitStopped
	case errors.Is(err, syscall.EPIPE):
		return exitClean // the reader has seen enough
	case errors.As(err, new(findings)):
		return exitFindings
	}
	var use wrongUse
	if errors.As(err, &use) {
		fmt.Fprintf(talk, "wardian: %s\n", use.message)
		if use.next != "" {
			fmt.Fprintf(talk, "%s\n", use.next)
		}
		return exitUsage
	}
	fmt.Fprintf(talk, "wardian: %s\n", plainly(err))
	return exitFindings
}

// plainly is an error as a person reads it: verb and path, and the system's
// reason without Go's wrapping words.
func plainly(err error) string {
	var path *fs.PathError
	if errors.As(err, &path) && errors.Is(err, fs.ErrNotExist) {
		return fmt.Sprintf("%s is not there", path.Path)
	}
	return err.Error()
}

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:           "wardian",
		Short:         "a plant-import diary as a site",
		Long:          helpText("wardian"),
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownVerb(cmd, args[0])
			}
			return cmd.Help()
		},
	}
	root.SetVersionTemplate("wardian {{.Version}}\n")
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetHelpCommand(newHelp())
	root.SetHelpFunc(func(cmd *cobra.Command, _ []string) { fmt.Fprint(cmd.OutOrStdout(), cmd.Long) })
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return flagFault(cmd, err) })
	root.AddCommand(newTry(), newStart(), newArrive(), newPhotos(), newRound(), newTell(), newSheet(), newLabels(), newProof(), newPreview(), newBuild(), newCompare(), newForecast())
	root.AddCommand(newFind(), newSchema(), newComplete(), newManual())
	root.AddCommand(newTakeIn())
	offer(root)
	return root
}

// unknownVerb tells of a verb that doesn't exist, with the nearest that does.
// It is never run by itself.
func unknownVerb(cmd *cobra.Command, word string) error {
	var verbs []string
	for _, c := range cmd.Commands() {
		if !c.Hidden {
			verbs = append(verbs, c.Name())
		}
	}
	use := wrongUse{message: fmt.Sprintf("unknown command %q", word), next: "the commands: " + strings.Join(verbs, ", ") + "; see wardian --help"}
	if near := source.Nearest(word, verbs); near != "" {
		use.next = fmt.Sprintf("nearest: %s; see wardian --help", near)
	}
	return use
}

// flagFault tells of a flag that can't be understood, with the nearest that can.
func flagFault(cmd *cobra.Command, err error) error {
	use := wrongUse{message: err.Error(), next: fmt.Sprintf("see %s --help", cmd.CommandPath())}
	if name, ok := strings.CutPrefix(err.Error(), "unknown flag: --"); ok {
		use.message = fmt.Sprintf("unknown flag --%s", name)
		if near := source.Nearest(name, flagNames(cmd)); near != "" {
			use.next = fmt.Sprintf("nearest: --%s; see %s --help", near, cmd.CommandPath())
		}
	}
	return use
}

// version is the module's version where it was installed by one, else the
// revision it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return "revision " + s.Value[:12]
		}
	}
	return "from source"
}

// atMostOne takes zero or one argument.
func atMostOne(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return wrongUse{
			message: fmt.Sprintf("%s takes one folder, not %d: %s", cmd.CommandPath(), len(args), strings.Join(args, " ")),
			next:    fmt.Sprintf("see %s --help", cmd.CommandPath()),
		}
	}
	return nil
}

// folder is the diary's folder: the argument, or the folder the command runs in.
func folder(args []string) (string, error) {
	dir := "."
	if len(args) > 0 {
		dir = args[0]
	}
	info, err := os.Stat(dir)
	if err != nil {
		return "", wrongUse{message: fmt.Sprintf("%s is not there", dir), next: "write a new diary with: wardian start " + dir}
	}
	if !info.IsDir() {
		return "", wrongUse{message: fmt.Sprintf("%s is a file; a diary is a folder", dir)}
	}
	return dir, nil
}
