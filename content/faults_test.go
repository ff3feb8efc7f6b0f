package content

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
	"wardian/content/measure"
	"wardian/content/source"
)

var update = flag.Bool("update", false, "rewrite the wanted findings of testdata/diaries/faults; look at each by eye")

const diaries = "../testdata/diaries"

// faultsToday is the day on which the fault diaries are read.
var faultsToday, _ = measure.Date(2026, 12, 31)

// overlay writes an archive's files over the sound diary into a folder. Lines of
// the archive's comment may say "without: PATH" to leave a file of the sound
// diary out, and "link: PATH TARGET" for a symbolic link.
func overlay(t testing.TB, a *txtar.Archive) string {
	t.Helper()
	sound, err := txtar.ParseFile(filepath.Join(diaries, "sound.txtar"))
	require.NoError(t, err)
	dir := filepath.Join(t.TempDir(), "diary")
	without := map[string]bool{}
	type link struct{ at, to string }
	var links []link
	for line := range strings.Lines(string(a.Comment)) {
		if path, ok := strings.CutPrefix(line, "without: "); ok {
			without[strings.TrimSpace(path)] = true
		}
		if words, ok := strings.CutPrefix(line, "link: "); ok {
			at, to, _ := strings.Cut(strings.TrimSpace(words), " ")
			links = append(links, link{at, to})
		}
	}
	write := func(f txtar.File) {
		if f.Name == "wanted" || without[f.Name] {
			return
		}
		at := filepath.Join(dir, filepath.FromSlash(f.Name))
		require.NoError(t, os.MkdirAll(filepath.Dir(at), 0o755))
		require.NoError(t, os.WriteFile(at, expand(t, f.Data), 0o644))
	}
	for _, f := range sound.Files {
		write(f)
	}
	clear(without)
	for _, f := range a.Files {
		write(f)
	}
	for _, l := range links {
		at := filepath.Join(dir, filepath.FromSlash(l.at))
		require.NoError(t, os.MkdirAll(filepath.Dir(at), 0o755))
		require.NoError(t, os.Symlink(filepath.FromSlash(l.to), at))
	}
	return dir
}

// expand puts what a text file can't hold into one: "@@byte FF@@" is a byte,
// "@@repeat 3 words@@" repeats words, and a line "@@crlf@@" gives the file
// Windows' line ends.
func expand(t testing.TB, data []byte) []byte {
	t.Helper()
	text := string(data)
	crlf := strings.Contains(text, "@@crlf@@\n")
	text = strings.ReplaceAll(text, "@@crlf@@\n", "")
	for {
		before, rest, ok := strings.Cut(text, "@@")
		if !ok {
			break
		}
		what, after, ok := strings.Cut(rest, "@@")
		require.True(t, ok, "an open @@")
		word, more, _ := strings.Cut(what, " ")
		switch word {
		case "byte":
			b, err := strconv.ParseUint(more, 16, 8)
			require.NoError(t, err)
			text = before + string([]byte{byte(b)}) + after
		case "repeat":
			number, words, _ := strings.Cut(more, " ")
			n, err := strconv.Atoi(number)
			require.NoError(t, err)
			text = before + strings.Repeat(words, n) + after
		default:
			require.Fail(t, "no such mark", word)
		}
	}
	if crlf {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return []byte(text)
}

func findingsOf(t testing.TB, a *txtar.Archive) []source.Finding {
	t.Helper()
	_, report, err := LoadFolder(overlay(t, a), Options{Today: faultsToday})
	require.NoError(t, err)
	return report.Findings()
}

func long(findings []source.Finding) string {
	var b strings.Builder
	for _, f := range findings {
		b.WriteString(f.Long())
	}
	return b.String()
}

func faultFiles(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(diaries, "faults", "*.txtar"))
	require.NoError(t, err)
	return files
}

