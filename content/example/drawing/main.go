// Command drawing draws the example diary's pictures. The diary is invented, so
// there was nothing to photograph: each picture is made from the figures of its
// day's check-in, leaves, roots, turgor, medium and place, and shows plainly
// that it is a drawing. A leaf is as long and as wide as the entry says, to the
// scale of the ruler beside it; how many roots there are goes by their grade;
// limp plants hang. What a check-in doesn't say (how a stem runs, which leaf
// overlaps which) comes from numbers seeded by the specimen's ID, so that a
// plant keeps its face from picture to picture and every run gives the same
// bytes.
//
// Run it as
//
//	go run ./content/example/drawing
//
// after a change of the diary; pictures.txt says what is drawn.
package main

import (
	"bufio"
	"bytes"
	_ "embed"
	"flag"
	"fmt"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"

	"wardian/content"
	"wardian/content/measure"
)

//go:embed pictures.txt
var pictures string

const quality = 78

func main() {
	folder := flag.String("diary", "content/example/diary", "the diary's folder")
	only := flag.String("only", "", "draw only what holds these words: a day, an ID")
	flag.Parse()
	if err := run(*folder, *only); err != nil {
		fmt.Fprintln(os.Stderr, "drawing:", err)
		os.Exit(1)
	}
}

func run(folder, only string) error {
	diary, report, err := content.Load(os.DirFS(folder), content.Options{Today: measure.NoDay})
	if err != nil {
		return err
	}
	for _, f := range report.Findings() {
		// a picture that isn't there yet is what we are here for
		if f.Code != "photo-missing" {
			fmt.Fprintf(os.Stderr, "%s:%d: %s\n", f.File, f.Span.Start.Line, f.Message)
		}
	}
	times := diary.Timelines(measure.NoDay)
	lines := bufio.NewScanner(strings.NewReader(pictures))
	drawn, size := 0, 0
	for lines.Scan() {
		line := lines.Text()
		if line == "" || line[0] == '#' || !strings.Contains(line, only) {
			continue
		}
		path, f, err := draw(diary, times, strings.Fields(line))
		if err != nil {
			return fmt.Errorf("%q: %w", line, err)
		}
		var out bytes.Buffer
		if err := jpeg.Encode(&out, f.picture(), &jpeg.Options{Quality: quality}); err != nil {
			return fmt.Errorf("encode %s: %w", path, err)
		}
		path = filepath.Join(folder, filepath.FromSlash(path))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
			return err
		}
		drawn, size = drawn+1, size+out.Len()
	}
	fmt.Printf("%d pictures, %d kB\n", drawn, size/1000)
	return lines.Err()
}

// draw paints what one line of pictures.txt asks for.
func draw(d *content.Diary, times *content.Timelines, words []string) (path string, f *frame, err error) {
	if len(words) < 2 {
		return "", nil, fmt.Errorf("a day and a specimen are wanted")
	}
	day, trouble := measure.ParseDay(words[0])
	if trouble != nil {
		return "", nil, trouble
	}
	var group []seen
	ids := words[1:]
	if len(ids) > 1 {
		ids = words[2:]
	}
	for _, id := range ids {
		sp := d.Specimen(id)
		if sp == nil {
			return "", nil, fmt.Errorf("the diary has no specimen %s", id)
		}
		t := times.Of(sp)
		if t == nil {
			return "", nil, fmt.Errorf("%s has no timeline", id)
		}
		s, ok := look(t, day)
		if !ok && len(ids) == 1 {
			return "", nil, fmt.Errorf("nobody looked at %s on %s", id, day)
		}
		group = append(group, s)
	}
	path = "photos/" + words[0] + "/" + words[1] + ".jpg"
	switch s := group[0]; {
	case len(group) > 1 && words[1] == "hall":
		return path, row(group), nil
	case len(group) > 1:
		return path, spread(group), nil
	case s.at == paper:
		return path, bare(s.plant), nil
	default:
		return path, standing(s.plant, s.at), nil
	}
}
