//go:build unix

package outdir

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// faultDisk is a disk that counts what changes something, and at one count fails or kills its process. Its syncs are
// counted and not done: a killed process loses nothing that the kernel has, and hundreds of them take a minute.
type faultDisk struct {
	osDisk
	noExchange bool  // as on a system that has none
	at         int   // the operation to hit, from 1
	second     int   // one more to hit, or 0
	fail       error // nil: kill the process with SIGKILL
	half       bool  // of a write, half is done first
	count      int
	seen       []string
}

func (d *faultDisk) step(what string) error {
	d.count++
	d.seen = append(d.seen, what)
	if d.count != d.at && d.count != d.second {
		return nil
	}
	if d.fail == nil {
		syscall.Kill(os.Getpid(), syscall.SIGKILL)
		select {}
	}
	return &os.PathError{Op: what, Path: "made to fail", Err: d.fail}
}

func (d *faultDisk) mkdir(path string, mode os.FileMode) error {
	if err := d.step("mkdir"); err != nil {
		return err
	}
	return d.osDisk.mkdir(path, mode)
}

func (d *faultDisk) create(path string) (handle, error) {
	if err := d.step("create"); err != nil {
		return nil, err
	}
	h, err := d.osDisk.create(path)
	return faultHandle{h, d}, err
}

func (d *faultDisk) rename(from, to string) error {
	if err := d.step("rename to " + filepath.Base(to)); err != nil {
		return err
	}
	return d.osDisk.rename(from, to)
}

func (d *faultDisk) renameNew(from, to string) error {
	if err := d.step("renameNew"); err != nil {
		return err
	}
	return d.osDisk.renameNew(from, to)
}

func (d *faultDisk) exchange(a, b string) error {
	if d.noExchange {
		return errCannotExchange
	}
	if err := d.step("exchange"); err != nil {
		return err
	}
	return d.osDisk.exchange(a, b)
}

func (d *faultDisk) remove(path string) error {
	if err := d.step("remove"); err != nil {
		return err
	}
	return d.osDisk.remove(path)
}

func (d *faultDisk) syncTree(path string) error {
	if err := d.step("syncTree"); err != nil {
		return err
	}
	return nil
}

func (d *faultDisk) syncDir(path string) error {
	if err := d.step("syncDir"); err != nil {
		return err
	}
	return nil
}

func (d *faultDisk) lock(path string) (*lock, error) {
	if err := d.step("lock"); err != nil {
		return nil, err
	}
	return d.osDisk.lock(path)
}

// unlock that fails is a remove that fails: the lock itself ends with the file's closing.
func (d *faultDisk) unlock(l *lock) error {
	if err := d.step("unlock"); err != nil {
		return errors.Join(err, l.file.Close())
	}
	return d.osDisk.unlock(l)
}

type faultHandle struct {
	handle
	d *faultDisk
}

func (h faultHandle) Write(data []byte) (int, error) {
	if h.d.half && h.d.count+1 == h.d.at {
		n, _ := h.handle.Write(data[:len(data)/2])
		return n, h.d.step("write half")
	}
	if err := h.d.step("write"); err != nil {
		return 0, err
	}
	return h.handle.Write(data)
}

func (h faultHandle) Sync() error {
	if err := h.d.step("sync"); err != nil {
		return err
	}
	return nil
}

func (h faultHandle) Close() error {
	if err := h.d.step("close"); err != nil {
		return errors.Join(err, h.handle.Close())
	}
	return h.handle.Close()
}

// A way is how the old site is replaced.
var ways = map[string]bool{"one step": false, "two renames": true}

// before says what stands at the target when the build starts.
var befores = map[string]func(t *testing.T, target string){
	"an old site":                           func(t *testing.T, target string) { build(t, target, oldFiles) },
	"nothing":                               func(*testing.T, string) {},
	"a build that died between its renames": dieBetweenRenames,
}

// dieBetweenRenames leaves what a process leaves that is killed between the two renames: both the second and
// the one that undoes the first fail.
func dieBetweenRenames(t *testing.T, target string) {
	if secondRename == 0 {
		rehearsal := filepath.Join(t.TempDir(), "shown")
		build(t, rehearsal, oldFiles)
		probe := &faultDisk{noExchange: true}
		_, err := buildWith(probe, rehearsal, halfwayFiles)
		require.NoError(t, err)
		secondRename = 1 + slices.Index(probe.seen, "rename to shown")
		require.NotZero(t, secondRename)
	}
	build(t, target, oldFiles)
	d := &faultDisk{noExchange: true, fail: syscall.EIO, at: secondRename, second: secondRename + 1}
	_, err := buildWith(d, target, halfwayFiles)
	require.ErrorContains(t, err, "could not be put back")
	require.NoDirExists(t, target)
}

var secondRename int // the operation's number, once it is known

// halfwayFiles is the site of the build that died between.
var halfwayFiles = map[string]string{"index.html": "halfway"}

