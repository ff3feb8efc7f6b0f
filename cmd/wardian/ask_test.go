//go:build linux

package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// screen opens a terminal: what is written to keys is typed, what is read from it
// stands on the screen.
func screen(t *testing.T) (keys, line *os.File) {
	t.Helper()
	fd, err := unix.Open("/dev/ptmx", unix.O_RDWR|unix.O_NOCTTY|unix.O_CLOEXEC, 0)
	if err != nil {
		t.Skipf("no terminal can be had here, so the question was not asked on one: %v", err)
	}
	require.NoError(t, unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	require.NoError(t, err)
	line, err = os.OpenFile("/dev/pts/"+strconv.Itoa(n), os.O_RDWR|unix.O_NOCTTY, 0)
	require.NoError(t, err)
	keys = os.NewFile(uintptr(fd), "/dev/ptmx")
	t.Cleanup(func() { keys.Close() })
	return keys, line
}

// answered runs the command as from a terminal, types one answer after another,
// each once a question stands there, and gives the exit code, the data and what
// stood on the screen. list comes through the standard input; without one that is
// the terminal, too.
func answered(t *testing.T, question string, answers []string, list string, args ...string) (code int, data, seen string) {
	t.Helper()
	keys, line := screen(t)
	path, err := exec.LookPath("wardian")
	require.NoError(t, err)
	var out bytes.Buffer
	cmd := exec.Command(path, args...)
	cmd.Env = append(os.Environ(), "TERM=dumb") // a dumb terminal has somebody before it, too
	cmd.Stdin, cmd.Stdout, cmd.Stderr = line, &out, line
	if list != "" {
		cmd.Stdin = strings.NewReader(list)
	}
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true, Ctty: 2}
	require.NoError(t, cmd.Start())
	line.Close()
	guard := time.AfterFunc(30*time.Second, func() { cmd.Process.Kill() })
	defer guard.Stop()
	var said bytes.Buffer
	buffer := make([]byte, 4096)
	for asked := 0; ; {
		n, err := keys.Read(buffer)
		said.Write(buffer[:n])
		for asked < len(answers) && bytes.Count(said.Bytes(), []byte(question)) > asked {
			_, err := keys.WriteString(answers[asked])
			require.NoError(t, err)
			asked++
		}
		if err != nil { // the command has closed its end
			break
		}
	}
	err = cmd.Wait()
	if exit := (*exec.ExitError)(nil); err != nil {
		require.ErrorAs(t, err, &exit)
	}
	return cmd.ProcessState.ExitCode(), out.String(), strings.ReplaceAll(said.String(), "\r\n", "\n")
}

// Each question is answered as people answer: nothing is written but on a yes.
func TestTheQuestionIsAskedOnATerminal(t *testing.T) {
	const list = "2x Hoya callistophylla M 45 EUR\n"
	const sheet = "plant;season;came;dead\nHoya obovata;2023 autumn;14.10.2023;28.10\n"
	for _, c := range []struct {
		name    string
		answers []string
		code    int
		wrote   bool
		says    string
	}{
		{"yes", []string{"y\n"}, exitClean, true, "next: "},
		{"yes in full", []string{"Yes\n"}, exitClean, true, "next: "},
		{"no", []string{"n\n"}, exitClean, false, "nothing was written"},
		{"an empty line", []string{"\n"}, exitClean, false, "nothing was written"},
		{"not at once", []string{"well\n", "y\n"}, exitClean, true, "y for yes, n for no"},
		{"the end of input", []string{"\x04"}, exitUsage, false, "the question wasn't answered"},
		{"Ctrl-C", []string{"\x03"}, exitStopped, false, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, verb := range []struct {
				args, files []string
				list        string
				question    string
			}{
				{[]string{"arrive", "FILE"}, []string{"imports/26-b.md", "specimens/b26-01.md", "specimens/b26-02.md", "check-ins/2026-04-06.md"}, list, "write 4 files into"},
				{[]string{"arrive", "-"}, []string{"imports/26-b.md", "specimens/b26-01.md", "specimens/b26-02.md", "check-ins/2026-04-06.md"}, list, "write 4 files into"},
				{[]string{"take-in", "FILE"}, []string{"lists/2023-autumn.csv", "imports/2023-autumn.md"}, sheet, "write 2 files into"},
				{[]string{"take-in", "-"}, []string{"lists/2023-autumn.csv", "imports/2023-autumn.md"}, sheet, "write 2 files into"},
			} {
				t.Run(strings.Join(verb.args, " "), func(t *testing.T) {
					dir, file := filepath.Join(t.TempDir(), "sill"), filepath.Join(t.TempDir(), "list.csv")
					code, _, talk := typed("start", dir, "--on", "2026-01-05")
					require.Zero(t, code, talk)
					require.NoError(t, os.WriteFile(file, []byte(verb.list), 0o644))
					through := verb.list
					if verb.args[1] == "FILE" {
						verb.args[1], through = file, ""
					}
					code, data, seen := answered(t, "[y/N] ", c.answers, through, append(verb.args, "--diary", dir, "--on", "2026-04-06")...)
					assert.Equal(t, c.code, code, seen)
					assert.Contains(t, seen, verb.question)
					assert.Contains(t, seen, c.says)
					for _, f := range verb.files {
						if c.wrote {
							assert.FileExists(t, filepath.Join(dir, f))
							assert.Contains(t, data, f)
						} else {
							assert.NoFileExists(t, filepath.Join(dir, f))
						}
					}
					if !c.wrote {
						assert.Empty(t, data)
					}
				})
			}
		})
	}
}

