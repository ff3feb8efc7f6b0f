package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// startedFolder is a new diary in a folder of its own.
func startedFolder(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "sill")
	code, _, talk := said(t, "start", dir, "--on", "2026-04-06")
	require.Equal(t, exitClean, code, talk)
	return dir
}

// entered runs one command line with something on standard input.
func entered(in string, args ...string) (code int, out, talk string) {
	var o, e bytes.Buffer
	code = run(context.Background(), args, strings.NewReader(in), &o, &e)
	return code, o.String(), e.String()
}

// Each way to end has its code, and help tells them. Data goes to standard
// output, talk to standard error; what went wrong leaves the first empty.
func TestEndings(t *testing.T) {
	dir := startedFolder(t)
	broken := startedFolder(t)
	require.NoError(t, os.WriteFile(filepath.Join(broken, "check-ins", "slip.md"), []byte("---\ndate: 2026-04-07\nspecimen: a26-01\nturgr: firm\n---\n"), 0o644))
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	for _, c := range []struct {
		args      []string
		code      int
		out, talk string // patterns; "" is nothing at all
	}{
		{[]string{}, exitClean, `(?s)^Wardian turns.*\nNext: `, ""},
		{[]string{"--version"}, exitClean, `^wardian \S`, ""},
		{[]string{"proof", dir}, exitClean, "", `^nothing wrong in 1 check-in\n$`},
		{[]string{"proof", broken}, exitFindings, `(?m)^  nearest: turgor$`, `^1 error, 0 warnings\n$`},
		{[]string{"build", broken}, exitFindings, "", `nearest: turgor`},
		{[]string{"build", dir, "--to", filepath.Join(file, "site")}, exitFindings, "", `^wardian: .*file`},
		{[]string{"find", "xylophone", dir}, exitClean, "", `^found nowhere\n$`},
		{[]string{"proof", "--josn", dir}, exitUsage, "", `nearest: --json`},
		{[]string{"bulid"}, exitUsage, "", `nearest: build`},
		{[]string{"proof", file}, exitUsage, "", `a diary is a folder`},
		{[]string{"proof", "--on", "someday", dir}, exitUsage, "", `write a day such as`},
		{[]string{"help", "no such topic at all"}, exitUsage, "", `the topics: wardian help`},
	} {
		code, out, talk := said(t, c.args...)
		assert.Equal(t, c.code, code, "%v: %s", c.args, talk)
		for what, got := range map[string][2]string{"data": {c.out, out}, "talk": {c.talk, talk}} {
			if got[0] == "" {
				assert.Empty(t, got[1], "%v: %s", c.args, what)
			} else {
				assert.Regexp(t, got[0], got[1], "%v: %s", c.args, what)
			}
		}
	}
	for _, code := range []string{"Ends with 0 ", "1 when", "2 when", "130 when"} {
		assert.Contains(t, strings.Join(strings.Fields(newRoot().Long), " "), code)
	}
}

// A verb with a letter left out is told with the nearest, and isn't run.
func TestMisspeltVerbsAreTold(t *testing.T) {
	t.Chdir(t.TempDir())
	tried := 0
	for _, c := range commands(t) {
		verb := c.Name()
		for i := range verb {
			wrong := verb[:i] + verb[i+1:]
			if len(wrong) < 3 || commandOf(newRoot(), wrong) != nil {
				continue
			}
			tried++
			code, out, talk := said(t, wrong, "--no-such-flag")
			assert.Equal(t, exitUsage, code, wrong)
			assert.Empty(t, out, wrong)
			if !strings.Contains(talk, "flag") { // flags are looked at first where they stand
				assert.Contains(t, talk, "nearest: "+verb, wrong)
			}
			code, out, talk = said(t, wrong)
			assert.Equal(t, exitUsage, code, wrong)
			assert.Empty(t, out, wrong)
			assert.Contains(t, talk, "nearest: "+verb, wrong)
		}
	}
	require.Greater(t, tried, 50)
	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// What is printed with --json is JSON and nothing else, warnings or not; the
// warnings are there, on the other stream or as lines of their own.
func TestJSONIsPure(t *testing.T) {
	dir := exampleFolder(t)
	warned := filepath.Join(dir, "updates", "warned.md")
	require.NoError(t, os.WriteFile(warned, []byte("---\ntitle: Warned\ndate: 2026-06-10\n---\nRoots <b>everywhere</b>.\n"), 0o644))
	order := filepath.Join(t.TempDir(), "order.yaml")
	require.NoError(t, os.WriteFile(order, []byte("lines: [{name: Hoya carnosa, size: small, count: 6, price: 45 NOK}]\n"), 0o644))
	calls := map[string][]string{
		"proof":    {"proof", dir, "--json"},
		"find":     {"find", "root", dir, "--json"},
		"compare":  {"compare", dir, "--by", "size", "--json"},
		"forecast": {"forecast", dir, order, "--json"},
	}
	for _, c := range commands(t) {
		if c.Flags().Lookup("json") == nil {
			continue
		}
		args := calls[c.Name()]
		require.NotEmpty(t, args, "%s prints JSON: call it here", c.Name())
		code, out, talk := said(t, args...)
		require.Equal(t, exitClean, code, "%v: %s", args, talk)
		values := json.NewDecoder(strings.NewReader(out))
		n := 0
		for values.More() {
			var value map[string]any
			require.NoError(t, values.Decode(&value), "%v", args)
			require.NotEmpty(t, value)
			n++
		}
		assert.Positive(t, n, "%v", args)
		if c.Name() == "proof" {
			assert.Contains(t, out, `"raw-html"`)
		}
	}
}

// A hyphen is standard input. Behind a bare -- it is a name like any other.
func TestAHyphenIsStandardInput(t *testing.T) {
	dir := startedFolder(t)
	code, out, talk := entered("Hoya carnosa 12 EUR small\nBegonia luxurians, 9 EUR\n", "arrive", "-", "--diary", dir, "--on", "2026-04-20", "--dry-run")
	require.Equal(t, exitClean, code, talk)
	assert.Contains(t, out, "Hoya carnosa")
	assert.Contains(t, out, "Begonia luxurians")
	code, _, talk = entered("", "proof", "--", "-")
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, talk, "- is not there")
}

