package prose

import (
	"bytes"
	"fmt"
	"hash/fnv"

	"wardian/content/source"
)

// Codes of the findings made here.
const (
	codeTooLong    = "body-too-long"
	codeTangled    = "too-tangled"
	codeRawHTML    = "raw-html"
	codeScheme     = "link-scheme"
	codeNoWords    = "link-without-words"
	codeElsewhere  = "picture-elsewhere"
	codeNoteUnused = "note-unused"
	codeNoNote     = "note-unknown"
	codePlate      = "plate-inside"
)

// Parse reads the body of a file, which starts at a byte offset. Findings go to
// the report. A body of white space only gives nil; one that is refused gives a
// Document without words.
func Parse(f *source.File, offset int, report *source.Report) (doc *Document) {
	offset = min(max(offset, 0), len(f.Bytes))
	body := f.Bytes[offset:]
	if len(bytes.TrimSpace(body)) == 0 {
		return nil
	}
	if len(body) > MaxBody {
		at := offset + len(body) - len(bytes.TrimLeft(body, " \t\r\n"))
		report.Add(f, source.Finding{
			Span: f.SpanOf(at, at+1), Severity: source.Error, Code: codeTooLong,
			Message:  fmt.Sprintf("the words of this file take %d bytes", len(body)),
			Expected: fmt.Sprintf("at most %d bytes below the front matter", MaxBody),
			Hint:     "split it into several files",
		})
		return &Document{}
	}
	// goldmark promises nothing about odd input. Should it ever panic, the grower
	// gets a finding like any other; compile alone, which the fuzz target calls,
	// lets such a panic through.
	defer func() {
		if recover() != nil {
			refuse(f, offset, report, "these words can't be read as Markdown")
			doc = &Document{}
		}
	}()
	return compile(f, offset, report)
}

// refuse reports a body that is not shown.
func refuse(f *source.File, at int, report *source.Report, message string) {
	report.Add(f, source.Finding{
		Span: f.SpanOf(at, at+1), Severity: source.Error, Code: codeTangled,
		Message:  message,
		Expected: "words that a person wrote",
		Hint:     "simplify the marks in this paragraph, or put a backslash before those that are meant as they stand",
	})
}

// markOf gives the letters that make a document's footnote ids its own on a page
// that shows several documents.
func markOf(path string) string {
	h := fnv.New64a()
	h.Write([]byte(path))
	return fmt.Sprintf("%08x", uint32(h.Sum64()^h.Sum64()>>32))
}
