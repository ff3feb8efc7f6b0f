package content

import (
	"path"
	"slices"
	"strings"

	"wardian/content/header"
	"wardian/content/source"
	"wardian/themes"
)

// Style is a grower's own look, laid over the built-in one.
type Style struct {
	Sheets    []*source.File // sorted by name
	Templates []*source.File // likewise
}

// Own are files of a look as themes takes them.
func Own(files []*source.File) []themes.File {
	out := make([]themes.File, 0, len(files))
	for _, f := range files {
		out = append(out, themes.File{Name: path.Base(f.Path), Text: f.Bytes})
	}
	return out
}

// readStyle reads the folder style. Nothing else of a diary is read against it.
func (l *loader) readStyle() error {
	files, err := l.files("style", false)
	if err != nil {
		return err
	}
	for _, at := range files {
		ext := path.Ext(at)
		if ext != ".css" && ext != ".html" {
			hint := "move it elsewhere"
			if lower := strings.ToLower(ext); lower == ".css" || lower == ".html" {
				hint = "name it " + strings.TrimSuffix(path.Base(at), ext) + lower
			}
			l.fault("passed-over", at, "only style sheets and templates are read in style", "a file ending in .css or .html", hint)
			continue
		}
		names := themes.Names()
		if name := path.Base(at); ext == ".html" && !slices.Contains(names, name) {
			hint := "leave the file out"
			if near := source.Nearest(name, names); near != "" {
				hint = "name it " + near + ", or leave the file out"
			}
			l.fault("unknown-template", at, "there is no built-in template of this name", "one of "+strings.Join(names, ", "), hint)
			continue
		}
		f, err := l.sheet(at)
		if err != nil {
			return err
		}
		if f == nil || !header.Readable(f, l.report) {
			continue
		}
		if ext == ".css" {
			l.diary.Style.Sheets = append(l.diary.Style.Sheets, f)
		} else {
			l.diary.Style.Templates = append(l.diary.Style.Templates, f)
		}
	}
	for _, fault := range l.keeper.check(l.diary.Style.Templates) {
		f, finding := l.diary.Style.Fault(fault)
		l.report.Add(f, finding)
	}
	return nil
}

// check judges own templates, anew only where they are others than last time: all
// built-in ones are read with them.
func (k *Keeper) check(own []*source.File) []*themes.Fault {
	if k == nil {
		return themes.Check(Own(own))
	}
	if !slices.Equal(k.own, own) {
		k.own, k.faults = own, themes.Check(Own(own))
	}
	return k.faults
}

// Fault is the finding of what is wrong with one of the templates. A fault of
// another file is a broken promise of themes and panics.
func (s *Style) Fault(fault *themes.Fault) (*source.File, source.Finding) {
	for _, f := range s.Templates {
		if path.Base(f.Path) == fault.File {
			finding := header.Fault("broken-template", f.SpanOf(fault.Start, fault.End), fault.Message, "a template that can be filled", "set it right, or leave the file out")
			finding.File, finding.Source = f.Path, f.Line(finding.Span.Start.Line)
			return f, finding
		}
	}
	panic("content: a fault in " + fault.File + ", which isn't among the own templates")
}
