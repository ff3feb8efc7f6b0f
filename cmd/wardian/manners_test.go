package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/example"
)

// commands are all commands that a user can type.
func commands(t testing.TB) []*cobra.Command {
	t.Helper()
	root := newRoot()
	var out []*cobra.Command
	for _, c := range root.Commands() {
		if !c.Hidden {
			out = append(out, c)
		}
	}
	require.Greater(t, len(out), 6)
	return out
}

// Help is given wherever it is asked for, whatever else is wrong; on standard
// output, with 0.
func TestHelpIsGivenAnywhere(t *testing.T) {
	for _, c := range commands(t) {
		for _, args := range [][]string{
			{c.Name(), "--help"}, {c.Name(), "-h"}, {"--help", c.Name()}, {c.Name(), "--no-such-flag", "--help"},
			{c.Name(), "one", "two", "three", "four", "-h"}, {c.Name(), "--on", "--help"},
		} {
			code, out, talk := said(t, args...)
			assert.Equal(t, exitClean, code, "%v", args)
			assert.Equal(t, c.Long, out, "%v", args)
			assert.Empty(t, talk, "%v", args)
		}
	}
	code, out, _ := said(t, "--no-such-flag", "-h")
	assert.Equal(t, exitClean, code)
	assert.Equal(t, newRoot().Long, out)
	// Behind a bare -- it is an argument like any other.
	code, out, talk := said(t, "proof", "--", "--help")
	assert.Equal(t, exitUsage, code)
	assert.Empty(t, out)
	assert.Contains(t, talk, "--help is not there")
}

// A help text leads with an example, tells each flag and ends with what to do next; the general one lists each command.
func TestHelpTextsAreWhole(t *testing.T) {
	general := flagWords(newRoot().Long)
	for _, c := range commands(t) {
		text := c.Long
		assert.True(t, strings.HasPrefix(text, "  wardian "+c.Name()) || strings.HasPrefix(text, "  source <(wardian "+c.Name()), "%s leads with an example", c.Name())
		last := text[strings.LastIndex(strings.TrimRight(text, "\n"), "\n\n")+2:]
		assert.Contains(t, last, "Next: ", "%s ends with what to do next", c.Name())
		words := flagWords(text)
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			if f.Name != "help" {
				assert.NotEmpty(t, words["--"+f.Name].words, "%s --%s isn't told", c.Name(), f.Name)
			}
		})
		assert.NotEmpty(t, general["wardian "+c.Name()].words, "the general help doesn't list %s", c.Name())
	}
}

// A flag that is misspelt is told, with the nearest; nothing is done.
func TestMisspeltFlagsAreTold(t *testing.T) {
	tried := 0
	for _, c := range commands(t) {
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			if len(f.Name) < 5 || f.Name == "help" {
				return
			}
			tried++
			wrong := f.Name[:1] + f.Name[2:]
			code, out, talk := said(t, c.Name(), "--"+wrong)
			assert.Equal(t, exitUsage, code)
			assert.Empty(t, out)
			assert.Contains(t, talk, "nearest: --"+f.Name, "%s --%s", c.Name(), wrong)
		})
	}
	require.Greater(t, tried, 10)
}

// pipe is an output whose reader has gone.
type pipe struct{}

func (pipe) Write([]byte) (int, error) { return 0, syscall.EPIPE }

// A broken pipe ends a command quietly.
func TestABrokenPipeEndsQuietly(t *testing.T) {
	dir := exampleFolder(t)
	for _, args := range [][]string{
		{"help", "codes"}, {"schema", "round"}, {"find", "root", dir}, {"find", "root", dir, "--json"}, {"complete", "bash"},
		{"manual", "--to", filepath.Join(t.TempDir(), "man")}, {"--help"},
	} {
		var talk bytes.Buffer
		assert.Equal(t, exitClean, run(context.Background(), args, strings.NewReader(""), pipe{}, &talk), "%v", args)
		assert.NotContains(t, talk.String(), "pipe", "%v", args)
	}
}

// exampleFolder is the example diary in a folder of its own.
func exampleFolder(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "example")
	require.NoError(t, os.CopyFS(dir, example.Files()))
	return dir
}