// Each command that writes says which files, on standard output, and then which
// command comes next, on standard error.
func TestWhatIsWrittenIsSaid(t *testing.T) {
	dir := startedFolder(t)
	card := filepath.Join(t.TempDir(), "card")
	require.NoError(t, os.CopyFS(card, os.DirFS(filepath.Join("..", "..", "content", "example", "diary", "photos", "2025-04-02"))))
	entries, err := os.ReadDir(card)
	require.NoError(t, err)
	picture := entries[0].Name()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "check-ins", "older.md"), []byte("---\ndate: 2026-04-07\nspecimen: a26-01\nplace: bin\n---\n"), 0o644))
	at := parsedTime(t, "2026-04-07T12:00:00Z")
	require.NoError(t, os.Chtimes(filepath.Join(card, picture), at, at))
	elsewhere := t.TempDir()
	for _, c := range []struct {
		name, in string
		args     []string
		told     bool // its files are data; a site's are too many to tell
	}{
		{"start", "", []string{"start", filepath.Join(elsewhere, "new")}, true},
		{"arrive", "Hoya carnosa 12 EUR small\n", []string{"arrive", "-", "--diary", dir, "--on", "2026-04-20", "--yes"}, true},
		{"round", "", []string{"round", "bin", "--diary", dir, "--on", "2026-04-21"}, true},
		{"tell", "", []string{"tell", "--diary", dir, "--on", "2026-04-21"}, true},
		{"sheet", "", []string{"sheet", "bin", "--diary", dir, "--on", "2026-04-21", "--to", filepath.Join(elsewhere, "sheet.html")}, true},
		{"labels", "", []string{"labels", "--diary", dir, "--to", filepath.Join(elsewhere, "labels.html")}, true},
		{"manual", "", []string{"manual", "--to", filepath.Join(elsewhere, "man")}, true},
		{"build", "", []string{"build", dir, "--on", "2026-04-21", "--to", filepath.Join(elsewhere, "site")}, false},
	} {
		code, out, talk := entered(c.in, c.args...)
		if c.name == "build" { // both rounds aren't filled in: nothing is written, and that is said
			assert.Equal(t, exitFindings, code)
			assert.NoDirExists(t, filepath.Join(elsewhere, "site"))
			for _, round := range []string{"2026-04-20.md", "2026-04-21.md"} {
				require.NoError(t, os.Remove(filepath.Join(dir, "check-ins", round)))
			}
			code, out, talk = entered(c.in, c.args...)
		}
		require.Equal(t, exitClean, code, "%v: %s", c.args, talk)
		assert.Regexp(t, `(?mi)^(.*; )?next: .+`, talk, "%v", c.args)
		if !c.told {
			assert.Empty(t, out)
			continue
		}
		files := strings.Fields(out)
		require.NotEmpty(t, files, "%v", c.args)
		for _, f := range files {
			assert.FileExists(t, f, "%v", c.args)
		}
	}
	code, out, talk := said(t, "photos", card, picture+"=a26-01", "--diary", dir)
	require.Equal(t, exitClean, code, talk)
	assert.FileExists(t, strings.TrimSpace(out))
	assert.Contains(t, talk, "next: ")
}

// The one-line form is that of compilers, for every finding of a diary with
// faults of many kinds.
func TestLinesAreAsEditorsReadThem(t *testing.T) {
	dir := startedFolder(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "check-ins", "bad.md"), []byte("---\ndate: 2026-04-31\nspecimen: a26-9\n\tturgor: firm\nnote: 葉: 広い\n---\n[x](nowhere)\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "places", "Big Bin.md"), []byte("---\nstage: wet\n---\n"), 0o644))
	code, out, _ := said(t, "proof", dir, "--lines")
	require.Equal(t, exitFindings, code)
	form := regexp.MustCompile(`^[^:]+(:[1-9][0-9]*:[1-9][0-9]*)?: (error|warning): [^A-Z\n][^\n]*[^.\n]$`)
	n := 0
	for line := range strings.Lines(out) {
		n++
		assert.Regexp(t, form, strings.TrimRight(line, "\n"))
	}
	assert.Greater(t, n, 3)
}
