// Package build turns a diary into a site: every file is planned, made beside
// the old site and put in its place in one step.
//
// The same diary gives the same bytes on every machine and every day; only
// Options.On (for hold-back and for days to come) looks at a calendar, and the
// caller says which day that is.
package build

import (
	"context"
	"io/fs"
	"path/filepath"
	"runtime"
	"sync"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"wardian/build/outdir"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

const noDay = measure.NoDay

// Options say what to build and where.
type Options struct {
	To         string      // the site's folder
	Folder     string      // the diary's folder, which the site may not replace; "" where it is no folder of the disk
	Unfinished bool        // show entries marked unfinished
	On         measure.Day // the day of the build
	// Progress is told how many files of how many are made; may be nil. It is
	// called from several goroutines.
	Progress func(done, of int)
}

// Result tells what a build did.
type Result struct {
	outdir.Result
	Pages    int
	Pictures int
}

// Run builds the site of a diary that was loaded without errors. files is the
// folder it was loaded from. What is wrong with its pictures, or comes up when a
// page is set with an own template, goes into report; if that holds an error then,
// nothing is written and ok is false.
func Run(ctx context.Context, d *content.Diary, files fs.FS, report *source.Report, o Options) (r Result, ok bool, err error) {
	all := d
	d = d.Shown(content.ShowOptions{Unfinished: o.Unfinished, On: o.On})
	stage, err := outdir.Open(o.To, keepApart(o.Folder))
	if err != nil {
		return Result{}, false, err
	}
	defer stage.Discard() // after Commit it does nothing

	kept := newKeep(o.pictures())
	pictures, err := shrink(ctx, d, files, report, stage, kept)
	if err != nil {
		return Result{}, false, err
	}
	if report.Errors() > 0 {
		return Result{}, false, nil
	}
	pieces, err := Plan(d, pictures)
	if err != nil {
		return Result{}, false, err
	}
	r.Pages, r.Pictures = len(pieces), len(pictures)

	group, working := errgroup.WithContext(ctx)
	done := newCounter(len(pieces), o.Progress)
	wrong := unfits{report: report}
	var taken atomic.Int64
	var makers sync.WaitGroup
	type file struct {
		path string
		data []byte
	}
	made := make(chan file, 16)
	// Twice as many as there are processors: some wait for one another where two
	// pages have a part in common.
	for range 2 * runtime.GOMAXPROCS(0) {
		makers.Add(1)
		group.Go(func() error {
			defer makers.Done()
			for working.Err() == nil {
				n := int(taken.Add(1)) - 1
				if n >= len(pieces) {
					return nil
				}
				data, err := pieces[n].Make()
				if wrong.take(err) {
					continue
				}
				if err != nil {
					return err
				}
				select {
				case made <- file{pieces[n].Path, data}:
				case <-working.Done():
				}
			}
			return working.Err()
		})
	}
	// One alone writes: files of one folder wait for each other anyway, and spend
	// the processors' time on it.
	group.Go(func() error {
		for f := range made {
			if err := stage.WriteFile(f.path, f.data); err != nil {
				return err
			}
			done.one()
		}
		return nil
	})
	go func() {
		makers.Wait()
		close(made)
	}()
	if err := group.Wait(); err != nil {
		return Result{}, false, err
	}
	if err := ctx.Err(); err != nil {
		return Result{}, false, err
	}
	if report.Errors() > 0 {
		return Result{}, false, nil
	}
	if r.Result, err = stage.Commit(); err != nil {
		return r, false, err
	}
	kept.forget()
	remember(all, files, o, report.Findings())
	return r, true, nil
}

// pictures is where small pictures are kept; "" without a folder.
func (o Options) pictures() string {
	if o.Folder == "" {
		return ""
	}
	return filepath.Join(o.Folder, cacheFolder, "pictures")
}