// outputSchema is the published schema of what a command prints with --json.
func outputSchema(t testing.TB, command string) *jsonschema.Schema {
	t.Helper()
	code, out, talk := said(t, "schema", command+outputs)
	require.Equal(t, exitClean, code, talk)
	doc, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	require.NoError(t, c.AddResource("urn:of-output", doc))
	s, err := c.Compile("urn:of-output")
	require.NoError(t, err)
	return s
}

// fits holds each line to a schema, key by key: no key that the schema doesn't
// tell of.
func fits(t *testing.T, s *jsonschema.Schema, lines string) (n int) {
	t.Helper()
	scan := bufio.NewScanner(strings.NewReader(lines))
	scan.Buffer(nil, 1<<20)
	for scan.Scan() {
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(scan.Text()))
		require.NoError(t, err, scan.Text())
		require.NoError(t, s.Validate(value), scan.Text())
		for key := range value.(map[string]any) {
			assert.Contains(t, s.Properties, key, "the schema doesn't tell of this key")
		}
		n++
	}
	return n
}

// Each --json has a published schema, and what find and proof print fits theirs.
func TestOutputsFitTheirSchemas(t *testing.T) {
	for _, c := range commands(t) {
		if c.Flags().Lookup("json") == nil {
			continue
		}
		s := outputSchema(t, c.Name())
		for name, p := range s.Properties {
			assert.NotEmpty(t, p.Description, "%s: %s", c.Name(), name)
		}
		assert.ElementsMatch(t, s.Required, keysOf(s.Properties), "%s: every key is always there", c.Name())
	}
	dir := exampleFolder(t)
	code, out, talk := said(t, "find", "the", dir, "--json")
	require.Equal(t, exitClean, code)
	assert.Empty(t, talk)
	assert.Greater(t, fits(t, outputSchema(t, "find"), out), 50)

	require.NoError(t, os.WriteFile(filepath.Join(dir, "check-ins", "slip.md"), []byte("---\ndate: 2026-06-01\nspecimen: v26-01\nturgr: firm\n---\nIt is <b>limp</b>.\n"), 0o644))
	code, out, talk = said(t, "proof", dir, "--json")
	assert.Equal(t, exitFindings, code)
	assert.Empty(t, talk, "with warnings and errors the output is JSON alone")
	assert.GreaterOrEqual(t, fits(t, outputSchema(t, "proof"), out), 2)
	_, again, _ := said(t, "proof", "--json", "--", dir)
	assert.Equal(t, out, again, "flags and arguments in any order")
}

// A comparison is one object over several lines; each word's fits the schema, all
// of its parts key by key.
func TestComparisonsFitTheirSchema(t *testing.T) {
	dir := exampleFolder(t)
	s := outputSchema(t, "compare")
	tested := 0
	words := []string{"size", "season", "medium", "genus"}
	if racing {
		words = words[:1] // each comparison of the example is arithmetic of seconds
	}
	for _, by := range words {
		code, out, talk := said(t, "compare", dir, "--by", by, "--json")
		require.Equal(t, exitClean, code, talk)
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
		require.NoError(t, err)
		require.NoError(t, s.Validate(value), out)
		top := value.(map[string]any)
		told := func(part any, s *jsonschema.Schema) {
			for key := range part.(map[string]any) {
				tested++
				assert.Contains(t, s.Properties, key, by)
			}
		}
		told(top, s)
		for _, key := range []string{"test", "logrank", "hazard"} {
			told(top[key], s.Properties[key])
		}
		for _, g := range top["groups"].([]any) {
			told(g, s.Properties["groups"].Items2020)
		}
		for _, term := range top["hazard"].(map[string]any)["terms"].([]any) {
			told(term, s.Properties["hazard"].Properties["terms"].Items2020)
		}
	}
	require.Greater(t, tested, 25*len(words))
}

func keysOf(m map[string]*jsonschema.Schema) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	return out
}

// The JSON of a find holds the words as they are, < and & among them.
func TestFindsAreJSON(t *testing.T) {
	dir := exampleFolder(t)
	_, out, _ := said(t, "find", "springtails", "--diary", dir, "--json")
	for line := range strings.Lines(out) {
		assert.True(t, json.Valid([]byte(line)), line)
	}
}
