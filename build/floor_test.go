package build_test

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/adrg/frontmatter"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"go.yaml.in/yaml/v4"
	"golang.org/x/sync/errgroup"
)

// The least that any program of this kind does: it reads the same files, decodes
// their front matter, converts their Markdown and writes the same bytes, with
// the plain libraries. It judges nothing, keeps no places of keys, leaves days
// and figures as the text they were written as, and syncs no disk. These are the
// only lines outside their doors that call the libraries: a floor built on our
// own doors would say nothing of them.

// plainEntry holds the keys of an entry.
type plainEntry struct {
	Date, Place, Reading, By, Specimen, To, Medium, Note, Since, Event string
	Roots                                                              *struct {
		Grade, Count                    *int
		Longest, Mean, Length, New, Cut string
	}
	Leaves *struct {
		Count, Cut, Dropped *int
		Sizes               []string
		New                 string
	}
	Turgor, Resting, Rot, Pests, Soak string
	Did, Photos                       []string
	Outcome, Cause, Arrival, Others   string
	CutInto                           map[string]string `yaml:"cut-into"`
	Specimens                         map[string]any
	NotSeen                           []string `yaml:"not-seen"`
	LastGood                          string   `yaml:"last-good"`
}

// plainGround holds those keys of imports, specimens and places that the
// generated diary has.
type plainGround struct {
	Name, Stage, Humidity, Temperature string
	Season, Arrived, Import            string
	Received                           int
	Price                              string
	Costs                              map[string]string
}

var (
	plainYAML     = frontmatter.NewFormat("---", "---", func(data []byte, into any) error { return yaml.Unmarshal(data, into) })
	plainMarkdown = goldmark.New(goldmark.WithExtensions(extension.Table, extension.Footnote))
)

// plainRead reads a diary's Markdown files with so many workers.
func plainRead(dir string, workers int) error {
	var group errgroup.Group
	group.SetLimit(workers)
	err := filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(path, ".md") {
			return err
		}
		group.Go(func() error {
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			var into any = &plainGround{}
			if strings.Contains(path, "check-ins") {
				into = &plainEntry{}
			}
			words, err := frontmatter.Parse(bytes.NewReader(data), into, plainYAML)
			if err != nil {
				return err
			}
			return plainMarkdown.Convert(words, &bytes.Buffer{})
		})
		return nil
	})
	if err != nil {
		return err
	}
	return group.Wait()
}

// plainWrite writes a site's files into a fresh folder with so many workers.
func plainWrite(dir string, site map[string][]byte, workers int) error {
	made := map[string]bool{}
	for path := range site {
		if folder := filepath.Dir(filepath.Join(dir, path)); !made[folder] {
			made[folder] = true
			if err := os.MkdirAll(folder, 0o755); err != nil {
				return err
			}
		}
	}
	var group errgroup.Group
	group.SetLimit(workers)
	for path, data := range site {
		group.Go(func() error { return os.WriteFile(filepath.Join(dir, path), data, 0o644) })
	}
	return group.Wait()
}
