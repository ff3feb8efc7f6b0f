package prose

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// kind says what a piece is: ready HTML, or a gap.
type kind uint8

const (
	ready     kind = iota // text: HTML
	linkOpen              // dest, text: the link's title
	linkClose             //
	picture               // dest, text: alternative words
	plate                 // n: which
	headOpen              // n: level
	headClose             // n: level
	noteRef               // n: which footnote
	noteBack              // n: which footnote
)

// piece is a stretch of ready HTML or a gap that a page fills.
type piece struct {
	kind kind
	text string
	dest string
	n    int
}

// tape takes down what the node renderers write, as pieces. It is what goldmark
// calls a BufWriter.
type tape struct {
	*compiler
	buf     []byte
	pieces  []piece
	waiting []piece // pictures met inside a paragraph, set after it
}

// gap ends the stretch of HTML at hand and adds a gap.
func (t *tape) gap(p piece) {
	t.cut()
	t.pieces = append(t.pieces, p)
}

// cut makes what was written so far a piece.
func (t *tape) cut() {
	if len(t.buf) > 0 {
		if html := clean(t.buf); html != "" {
			t.pieces = append(t.pieces, piece{kind: ready, text: html})
		}
		t.buf = t.buf[:0]
	}
}

// done gives the pieces and empties the tape; blank ones give nil.
func (t *tape) done() []piece {
	t.cut()
	pieces := t.pieces
	t.pieces = nil
	for _, p := range pieces {
		if p.kind != ready || strings.TrimSpace(p.text) != "" {
			return pieces
		}
	}
	return nil
}

func (t *tape) Available() int { return 1 << 16 }
func (t *tape) Buffered() int  { return len(t.buf) }
func (t *tape) Flush() error   { return nil }

func (t *tape) Write(b []byte) (int, error) {
	t.buf = append(t.buf, b...)
	return len(b), nil
}

func (t *tape) WriteByte(c byte) error {
	t.buf = append(t.buf, c)
	return nil
}

func (t *tape) WriteRune(r rune) (int, error) {
	t.buf = utf8.AppendRune(t.buf, r)
	return utf8.RuneLen(r), nil
}

func (t *tape) WriteString(s string) (int, error) {
	t.buf = append(t.buf, s...)
	return len(s), nil
}

// clean makes HTML of what was written: without carriage returns, so that a file
// saved with CRLF gives the same page as one with LF, without control characters
// and noncharacters, which neither HTML nor a feed may hold, and valid UTF-8.
func clean(b []byte) string {
	plain := true
	for _, c := range b {
		if c < ' ' && c != '\n' && c != '\t' || c >= 0x7f {
			plain = false
			break
		}
	}
	if plain {
		return string(b)
	}
	return strings.ToValidUTF8(string(bytes.Map(func(r rune) rune {
		if unprintable(r) {
			return -1
		}
		return r
	}, b)), "\uFFFD")
}

// unprintable tells whether a character has no place in a page: controls but tab
// and line feed, and the noncharacters of Unicode.
func unprintable(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' ||
		r >= 0x7f && r < 0xa0 ||
		r >= 0xfdd0 && r <= 0xfdef ||
		r&0xfffe == 0xfffe
}
