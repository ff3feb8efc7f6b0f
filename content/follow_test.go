package content

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// printed is a finding as proof --json prints it: all that the script of this
// file is told, apart from the diary's files themselves.
type printed struct {
	File                    string
	Line, Column            int
	EndLine                 int `json:"end-line"`
	EndColumn               int `json:"end-column"`
	Severity, Code          string
	Message, Expected, Hint string
}

// follower carries out hints as somebody would who can type but knows nothing of
// plants and nothing of diaries. It knows no code and no key: what it does follows
// from the verb of the hint, the words behind it, what is underlined, and the
// shape of the line. Where a hint offers two ways it takes the first, and the
// second where the same finding is told again.
//
// A hint that only shows what a value looks like ("write it like 2026-04-06") is
// followed to the letter. What comes of it is a diary that reads, not one that is
// true: that is why the program itself writes into no diary.
type follower struct {
	t     testing.TB
	dir   string
	tried map[string]int // ways tried of a finding

	examples int // how often an example was typed as it stands, which only reads
}

// follow carries out one hint and says whether it changed anything.
func (w *follower) follow(f printed) bool {
	key := strings.Join([]string{f.File, strconv.Itoa(f.Line), f.Code, f.Message}, "\n")
	ways := waysOf(f)
	for w.tried[key] < len(ways)+again {
		way := ways[w.tried[key]%len(ways)]
		w.tried[key]++
		if w.goes(f, way) {
			if example.MatchString(way) {
				w.examples++
			}
			return true
		}
	}
	return false
}

// again is how often more than once each the ways of a finding are gone: the same
// words may be told of several places of one line.
const again = 8

// goes goes one way and says whether it changed anything.
func (w *follower) goes(f printed, way string) bool {
	path := filepath.Join(w.dir, filepath.FromSlash(f.File))
	if name, ok := behind(way, "name the file ", "name it "); ok {
		return os.Rename(path, filepath.Join(filepath.Dir(path), filepath.FromSlash(name))) == nil
	}
	if name, ok := behind(way, "begin a file "); ok {
		path = filepath.Join(w.dir, filepath.FromSlash(name))
		require.NoError(w.t, os.MkdirAll(filepath.Dir(path), 0o755))
		return os.WriteFile(path, []byte("---\n---\n"), 0o644) == nil
	}
	if way == "leave the file out" {
		return os.Remove(path) == nil
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return false
	}
	if way == "put the file itself here" {
		require.NoError(w.t, os.Remove(path))
		return os.WriteFile(path, data, 0o644) == nil
	}
	if m := takeOut.FindStringSubmatch(way); m != nil { // "take K out of FILE"
		path = filepath.Join(w.dir, filepath.FromSlash(m[2]))
		if data, err = os.ReadFile(path); err != nil {
			return false
		}
		way = "leave " + m[1] + " out"
	}
	if other, ok := otherFile(way); ok { // "write X in FILE"
		way, path = strings.TrimSuffix(way, " in "+other), filepath.Join(w.dir, filepath.FromSlash(other))
		if data, err = os.ReadFile(path); err != nil {
			return false
		}
		f.Line, f.Column, f.EndLine, f.EndColumn = 1, 1, 1, 1
	}
	out := carryOut(string(data), f, way)
	if out == string(data) {
		return false
	}
	require.NoError(w.t, os.WriteFile(path, []byte(out), 0o644))
	return true
}

var takeOut = regexp.MustCompile(`^take ([a-z-]+) out of ([a-z0-9/.-]+\.(?:md|yaml))$`)

var inFile = regexp.MustCompile(`^write .* in ([a-z0-9/.-]+\.(?:md|yaml))$`)

func otherFile(way string) (string, bool) {
	m := inFile.FindStringSubmatch(way)
	if m == nil {
		return "", false
	}
	return m[1], true
}

// behind cuts one of several openings off a way.
func behind(way string, openings ...string) (string, bool) {
	for _, o := range openings {
		if rest, ok := strings.CutPrefix(way, o); ok {
			return rest, true
		}
	}
	return "", false
}

// waysOf cuts a hint into the ways that it offers: at ", or " and "; or ", outside
// quotes. A hint that points to a day is followed by what was expected of the day.
func waysOf(f printed) []string {
	hint, _ := strings.CutPrefix(f.Hint, "if it is words, ")
	var ways []string
	from, quote := 0, rune(0)
	for i, r := range hint {
		switch {
		case quote != 0:
			if r == quote {
				quote = 0
			}
		case (r == '"' || r == '\'') && (i == 0 || hint[i-1] == ' '):
			quote = r
		default:
			for _, or := range []string{", or ", "; or "} {
				if strings.HasPrefix(hint[i:], or) {
					ways = append(ways, hint[from:i])
					from = i + len(or)
				}
			}
		}
	}
	ways = append(ways, hint[from:])
	for i, way := range ways {
		if i > 0 && len(strings.Fields(way)) > 0 && !verb.MatchString(way) {
			ways[i] = "write " + way // "write a, or b"
		}
	}
	return ways
}

