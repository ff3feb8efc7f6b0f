package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"unicode/utf8"

	"wardian/content/format"
)

// page is a help text being written.
type page struct{ b strings.Builder }

// text is what was written, with one line end behind it.
func (p *page) text() string { return strings.TrimRight(p.b.String(), "\n") + "\n" }

func (p *page) line(text string) { p.b.WriteString(strings.TrimRight(text, " ") + "\n") }

// words writes a paragraph, set in and wrapped, with an empty line behind it.
func (p *page) words(indent int, text string) {
	p.hanging(indent, text)
	p.line("")
}

// hanging writes a paragraph without an empty line behind it.
func (p *page) hanging(indent int, text string) {
	in := strings.Repeat(" ", indent)
	line := in
	for word := range strings.FieldsSeq(text) {
		switch {
		case line == in:
			line += word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width():
			p.line(line)
			line = in + word
		default:
			line += " " + word
		}
	}
	if line != in {
		p.line(line)
	}
}

// block writes lines as they are, set in, with an empty line behind them.
func (p *page) block(indent int, text string) {
	for line := range strings.Lines(text) {
		p.line(strings.Repeat(" ", indent) + strings.TrimRight(line, "\n"))
	}
	p.line("")
}

// width is how many characters a line of help may have: the terminal's, where
// COLUMNS tells it, between 40 and 100, else 78.
func width() int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return min(max(n, 40), 100)
	}
	return 78
}

// example writes a key with its value; one in braces that is too long for a line
// goes on, set in, behind a comma, as YAML lets it.
func (p *page) example(indent int, text string) {
	line := strings.Repeat(" ", indent)
	for i, part := range strings.SplitAfter(text, ", ") {
		if i > 0 && utf8.RuneCountInString(line)+utf8.RuneCountInString(strings.TrimRight(part, " ")) > width() {
			p.line(line)
			line = strings.Repeat(" ", indent+2)
		}
		line += part
	}
	p.line(line)
}

// keys writes each key with its example and what the table tells of it, keys
// under it set in further.
func (p *page) keys(keys []format.Key, indent int) {
	for i := range keys {
		k := &keys[i]
		p.example(indent, k.Name+": "+k.Example)
		p.hanging(indent+4, tellKey(k))
		v := &k.Value
		if v.Kind == format.List {
			v = v.Item
		}
		if v.Kind != format.Plant && len(v.Keys) > 0 {
			p.line("")
			p.hanging(indent+4, "Under it, or of each of it:")
			p.keys(v.Keys, indent+6)
			continue
		}
		p.line("")
	}
}

// tellKey tells what a key is, whether it must be there, what it takes and what
// holds without it.
func tellKey(k *format.Key) string {
	var b strings.Builder
	b.WriteString(k.About)
	v := &k.Value
	single := v.Kind == format.List && v.Single
	for v.Kind == format.List {
		v = v.Item
	}
	switch {
	case v.Kind == format.Choice:
		b.WriteString(" One of: " + wordList(v.Words) + ".")
	case v.Kind == format.Table:
		fmt.Fprintf(&b, " A map; what stands before each colon is %s, behind it %s.", v.Naming, item(v.Item))
	case len(v.Words) > 0:
		fmt.Fprintf(&b, " These have a meaning: %s.", wordList(v.Words))
	case v.Kind == format.Anything || v.Kind == format.Map || v.Kind == format.Text:
	default:
		fmt.Fprintf(&b, " Written as %s.", v.Kind.Expected())
	}
	if single {
		b.WriteString(" One may stand alone, several in brackets.")
	}
	if k.Required {
		b.WriteString(" It must be there.")
	}
	if k.Default != "" {
		fmt.Fprintf(&b, " Without it: %s.", k.Default)
	}
	return b.String()
}

// item says what an item of a table is.
func item(v *format.Value) string {
	if v.Kind == format.Choice {
		return "one of " + wordList(v.Words)
	}
	return v.Kind.Expected()
}

// wordList lists words with what they mean.
func wordList(words []format.Word) string {
	var out []string
	for _, w := range words {
		out = append(out, fmt.Sprintf("%s (%s)", w.Word, w.About))
	}
	return strings.Join(out, ", ")
}

// paged prints a help text; where the output is a terminal, PAGER is set and the
// text is longer than a screen, through that program.
func paged(out io.Writer, text string) error {
	pager := os.Getenv("PAGER")
	rows := 24
	if n, err := strconv.Atoi(os.Getenv("LINES")); err == nil && n > 0 {
		rows = n
	}
	if pager == "" || !terminal(out) || strings.Count(text, "\n") < rows {
		_, err := io.WriteString(out, text)
		return err
	}
	// PAGER is a command line of the user's own, such as "less -R".
	cmd := exec.Command("sh", "-c", pager)
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(text), out, os.Stderr
	if err := cmd.Run(); err != nil {
		_, err := io.WriteString(out, text)
		return err
	}
	return nil
}
