package build_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// checked runs the Nu Html Checker over a folder and gives its messages, one a
// line. It is skipped with a word where the checker isn't there; where everything
// must be checked, that fails the test.
func checked(t *testing.T, folder string) []string {
	t.Helper()
	unraced(t)
	jar := os.Getenv("WARDIAN_VNU")
	java, err := exec.LookPath("java")
	if jar == "" || err != nil {
		if required() {
			t.Fatal("WARDIAN_VNU names no checker, or there is no java to run it")
		}
		t.Skip("WARDIAN_VNU is not set, or there is no java: the pages' HTML was not checked")
	}
	require.FileExists(t, jar)
	// Warnings count too. The exit code only says whether there were errors.
	out, _ := exec.Command(java, "-Xss2m", "-jar", jar, "--format", "json", "--stdout", "--exit-zero-always", "--skip-non-html", folder).Output()
	var said struct {
		Messages []struct {
			Type, SubType, URL, Message, Extract string
			LastLine                             int
		}
	}
	require.NoError(t, json.Unmarshal(out, &said), "%s", out)
	var messages []string
	for _, m := range said.Messages {
		if m.Type == "info" && m.SubType != "warning" {
			continue
		}
		_, page, _ := strings.Cut(m.URL, filepath.ToSlash(folder))
		messages = append(messages, strings.TrimPrefix(page, "/")+": "+m.Message+" ("+strings.TrimSpace(m.Extract)+")")
	}
	return messages
}

// Every page of the example is valid HTML, drawings and all (the Nu Html Checker
// of the W3C's validator, pinned by .ci/run).
func TestPagesAreValidHTML(t *testing.T) {
	unraced(t)
	site, err := standing()
	require.NoError(t, err)
	assert.Empty(t, checked(t, site))
}

// The checker must see what it is there for.
func TestTheCheckerSeesInvalidHTML(t *testing.T) {
	folder := t.TempDir()
	page := `<!doctype html><html lang="en"><title>t</title><h1>One</h1><p id="a"><svg><desc>d</desc><leaf/></svg><ul><p id="a">twice</p></ul>`
	require.NoError(t, os.WriteFile(filepath.Join(folder, "bad.html"), []byte(page), 0o644))
	said := strings.Join(checked(t, folder), "\n")
	assert.Contains(t, said, "bad.html: Duplicate ID")
	assert.Contains(t, said, "Element “leaf” not allowed")
	assert.Contains(t, said, "Element “p” not allowed")
}
