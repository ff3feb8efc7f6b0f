package build

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"wardian/build/address"
	"wardian/build/outdir"
	"wardian/build/page"
	"wardian/build/photo"
	"wardian/content"
	"wardian/content/source"
)

// pictureWidth is the one width, in pixels, at which a picture is shown.
const pictureWidth = 1200

// keepApart says what a site may not replace or lie in: the diary's folder, and
// the folders in it that are read as the diary.
func keepApart(folder string) outdir.Options {
	if folder == "" {
		return outdir.Options{}
	}
	o := outdir.Options{Keep: []string{folder}}
	for _, name := range content.Folders() {
		o.Apart = append(o.Apart, filepath.Join(folder, name))
	}
	return o
}

// pictureName is a picture's place in a site, known before it is made: it follows
// from its path, the camera's bytes and the way in which pictures are made, so
// that another picture under the same path, or another way, is another name.
func pictureName(path string, sum hash) string {
	return address.Picture(path, append([]byte(making), sum[:]...))
}

// shrink makes every picture of a diary anew at one width, so that nothing the
// camera wrote into it goes out, writes it into the stage and tells where it
// stands. A picture that can't be read is a finding.
func shrink(ctx context.Context, d *content.Diary, files fs.FS, report *source.Report, stage *outdir.Stage, kept *keep) (map[string]page.Picture, error) {
	made := make(map[string]page.Picture, len(d.Photos))
	var mu sync.Mutex
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	for _, path := range d.Photos {
		group.Go(func() error {
			if err := ctx.Err(); err != nil {
				return err
			}
			data, err := fs.ReadFile(files, path)
			if err != nil {
				return fmt.Errorf("read %s: %w", path, err)
			}
			small, width, height, err := kept.small(data)
			if finding, unfit := unfit(path, err); unfit {
				report.Add(nil, finding)
				return nil
			}
			if err != nil {
				return fmt.Errorf("render %s: %w", path, err)
			}
			p := page.Picture{Path: pictureName(path, sha256.Sum256(data)), Width: width, Height: height}
			mu.Lock()
			made[path] = p
			mu.Unlock()
			return stage.WriteFile(p.Path, small)
		})
	}
	return made, group.Wait()
}

// unfit makes a finding of a picture that can't be shown. It has no line; it is
// placed at the file's start.
func unfit(path string, err error) (source.Finding, bool) {
	start := source.Position{Line: 1, Column: 1}
	f := source.Finding{File: path, Span: source.Span{Start: start, End: start}, Severity: source.Error, Expected: "a JPEG, PNG or WebP picture"}
	var no *photo.NotAPicture
	var large *photo.TooLarge
	var broken *photo.Broken
	switch {
	case errors.As(err, &no):
		f.Code, f.Message = "not-a-picture", no.Error()
	case errors.As(err, &large):
		f.Code, f.Message, f.Hint = "picture-too-large", large.Error(), "save it smaller"
	case errors.As(err, &broken):
		f.Code, f.Message, f.Hint = "broken-picture", broken.Error(), "copy it from the camera again"
	default:
		return source.Finding{}, false
	}
	return f, true
}

// counter tells of progress.
type counter struct {
	done atomic.Int64
	of   int
	tell func(done, of int)
}

func newCounter(of int, tell func(done, of int)) *counter { return &counter{of: of, tell: tell} }

func (c *counter) one() {
	if n := c.done.Add(1); c.tell != nil {
		c.tell(int(n), c.of)
	}
}
