package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"io"

	"golang.org/x/image/webp"
)

const (
	pngOpening  = "\x89PNG\r\n\x1a\n"
	exifOpening = "Exif\x00\x00"
)

// exifInJPEG returns what follows "Exif" in the first APP1 segment that has it, before the first scan.
func exifInJPEG(data []byte) []byte {
	for i := 2; i+3 < len(data); {
		if data[i] != 0xff {
			return nil
		}
		m := data[i+1]
		switch {
		case m == 0xff: // fill
			i++
			continue
		case m == 0x01, m >= 0xd0 && m <= 0xd8:
			i += 2
			continue
		case m == 0xda, m == 0xd9:
			return nil
		}
		length := int(data[i+2])<<8 | int(data[i+3])
		end := i + 2 + length
		if length < 2 || end > len(data) {
			return nil
		}
		if m == 0xe1 {
			if tiff, ok := bytes.CutPrefix(data[i+4:end], []byte(exifOpening)); ok {
				return tiff
			}
		}
		i = end
	}
	return nil
}

// exifInPNG returns the eXIf chunk, which may stand before the pixels or behind them.
func exifInPNG(data []byte) []byte {
	return chunk(data, len(pngOpening), "eXIf", func(b []byte) (string, int64, int, int64) {
		n := int64(binary.BigEndian.Uint32(b))
		return string(b[4:8]), n, 8, 4 // a checksum follows
	})
}

// exifInWebP returns the EXIF chunk; some writers put JPEG's opening into it.
func exifInWebP(data []byte) []byte {
	return bytes.TrimPrefix(webpChunk(data, "EXIF"), []byte(exifOpening))
}

func webpChunk(data []byte, name string) []byte {
	return chunk(data, 12, name, func(b []byte) (string, int64, int, int64) {
		n := int64(binary.LittleEndian.Uint32(b[4:]))
		return string(b[:4]), n, 8, n & 1 // chunks start at even places
	})
}

// webpSize reads the size twice: an extended WebP says it in its first chunk, and the frame that will be decoded says
// it again. The decoder doesn't compare them, so a small canvas could hide an enormous frame.
func webpSize(r io.Reader) (image.Config, error) {
	data, err := io.ReadAll(r) // from memory
	if err != nil {
		return image.Config{}, err
	}
	c, err := webp.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return c, err
	}
	w, h := c.Width, c.Height
	if f := webpChunk(data, "VP8 "); len(f) >= 10 {
		w, h = int(f[6])|int(f[7]&0x3f)<<8, int(f[8])|int(f[9]&0x3f)<<8
	} else if f := webpChunk(data, "VP8L"); len(f) >= 5 {
		bits := binary.LittleEndian.Uint32(f[1:])
		w, h = int(bits&0x3fff)+1, int(bits>>14&0x3fff)+1
	}
	if w != c.Width || h != c.Height {
		return c, errors.New("its frame is of another size than its canvas")
	}
	return c, nil
}

// chunk walks a list of chunks from an offset on and returns the body of the first of a name. open reads 8 bytes:
// the name, the body's length, the opening's length and what follows the body.
func chunk(data []byte, at int, name string, open func([]byte) (string, int64, int, int64)) []byte {
	for at+8 <= len(data) {
		is, length, before, after := open(data[at:])
		body := int64(at + before)
		if body+length > int64(len(data)) {
			return nil
		}
		if is == name {
			return data[body : body+length]
		}
		at = int(min(body+length+after, int64(len(data))))
	}
	return nil
}
