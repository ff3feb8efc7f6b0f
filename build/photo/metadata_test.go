package photo

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// withSegment puts a segment behind a JPEG's opening.
func withSegment(jpg []byte, marker byte, body string) []byte {
	out := append([]byte(nil), jpg[:2]...)
	out = append(out, 0xff, marker, byte((len(body)+2)>>8), byte(len(body)+2))
	return append(append(out, body...), jpg[2:]...)
}

func pngChunk(name, body string) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(append(b, name...), body...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// withChunk puts a chunk behind a PNG's head.
func withChunk(file []byte, name, body string) []byte {
	const head = 8 + 25
	return append(append(append([]byte(nil), file[:head]...), pngChunk(name, body)...), file[head:]...)
}

// pngHead is a PNG that claims a size and has no pixels.
func pngHead(w, h uint32) []byte {
	body := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	return append([]byte(pngOpening), pngChunk("IHDR", string(append(body, 8, 2, 0, 0, 0)))...)
}

// withSize writes another size into a JPEG's frame.
func withSize(jpg []byte, w, h int) []byte {
	out := append([]byte(nil), jpg...)
	at := bytes.Index(out, []byte("\xff\xc0"))
	binary.BigEndian.PutUint16(out[at+5:], uint16(h))
	binary.BigEndian.PutUint16(out[at+7:], uint16(w))
	return out
}

func webpChunkOf(name, body string) []byte {
	b := append([]byte(name), binary.LittleEndian.AppendUint32(nil, uint32(len(body)))...)
	b = append(b, body...)
	return append(b, make([]byte, len(body)&1)...)
}

// webpOf makes an extended WebP of a canvas's size around the frame of a plain one, with chunks behind it.
func webpOf(w, h int, plain []byte, more ...[]byte) []byte {
	head := []byte{0x08 | 0x04, 0, 0, 0, byte(w - 1), byte((w - 1) >> 8), 0, byte(h - 1), byte((h - 1) >> 8), 0}
	body := append([]byte("WEBP"), webpChunkOf("VP8X", string(head))...)
	body = append(body, plain[12:]...)
	for _, m := range more {
		body = append(body, m...)
	}
	return append([]byte("RIFF"), append(binary.LittleEndian.AppendUint32(nil, uint32(len(body))), body...)...)
}

// onlyAllowed walks a JPEG and refuses every segment but the six that a picture needs, the size of each table
// where it is fixed, and anything behind the end.
func onlyAllowed(jpg []byte) error {
	if len(jpg) < 4 || jpg[0] != 0xff || jpg[1] != 0xd8 {
		return fmt.Errorf("no SOI")
	}
	seen := map[byte]int{}
	i := 2
	for {
		if i+4 > len(jpg) || jpg[i] != 0xff {
			return fmt.Errorf("no marker at %d", i)
		}
		m := jpg[i+1]
		length := int(binary.BigEndian.Uint16(jpg[i+2:]))
		seen[m]++
		switch m {
		case 0xdb: // DQT: 65 bytes a table
			if (length-2)%65 != 0 || length > 2+2*65 {
				return fmt.Errorf("DQT of %d bytes", length)
			}
		case 0xc0: // SOF0
			if length != 8+3*int(jpg[i+9]) || jpg[i+9] > 3 {
				return fmt.Errorf("SOF0 of %d bytes", length)
			}
		case 0xc4: // DHT: each table is 17 bytes and as many as those say
			at := i + 4
			for at < i+2+length {
				n := 17
				for _, c := range jpg[at+1 : at+17] {
					n += int(c)
				}
				at += n
			}
			if at != i+2+length {
				return fmt.Errorf("DHT with something behind its tables")
			}
		case 0xda: // SOS
			if length != 6+2*int(jpg[i+4]) {
				return fmt.Errorf("SOS of %d bytes", length)
			}
		default:
			return fmt.Errorf("segment %#x is not on the list", m)
		}
		i += 2 + length
		if m == 0xda {
			break
		}
	}
	if seen[0xc0] != 1 || seen[0xda] != 1 {
		return fmt.Errorf("not one frame and one scan: %v", seen)
	}
	for ; i+1 < len(jpg); i++ {
		if jpg[i] == 0xff && jpg[i+1] != 0 {
			if jpg[i+1] == 0xd9 && i+2 == len(jpg) {
				return nil
			}
			return fmt.Errorf("marker %#x in or behind the scan", jpg[i+1])
		}
	}
	return fmt.Errorf("no EOI")
}

// The walker itself must see what it is for.
func TestOnlyAllowedSees(t *testing.T) {
	good := asJPEG(t, colourful(40, 30), 80)
	require.NoError(t, onlyAllowed(good))
	for _, m := range []byte{0xe0, 0xe1, 0xe2, 0xed, 0xee, 0xef, 0xfe, 0xdd, 0xc2} {
		assert.Error(t, onlyAllowed(withSegment(good, m, "canary")), "%#x", m)
	}
	assert.Error(t, onlyAllowed(append(append([]byte(nil), good...), "canary"...)))
	assert.Error(t, onlyAllowed(good[:len(good)-1]))
}

const canary = "CANARY-60.39N-5.32E"

// TestNothingPasses plants words wherever a file can hold any and looks for them in what comes out, which also must
// hold no segment that isn't needed.
func TestNothingPasses(t *testing.T) {
	stored := colourful(300, 200)
	jpg, pngFile := asJPEG(t, stored, 90), asPNG(t, stored)
	lossy, err := os.ReadFile("testdata/video-001.lossy.webp")
	require.NoError(t, err)
	thumbnail := string(withSegment(asJPEG(t, colourful(16, 12), 50), 0xfe, canary))
	exif := exifOpening + tiff("II", 1, "2026:04:06 18:30:00")

	files := map[string][]byte{
		"EXIF":               withSegment(jpg, 0xe1, exif+canary),
		"EXIF thumbnail":     withSegment(jpg, 0xe1, exif+thumbnail),
		"EXIF maker's note":  withSegment(jpg, 0xe1, exif+"Maker\x00"+canary),
		"EXIF damaged":       withSegment(jpg, 0xe1, exifOpening+"XX"+canary),
		"XMP":                withSegment(jpg, 0xe1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta>"+canary),
		"XMP extended":       withSegment(jpg, 0xe1, "http://ns.adobe.com/xmp/extension/\x00"+canary),
		"IPTC":               withSegment(jpg, 0xed, "Photoshop 3.0\x008BIM\x04\x04\x00\x00\x00\x00\x00\x13"+canary),
		"ICC":                withSegment(jpg, 0xe2, "ICC_PROFILE\x00\x01\x01"+strings.Repeat("\x00", 128)+"desc"+canary),
		"MPF":                withSegment(jpg, 0xe2, "MPF\x00II*\x00"+canary),
		"JFIF thumbnail":     withSegment(jpg, 0xe0, "JFXX\x00\x10"+thumbnail),
		"comment":            withSegment(jpg, 0xfe, canary),
		"other APP":          withSegment(jpg, 0xeb, canary),
		"behind the JPEG":    append(append([]byte(nil), jpg...), canary+thumbnail...),
		"tEXt":               withChunk(pngFile, "tEXt", "Author\x00"+canary),
		"zTXt":               withChunk(pngFile, "zTXt", "Author\x00\x00"+canary),
		"iTXt":               withChunk(pngFile, "iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00"+canary),
		"eXIf":               withChunk(pngFile, "eXIf", tiff("MM", 1, "")+canary),
		"iCCP":               withChunk(pngFile, "iCCP", canary+"\x00\x00"),
		"tIME":               withChunk(pngFile, "tIME", "\x07\xea\x04\x06\x12\x1e\x00"),
		"own chunk":          withChunk(pngFile, "waRd", canary),
		"behind the PNG":     append(append([]byte(nil), pngFile...), canary...),
		"WebP EXIF":          webpOf(150, 103, lossy, webpChunkOf("EXIF", tiff("II", 1, "2026:04:06 18:30:00")+canary)),
		"WebP XMP":           webpOf(150, 103, lossy, webpChunkOf("XMP ", canary)),
		"WebP own chunk":     webpOf(150, 103, lossy, webpChunkOf("waRd", canary)),
		"behind the WebP":    append(append([]byte(nil), lossy...), canary...),
		"all JPEG's at once": withSegment(withSegment(withSegment(jpg, 0xe1, exif+thumbnail), 0xfe, canary), 0xe2, canary),
	}
	for name, data := range files {
		t.Run(name, func(t *testing.T) {
			if name != "tIME" {
				require.Contains(t, string(data), canary, "nothing was planted")
			}
			for _, width := range []int{100, 1200} {
				out, _, _, err := Render(data, width)
				require.NoError(t, err)
				assert.NotContains(t, string(out), "CANARY")
				assert.NotContains(t, string(out), "2026:04:06")
				assert.NoError(t, onlyAllowed(out))
			}
		})
	}

	// The same pixels give the same bytes, whatever was written beside them.
	want, _, _, err := Render(jpg, 100)
	require.NoError(t, err)
	for _, name := range []string{"EXIF", "XMP", "IPTC", "ICC", "comment", "behind the JPEG", "all JPEG's at once"} {
		got, _, _, err := Render(files[name], 100)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(want, got), name)
	}

	info, err := Inspect(files["WebP EXIF"])
	require.NoError(t, err)
	assert.Equal(t, image.Pt(150, 103), image.Pt(info.Width, info.Height))
	assert.False(t, info.Taken.IsZero())
}
