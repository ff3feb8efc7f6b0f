package build

import (
	"cmp"
	"fmt"
	"slices"
	"sync"

	"wardian/build/address"
	"wardian/build/cohort"
	"wardian/build/feed"
	"wardian/build/opendata"
	"wardian/build/page"
	"wardian/content"
	"wardian/themes"
)

// Piece is one file of a site: where it stands, and how to make it. Make may be
// called from several goroutines at once, for different pieces.
type Piece struct {
	Path string // from the site's folder, with forward slashes
	Make func() ([]byte, error)
}

// ready is a piece whose bytes are there already.
func ready(path string, data []byte) Piece {
	return Piece{Path: path, Make: func() ([]byte, error) { return data, nil }}
}

// Plan lists every file of a diary's site but its pictures, before one is made.
// pictures tells where each picture of the diary stands in the site. Paths are
// in order and each stands once; two pieces that would take one path are a
// broken promise of build/address and panic.
func Plan(d *content.Diary, pictures map[string]page.Picture) ([]Piece, error) {
	pieces, err := plan(cohort.At(d, noDay), pictures)
	slices.SortFunc(pieces, func(a, b Piece) int { return cmp.Compare(a.Path, b.Path) })
	for i := 1; i < len(pieces); i++ {
		if pieces[i].Path == pieces[i-1].Path {
			panic(fmt.Sprintf("build: two files at %s", pieces[i].Path))
		}
	}
	return pieces, err
}

// plan lists the files in no particular order.
func plan(c *cohort.Cohort, pictures map[string]page.Picture) ([]Piece, error) {
	d := c.Diary
	var pieces []Piece

	// Comparing takes a second: it is done once, when the first file that tells of
	// it is asked for.
	compared := sync.OnceValue(func() []cohort.Comparison {
		return c.Comparisons(c.All(), d.Settings.Horizon, cohort.LandmarkDays[0])
	})
	data := sync.OnceValues(func() ([]opendata.File, error) { return opendata.Files(c, compared()) })
	for n, name := range opendata.Names() {
		pieces = append(pieces, Piece{Path: address.OpenData(name), Make: func() ([]byte, error) {
			files, err := data()
			if err != nil {
				return nil, err
			}
			return files[n].Bytes, nil
		}})
	}
	in := page.Inputs{Diary: d, Cohort: c, Pictures: pictures, Compared: compared, Data: func() ([]page.DataFile, error) {
		files, err := data()
		var out []page.DataFile
		for _, f := range files {
			out = append(out, page.DataFile{Path: address.OpenData(f.Name), Name: f.Name, Says: f.Says, Rows: f.Rows, Bytes: len(f.Bytes)})
		}
		return out, err
	}}

	feeds, err := feed.UpdatesWith(d, func(path string) (string, int, int, bool) {
		p, ok := pictures[path]
		return p.Path, p.Width, p.Height, ok
	})
	if err != nil {
		return nil, err
	}
	for _, f := range feeds {
		pieces = append(pieces, ready(f.Path, f.Data))
		in.Feeds = append(in.Feeds, f.Path)
	}

	style := themes.StyleWith(content.Own(d.Style.Sheets))
	in.Style = address.Style(themes.Fingerprint(style))
	pieces = append(pieces, ready(in.Style, style))

	icon := themes.Icon()
	in.Icon = address.Icon(themes.Fingerprint(icon))
	pieces = append(pieces, ready(in.Icon, icon))

	pages, err := page.All(in)
	if err != nil {
		return nil, err
	}
	for _, p := range pages {
		pieces = append(pieces, Piece{Path: p.Path, Make: fitted(d, p.Make)})
	}
	return pieces, nil
}
