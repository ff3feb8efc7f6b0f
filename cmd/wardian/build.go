package main

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"wardian/build"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
)

func newBuild() *cobra.Command {
	var to, on string
	var unfinished, quiet bool
	cmd := &cobra.Command{
		Use:  "build [DIR]",
		Long: helpText("build"),
		Args: atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			dir, err := folder(args)
			if err != nil {
				return err
			}
			if to == "" {
				to = filepath.Join(dir, "shown")
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr(), quiet: quiet}
			return buildSite(cmd.Context(), v, job{
				open:   func(o content.Options) (*loaded, error) { return loadFolder(dir, o) },
				folder: dir, to: to, on: on, unfinished: unfinished,
			})
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "")
	cmd.Flags().BoolVar(&unfinished, "unfinished", false, "")
	cmd.Flags().BoolVar(&quiet, "quiet", false, "")
	onFlag(cmd, &on)
	return cmd
}

// loaded is a diary with the folder it was read from.
type loaded struct {
	diary  *content.Diary
	report *source.Report
	files  fs.FS
	close  func() error
}

// loadFolder reads a diary from a folder of the disk, which links can't leave.
func loadFolder(dir string, o content.Options) (*loaded, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, err
	}
	l, err := loadFS(root.FS(), o)
	if err != nil {
		root.Close()
		return nil, err
	}
	l.close = root.Close
	return l, nil
}

// read reads a diary from a folder, and says meanwhile that it does.
func (v voice) read(dir string, o content.Options) (*loaded, error) {
	defer v.doing("reading the diary")()
	return loadFolder(dir, o)
}

func loadFS(files fs.FS, o content.Options) (*loaded, error) {
	diary, report, err := content.Load(files, o)
	if err != nil {
		return nil, err
	}
	return &loaded{diary: diary, report: report, files: files, close: func() error { return nil }}, nil
}

// job is one site to build.
type job struct {
	open       func(content.Options) (*loaded, error)
	folder     string // the diary's; "" for the embedded example
	to, on     string
	unfinished bool
	ageless    bool // whatever the day is, nothing of it is too young or lies in the future
}

// options are what a build is told, on a day.
func (j job) options(on measure.Day, v voice) build.Options {
	return build.Options{To: j.to, Folder: j.folder, Unfinished: j.unfinished, On: on, Progress: v.progress("files")}
}

// buildSite loads, tells findings, builds, and says what was written.
func buildSite(ctx context.Context, v voice, j job) error {
	began := time.Now()
	defer build.Room()()
	options, err := dayOptions(j.on)
	if err != nil {
		return err
	}
	if j.ageless {
		options = content.Options{Today: measure.NoDay}
	}
	if unchanged, err := j.unchanged(options, v); unchanged || err != nil {
		return err
	}
	done := v.doing("reading the diary")
	l, err := j.open(options)
	done()
	if err != nil {
		return err
	}
	defer l.close()
	if l.report.Errors() > 0 {
		return v.findings(l.report)
	}
	done = v.doing("building the site")
	result, ok, err := build.Run(ctx, l.diary, l.files, l.report, j.options(l.diary.Today, v))
	done()
	if err != nil {
		return err
	}
	if told := v.findings(l.report); !ok {
		return told
	}
	if result.Uncleared != nil {
		v.say(fmt.Sprintf("the site stands, but something of the old one could not be cleared away: %v", result.Uncleared))
	}
	v.say(fmt.Sprintf("%s: %s in %s (%d changed, %d removed)", j.to, counted(result.Pages+result.Pictures, "file", "files"),
		time.Since(began).Round(10*time.Millisecond), result.Written, result.Removed))
	if j.folder != "" {
		v.say("next: open " + filepath.Join(j.to, "index.html"))
	}
	return nil
}

// unchanged tells whether the last build's site is still what this one would
// write, and says so.
func (j job) unchanged(o content.Options, v voice) (bool, error) {
	if j.folder == "" {
		return false, nil
	}
	root, err := os.OpenRoot(j.folder)
	if err != nil {
		return false, err
	}
	defer root.Close()
	findings, ok := build.Unchanged(root.FS(), j.options(o.Today, v), o.Now)
	if !ok {
		return false, nil
	}
	report := &source.Report{}
	for _, f := range findings {
		report.Add(nil, f)
	}
	v.say(j.to + ": nothing changed since the last build")
	return true, v.findings(report)
}
