package themes

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

var (
	// Where html/template and text/template say what went wrong: file, line and,
	// mostly, the bytes before it in the line.
	placed = regexp.MustCompile(`(?s)^(?:html/)?template: ?([^:]*?)(?::(\d+))?(?::(\d+))?: ?(.*)$`)
	// What they say of where in the set of templates it was.
	executing = regexp.MustCompile(`(?s)^executing "[^"]*" at <.*?>: `)
	noField   = regexp.MustCompile(`(?s)can't evaluate field (\S+) in type .*`)
	contexts  = regexp.MustCompile(`(?s)(non-text context|different contexts): .*`)
	quoted    = regexp.MustCompile(`"[^"]+"|<[^<> ]+>|'[^']+'|\{\{[^{}]+\}\}`)
	started   = regexp.MustCompile(` started at [^:]*:(\d+)$`)
)

// Blame finds the own template that an error of filling or escaping is about;
// nil where there is none of its own. One that comes up in a built-in template
// is told of the first own file, since the built-in ones alone have none.
func Blame(own []File, err error) *Fault {
	if len(own) == 0 {
		return nil
	}
	m := placed.FindStringSubmatch(err.Error())
	if m == nil {
		return &Fault{own[0].Name, 0, 0, plain(err.Error())}
	}
	line, _ := strconv.Atoi(m[2])
	column, _ := strconv.Atoi(m[3])
	message := plain(executing.ReplaceAllString(m[4], ""))
	file, _, whole := strings.Cut(m[1], calling)
	if whole {
		line, column = 1, 0 // it is the template as a whole
		if strings.HasSuffix(message, "different contexts") {
			message = "this template ends inside a tag, an attribute, a script or a style"
		}
	}
	for _, f := range own {
		if f.Name != file {
			continue
		}
		at := offset(string(f.Text), line) + column
		at = min(at, len(f.Text))
		return &Fault{f.Name, at, token(string(f.Text), at), message}
	}
	guilty := own[0].Name
	for _, f := range own {
		if len(own) > 1 && Check([]File{f}) != nil {
			guilty = f.Name
			break
		}
	}
	return &Fault{guilty, 0, 0, fmt.Sprintf("line %d of the %s can't be filled beside it: %s", line, file, message)}
}

// unread is the fault of a file that can't be parsed. Go names its line; the
// column is that of the words it quotes, or of the line's last action.
func unread(f File, text string, err error) *Fault {
	m := placed.FindStringSubmatch(err.Error())
	if m == nil {
		return &Fault{f.Name, 0, 0, plain(err.Error())}
	}
	said := m[4]
	if began := started.FindStringSubmatch(said); began != nil {
		said, m[2] = started.ReplaceAllString(said, ""), began[1]
	}
	number, _ := strconv.Atoi(m[2])
	start := offset(text, number)
	line, _, _ := strings.Cut(text[start:], "\n")
	action := max(strings.LastIndex(line, "{{"), 0)
	for _, q := range quoted.FindAllString(said, -1) {
		q = strings.Trim(q, `"'{}`)
		if !strings.Contains(line, q) {
			q = strings.Trim(q, "<>")
		}
		i := strings.Index(line[action:], q) + action
		if i < action {
			i = strings.LastIndex(line, q)
		}
		if i >= 0 && q != "" {
			return &Fault{f.Name, start + i, start + i + len(q), plain(said)}
		}
	}
	return &Fault{f.Name, start + action, start + action, plain(said)}
}

// offset is the byte at which a line begins.
func offset(text string, line int) int {
	at := 0
	for ; line > 1; line-- {
		i := strings.IndexByte(text[at:], '\n')
		if i < 0 {
			return at
		}
		at += i + 1
	}
	return at
}

// token is the end of what stands at a byte: a word, or one action's head.
func token(text string, at int) int {
	end := at
	if rest := text[at:]; strings.HasPrefix(rest, "\"") {
		if i := strings.IndexAny(rest[1:], "\"\n"); i >= 0 && rest[1+i] == '"' {
			return at + i + 2
		}
	}
	for end < len(text) && !strings.ContainsRune(" \t\r\n{}()|\"<>", rune(text[end])) {
		end++
	}
	return end
}

// plain is what Go says in the voice of findings: one line, and not too long.
func plain(said string) string {
	said = noField.ReplaceAllString(said, "there is no .$1 here")
	said = contexts.ReplaceAllString(said, "$1")
	said = strings.NewReplacer("illegal", "unreadable", "invalid", "unreadable").Replace(said)
	said = strings.TrimRight(strings.Join(strings.Fields(said), " "), ". ")
	if r := []rune(said); len(r) > 200 {
		said = string(r[:200]) + "…"
	}
	return said
}
