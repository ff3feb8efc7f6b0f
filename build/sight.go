package build

import (
	"fmt"
	"io/fs"
	"sync"

	"wardian/build/address"
	"wardian/build/cohort"
	"wardian/build/page"
	"wardian/content"
	"wardian/content/measure"
	"wardian/content/source"
	"wardian/themes"
)

// Sight is a diary's site while it is written: all of it planned, each file made
// when it is asked for. It shows what is unfinished and holds nothing back, and
// tells which parts of it a built site would not have.
type Sight struct {
	pieces   map[string]Piece    // by site path
	pictures map[string]negative // by site path
	prints   *Prints
	files    fs.FS

	diary  *content.Diary // all of it
	seen   *content.Diary // what is shown here
	cohort *cohort.Cohort // of it
	marks  sync.Once
	pages  map[string]string
	parts  map[string]string
}

// See plans the site of a diary that was loaded without errors. files is the
// folder it was loaded from, and stays in use: a picture is read when it is asked
// for. Pictures that are known to be unfit are left out of the pages; what is
// wrong with them goes into report.
func See(d *content.Diary, files fs.FS, report *source.Report, prints *Prints) (*Sight, error) {
	return see(d, files, report, prints, nil)
}

// see takes over from another sight of the same diary what stayed as it was.
func see(d *content.Diary, files fs.FS, report *source.Report, prints *Prints, before *Sight) (*Sight, error) {
	s := &Sight{diary: d, seen: d.Shown(content.ShowOptions{Unfinished: true, On: measure.NoDay}),
		pictures: map[string]negative{}, prints: prints, files: files}
	pictures := make(map[string]page.Picture, len(s.seen.Photos))
	for _, path := range s.seen.Photos {
		p, n, err := prints.picture(files, path)
		if finding, unfit := unfit(path, err); unfit {
			report.Add(nil, finding)
			continue
		}
		if err != nil {
			return nil, err
		}
		pictures[path] = p
		s.pictures[p.Path] = n
	}
	if before == nil {
		s.cohort = cohort.At(s.seen, noDay)
	} else {
		s.cohort = cohort.After(before.cohort, s.seen)
	}
	pieces, err := plan(s.cohort, pictures)
	if err != nil {
		return nil, err
	}
	s.pieces = make(map[string]Piece, len(pieces))
	for _, p := range pieces {
		s.pieces[p.Path] = p
	}
	return s, nil
}

// File makes the file at a site path; ok is false where the site has none. A
// picture that turns out to be unfit gives an *Unfit.
func (s *Sight) File(path string) (data []byte, ok bool, err error) {
	if p, planned := s.pieces[path]; planned {
		data, err = p.Make()
		return data, err == nil, err
	}
	n, planned := s.pictures[path]
	if !planned {
		return nil, false, nil
	}
	data, err = s.prints.small(s.files, n)
	if finding, unfit := unfit(n.path, err); unfit {
		err = &Unfit{finding}
	}
	return data, err == nil, err
}

// Unfit is the error of a picture that can't be shown, or of a page that an own
// template can't set: a fault of the diary.
type Unfit struct{ finding source.Finding }

func (u *Unfit) Error() string { return u.finding.Line() }

// Finding is the fault as the grower reads it.
func (u *Unfit) Finding() source.Finding { return u.finding }

// Marks tells what is seen here and would not be in a site built on the diary's
// day: "unfinished" or "held back", by the site path of a page that as a whole
// isn't, and by the anchor of an entry that isn't.
func (s *Sight) Marks() (pages, parts map[string]string) {
	s.marks.Do(func() {
		s.pages, s.parts = map[string]string{}, map[string]string{}
		only := func(into map[string]string, at string, p content.Page) {
			into[at] = "held back"
			if p.Unfinished {
				into[at] = "unfinished"
			}
		}
		out := s.diary.Withheld(content.ShowOptions{On: s.diary.Today})
		for _, e := range out.Entries {
			only(s.parts, address.Anchor(e), e.Page)
		}
		for _, p := range out.Specimens {
			only(s.pages, address.Specimen(p.ID), p.Page)
			only(s.pages, address.SpecimenOldest(p.ID), p.Page)
		}
		for _, i := range out.Imports {
			only(s.pages, address.Import(i.ID), i.Page)
		}
		for _, p := range out.Places {
			only(s.pages, address.Place(p.ID), p.Page)
		}
		for _, u := range out.Updates {
			only(s.pages, address.Update(u.Slug), u.Page)
		}
	})
	return s.pages, s.parts
}

// Style is the style sheet of every site.
func Style() []byte { return themes.Style() }

// Where tells where on the site a file of the diary is shown: a site path, with
// an anchor where it is a part of a page; "" where nowhere.
func (s *Sight) Where(file string) string {
	to, ok := address.Resolve(s.seen, file)
	if !ok || to.Path == "" {
		return ""
	}
	return fmt.Sprintf("%s%s", to.Path, to.Fragment)
}
