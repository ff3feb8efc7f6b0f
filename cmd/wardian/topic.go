package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"wardian/content/format"
	"wardian/content/source"
)

// newHelp tells of a command, a kind of file, a key, a finding's code, or one of
// a few subjects. All but the subjects is made from the tables that reading is
// made from.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:  "help [TOPIC]",
		Long: helpText("help"),
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := topic(cmd.Root(), strings.Join(args, " "))
			if err != nil {
				return err
			}
			return paged(cmd.OutOrStdout(), text)
		},
	}
}

// helpFirst turns a command line that asks for help anywhere before a bare --
// into one that asks for nothing else: whatever is wrong with the rest, help is
// given. Where it names a command, it is that command's.
func helpFirst(root *cobra.Command, args []string) []string {
	if len(args) == 0 || strings.HasPrefix(args[0], cobra.ShellCompRequestCmd) {
		return args
	}
	verb, asked := "", false
	for _, a := range args {
		if a == "--" {
			break
		}
		asked = asked || a == "-h" || a == "--help"
		if verb == "" && (a == "help" || commandOf(root, a) != nil) {
			verb = a
		}
	}
	switch {
	case !asked:
		return args
	case verb == "":
		return []string{"--help"}
	}
	return []string{verb, "--help"}
}

// subjects are topics that are neither commands nor stand in a table of their
// own.
var subjects = []struct {
	name string
	text func() string
}{
	{"files", filesTopic},
	{"words", wordsTopic},
	{"codes", codesTopic},
	{"editors", func() string { return helpText("editors") }},
	{"open-data", func() string { return helpText("open-data") }},
	{"style", func() string { return helpText("style") }},
}

// topic finds what help tells under a word; the nearest is offered for one that
// it doesn't know. Where a kind of file and a command have one name, the file is
// told, and the command named below it.
func topic(root *cobra.Command, asked string) (string, error) {
	word := strings.ToLower(strings.Join(strings.Fields(asked), " "))
	if word == "" {
		return root.Long, nil
	}
	for _, s := range subjects {
		if s.name == word {
			return s.text(), nil
		}
	}
	command := commandOf(root, word)
	if f := kindOf(word); f != nil {
		text := fileTopic(f)
		if command = commandOf(root, fileWord(f)); command != nil {
			text += fmt.Sprintf("%s --help tells of the command.\n", command.CommandPath())
		}
		return text, nil
	}
	if command != nil {
		return command.Long, nil
	}
	if format.Explained(word) {
		return codeTopic(format.CodeOf(word)), nil
	}
	if text := keyTopic(word); text != "" {
		return text, nil
	}
	use := wrongUse{message: fmt.Sprintf("nothing is told of %q", asked), next: "the topics: wardian help"}
	if near := source.Nearest(word, topics(root)); near != "" {
		use.next = "nearest: wardian help " + near
	}
	return "", use
}

// topics are all words that help knows, those first that come first where two
// are equally near.
func topics(root *cobra.Command) []string {
	var out []string
	for _, f := range format.Files() {
		out = append(out, fileWord(f))
	}
	for _, s := range subjects {
		out = append(out, s.name)
	}
	for _, c := range root.Commands() {
		if !c.Hidden && !slices.Contains(out, c.Name()) {
			out = append(out, c.Name())
		}
	}
	for _, c := range format.Codes() {
		out = append(out, c.Name)
	}
	for _, f := range format.Files() {
		for _, k := range f.Keys {
			if !slices.Contains(out, k.Name) {
				out = append(out, k.Name)
			}
		}
	}
	return out
}

// commandOf gives the command of a name, or nil.
func commandOf(root *cobra.Command, name string) *cobra.Command {
	for _, c := range root.Commands() {
		if c.Name() == name && !c.Hidden {
			return c
		}
	}
	return nil
}

// fileWord is a kind of file in one word: "place-note".
func fileWord(f *format.File) string { return strings.ReplaceAll(f.Name, " ", "-") }

