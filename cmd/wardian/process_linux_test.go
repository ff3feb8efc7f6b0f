package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// What only a process of its own can show: streams that are terminals or aren't,
// and being stopped. The test's own program is the command where it is called by
// that name (testscript.Main).

func process(t testing.TB, dir string, args ...string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(self, args...)
	cmd.Args[0] = "wardian"
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "TERM=xterm", "PAGER=", "VISUAL=", "EDITOR=", "NO_COLOR=")
	return cmd
}

// terminalPair is a terminal: what a program writes to its one end is read at the
// other.
type terminalPair struct {
	end  *os.File // the program's
	mu   sync.Mutex
	seen bytes.Buffer
	own  *os.File
	read chan struct{}
}

func newTerminal(t testing.TB) *terminalPair {
	t.Helper()
	own, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no terminals here: %v", err)
	}
	require.NoError(t, unix.IoctlSetPointerInt(int(own.Fd()), unix.TIOCSPTLCK, 0))
	n, err := unix.IoctlGetInt(int(own.Fd()), unix.TIOCGPTN)
	require.NoError(t, err)
	end, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|syscall.O_NOCTTY, 0)
	require.NoError(t, err)
	p := &terminalPair{end: end, own: own, read: make(chan struct{})}
	t.Cleanup(func() { own.Close() })
	go func() {
		defer close(p.read)
		buf := make([]byte, 4096)
		for {
			n, err := own.Read(buf)
			p.mu.Lock()
			p.seen.Write(buf[:n])
			p.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	return p
}

// text is what was written so far, with the terminal's line ends made plain.
func (p *terminalPair) text() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return strings.ReplaceAll(p.seen.String(), "\r\n", "\n")
}

// all is what was written when the program has ended.
func (p *terminalPair) all() string {
	p.end.Close()
	<-p.read
	return p.text()
}

// The two streams are judged apart, TERM=dumb and --quiet are heeded, and nothing
// has a colour, whatever NO_COLOR says. The first thing that a terminal sees is
// what is being done, before the diary is read.
func TestEachStreamIsJudgedByItself(t *testing.T) {
	const moving = "\x1b[K"
	for name, c := range map[string]struct {
		outTTY, talkTTY bool
		env             []string
		args            []string
		moves           bool
	}{
		"talk on a terminal":                       {talkTTY: true, args: []string{"build"}, moves: true},
		"talk on a terminal, NO_COLOR":             {talkTTY: true, args: []string{"build"}, env: []string{"NO_COLOR=1"}, moves: true},
		"talk on a terminal, proof":                {talkTTY: true, args: []string{"proof", "--json"}, moves: true},
		"talk on a terminal, find":                 {talkTTY: true, args: []string{"find", "leaf"}, moves: true},
		"talk on a dumb terminal":                  {talkTTY: true, args: []string{"build"}, env: []string{"TERM=dumb"}},
		"talk on a terminal, quiet":                {talkTTY: true, args: []string{"build", "--quiet"}},
		"data alone on a terminal":                 {outTTY: true, args: []string{"build"}},
		"data alone on a terminal, proof's answer": {outTTY: true, args: []string{"proof"}},
		"both in pipes":                            {args: []string{"build"}},
		"both on terminals":                        {outTTY: true, talkTTY: true, args: []string{"build"}, moves: true},
	} {
		t.Run(name, func(t *testing.T) {
			cmd := process(t, startedFolder(t), c.args...)
			cmd.Env = append(cmd.Env, c.env...)
			var out, talk bytes.Buffer
			cmd.Stdout, cmd.Stderr = &out, &talk
			var outTTY, talkTTY *terminalPair
			if c.outTTY {
				outTTY = newTerminal(t)
				cmd.Stdout = outTTY.end
			}
			if c.talkTTY {
				talkTTY = newTerminal(t)
				cmd.Stderr = talkTTY.end
			}
			require.NoError(t, cmd.Run())
			said, data := talk.String(), out.String()
			if talkTTY != nil {
				said = talkTTY.all()
			}
			if outTTY != nil {
				data = outTTY.all()
			}
			assert.NotContains(t, data, "\x1b", "data never moves")
			assert.Equal(t, c.moves, strings.Contains(said, moving), "%q", said)
			assert.NotContains(t, strings.ReplaceAll(said, moving, ""), "\x1b", "nothing but that, and so no colour: %q", said)
			if c.moves {
				assert.True(t, strings.HasPrefix(said, "\r"+moving+"reading the diary"), "%q", said)
				last := said[strings.LastIndex(said, "\r"+moving)+len("\r"+moving):]
				assert.NotContains(t, last, "building", "what was being done is taken back")
			}
		})
	}
}

// A long text goes through PAGER where it goes to a terminal, and only there.
func TestThePagerIsForTerminals(t *testing.T) {
	for _, tty := range []bool{true, false} {
		cmd := process(t, t.TempDir(), "help", "codes")
		cmd.Env = append(cmd.Env, "PAGER=sed s/^/paged:/")
		var out bytes.Buffer
		cmd.Stdout = &out
		var p *terminalPair
		if tty {
			p = newTerminal(t)
			cmd.Stdout = p.end
		}
		require.NoError(t, cmd.Run())
		text := out.String()
		if tty {
			text = p.all()
		}
		assert.Equal(t, tty, strings.HasPrefix(text, "paged:"), "%.60q", text)
		assert.Contains(t, text, "unknown-key")
	}
}