// Each fault diary gives exactly the findings that it wants, told in full. All
// of them together show every code that there is.
func TestFaults(t *testing.T) {
	files := faultFiles(t)
	require.GreaterOrEqual(t, len(files), 60, "fault diaries")
	shown := map[string]bool{}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			a, err := txtar.ParseFile(file)
			require.NoError(t, err)
			findings := findingsOf(t, a)
			require.NotEmpty(t, findings, "a fault diary without findings")
			for _, f := range findings {
				shown[f.Code] = true
				assert.True(t, format.Explained(f.Code), "no code %s in the table", f.Code)
				judgeMessage(t, f)
			}
			got := long(findings)
			n := slices.IndexFunc(a.Files, func(f txtar.File) bool { return f.Name == "wanted" })
			if *update {
				if n < 0 {
					a.Files = append(a.Files, txtar.File{Name: "wanted"})
					n = len(a.Files) - 1
				}
				a.Files[n].Data = []byte(got)
				require.NoError(t, os.WriteFile(file, txtar.Format(a), 0o644))
				return
			}
			require.GreaterOrEqual(t, n, 0, "no section of wanted findings")
			assert.Equal(t, string(a.Files[n].Data), got)
		})
	}
	if t.Failed() {
		return
	}
	for _, c := range format.Codes() {
		assert.True(t, shown[c.Name], "no fault diary shows %s", c.Name)
	}
	require.GreaterOrEqual(t, len(shown), 60, "kinds of mistake")
}

// judgeMessage holds a finding to the voice: plain, lower case at the start, no
// full stop, and where it stops a build, a way out.
func judgeMessage(t *testing.T, f source.Finding) {
	t.Helper()
	for _, text := range []string{f.Message, f.Expected, f.Hint} {
		assert.NotContains(t, strings.ToLower(text), "illegal", "%s", f.Code)
		assert.NotContains(t, strings.ToLower(text), "invalid", "%s", f.Code)
		assert.False(t, strings.HasSuffix(text, ".") && !strings.HasSuffix(text, "..."), "%s: %q ends in a full stop", f.Code, text)
	}
	assert.NotEmpty(t, f.Message, "%s", f.Code)
	assert.NotEmpty(t, f.Expected, "%s", f.Code)
	assert.GreaterOrEqual(t, f.Span.Start.Line, 1, "%s", f.Code)
	assert.NotEmpty(t, f.File, "%s", f.Code)
}

// The sound diary has no fault: what the fault diaries show is theirs alone.
func TestTheSoundDiaryIsSound(t *testing.T) {
	assert.Empty(t, long(findingsOf(t, &txtar.Archive{})))
}

// unshown are codes whose fault can't be printed in a help text.
var unshown = []string{"logger-not-text", "list-not-text", "file-too-long", "body-too-long", "too-tangled", "not-utf8", "control-character", "link-out", "id-case"}

// The examples of every code's explanation are true: the failing one has the
// fault, and the mended one has none.
func TestCodesAreExplainedByTrueExamples(t *testing.T) {
	codes := format.Codes()
	require.NotEmpty(t, codes)
	for _, c := range codes {
		t.Run(c.Name, func(t *testing.T) {
			assert.NotEmpty(t, c.Title)
			assert.NotEmpty(t, c.About)
			assert.False(t, strings.HasSuffix(c.Title, "."), "a title has no full stop")
			if slices.Contains(unshown, c.Name) {
				assert.Empty(t, c.Wrong+c.Right)
				return
			}
			require.NotEmpty(t, c.Wrong)
			require.NotEmpty(t, c.Right)
			wrong := &txtar.Archive{Files: txtar.Parse([]byte(c.Wrong)).Files}
			if strings.Contains(c.Wrong, "-- diary.yml --") {
				wrong.Comment = []byte("without: diary.yaml\n")
			}
			var found []string
			for _, f := range findingsOf(t, wrong) {
				found = append(found, f.Code)
			}
			assert.Equal(t, []string{c.Name}, slices.Compact(found), "one cause, one finding")
			assert.Empty(t, long(findingsOf(t, txtar.Parse([]byte(c.Right)))))
		})
	}
}
