package main

import (
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// What a shell offers on the tab key. Which words a command takes stands in its
// Use line ("find WORDS [DIR]") and in its help text ("--place ID"), so that a
// new command is completed without a line here. IDs are the names of files: no
// diary is loaded for them, since the answer must come between two keystrokes.
// So a section without a file of its own, and a plant that only a list names,
// aren't offered.

// shells write completion, by name.
var shells = map[string]func(*cobra.Command) error{
	"bash": func(c *cobra.Command) error { return c.Root().GenBashCompletionV2(c.OutOrStdout(), true) },
	"zsh":  func(c *cobra.Command) error { return c.Root().GenZshCompletion(c.OutOrStdout()) },
	"fish": func(c *cobra.Command) error { return c.Root().GenFishCompletion(c.OutOrStdout(), true) },
}

func newComplete() *cobra.Command {
	return &cobra.Command{
		Use:  "complete SHELL",
		Long: helpText("complete"),
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 || shells[args[0]] == nil {
				return wrongUse{message: "wardian complete takes the name of a shell: bash, zsh or fish", next: "such as: wardian complete bash"}
			}
			return shells[args[0]](cmd)
		},
	}
}

// offer tells cobra what to offer for every argument and flag, and gives
// commands and flags the words that stand beside them in the list.
func offer(root *cobra.Command) {
	root.InitDefaultHelpCmd() // so that it is among the commands
	short := flagWords(root.Long)
	for _, cmd := range root.Commands() {
		if cmd.Short == "" {
			cmd.Short = short["wardian "+cmd.Name()].words
		}
		told := flagWords(cmd.Long)
		cmd.Flags().VisitAll(func(f *pflag.Flag) {
			f.Usage = told["--"+f.Name].words
			what := told["--"+f.Name].value
			if what == "ID" {
				what = strings.ToUpper(f.Name)
			}
			// The error is for a flag that isn't there.
			_ = cmd.RegisterFlagCompletionFunc(f.Name, func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
				return candidates(cmd, what, args, begun)
			})
		})
		takes := strings.Fields(strings.NewReplacer("[", "", "]", "", "...", "").Replace(cmd.Use))[1:]
		cmd.ValidArgsFunction = func(cmd *cobra.Command, args []string, begun string) ([]string, cobra.ShellCompDirective) {
			if len(takes) == 0 || len(args) >= len(takes) && takes[0] != "WORDS" {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return candidates(cmd, takes[min(len(args), len(takes)-1)], args, begun)
		}
	}
}

// candidates are the words that may stand where a help text says what: an ID, a
// folder, a topic.
func candidates(cmd *cobra.Command, what string, args []string, begun string) ([]string, cobra.ShellCompDirective) {
	const only = cobra.ShellCompDirectiveNoFileComp
	switch {
	case what == "SPECIMEN" || what == "PLACE" || what == "IMPORT":
		return ids(diaryOf(cmd, args), strings.ToLower(what)+"s", begun), only
	case what == "TOPIC":
		return begunWith(topics(cmd.Root()), begun), only
	case what == "KIND":
		return begunWith(schemaNames(), begun), only
	case what == "SHELL":
		return begunWith([]string{"bash", "fish", "zsh"}, begun), only
	case what == "DIR" || what == "FOLDER":
		return nil, cobra.ShellCompDirectiveFilterDirs
	case what == "LIST" || strings.HasPrefix(what, "FILE"):
		return nil, cobra.ShellCompDirectiveDefault
	}
	return nil, only
}

// begunWith are the words that open with what was typed.
func begunWith(words []string, begun string) []string {
	var out []string
	for _, w := range words {
		if strings.HasPrefix(w, begun) {
			out = append(out, w)
		}
	}
	return out
}

// diaryOf is the folder of the diary that a command line speaks of: its --diary,
// an argument where a diary stands, else the folder the command runs in.
func diaryOf(cmd *cobra.Command, args []string) string {
	if f := cmd.Flags().Lookup("diary"); f != nil && f.Value.String() != "" {
		return f.Value.String()
	}
	for _, a := range args {
		if isDiary(a) {
			return a
		}
	}
	return "."
}

// ids are the IDs in one of a diary's folders that open with what was typed, in
// the order of their names; none where the folder can't be read.
func ids(dir, name, begun string) []string {
	folder, err := os.Open(filepath.Join(dir, name))
	if err != nil {
		return nil
	}
	defer folder.Close()
	files, err := folder.Readdirnames(-1)
	if err != nil {
		return nil
	}
	var out []string
	for _, f := range files {
		if id, ok := strings.CutSuffix(f, ".md"); ok && strings.HasPrefix(id, begun) && !strings.HasPrefix(id, ".") {
			out = append(out, id)
		}
	}
	return out // the shell sorts
}

// flagWord is what a help text says beside a flag or a command.
type flagWord struct{ value, words string }

// flagWords reads the lines of a help text that open with a flag, or with
// "wardian" and a verb, and tell behind two spaces what it is for: the first line
// of it.
func flagWords(help string) map[string]flagWord {
	out := map[string]flagWord{}
	for line := range strings.Lines(help) {
		line, set := strings.CutPrefix(strings.TrimRight(line, "\n"), "  ")
		call, words, ok := strings.Cut(line, "  ")
		fields := strings.Fields(call)
		if !set || !ok || len(fields) == 0 {
			continue
		}
		name, value := fields[0], strings.Join(fields[1:], " ")
		switch {
		case strings.HasPrefix(name, "--"):
		case name == "wardian" && len(fields) > 1:
			name, value = "wardian "+fields[1], ""
		default:
			continue
		}
		if _, told := out[name]; !told {
			out[name] = flagWord{value, strings.TrimSpace(words)}
		}
	}
	return out
}
