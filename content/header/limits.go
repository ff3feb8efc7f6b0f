package header

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"wardian/content/source"
)

// The limits that no diary kept by hand comes near. They bound what a broken or
// hostile file can cost.
const (
	MaxFile  = 256 << 10 // bytes of one file
	MaxHead  = 64 << 10  // bytes of front matter
	MaxBody  = 64 << 10  // bytes of the words below it
	maxDepth = 12        // levels of lists and maps
	maxNodes = 20_000    // keys and values of one front matter
	maxMends = 12        // lines mended in memory before reading stops
)

var mark = []byte("\xef\xbb\xbf")

// Readable says whether a file can be looked at at all: short enough, UTF-8,
// without control characters. What is wrong is reported once.
func Readable(f *source.File, r *source.Report) bool {
	data := f.Bytes
	if len(data) > MaxFile {
		r.Add(f, Fault("file-too-long", source.Span{Start: source.Position{Line: 1, Column: 1}, End: source.Position{Line: 1, Column: 1}},
			fmt.Sprintf("the file has %d KiB", (len(data)+1023)/1024), fmt.Sprintf("at most %d KiB", MaxFile>>10), "split it, or move what isn't words elsewhere"))
		return false
	}
	for i := 0; i < len(data); {
		c := data[i]
		if c < utf8.RuneSelf {
			if c >= ' ' && c != 0x7f || c == '\n' || c == '\t' || c == '\r' && i+1 < len(data) && data[i+1] == '\n' {
				i++
				continue
			}
			what, hint := "a control character", "delete it"
			switch c {
			case 0:
				what, hint = "a NUL byte", "delete it, or save the file as UTF-8"
			case '\r':
				what, hint = "a carriage return without a line feed", "save the file with LF or CRLF line ends"
			}
			r.Add(f, Fault("control-character", f.SpanOf(i, i+1), what+" stands here", "text", hint))
			return false
		}
		char, size := utf8.DecodeRune(data[i:])
		switch {
		case char == utf8.RuneError && size == 1:
			r.Add(f, Fault("not-utf8", f.SpanOf(i, i+1), fmt.Sprintf("the byte %02X here isn't UTF-8", c), "text in UTF-8", "save the file as UTF-8"))
			return false
		case char >= 0x80 && char < 0xa0:
			r.Add(f, Fault("control-character", f.SpanOf(i, i+size), fmt.Sprintf("the control character U+%04X stands here", char), "text", "delete it"))
			return false
		}
		i += size
	}
	return true
}

// separators finds a line or paragraph separator (U+2028, U+2029), which YAML
// takes for the end of a line and an editor doesn't, or -1.
func separators(block []byte) int {
	for i := 0; ; {
		n := bytes.Index(block[i:], []byte("\xe2\x80"))
		if n < 0 {
			return -1
		}
		i += n
		if i+2 < len(block) && (block[i+2] == 0xa8 || block[i+2] == 0xa9) {
			return i
		}
		i += 2
	}
}
