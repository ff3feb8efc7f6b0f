package photo

import (
	"bytes"
	"image/jpeg"
	"time"
)

// Quality of the JPEGs that are written, on the encoder's scale of 1 to 100. Common practice, no source.
const Quality = 82

// Limits of what is read. 65 500 is what common JPEG encoders allow a side (the format's own limit is
// 65 535); 100 megapixels is above every camera a grower is likely to own, and takes 150 to 1500 MiB.
const (
	maxPixels = 100_000_000
	maxSide   = 65_500
)

// Info is what can be told of a picture without decoding it.
type Info struct {
	Width, Height int       // in pixels, upright
	Format        string    // "JPEG", "PNG" or "WebP"
	Taken         time.Time // when the camera says it was taken; zero if it doesn't. The camera's wall clock, given as UTC: cameras rarely know their zone
}

// Inspect reads a picture's head. The error is a *NotAPicture, *TooLarge or *Broken.
func Inspect(data []byte) (Info, error) {
	h, err := readHead(data)
	if err != nil {
		return Info{}, err
	}
	i := Info{Width: h.width, Height: h.height, Format: h.format.name, Taken: h.exif.taken}
	if h.exif.turn.transposes() {
		i.Width, i.Height = i.Height, i.Width
	}
	return i, nil
}

// Render returns the picture as a JPEG at most maxWidth pixels wide, upright, with the size it has come to. It never
// enlarges, and keeps the proportions to the nearest pixel. The error is a *NotAPicture, *TooLarge or
// *Broken. It panics if maxWidth is below 1.
//
// It may be called by many goroutines: those that would take too much memory together wait for each other.
func Render(data []byte, maxWidth int) (jpg []byte, w, h int, err error) {
	if maxWidth < 1 {
		panic("photo: a picture can't be less than a pixel wide")
	}
	head, err := readHead(data)
	if err != nil {
		return nil, 0, 0, err
	}
	need := head.memory()
	memory.take(need)
	defer memory.give(need)

	decoded, err := head.decode(data)
	if err != nil {
		return nil, 0, 0, err
	}
	small := planesOf(decoded).fit(head.exif.turn, maxWidth)
	var out bytes.Buffer
	// Writing to memory can't fail, and the size is within the format's: small is no larger than decoded.
	if err := jpeg.Encode(&out, small, &jpeg.Options{Quality: Quality}); err != nil {
		return nil, 0, 0, &Broken{err}
	}
	size := small.Bounds()
	return out.Bytes(), size.Dx(), size.Dy(), nil
}