// allowed lists what may stand at the target after a fault, as snapshots; nil is nothing.
func allowed(t *testing.T, before string) []map[string]string {
	switch before {
	case "nothing":
		return []map[string]string{nil, wanted(t, newFiles)}
	case "an old site":
		return []map[string]string{wanted(t, oldFiles), wanted(t, newFiles)}
	}
	return []map[string]string{nil, wanted(t, halfwayFiles), wanted(t, newFiles)}
}

func isOneOf(t *testing.T, got map[string]string, want []map[string]string) int {
	t.Helper()
	for i, w := range want {
		if assert.ObjectsAreEqual(w, got) {
			return i
		}
	}
	require.Fail(t, "neither the old site nor the new one", "%v", got)
	return -1
}

// operations counts those of one undisturbed build.
func operations(t *testing.T, before string, noExchange bool) []string {
	target := filepath.Join(t.TempDir(), "shown")
	befores[before](t, target)
	d := &faultDisk{noExchange: noExchange}
	r, err := buildWith(d, target, newFiles)
	require.NoError(t, err)
	require.NoError(t, r.Uncleared)
	require.Greater(t, len(d.seen), 20)
	return d.seen
}

// nextBuild is the proof that a fault leaves nothing for people to mend: the next build succeeds, brings its own
// site and leaves nothing beside it.
func nextBuild(t *testing.T, target string, noExchange bool) {
	t.Helper()
	last := map[string]string{"index.html": "after the fault", "a/b.html": "x"}
	_, err := buildWith(&faultDisk{noExchange: noExchange}, target, last)
	require.NoError(t, err)
	require.Equal(t, wanted(t, last), snapshot(t, target))
	require.Equal(t, []string{"shown"}, names(t, filepath.Dir(target)), "litter beside the site")
}

// TestFailAtEveryOperation fails each operation of a rebuild in turn.
func TestFailAtEveryOperation(t *testing.T) {
	for way, noExchange := range ways {
		for before := range befores {
			all := operations(t, before, noExchange)
			errs := []error{syscall.EIO}
			if before == "an old site" {
				errs = append(errs, syscall.ENOSPC, syscall.EACCES)
			}
			for _, fail := range errs {
				for _, half := range []bool{false, true} {
					for at := 1; at <= len(all); at++ {
						if half && all[at-1] != "write" {
							continue
						}
						name := fmt.Sprintf("%s/%s/%v half=%v/%d %s", way, before, fail, half, at, all[at-1])
						failOnce(t, name, before, &faultDisk{noExchange: noExchange, at: at, fail: fail, half: half})
					}
				}
			}
		}
	}
}

func failOnce(t *testing.T, name, before string, d *faultDisk) {
	t.Helper()
	ok := t.Run(name, func(t *testing.T) {
		target := filepath.Join(t.TempDir(), "shown")
		befores[before](t, target)
		r, err := buildWith(d, target, newFiles)
		require.GreaterOrEqual(t, d.count, d.at, "the operation was never reached")
		want := allowed(t, before)
		is := isOneOf(t, snapshot(t, target), want)
		isNew := is == len(want)-1
		switch {
		case err == nil:
			assert.True(t, isNew, "success was told, and the new site isn't there")
			assert.ErrorIs(t, r.Uncleared, d.fail, "the fault was swallowed")
		case isNew:
			assert.ErrorContains(t, err, "the new site stands")
		}
		if err != nil {
			assert.ErrorIs(t, err, d.fail)
		}
		nextBuild(t, target, d.noExchange)
	})
	if !ok && t.Failed() {
		t.FailNow() // one is enough to look at
	}
}

// TestRollBackThatFailsToo: when both the second rename and its undoing fail, the old site waits in the
// stage, nothing clears it away, and the next build puts a whole site in place before anything else.
func TestRollBackThatFailsToo(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	dieBetweenRenames(t, target)
	assert.Equal(t, wanted(t, oldFiles), snapshot(t, filepath.Join(filepath.Dir(target), ".shown.wardian-stage", "old")))

	// Failing to put it back loses nothing either.
	_, err := buildWith(&faultDisk{at: 2, fail: syscall.EIO}, target, newFiles)
	require.ErrorContains(t, err, "put back the site")
	assert.DirExists(t, filepath.Join(filepath.Dir(target), ".shown.wardian-stage", "old"))

	s, err := Open(target, Options{})
	require.NoError(t, err)
	assert.Equal(t, wanted(t, halfwayFiles), snapshot(t, target))
	require.NoError(t, s.Discard())
	nextBuild(t, target, true)
}

// Somebody's own folder put where the site was missing is refused, and what waits beside it isn't cleared.
func TestOwnFolderInTheGap(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	dieBetweenRenames(t, target)
	require.NoError(t, os.Mkdir(target, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(target, "letter.txt"), []byte("theirs"), 0o644))
	before := snapshot(t, filepath.Dir(target))
	_, err := Open(target, Options{})
	var refused *Refused
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, before, snapshot(t, filepath.Dir(target)))
	require.NoError(t, os.RemoveAll(target))
	nextBuild(t, target, true)
}

