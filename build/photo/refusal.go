package photo

import (
	"bytes"
	"fmt"
)

// NotAPicture is the error for a file that is none of the kinds that are read.
type NotAPicture struct {
	Kind string // what it seems to be: "HEIC", "GIF" …; empty if nothing known
}

func (e *NotAPicture) Error() string {
	if e.Kind != "" {
		return "it is a " + e.Kind + " picture, and JPEG, PNG and WebP are read; save it as JPEG"
	}
	return "it is no JPEG, PNG or WebP picture"
}

// TooLarge is the error for a picture that claims more pixels than are read. Both sides are as the file
// says them, before any turn.
type TooLarge struct{ Width, Height int }

func (e *TooLarge) Error() string {
	return fmt.Sprintf("it is %d by %d pixels; at most 100 megapixels and 65500 pixels a side are read", e.Width, e.Height)
}

// Broken is the error for a picture that can't be decoded.
type Broken struct{ Reason error }

func (e *Broken) Error() string {
	return "it can't be decoded, it may be cut short: " + e.Reason.Error()
}

func (e *Broken) Unwrap() error { return e.Reason }

// otherKind names pictures that people are likely to have and that aren't read.
func otherKind(data []byte) string {
	has := func(at int, s string) bool { return len(data) >= at && bytes.HasPrefix(data[at:], []byte(s)) }
	switch {
	case has(0, "GIF8"):
		return "GIF"
	case has(0, "II*\x00"), has(0, "MM\x00*"):
		return "TIFF or raw"
	case has(0, "BM"):
		return "BMP"
	case has(4, "ftypavif"), has(4, "ftypavis"):
		return "AVIF"
	case has(4, "ftyphei"), has(4, "ftyphev"), has(4, "ftypmif1"), has(4, "ftypmsf1"):
		return "HEIC"
	case has(0, "\xff\x0a"), has(4, "JXL "):
		return "JPEG XL"
	}
	return ""
}
