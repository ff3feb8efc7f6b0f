package content

import (
	"wardian/content/format"
	"wardian/content/source"
)

// judge tells the diary in order of time and finds what can't be: a check-in of a
// plant that was lost, a piece cut before its parent came, a place where a move is
// meant. It comes once everything is read; each finding stands at the smallest
// span that shows it, and one cause is told once.
func (l *loader) judge() {
	d := l.diary
	for _, i := range d.Imports {
		d.judgeImport(i, l.report)
	}
	for _, u := range d.Updates {
		d.judgeUpdate(u, l.report)
	}
	l.telling = d.tell(noEnd, true)
	d.told = l.telling.timelines()
}

// judged is what judging remembers of a specimen on the walk.
type judged struct {
	told    ending // a check-in after this ending was told already
	wrong   *Place // a place told already to be another than where it stands
	strayed []strayed
	grade   int      // of its roots when last graded; -1 before
	named   *CheckIn // the last check-in that names it
	arrival *CheckIn // its record of arrival
	early   bool     // a section told to be seen before its cut
}

// fault reports a finding, with the severity that its code has.
func (w *walk) fault(f *source.File, at source.Span, code, message, expected, hint string, related ...source.Related) {
	fault(w.report, f, at, code, message, expected, hint, related...)
}

func fault(report *source.Report, f *source.File, at source.Span, code, message, expected, hint string, related ...source.Related) {
	if report == nil {
		return
	}
	severity := source.Error
	if format.CodeOf(code).Warning {
		severity = source.Warning
	}
	report.Add(f, source.Finding{Span: at, Severity: severity, Code: code, Message: message, Expected: expected, Hint: hint, Related: related})
}

// says is where a check-in says a thing: on its own line, beside specimens for
// all, or where the specimen is named.
func (c *CheckIn) says(key string) source.Span {
	return c.Spans.Of(key, c.Entry.Spans.Of(key, c.Span))
}

// earlier points to an entry that a finding speaks of.
func earlier(l *Look, message string) source.Related {
	at := l.Entry.Spans.Of("date", l.Entry.Head)
	for _, c := range l.Entry.Named {
		if c.ID == l.Timeline.Specimen.ID {
			at = c.Span
		}
	}
	return source.Related{File: l.Entry.File.Path, Start: at.Start, Message: message}
}
