package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"wardian/content/format"
)

// written is the first line of every manual page that we wrote: only a file that
// opens with it is written over.
const written = `.\" Written by wardian manual.` + "\n"

func newManual() *cobra.Command {
	var to string
	var quiet bool
	cmd := &cobra.Command{
		Use:  "manual --to DIR",
		Long: helpText("manual"),
		Args: cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 0 || to == "" {
				return wrongUse{message: "wardian manual takes the folder to write into, behind --to", next: "such as: wardian manual --to ~/.local/share/man"}
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr(), quiet: quiet}
			return writeManual(v, to, manualPages(cmd.Root()))
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "")
	cmd.Flags().BoolVar(&quiet, "quiet", false, "")
	return cmd
}

// manualPage is one page: where it goes below the manual's folder, and its text.
type manualPage struct{ path, text string }

// manualPages are all pages: one for the program and one a command in section 1,
// one a kind of file in 5, and all codes in one in 7.
func manualPages(root *cobra.Command) []manualPage {
	pages := []manualPage{manual("wardian", 1, root.Short, root.Long)}
	for _, c := range root.Commands() {
		if !c.Hidden {
			pages = append(pages, manual("wardian-"+c.Name(), 1, c.Short, c.Long))
		}
	}
	for _, f := range format.Files() {
		text := fileTopic(f)
		_, text, _ = strings.Cut(text, "\n\n") // its first line is the page's name
		pages = append(pages, manual("wardian-"+fileWord(f), 5, f.Path, text))
	}
	var codes strings.Builder
	codes.WriteString(codesTopic())
	for _, c := range format.Codes() {
		codes.WriteString("\n" + codeTopic(&c))
	}
	return append(pages, manual("wardian-codes", 7, "what proof and build can find", codes.String()))
}

// writeManual writes the pages, over older ones of ours only; where one of the
// files is somebody else's, none is written.
func writeManual(v voice, to string, pages []manualPage) error {
	for _, p := range pages {
		old, err := os.ReadFile(filepath.Join(to, p.path))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		if !bytes.HasPrefix(old, []byte(written)) {
			return wrongUse{message: fmt.Sprintf("%s is there already and wasn't written by wardian; nothing was written", filepath.Join(to, p.path)), next: "name another folder behind --to"}
		}
	}
	for _, p := range pages {
		at := filepath.Join(to, p.path)
		if err := os.MkdirAll(filepath.Dir(at), 0o777); err != nil {
			return err
		}
		if err := os.WriteFile(at, []byte(p.text), 0o666); err != nil {
			return err
		}
		v.tell(at)
	}
	v.say(fmt.Sprintf("%s written; next: man -M %s wardian", counted(len(pages), "page", "pages"), to))
	return nil
}

// manual sets a help text as a page of a manual.
func manual(name string, section int, short, text string) manualPage {
	var b strings.Builder
	b.WriteString(written)
	if short == "" {
		short = "a command of wardian"
	}
	fmt.Fprintf(&b, ".TH %s %d \"\" %s \"Wardian\"\n", strings.ToUpper(name), section, quotedArgument("wardian "+version()))
	fmt.Fprintf(&b, ".SH NAME\n%s \\- %s\n", escaped(name), escaped(short))
	first := true
	for _, part := range strings.Split(strings.TrimRight(text, "\n"), "\n\n") {
		lines := strings.Split(part, "\n")
		switch {
		case first && strings.HasPrefix(part, "  wardian "):
			b.WriteString(".SH SYNOPSIS\n")
			verbatim(&b, lines)
			b.WriteString(".SH DESCRIPTION\n")
		case first:
			b.WriteString(".SH DESCRIPTION\n")
			manualPart(&b, lines)
		default:
			manualPart(&b, lines)
		}
		first = false
	}
	return manualPage{path: fmt.Sprintf("man%d/%s.%d", section, name, section), text: b.String()}
}

// manualPart sets the lines between two empty ones: a paragraph, a list of flags
// or keys with what they mean, or lines that stay as they are.
func manualPart(b *strings.Builder, lines []string) {
	for len(lines) > 0 {
		n := 1
		for n < len(lines) && indented(lines[n]) == indented(lines[0]) {
			n++
		}
		switch {
		case !indented(lines[0]):
			flow(b, lines[:n])
		case flagged(lines[:n]):
			flags(b, lines[:n])
		default:
			verbatim(b, lines[:n])
		}
		lines = lines[n:]
	}
}

func indented(line string) bool { return strings.HasPrefix(line, " ") }

// flow sets lines that may be wrapped anew.
func flow(b *strings.Builder, lines []string) {
	paragraph(b)
	for _, line := range lines {
		b.WriteString(escaped(strings.TrimSpace(line)) + "\n")
	}
}

// paragraph begins one, but at a section's head, which does so itself.
func paragraph(b *strings.Builder) {
	text := strings.TrimSuffix(b.String(), "\n")
	if !strings.HasPrefix(text[strings.LastIndexByte(text, '\n')+1:], ".SH ") {
		b.WriteString(".PP\n")
	}
}

// verbatim sets lines as they are.
func verbatim(b *strings.Builder, lines []string) {
	paragraph(b)
	b.WriteString(".nf\n")
	for _, line := range lines {
		b.WriteString(escaped(line) + "\n")
	}
	b.WriteString(".fi\n")
}

// flagged says whether lines are a list of flags: the first one's words stand in
// a column of their own.
func flagged(lines []string) bool {
	return isFlag(lines[0])
}

// isFlag says whether a line opens with a flag; one of three hyphens is the edge
// of front matter.
func isFlag(line string) bool {
	return strings.HasPrefix(line, "  --") && len(line) > 4 && line[4] >= 'a' && line[4] <= 'z'
}

// flags sets a list of flags, each with what it does.
func flags(b *strings.Builder, lines []string) {
	for _, line := range lines {
		call, words, _ := strings.Cut(strings.TrimSpace(line), "  ")
		if isFlag(line) {
			fmt.Fprintf(b, ".TP\n\\fB%s\\fR\n", escaped(call))
			call = ""
		}
		if words = strings.TrimSpace(call + " " + strings.TrimSpace(words)); words != "" {
			b.WriteString(escaped(words) + "\n")
		}
	}
}

// roff takes the meaning off characters that the formatter would read.
var roff = strings.NewReplacer(`\`, `\e`, "-", `\-`, "`", "\\(ga", "^", "\\(ha", "~", "\\(ti")

// escaped is a line of text for the formatter.
func escaped(line string) string {
	out := roff.Replace(line)
	if strings.HasPrefix(out, ".") || strings.HasPrefix(out, "'") {
		out = `\&` + out
	}
	return out
}

// quotedArgument is one argument of a request.
func quotedArgument(text string) string {
	return `"` + strings.ReplaceAll(escaped(text), `"`, `\(dq`) + `"`
}
