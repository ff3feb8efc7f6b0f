package main

import (
	"context"
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"wardian/build"
	"wardian/build/preview"
	"wardian/content"
)

func newPreview() *cobra.Command {
	var port int
	var on string
	cmd := &cobra.Command{
		Use:  "preview [DIR]",
		Long: helpText("preview"),
		Args: atMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			dir, err := folder(args)
			if err != nil {
				return err
			}
			if port < 0 || port > 65535 {
				return wrongUse{message: fmt.Sprintf("--port %d is no port", port), next: "a port is a number from 1 to 65535; without --port, one that is free"}
			}
			if _, err := dayOptions(on); err != nil {
				return err
			}
			v := voice{out: cmd.OutOrStdout(), talk: cmd.ErrOrStderr()}
			return previewDiary(cmd.Context(), v, dir, on, port)
		},
	}
	cmd.Flags().IntVar(&port, "port", 0, "")
	onFlag(cmd, &on)
	return cmd
}

// previewDiary serves a diary's site while it is written, until the context
// ends.
func previewDiary(ctx context.Context, v voice, dir, on string, port int) error {
	r := &reader{dir: dir, on: on, reader: build.NewReader()}
	t := &teller{v: v}
	return preview.Run(ctx, preview.Options{
		Folder: dir, Pass: unread, Read: r.read, Style: build.Style(), Port: port, Wish: usualPort(dir),
		Ready: func(address string) {
			t.address = address
			v.tell(address)
			v.say("press Ctrl-C to end")
		},
		Told: t.told,
		Blind: func(err error) {
			v.say(fmt.Sprintf("the system tells of no changes here (%v); everything is looked at every two seconds instead", err))
		},
	})
}

// unread says which paths of a diary's folder are none of its reading's
// business: the built site, and what lies in folders that are never read. Names
// that open with a dot (the builder's lock and stage among them) are passed over
// by the watcher itself.
func unread(path string) bool {
	top, _, within := strings.Cut(path, "/")
	if top == "shown" {
		return true
	}
	return within && !slices.Contains(content.Folders(), top)
}

// usualPort is a port of a diary's own, so that a page left open finds the next
// preview of the same diary: 20000 to 29999, which systems don't give out by
// themselves.
func usualPort(dir string) int {
	if abs, err := filepath.Abs(dir); err == nil {
		dir = abs
	}
	h := fnv.New32a()
	h.Write([]byte(dir))
	return 20000 + int(h.Sum32()%10000)
}

// reader reads a diary again and again, and of it what the preview says changed.
type reader struct {
	dir, on string
	reader  *build.Reader
}

func (r *reader) read(c preview.Change) preview.Reading {
	changed := make([]string, 0, len(c.Paths))
	for _, p := range c.Paths {
		changed = append(changed, p.Name)
	}
	if c.All {
		changed = nil
	}
	var out preview.Reading
	for range 3 {
		out = r.once(changed)
		if !errors.Is(out.Err, fs.ErrNotExist) {
			break
		}
		time.Sleep(10 * time.Millisecond) // a file went while the folder was read
	}
	return out
}

func (r *reader) once(changed []string) preview.Reading {
	options, err := dayOptions(r.on)
	if err != nil {
		return preview.Reading{Err: err}
	}
	root, err := os.OpenRoot(r.dir)
	if err != nil {
		return preview.Reading{Err: fmt.Errorf("opening the diary: %w", err)}
	}
	defer root.Close()
	sight, findings, err := r.reader.Read(root.FS(), lasting(r.dir), options, changed)
	reading := preview.Reading{Findings: findings, Err: err}
	if sight != nil {
		reading.Site = sight
	}
	return reading
}

// lasting is a folder that is opened anew for each file, since pictures are read
// long after the diary was; links can't leave it.
type lasting string

func (f lasting) Open(name string) (fs.File, error) {
	root, err := os.OpenRoot(string(f))
	if err != nil {
		return nil, err
	}
	defer root.Close()
	return root.FS().Open(name)
}