// If the new site in an interrupted stage isn't complete after all, the old one goes back.
func TestIncompleteStageGoesBack(t *testing.T) {
	target := filepath.Join(t.TempDir(), "shown")
	dieBetweenRenames(t, target)
	require.NoError(t, os.Remove(filepath.Join(filepath.Dir(target), ".shown.wardian-stage", "site", MarkerName)))
	s, err := Open(target, Options{})
	require.NoError(t, err)
	assert.Equal(t, wanted(t, oldFiles), snapshot(t, target))
	require.NoError(t, s.Discard())
	nextBuild(t, target, true)
}

// TestMain runs this program as the build that is to be killed, if it is started so.
func TestMain(m *testing.M) {
	if at := os.Getenv("OUTDIR_KILL_AT"); at != "" {
		d := &faultDisk{noExchange: os.Getenv("OUTDIR_NO_EXCHANGE") != "", half: os.Getenv("OUTDIR_HALF") != ""}
		d.at, _ = strconv.Atoi(at)
		var err error
		if path := os.Getenv("OUTDIR_NEW_FILE"); path != "" {
			err = writeNew(d, path, []byte(scaffold))
		} else {
			_, err = buildWith(d, os.Getenv("OUTDIR_TARGET"), newFiles)
		}
		fmt.Println("survived:", err)
		os.Exit(3)
	}
	os.Exit(m.Run())
}

// killed starts this program with an environment and waits for its death by SIGKILL.
func killed(t *testing.T, env ...string) {
	t.Helper()
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), env...)
	out, err := child.CombinedOutput()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit, "%s", out)
	status := exit.Sys().(syscall.WaitStatus)
	require.True(t, status.Signaled() && status.Signal() == syscall.SIGKILL, "it wasn't killed: %s %s", err, out)
}

// TestKillAtEveryOperation kills a process right before each operation of a rebuild (so right after the one
// before it), and in the middle of each write.
func TestKillAtEveryOperation(t *testing.T) {
	for way, noExchange := range ways {
		for before := range befores {
			all := operations(t, before, noExchange)
			want := allowed(t, before)
			missing := 0
			for at := 1; at <= len(all); at++ {
				for _, half := range []string{"", "yes"} {
					if half != "" && all[at-1] != "write" {
						continue
					}
					t.Run(fmt.Sprintf("%s/%s/%d %s %s", way, before, at, all[at-1], half), func(t *testing.T) {
						target := filepath.Join(t.TempDir(), "shown")
						befores[before](t, target)
						no := ""
						if noExchange {
							no = "yes"
						}
						killed(t, "OUTDIR_KILL_AT="+strconv.Itoa(at), "OUTDIR_HALF="+half, "OUTDIR_NO_EXCHANGE="+no, "OUTDIR_TARGET="+target)
						got := snapshot(t, target)
						if got == nil && noExchange && before == "an old site" {
							// Between the two renames, and nowhere else. The next start finds the journal.
							missing++
							assert.Equal(t, "rename to shown", all[at-1])
							s, err := Open(target, Options{})
							require.NoError(t, err)
							require.NoError(t, s.Discard())
							got = snapshot(t, target)
							assert.Equal(t, want[1], got, "the new site was complete and belongs here")
						}
						isOneOf(t, got, want)
						nextBuild(t, target, noExchange)
					})
				}
			}
			if noExchange && before == "an old site" {
				assert.Equal(t, 1, missing, "the moment between the two renames was not met")
			} else {
				assert.Zero(t, missing)
			}
		}
	}
}

// TestExchangeIsUsedHere guards the tests above: on Linux and macOS the one-step way must be the one that ran.
func TestExchangeIsUsedHere(t *testing.T) {
	if !swapsInOneStep {
		t.Skip("this system has no exchange")
	}
	all := strings.Join(operations(t, "an old site", false), "\n")
	assert.Contains(t, all, "exchange")
	assert.NotContains(t, all, "rename")
	all = strings.Join(operations(t, "an old site", true), "\n")
	assert.Contains(t, all, "rename to journal\nsyncDir\nsyncDir\nrename to old\nrename to shown\nsyncDir")
}

func TestModesWhateverTheUmask(t *testing.T) {
	want := wanted(t, newFiles)
	for _, mask := range []int{0, 0o027, 0o077, 0o777} {
		before := syscall.Umask(mask)
		target := filepath.Join(t.TempDir(), "shown")
		_, err := buildWith(osDisk{}, target, newFiles)
		syscall.Umask(before)
		require.NoError(t, err)
		assert.Equal(t, want, snapshot(t, target), "umask %o", mask)
	}
	// A mode that somebody changed is set right again, though no byte differs.
	target := filepath.Join(t.TempDir(), "shown")
	build(t, target, newFiles)
	require.NoError(t, os.Chmod(filepath.Join(target, "index.html"), 0o600))
	build(t, target, newFiles)
	assert.Equal(t, want, snapshot(t, target))
}
