package content

import (
	"fmt"
	"strings"

	"wardian/content/measure"
	"wardian/content/source"
)

// judgeImport judges an import's days, its count and its refunds. Days known by
// half are told only where they can't be in order.
func (d *Diary) judgeImport(i *Import, report *source.Report) {
	out := func(key, message, expected string) {
		fault(report, i.File, i.Spans.Of(key, i.Head), "days-out-of-order", message, expected, "look at both days")
	}
	// Each day is held against the nearest one before it that is written.
	last, lastKey := measure.NoSpan, ""
	for _, s := range []struct {
		key  string
		span measure.Span
	}{{"ordered", i.Ordered}, {"dispatched", i.Dispatched}, {"arrived", i.Arrived}} {
		if !s.span.Known() {
			continue
		}
		if before(s.span, last) {
			out(s.key, s.key+" on "+s.span.Written+", before it was "+lastKey, "a day from "+last.First.String()+" on")
		}
		last, lastKey = s.span, s.key
	}
	if i.Arrived.Known() {
		day0 := i.Day0()
		from := "a day from " + day0.String() + " on, the arrival"
		if i.Unpacked.Known() && i.Unpacked.Day < day0 {
			out("unpacked", "unpacked on "+i.Unpacked.Day.String()+", before it arrived", from)
		} else if i.Unpacked.Known() && i.ClaimUntil.Known() && (i.ClaimUntil.Day < i.Unpacked.Day ||
			i.ClaimUntil.Timed() && i.Unpacked.Timed() && i.ClaimUntil.Before(i.Unpacked)) {
			out("claim-until", "claims end on "+i.ClaimUntil.String()+", before the box was unpacked", "a moment after "+i.Unpacked.String())
		}
		if q := i.QuarantineUntil; q.Known() && q < day0 {
			out("quarantine-until", "a quarantine until "+q.String()+", before it arrived", from)
		}
		if s := i.FollowedFrom; s.Known() && s < day0 {
			out("followed-from", "followed from "+s.String()+", before it arrived", from)
		}
	}
	d.judgeReceived(i, report)
	for n, r := range i.Refunds {
		d.judgeRefund(i, n, r, report)
	}
}

// judgeReceived warns where the box held another number of plants than the
// diary follows.
func (d *Diary) judgeReceived(i *Import, report *source.Report) {
	if i.Received < 0 {
		return
	}
	n := 0
	for _, s := range d.Specimens {
		if s.Parent == nil && s.Import == i {
			n++
		}
	}
	if n != i.Received {
		message, expected, hint := fmt.Sprintf("%d received, and %d specimens name this import", i.Received, n),
			"a file under specimens/ for each plant in the box, sections apart", "begin the files that lack"
		if i.List != nil {
			message, expected, hint = fmt.Sprintf("%d received, and %d specimens stand in its list or name it", i.Received, n),
				"a row for each plant in the box, sections apart", "write the rows that lack"
		}
		fault(report, i.File, i.Spans.Of("received", i.Head), "received-differs", message, expected, fmt.Sprintf("write received: %d, or %s", n, hint))
	}
}

// judgeRefund judges whom a refund is for.
func (d *Diary) judgeRefund(i *Import, n int, r Refund, report *source.Report) {
	all := i.Spans.Of("refunds", i.Head)
	if r.Date.Known() && i.Ordered.Known() && r.Date < i.Ordered.First {
		fault(report, i.File, i.Spans.Of(refundKey(n, "date"), all), "days-out-of-order", "a refund on "+r.Date.String()+", before anything was ordered",
			"a day from "+i.Ordered.First.String()+" on", "look at both days")
	}
	if r.For == "" || r.For == "short" || strings.HasPrefix(r.For, "other ") {
		return
	}
	at := i.Spans.Of(refundKey(n, "for"), all)
	const expected = "short, the ID of a specimen of this import, or other and words"
	s := d.Specimen(r.For)
	switch {
	case s == nil:
		known := []string{"short"}
		for _, s := range d.Specimens {
			if s.Import == i && s.Parent == nil {
				known = append(known, s.ID)
			}
		}
		hint := "write other " + r.For
		if near := source.Nearest(r.For, known); near != "" {
			hint = "nearest: " + near
		}
		fault(report, i.File, at, "refund-for-whom", "no specimen of this import is called "+r.For, expected, hint)
	case s.Parent != nil:
		fault(report, i.File, at, "refund-for-whom", s.ID+" is a section, which cost nothing", expected, "write "+s.Root().ID)
	case s.Import != i:
		of := ""
		if s.Import != nil {
			of = " of " + s.Import.ID
		}
		fault(report, i.File, at, "refund-for-whom", s.ID+" is a specimen"+of, expected, "write it in that import's file")
	}
}

// judgeUpdate tells of a finished letter that speaks of what isn't shown.
func (d *Diary) judgeUpdate(u *Update, report *source.Report) {
	if u.Unfinished {
		return
	}
	tell := func(at source.Span, id string) {
		fault(report, u.File, at, "unfinished-named", id+" is unfinished, and this update isn't", "what is shown", "write unfinished: yes here, or take it out there")
	}
	if u.Import != nil && u.Import.Unfinished {
		tell(u.Spans.Of("import", u.Head), u.Import.ID)
	}
	for _, p := range u.Plates {
		switch {
		case p.Import != nil && p.Import.Unfinished:
			tell(p.Block.Span, p.Import.ID)
		case p.Specimen != nil && hidden(p.Specimen):
			tell(p.Block.Span, p.Specimen.ID)
		case p.Place != nil && p.Place.Unfinished:
			tell(p.Block.Span, p.Place.ID)
		}
	}
}

// hidden says whether a specimen's own file, or that of what it was cut from or
// came with, is unfinished. A section's own file only holds words, and hides
// nothing but them.
func hidden(s *Specimen) bool {
	root := s.Root()
	return root.Unfinished || root.Import != nil && root.Import.Unfinished
}
