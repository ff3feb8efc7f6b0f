package build

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"golang.org/x/sync/errgroup"

	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

// A build whose inputs, settings and program are those of the last one has
// nothing to do. Whether they are is told by one hash over the bytes of every
// file that is read (of pictures their size and time, which change whenever a
// camera or a program writes one), the options, and the program itself. The site
// must still be the one that was written: every file there with its size and
// time, and no other. What isn't sure is built.

// last is what is kept of the last build to one target.
type last struct {
	Key      string
	Zone     string // of the diary, in which a clock's day is told
	Site     []standing
	Findings []source.Finding
}

// standing is a file of a built site.
type standing struct {
	Path string
	Size int64
	Time int64 // of change, in nanoseconds
}

// Unchanged tells whether a build would write what stands there already, and gives
// the findings (warnings all) of the build that wrote it. Without a day in the
// options it is now's in the diary's time zone.
func Unchanged(files fs.FS, o Options, now time.Time) (findings []source.Finding, ok bool) {
	if o.Folder == "" {
		return nil, false
	}
	data, err := os.ReadFile(recordPath(o))
	if err != nil {
		return nil, false
	}
	var l last
	if json.Unmarshal(data, &l) != nil || l.Key == "" {
		return nil, false
	}
	if !o.On.Known() {
		zone, err := time.LoadLocation(l.Zone)
		if err != nil {
			return nil, false
		}
		o.On = measure.DayOf(now.In(zone))
	}
	var key string
	looks, looking := errgroup.WithContext(context.Background()) // the first that differs ends both
	looks.Go(func() (err error) {
		key, err = inputsKey(looking, files, nil, o)
		return err
	})
	looks.Go(func() error {
		site, err := survey(o.To)
		if err == nil && !slices.Equal(site, l.Site) {
			err = errors.New("another site stands there")
		}
		return err
	})
	return l.Findings, looks.Wait() == nil && key == l.Key
}

// remember keeps what the next build needs to know of this one. A record that
// can't be written is no reason to fail: the next build builds.
func remember(d *content.Diary, files fs.FS, o Options, findings []source.Finding) {
	if o.Folder == "" {
		return
	}
	key, err := inputsKey(context.Background(), files, asRead(d), o)
	if err != nil {
		return
	}
	site, err := survey(o.To)
	if err != nil {
		return
	}
	data, err := json.Marshal(last{Key: key, Zone: d.Settings.Zone.String(), Site: site, Findings: findings})
	if err != nil {
		return
	}
	path := recordPath(o)
	if os.MkdirAll(filepath.Dir(path), 0o755) != nil {
		return
	}
	// A record cut short doesn't parse, and then the next build builds.
	os.WriteFile(path, data, 0o644)
}

// recordPath is where the record of builds to a target is kept.
func recordPath(o Options) string {
	target, err := filepath.Abs(o.To)
	if err != nil {
		target = o.To
	}
	sum := sha256.Sum256([]byte(target))
	return filepath.Join(o.Folder, cacheFolder, "built-"+hex.EncodeToString(sum[:6])+".json")
}

// cacheFolder is the diary's cache.
const cacheFolder = ".wardian"

// survey lists a built site.
func survey(dir string) ([]standing, error) {
	var out []standing
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		info, err := entry.Info()
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(dir, path)
		out = append(out, standing{Path: filepath.ToSlash(rel), Size: info.Size(), Time: info.ModTime().UnixNano()})
		return err
	})
	return out, err
}

// asRead are the bytes of a diary's files as they were read, by path. What was
// built is noted by them and not by what stands there after the build: an entry
// saved meanwhile would else be taken for one that was built. (They spare reading
// ten thousand files again, too.)
func asRead(d *content.Diary) map[string][]byte {
	read := make(map[string][]byte, len(d.Entries)+len(d.Specimens))
	add := func(p content.Page) {
		if p.File != nil {
			read[p.File.Path] = p.File.Bytes
		}
	}
	for _, e := range d.Entries {
		add(e.Page)
	}
	for _, s := range d.Specimens {
		add(s.Page)
	}
	for _, i := range d.Imports {
		add(i.Page)
	}
	for _, p := range d.Places {
		add(p.Page)
	}
	for _, u := range d.Updates {
		add(u.Page)
	}
	for _, s := range d.Seasons {
		add(s.Page)
	}
	for _, f := range slices.Concat(d.Style.Sheets, d.Style.Templates) {
		read[f.Path] = f.Bytes
	}
	return read
}

// input is a file that a build depends on.
type input struct {
	path string
	sum  [sha256.Size]byte // of its bytes
}

// inputsKey is the hash of everything that a build depends on. Files that aren't
// among those read are read here, while the folders are still listed, by as many
// workers as there are processors.
func inputsKey(ctx context.Context, files fs.FS, read map[string][]byte, o Options) (string, error) {
	program, err := thisProgram()
	if err != nil {
		return "", err
	}
	reader := content.OpenFiles(files)
	defer reader.Close()
	found := make(chan *input, 256)
	work, working := errgroup.WithContext(ctx)
	for range runtime.GOMAXPROCS(0) {
		work.Go(func() error {
			room := make([]byte, 64<<10) // more than nearly any file has
			for in := range found {
				data, known := read[in.path]
				if !known {
					var err error
					if data, err = reader.Read(in.path, room); err != nil {
						return err
					}
				}
				in.sum = sha256.Sum256(data)
			}
			return nil
		})
	}
	h := sha256.New()
	fmt.Fprintf(h, "%t %s %s\n", o.Unfinished, o.On, program)
	inputs, err := inputsOf(working, reader, h, found)
	close(found)
	if err := errors.Join(err, work.Wait()); err != nil {
		return "", err
	}
	for _, in := range inputs {
		io.WriteString(h, in.path+"\n")
		h.Write(in.sum[:])
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// inputsOf lists the files that a build depends on, and hands each on. Pictures are
// told to h, and are none of them.
func inputsOf(ctx context.Context, files fs.FS, h io.Writer, found chan<- *input) (inputs []*input, err error) {
	take := func(path string) error {
		in := &input{path: path}
		inputs = append(inputs, in)
		select {
		case found <- in:
			return nil
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	if err := take("diary.yaml"); err != nil {
		return nil, err
	}
	for _, folder := range content.Folders() {
		err := fs.WalkDir(files, folder, func(path string, entry fs.DirEntry, err error) error {
			switch {
			case err != nil && path == folder:
				return nil // a folder that isn't there
			case err != nil:
				return err
			case entry.IsDir():
				return nil
			case strings.HasPrefix(path, "photos/"):
				info, err := entry.Info()
				if err == nil {
					fmt.Fprintf(h, "%s %d %d\n", path, info.Size(), info.ModTime().UnixNano())
				}
				return err
			}
			return take(path)
		})
		if err != nil {
			return nil, err
		}
	}
	return inputs, nil
}
