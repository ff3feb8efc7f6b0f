package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/webp"
)

// format is one kind of picture that is read. They are called by their opening bytes here and never through
// image.Decode, whose list any imported package may add to.
type format struct {
	name   string
	opens  func([]byte) bool
	size   func(io.Reader) (image.Config, error)
	decode func(io.Reader) (image.Image, error)
	exif   func([]byte) []byte // the TIFF structure that EXIF is, or nil
}

var formats = []format{
	{"JPEG", func(b []byte) bool { return bytes.HasPrefix(b, []byte("\xff\xd8\xff")) }, jpeg.DecodeConfig, jpeg.Decode, exifInJPEG},
	{"PNG", func(b []byte) bool { return bytes.HasPrefix(b, []byte(pngOpening)) }, png.DecodeConfig, png.Decode, exifInPNG},
	{"WebP", func(b []byte) bool { return len(b) >= 12 && string(b[:4]) == "RIFF" && string(b[8:12]) == "WEBP" }, webpSize, webp.Decode, exifInWebP},
}

// head is what is known of a picture before it is decoded.
type head struct {
	format        format
	width, height int // as stored, before any turn
	config        image.Config
	exif          exif
	progressive   bool // JPEG in several scans: the decoder keeps all coefficients
}

func readHead(data []byte) (h head, err error) {
	found := false
	for _, f := range formats {
		if f.opens(data) {
			h.format, found = f, true
			break
		}
	}
	if !found {
		return h, &NotAPicture{otherKind(data)}
	}
	err = guard(func() (err error) {
		h.config, err = h.format.size(bytes.NewReader(data))
		return err
	})
	if err != nil {
		return h, &Broken{err}
	}
	h.width, h.height = h.config.Width, h.config.Height
	if h.width < 1 || h.height < 1 {
		return h, &Broken{fmt.Errorf("it is %d by %d pixels", h.width, h.height)}
	}
	if h.width > maxSide || h.height > maxSide || int64(h.width)*int64(h.height) > maxPixels {
		return h, &TooLarge{h.width, h.height}
	}
	if h.format.name == "JPEG" {
		if h.progressive, err = countScans(data); err != nil {
			return h, &Broken{err}
		}
	}
	h.exif = readEXIF(h.format.exif(data))
	return h, nil
}

func (h head) decode(data []byte) (m image.Image, err error) {
	err = guard(func() (err error) {
		m, err = h.format.decode(bytes.NewReader(data))
		return err
	})
	if err != nil {
		return nil, &Broken{err}
	}
	// The head was judged, and the rest of the file has to keep to it.
	if size := m.Bounds().Size(); size.X != h.width || size.Y != h.height {
		return nil, &Broken{errors.New("its size in the head is not the size of the picture")}
	}
	return m, nil
}

// guard turns a decoder's panic into an error. The decoders are others' work, the pictures are anybody's, and one bad
// file must not end a build of a thousand pages.
func guard(call func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("the decoder failed: %v", p)
		}
	}()
	return call()
}

// maxScans bounds the work of a progressive JPEG: each scan goes over the whole picture, and a file of a few
// kilobytes can hold thousands of empty ones. Encoders in use write about ten (common practice, no
// source).
const maxScans = 64

// countScans counts a JPEG's scans and tells whether it is progressive.
func countScans(data []byte) (progressive bool, err error) {
	scans := 0
	for i := 0; i+1 < len(data); i++ {
		if data[i] != 0xff {
			next := bytes.IndexByte(data[i:], 0xff)
			if next < 0 {
				break
			}
			i += next
			if i+1 >= len(data) {
				break
			}
		}
		switch m := data[i+1]; {
		case m == 0xd9: // end of the picture; what follows isn't decoded
			return progressive, nil
		case m == 0xda:
			if scans++; scans > maxScans {
				return progressive, fmt.Errorf("it has more than %d scans", maxScans)
			}
			i += segmentLength(data, i)
		case m == 0xc2:
			progressive = true
			i += segmentLength(data, i)
		case m == 0xff, m == 0x00, m == 0x01, m >= 0xd0 && m <= 0xd8:
			// fill, a stuffed byte, and markers without a length
		default:
			i += segmentLength(data, i)
		}
	}
	return progressive, nil
}

// segmentLength is the number of bytes from a marker's second one to the end of its segment, 1 at least.
func segmentLength(data []byte, at int) int {
	if at+3 >= len(data) {
		return 1
	}
	return 1 + max(2, int(data[at+2])<<8|int(data[at+3]))
}