// kindOf gives the kind of file that a word means: its name, its folder, or a
// path; nil where there is none.
func kindOf(word string) *format.File {
	word = strings.ReplaceAll(strings.TrimSuffix(word, "/"), " ", "-")
	for _, f := range format.Files() {
		if w := fileWord(f); word == w || word == w+"s" || word == f.Path {
			return f
		}
	}
	return nil
}

// fileTopic tells of one kind of file: a whole example, then every key.
func fileTopic(f *format.File) string {
	var p page
	sample := f.Example()
	p.line(fmt.Sprintf("%s: %s", f.Name, f.Path))
	p.line("")
	p.words(0, f.About)
	p.words(0, fmt.Sprintf("An example, %s:", sample.Path))
	p.block(2, sample.Text)
	p.words(0, "Its keys, each with an example:")
	p.keys(f.Keys, 2)
	if f == &format.Round {
		p.words(0, "A plant's line is plain words (wardian help words), or a map in braces of the keys of a check-in.")
	}
	if f == &format.Order {
		p.words(0, "Next: wardian forecast reads it; wardian schema order prints its JSON Schema.")
		return p.text()
	}
	p.words(0, fmt.Sprintf("Next: wardian proof reads them all; wardian schema %s prints their JSON Schema; wardian help editors says who can use it.", fileWord(f)))
	return p.text()
}

// keyTopic tells of a key in each kind of file that has it, "" where none does.
// Files in which it means the same are told together.
func keyTopic(name string) string {
	var p page
	told := map[string]int{} // by what is told of it: where it stands in groups
	type group struct {
		key   *format.Key
		files []string
	}
	var groups []group
	for _, f := range format.Files() {
		k := format.Find(f.Keys, name)
		if k == nil {
			continue
		}
		if at, ok := told[k.About+k.Example]; ok {
			groups[at].files = append(groups[at].files, fileWord(f))
			continue
		}
		told[k.About+k.Example] = len(groups)
		groups = append(groups, group{k, []string{fileWord(f)}})
	}
	if len(groups) == 0 {
		return ""
	}
	for _, g := range groups {
		p.keys([]format.Key{*g.key}, 2)
		p.words(2, "It is a key of: "+strings.Join(g.files, ", ")+".")
	}
	p.words(0, "Next: wardian help "+groups[0].files[0]+" shows a whole file.")
	return p.text()
}

// filesTopic lists the kinds of file.
func filesTopic() string {
	var p page
	p.words(0, "A diary is a folder. These are its files:")
	for _, f := range format.Files() {
		p.line("  " + f.Path)
		p.hanging(6, f.Name+". "+f.About)
	}
	p.line("")
	p.words(0, "Beside these it has folders for what isn't Markdown, and two that may be deleted at any time:")
	for _, f := range format.Folders {
		p.line("  " + f.Path)
		p.hanging(6, f.About)
	}
	p.line("")
	p.words(0, "Every path that a file names starts at the diary's folder, but those under photos: start at photos/. What stands in other folders is not read.")
	p.words(0, "Next: wardian help "+fileWord(&format.CheckIn)+", or the name of any other of them, shows a whole file and explains every key.")
	return p.text()
}

// wordsTopic lists the phrases of plain words.
func wordsTopic() string {
	var p page
	p.line("  b26-03: leaves 3 13x6 12x6, roots 1 longest 2, soft; smells sour")
	p.line("")
	p.words(0, "A plant's line in a round is plain words: phrases with commas between, in any order, then a remark after a semicolon. These are all the phrases:")
	for _, ph := range format.Phrases {
		p.line("  " + ph.Written)
		about := ph.About
		if ph.Example != ph.Written {
			about += " Such as: " + ph.Example
		}
		p.hanging(6, about)
	}
	p.line("")
	p.words(0, "Next: wardian help round shows a whole round.")
	return p.text()
}