// The null device is nobody.
func TestNobodySitsAtTheNullDevice(t *testing.T) {
	null, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer null.Close()
	assert.False(t, sitsAt(null))
	_, line := screen(t)
	defer line.Close()
	assert.True(t, sitsAt(line))
}

// Each picture is asked for: an answer that is none is asked for again, an empty
// one leaves the picture out, the end of input all that are left.
func TestPicturesAreAskedForOnATerminal(t *testing.T) {
	dir, card := filepath.Join(t.TempDir(), "sill"), t.TempDir()
	code, _, talk := typed("start", dir, "--on", "2026-04-06")
	require.Zero(t, code, talk)
	noon := time.Date(2026, 4, 6, 12, 0, 0, 0, time.UTC)
	for n, name := range []string{"A.JPG", "B.JPG", "C.JPG", "D.JPG"} {
		snap(t, filepath.Join(card, name), uint8(10+20*n), noon.Add(time.Duration(n)*time.Minute))
	}
	code, data, seen := answered(t, "which plant? ", []string{"a26-03\n", "a26-02\n", "\n", "a26-02\n", "\x04"}, "", "photos", card, "--diary", dir)
	require.Zero(t, code, seen)
	assert.Equal(t, filepath.Join(dir, "photos/2026-04-06/a26-02.jpg")+"\n"+filepath.Join(dir, "photos/2026-04-06/a26-02-2.jpg")+"\n", data)
	assert.Contains(t, seen, "there is no specimen a26-03\nnearest: a26-0")
	assert.Equal(t, 5, strings.Count(seen, "which plant? "))
	assert.Contains(t, seen, "2 pictures belong without a mention")

	// What was answered before the grower is called away stays.
	code, data, seen = answered(t, "which plant? ", []string{"a26-01\n", "\x03"}, "", "photos", card, "--diary", dir)
	assert.Equal(t, exitStopped, code, seen)
	assert.Equal(t, filepath.Join(dir, "photos/2026-04-06/a26-01.jpg")+"\n", data)
	assert.Len(t, globbed(t, filepath.Join(dir, "photos/2026-04-06/*")), 3)
}

func globbed(t *testing.T, pattern string) []string {
	t.Helper()
	list, err := filepath.Glob(pattern)
	require.NoError(t, err)
	return list
}

// Ctrl-C in an editor is the editor's: the command waits for it, and says what is
// next.
func TestAnEditorKeepsItsKeys(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "sill")
	code, _, talk := typed("start", dir, "--on", "2026-04-06")
	require.Zero(t, code, talk)
	script := filepath.Join(t.TempDir(), "an editor.sh")
	require.NoError(t, os.WriteFile(script, []byte(`trap 'sleep 0.3; echo "others: same" > new; exit 0' INT
cd "$(dirname "$0")"
echo "$1" > first
for file; do :; done
echo "editing $(basename "$file")> "
while :; do sleep 0.1; done`), 0o644))
	t.Setenv("VISUAL", "sh '"+script+"' -w")
	t.Setenv("EDITOR", "false")
	code, data, seen := answered(t, "editing 2026-04-08.md> ", []string{"\x03"}, "", "round", "--edit", "--diary", dir, "--on", "2026-04-08")
	require.Zero(t, code, seen)
	assert.Equal(t, filepath.Join(dir, "check-ins/2026-04-08.md")+"\n", data)
	assert.Contains(t, seen, "next: write what you see")
	assert.FileExists(t, filepath.Join(filepath.Dir(script), "new"), "it ended as it liked")
	first, err := os.ReadFile(filepath.Join(filepath.Dir(script), "first"))
	require.NoError(t, err)
	assert.Equal(t, "-w\n", string(first))
}
