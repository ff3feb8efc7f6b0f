package paper

import (
	"bytes"
	"fmt"
	"html/template"
	"strings"

	"wardian/themes"
)

// Size is the paper that is printed on.
type Size int

// The papers, each as the printer is fed with it.
const (
	A4     Size = iota // 210 × 297 mm (ISO 216); two A5 round sheets lie on it
	Letter             // 8.5 × 11 in (ANSI/ASME Y14.1); two half Letter
)

// wide and high are the sides of the paper lying across, in millimetres.
func (s Size) wide() float64 { return [...]float64{297, 279.4}[s] }
func (s Size) high() float64 { return [...]float64{210, 215.9}[s] }

// style is a page's whole style: the paper's sides, lying or standing, and the
// look of what is printed.
func (s Size) style(across bool, rows int) template.CSS {
	wide, high, way := s.wide(), s.high(), "landscape"
	if !across {
		wide, high, way = high, wide, "portrait"
	}
	// A hair less than the paper, so that rounding makes no page of its own.
	return template.CSS(fmt.Sprintf("@page { size: %s %s; margin: 0; }\n:root { --paper-wide: %gmm; --paper-high: %gmm; --rows: %d; }\n%s",
		[...]string{"A4", "letter"}[s], way, wide, high-.1, rows, strings.ReplaceAll(string(themes.PaperStyle()), "</", "<\\/")))
}

// set sets data in a template of what is printed.
func set(name string, data any) ([]byte, error) {
	t, err := template.ParseFS(themes.Paper(), name)
	if err != nil {
		return nil, fmt.Errorf("read the template %s: %w", name, err)
	}
	var b bytes.Buffer
	if err := t.Execute(&b, data); err != nil {
		return nil, fmt.Errorf("set the template %s: %w", name, err)
	}
	return b.Bytes(), nil
}
