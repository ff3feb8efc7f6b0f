// Package chart draws: plain numbers in, markup out. It knows no diary; days
// are whole days since arrival, areas are cm², lengths cm, deficits kPa, and
// shares run from 0 to 1.
//
// # One drawing for every width
//
// A drawing is an <svg> without a viewBox. Along x everything stands in per
// cent of the plot, along y in CSS pixels, so text keeps its 13 px at 320 px
// and at 1200. What must stretch (areas, curves, bars, strands, ticks) lies in
// nested <svg preserveAspectRatio="none"> pieces whose strokes don't scale;
// what must not (marks, words) is hung at its per cent. What changes with the
// width is decided by container queries of the stylesheet (the container is
// .fig), never by the window. Labels are placed so that they don't touch at the
// narrowest width at which they are shown, and so at no width.
//
// # What stands for what
//
// Markup carries classes and no colour; classes.go names each class, and
// themes/chart.css dresses them. A picture has role="img", a <title> and a
// <desc>; all words handed in are escaped.
//
// # Tables
//
// Each drawing comes with the tables that it was drawn from. Numbers are first
// rounded to what the table prints and then drawn, so that drawing again from
// the table gives the same path (the tests do it).
//
// # What it refuses
//
// It never joins what may not be joined: lengths of different kinds, looks
// further apart than JoinDays, days without a figure. A number that is NaN,
// infinite or out of its range is left out and never drawn as zero. Where
// nothing is left, the drawing is a sentence ("nothing measured yet") and no
// empty axis; bad input never panics and is never an error.
//
// The engine of ranges, ticks and series is go-chart; this package is the only
// door to it. See engine.go for what is handed to it and what never is.
//
// Sources: the survival curve's rules follow Pocock, Clayton and Altman 2002
// (axis, dashes) and Morris and others 2019 (counts beneath); both from memory.
package chart