// TMPDIR is where a site that nobody asked to keep is made, and nothing is left
// of it.
func TestTryUsesTheTemporaryFolder(t *testing.T) {
	if racing {
		t.Skip("all the example's pictures are made here: it is done without the race detector")
	}
	left := t.TempDir()
	cmd := process(t, t.TempDir(), "try")
	cmd.Env = append(cmd.Env, "TMPDIR="+left)
	p := newTerminal(t)
	cmd.Stdout, cmd.Stderr = p.end, p.end
	require.NoError(t, cmd.Start())
	require.Eventually(t, func() bool { return strings.Contains(p.text(), "press Ctrl-C to end") }, 60*time.Second, 10*time.Millisecond)
	entries, err := os.ReadDir(left)
	require.NoError(t, err)
	assert.Len(t, entries, 1, "it is made there")
	stopped(t, cmd)
	entries, err = os.ReadDir(left)
	require.NoError(t, err)
	assert.Empty(t, entries)
}

// stopped stops a command as Ctrl-C does and holds it to code 130. How long it
// took is logged: the promise is 100 ms, and main keeps it with a clock of its
// own; a busy machine may add to that.
func stopped(t testing.TB, cmd *exec.Cmd) {
	t.Helper()
	began := time.Now()
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	err := cmd.Wait()
	t.Logf("%v: ended %v after Ctrl-C", cmd.Args, time.Since(began).Round(time.Millisecond))
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit)
	assert.Equal(t, exitStopped, exit.ExitCode(), "%v", cmd.Args)
}

// filesBelow lists the files of a folder with what is in them.
func filesBelow(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		out[path] = string(data)
		return err
	}))
	return out
}

// Ctrl-C in the middle of a build leaves no site where none was, and the old one
// whole where one was; the next build is none the worse for it. Under the race
// detector the pictures are sketches, since four builds with those of the example
// take minutes there.
func TestAStoppedBuildLeavesNothingHalf(t *testing.T) {
	dir := exampleFolder(t)
	if racing {
		sketchPictures(t, dir)
	}
	site, stage := filepath.Join(dir, "shown"), filepath.Join(dir, ".shown.wardian-stage")
	interrupted := func() {
		cmd := process(t, dir, "build")
		require.NoError(t, cmd.Start())
		for cmd.ProcessState == nil { // until something of it stands
			if _, err := os.Stat(stage); err == nil {
				break
			}
			time.Sleep(time.Millisecond)
		}
		stopped(t, cmd)
	}
	interrupted()
	assert.NoDirExists(t, site)

	require.NoError(t, process(t, dir, "build").Run())
	before := filesBelow(t, site)
	require.NotEmpty(t, before)
	letter := filepath.Join(dir, "updates", "another.md")
	require.NoError(t, os.WriteFile(letter, []byte("---\ntitle: Another\ndate: 2026-06-10\n---\nWords.\n"), 0o644))
	require.NoError(t, os.RemoveAll(filepath.Join(dir, ".wardian"))) // so that all pictures are made anew
	interrupted()
	assert.Equal(t, before, filesBelow(t, site))

	require.NoError(t, process(t, dir, "build").Run())
	assert.FileExists(t, filepath.Join(site, "updates", "another.html"))
	assert.NoDirExists(t, stage, "what was left lying is cleared away")
}

// Ctrl-C at a question, or while something is served, writes nothing.
func TestAStoppedQuestionWritesNothing(t *testing.T) {
	sheet, err := filepath.Abs(filepath.Join("..", "..", "testdata", "lists", "two-seasons.csv"))
	require.NoError(t, err)
	box := filepath.Join(t.TempDir(), "box.txt")
	require.NoError(t, os.WriteFile(box, []byte("Hoya carnosa 12 EUR small\n"), 0o644))
	for name, c := range map[string]struct {
		args  []string
		until string
	}{
		"take-in": {[]string{"take-in", sheet}, "? "},
		"arrive":  {[]string{"arrive", box}, "? "},
		"preview": {[]string{"preview"}, "the diary was read"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := exampleFolder(t)
			before := filesBelow(t, dir)
			cmd := process(t, dir, c.args...)
			p := newTerminal(t)
			cmd.Stdin, cmd.Stdout, cmd.Stderr = p.end, p.end, p.end
			require.NoError(t, cmd.Start())
			require.Eventually(t, func() bool { return strings.Contains(p.text(), c.until) }, 60*time.Second, 5*time.Millisecond, "%s", c.args)
			stopped(t, cmd)
			assert.Equal(t, before, filesBelow(t, dir))
			assert.Contains(t, p.all(), "wardian: stopped")
		})
	}
}

// A reader that has seen enough ends the command without a word.
func TestAReaderThatLeavesEndsTheCommandQuietly(t *testing.T) {
	dir := exampleFolder(t)
	calls := [][]string{{"help", "codes"}, {"schema", "round"}, {"find", "the", "--json"}, {"compare", "--by", "size"}}
	if racing {
		calls = calls[:3] // a comparison of the example is all arithmetic
	}
	for _, args := range calls {
		read, write, err := os.Pipe()
		require.NoError(t, err)
		cmd := process(t, dir, args...)
		var talk bytes.Buffer
		cmd.Stdout, cmd.Stderr = write, &talk
		require.NoError(t, read.Close())
		cmd.Run() // its end is that of SIGPIPE, or 0: a shell says nothing of either
		write.Close()
		assert.NotContains(t, talk.String(), "pipe", "%v", args)
		assert.NotContains(t, talk.String(), "panic", "%v", args)
	}
}
