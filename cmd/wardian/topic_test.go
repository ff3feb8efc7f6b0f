package main

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content"
	"wardian/content/format"
)

// said runs one command line and gives what a user sees.
func said(t testing.TB, args ...string) (code int, out, talk string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(context.Background(), args, strings.NewReader(""), &o, &e)
	return code, o.String(), e.String()
}

// helped is what help tells of a topic; it must know it.
func helped(t testing.TB, topic ...string) string {
	t.Helper()
	code, out, talk := said(t, append([]string{"help"}, topic...)...)
	require.Equal(t, exitClean, code, "%s: %s", topic, talk)
	assert.Empty(t, talk)
	return out
}

// indentedText is a text as help shows it in an example.
func indentedText(text, by string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		b.WriteString(strings.TrimRight(by+strings.TrimRight(line, "\n"), " ") + "\n")
	}
	return b.String()
}

func TestHelpTellsEveryKindOfFileAndKey(t *testing.T) {
	t.Setenv("COLUMNS", "")
	require.NotEmpty(t, format.Files())
	for _, f := range format.Files() {
		text := helped(t, fileWord(f))
		assert.Contains(t, text, f.Path)
		assert.Contains(t, text, indentedText(f.Example().Text, "  "), f.Name)
		flat := strings.Join(strings.Fields(text), " ")
		var keys func(list []format.Key)
		keys = func(list []format.Key) {
			for _, k := range list {
				assert.Contains(t, flat, " "+k.Name+": "+strings.Join(strings.Fields(k.Example), " ")+" ", f.Name)
				assert.Contains(t, flat, strings.Join(strings.Fields(k.About), " "), f.Name)
				assert.Contains(t, flat, k.Default, f.Name)
				for _, w := range k.Value.Words {
					assert.Contains(t, flat, w.Word+" ("+w.About+")", f.Name)
				}
				if k.Value.Kind != format.Plant {
					keys(k.Value.Keys)
				}
				if k.Value.Item != nil && k.Value.Item.Kind != format.Plant {
					keys(k.Value.Item.Keys)
				}
			}
		}
		keys(f.Keys)
		for _, as := range []string{f.Name, strings.ToUpper(fileWord(f)), fileWord(f) + "s"} {
			assert.Equal(t, text, helped(t, strings.Fields(as)...), as)
		}
	}
}

func TestHelpTellsEveryCode(t *testing.T) {
	list := helped(t, "codes")
	require.NotEmpty(t, format.Codes())
	for _, c := range format.Codes() {
		text := helped(t, c.Name)
		assert.Contains(t, strings.Join(strings.Fields(text), " "), strings.Join(strings.Fields(c.About), " "))
		assert.Contains(t, list, " "+c.Name+"\n")
		for _, example := range []string{c.Wrong, c.Right} {
			for line := range strings.Lines(example) {
				if !strings.HasPrefix(line, "-- ") {
					assert.Contains(t, text, strings.TrimRight("    "+line, " \n"), c.Name)
				}
			}
		}
		assert.Equal(t, c.Wrong != "", strings.Contains(text, "\nMended:\n"), c.Name)
	}
}

func TestHelpTellsTheRest(t *testing.T) {
	t.Setenv("COLUMNS", "")
	root := newRoot()
	general := helped(t)
	assert.Equal(t, root.Long, general)
	for _, topic := range topics(root) {
		text := helped(t, topic)
		assert.NotEqual(t, general, text, topic)
		last := text[strings.LastIndex(strings.TrimRight(text, "\n"), "\n\n")+1:]
		assert.Contains(t, last, "Next: ", "%s: help ends with what to do next", topic)
	}
	for _, p := range format.Phrases {
		assert.Contains(t, helped(t, "words"), "  "+p.Written+"\n")
	}
	turgor := helped(t, "turgor")
	assert.Contains(t, turgor, "firm (full of water)")
	assert.Contains(t, turgor, "check-in, round")
}

func TestHelpOffersTheNearest(t *testing.T) {
	for word, near := range map[string]string{"chekin": "check-in", "unknwon-key": "unknown-key", "turgr": "turgor", "fils": "files", "biuld": "build"} {
		code, out, talk := said(t, "help", word)
		assert.Equal(t, exitUsage, code)
		assert.Empty(t, out)
		assert.Contains(t, talk, "nearest: wardian help "+near+"\n", word)
	}
	_, _, talk := said(t, "help", "carburettor")
	assert.NotContains(t, talk, "nearest")
}

// Every folder that a diary has is told of.
func TestHelpTellsEveryFolder(t *testing.T) {
	text := helped(t, "files")
	require.NotEmpty(t, content.Folders())
	for _, folder := range append(content.Folders(), "shown", ".wardian") {
		assert.Contains(t, text, "  "+folder+"/", folder)
	}
	for _, f := range format.Files() {
		assert.Contains(t, text, "  "+f.Path+"\n")
	}
}

// No line of help is wider than 80 characters: no command's, no topic's, and none
// of the example files in them. A line of a file is no shorter for a narrow
// screen, so this is held at the usual width.
func TestNoLineOfHelpIsTooWide(t *testing.T) {
	t.Setenv("COLUMNS", "")
	root := newRoot()
	told := append(topics(root), "")
	require.Greater(t, len(told), 200)
	for _, topic := range told {
		for line := range strings.Lines(helped(t, topic)) {
			assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 80, "%s: %s", topic, line)
		}
	}
	for _, c := range commands(t) {
		for line := range strings.Lines(c.Long) {
			assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 80, "%s: %s", c.Name(), line)
		}
	}
}

func TestHelpIsAsWideAsColumnsSay(t *testing.T) {
	for columns, most := range map[string]int{"": 78, "60": 60, "20": 40, "500": 100, "wide": 78} {
		t.Setenv("COLUMNS", columns)
		longest := 0
		for line := range strings.Lines(helped(t, "codes")) {
			longest = max(longest, len([]rune(strings.TrimRight(line, "\n"))))
		}
		assert.LessOrEqual(t, longest, most, "COLUMNS=%s", columns)
		assert.Greater(t, longest, most-20, "COLUMNS=%s", columns)
	}
}