var verb = regexp.MustCompile(`^(write|leave|put|take|delete|give|keep|name|set|use|move|begin|close|move|split|in words)\b`)

// carryOut gives a file's text with one way of a hint carried out.
func carryOut(text string, f printed, way string) string {
	e := newEdit(text, f)
	switch way {
	case "save the file as UTF-8":
		return utf8Of(text)
	case "open it in a spreadsheet and save it as CSV, UTF-8":
		return utf8Of(text)
	case "save the file with LF or CRLF line ends":
		return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	case "write two spaces for each tab":
		return e.line(strings.ReplaceAll(e.lines[e.at], "\t", "  "))
	case "set it in as far as its neighbours":
		return e.line(e.indentOf(e.at-1) + strings.TrimSpace(e.lines[e.at]))
	case "delete the line", "take this row out":
		return e.line("\x00")
	case "put single quotes round the words":
		return e.quoted("'")
	case "use the other kind of quote round all of the words":
		return e.quoted("")
	}
	if strings.HasPrefix(way, "put ") && strings.HasSuffix(way, " in quotes") {
		return e.quoted("")
	}
	if e.at >= len(e.lines) {
		return text
	}
	for _, leave := range []string{"leave ", "delete it", "keep one of", "take the quote out"} {
		if !strings.HasPrefix(way, leave) {
			continue
		}
		if _, x, ok := strings.Cut(way, ": "); ok && !strings.HasPrefix(x, "a ") { // "leave the comma out: leaves 2 13x6 12x6"
			return e.place(x)
		}
		return e.leaveOut(way)
	}
	if x, ok := behind(way, "nearest: "); ok {
		return e.replace(x)
	}
	for _, put := range []string{"put a comma between: ", "put a remark at the end: ", "put it at the end as a remark: "} {
		if x, ok := behind(way, put); ok {
			return e.place(x)
		}
	}
	if x, ok := behind(way, "write it like ", "write the day like ", "write the day: ", "as in "); ok {
		return e.placeValue(firstOf(x))
	}
	if x, ok := behind(way, "begin the file with "); ok {
		return x + "\n" + text
	}
	if way, ok := behind(way, "write "); ok {
		if _, x, ok := strings.Cut(way, ", such as "); ok {
			return e.place(x)
		}
		if bracket, ok := strings.CutSuffix(way, " behind the last value"); ok {
			return e.line(e.lines[e.at] + bracket)
		}
		if strings.HasPrefix(way, "--- on a line of its own above") {
			return "---\n" + text
		}
		if strings.HasPrefix(way, "--- on a line of its own below the last key") {
			return e.belowKeys("---")
		}
		way, _, _ = strings.Cut(way, " if it ")
		way, _ = strings.CutSuffix(way, " here")
		way, _ = strings.CutSuffix(way, " in words")
		if x, ok := strings.CutSuffix(way, " on its line"); ok {
			return e.add(x)
		}
		if x, ok := strings.CutSuffix(way, " without braces"); ok {
			return e.unbraced(x)
		}
		if way == "one of them" {
			way, _, _ = strings.Cut(f.Expected, ", ")
		}
		return e.place(firstOf(way))
	}
	if strings.HasPrefix(way, "look at ") || strings.HasPrefix(way, "set right ") {
		if day := dayWanted.FindStringSubmatch(f.Expected); day != nil {
			return e.place(day[2])
		}
	}
	return text
}

// example is a hint that shows what a value looks like.
var example = regexp.MustCompile(`such as|^write it like|^as in|^write the day|^begin a file|^look at|^set right|\.\.\.`)

var dayWanted = regexp.MustCompile(`^a (day|moment) (?:from|up to|after) ([0-9]{4}-[0-9]{2}-[0-9]{2}(?: [0-9:]{5})?)`)

// firstOf takes the first of several examples: "45.00 or 45.00 EUR", "none, roots,
// stem or growing point".
func firstOf(x string) string {
	if len(x) > 1 && strings.ContainsRune(`"'[{`, rune(x[0])) {
		return x
	}
	first, rest, several := strings.Cut(x, " or ")
	if several && !strings.Contains(rest, ":") && strings.Contains(first, ", ") {
		first, _, _ = strings.Cut(first, ", ")
	}
	return first
}

// utf8Of reads bytes as UTF-16 where they open with its mark, else as Latin-1.
func utf8Of(text string) string {
	b := []byte(text)
	if len(b) > 1 && (b[0] == 0xff && b[1] == 0xfe || b[0] == 0xfe && b[1] == 0xff) {
		var units []uint16
		for i := 2; i+1 < len(b); i += 2 {
			low, high := b[i], b[i+1]
			if b[0] == 0xfe {
				low, high = high, low
			}
			units = append(units, uint16(low)|uint16(high)<<8)
		}
		return string(utf16.Decode(units))
	}
	if utf8.Valid(b) {
		return text
	}
	return string(slices.Collect(func(yield func(rune) bool) {
		for _, c := range b {
			if !yield(rune(c)) {
				return
			}
		}
	}))
}
