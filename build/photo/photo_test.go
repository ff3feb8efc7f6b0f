package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/draw"
	"golang.org/x/image/webp"
)

// colourful is a picture without any symmetry: each corner another colour.
func colourful(w, h int) *image.RGBA {
	grey := scene(w, h)
	m := image.NewRGBA(grey.Rect)
	for y := range h {
		for x := range w {
			g := int(grey.GrayAt(x, y).Y)
			m.SetRGBA(x, y, color.RGBA{uint8(g/2 + 120*x/w), uint8(g/2 + 120*y/h), uint8(g/2 + 120*(w-x)/w), 255})
		}
	}
	return m
}

func asJPEG(t testing.TB, m image.Image, quality int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: quality}))
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

func render(t testing.TB, data []byte, maxWidth int) image.Image {
	t.Helper()
	out, w, h, err := Render(data, maxWidth)
	require.NoError(t, err)
	m, err := jpeg.Decode(bytes.NewReader(out))
	require.NoError(t, err)
	require.Equal(t, image.Pt(w, h), m.Bounds().Size(), "the size told isn't the size of the picture")
	return m
}

// rgb lays any picture on white, as RGB bytes.
func rgb(m image.Image) []byte {
	c := image.NewRGBA(image.Rect(0, 0, m.Bounds().Dx(), m.Bounds().Dy()))
	draw.Draw(c, c.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(c, c.Rect, m, m.Bounds().Min, draw.Over)
	var b []byte
	for i := 0; i < len(c.Pix); i += 4 {
		b = append(b, c.Pix[i:i+3]...)
	}
	return b
}

// The whole way against the obvious one: decode, x/image's CatmullRom over RGBA, encode at the same quality.
func TestRenderAgainstXImage(t *testing.T) {
	for name, data := range map[string][]byte{
		"JPEG": asJPEG(t, colourful(900, 700), 95), "PNG": asPNG(t, colourful(901, 701)),
	} {
		src, _, err := image.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		got := render(t, data, 300)
		ref := image.NewRGBA(got.Bounds())
		draw.CatmullRom.Scale(ref, ref.Rect, src, src.Bounds(), draw.Src, nil)
		want, err := jpeg.Decode(bytes.NewReader(asJPEG(t, ref, Quality)))
		require.NoError(t, err)
		assert.Greater(t, psnr(rgb(got), rgb(want)), 40.0, name)
	}
}

// Each kind of file against the decoder's own picture; nothing is resampled at these widths but chroma.
func TestKindsOfFile(t *testing.T) {
	files, err := filepath.Glob("testdata/*.*p*g")
	require.NoError(t, err)
	more, err := filepath.Glob("testdata/*.webp")
	require.NoError(t, err)
	files = append(files, more...)
	require.GreaterOrEqual(t, len(files), 12)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			decode := jpeg.Decode
			if strings.HasSuffix(file, ".webp") {
				decode = webp.Decode
			}
			src, err := decode(bytes.NewReader(data))
			require.NoError(t, err)
			info, err := Inspect(data)
			require.NoError(t, err)
			assert.Equal(t, src.Bounds().Size(), image.Pt(info.Width, info.Height))
			assert.Zero(t, info.Taken)
			bound := 30.0
			if strings.Contains(file, "rgb") {
				bound = 26 // colour at full size in the file, at half size here
			}
			if strings.Contains(file, "gopher") {
				bound = 33
			}
			assert.Greater(t, psnr(rgb(render(t, data, 2000)), rgb(src)), bound)
			assert.Equal(t, 50, render(t, data, 50).Bounds().Dx())
		})
	}
}

func TestColourModelsOfPNG(t *testing.T) {
	base := colourful(90, 60)
	for _, m := range []draw.Image{
		image.NewGray(base.Rect), image.NewGray16(base.Rect), image.NewNRGBA(base.Rect), image.NewNRGBA64(base.Rect), image.NewRGBA64(base.Rect),
		image.NewPaletted(base.Rect, color.Palette{color.Black, color.White, color.RGBA{200, 0, 0, 255}, color.RGBA{0, 120, 0, 255}}),
	} {
		draw.Draw(m, m.Bounds(), base, image.Point{}, draw.Src)
		data := asPNG(t, m)
		assert.Greater(t, psnr(rgb(render(t, data, 100)), rgb(m)), 20.0, "%T", m)
	}
}

func TestTransparentIsLaidOnWhite(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 32, 32))
	for i := range m.Pix {
		m.Pix[i] = 0
	}
	got := render(t, asPNG(t, m), 32)
	for _, v := range rgb(got) {
		require.Equal(t, byte(255), v)
	}
}

func TestNeverEnlarged(t *testing.T) {
	_, w, h, err := Render(asJPEG(t, colourful(120, 90), 90), 1200)
	require.NoError(t, err)
	assert.Equal(t, [2]int{120, 90}, [2]int{w, h})
	for _, size := range []image.Point{{1, 1}, {1, 300}, {300, 1}, {2, 3}, {17, 16}} {
		for n := upright; n <= 8; n++ {
			data := withSegment(asJPEG(t, colourful(size.X, size.Y), 90), 0xe1, exifOpening+tiff("II", int(n), ""))
			_, w, h, err := Render(data, 16)
			require.NoError(t, err)
			assert.LessOrEqual(t, w, 16)
			assert.GreaterOrEqual(t, min(w, h), 1)
		}
	}
	assert.Panics(t, func() { Render(nil, 0) })
}

func TestSameBytesEveryTime(t *testing.T) {
	data := asJPEG(t, colourful(640, 480), 90)
	want, _, _, err := Render(data, 200)
	require.NoError(t, err)
	for _, procs := range []int{1, 2, 16} {
		before := runtime.GOMAXPROCS(procs)
		var wait sync.WaitGroup
		for range 8 {
			wait.Go(func() {
				got, _, _, err := Render(data, 200)
				assert.NoError(t, err)
				assert.True(t, bytes.Equal(want, got))
			})
		}
		wait.Wait()
		runtime.GOMAXPROCS(before)
	}
}

func TestRefusals(t *testing.T) {
	good := asJPEG(t, colourful(64, 48), 90)
	goodPNG := asPNG(t, colourful(64, 48))
	lossy, err := os.ReadFile("testdata/video-001.lossy.webp")
	require.NoError(t, err)
	cases := []struct {
		name string
		data []byte
		want any
		says string
	}{
		{"nothing", nil, &NotAPicture{}, "no JPEG, PNG or WebP"},
		{"words", []byte("---\nname: Hoya\n---\n"), &NotAPicture{}, "no JPEG"},
		{"HEIC", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), &NotAPicture{}, "HEIC picture"},
		{"AVIF", []byte("\x00\x00\x00\x18ftypavif\x00\x00\x00\x00"), &NotAPicture{}, "AVIF picture"},
		{"GIF", []byte("GIF89a\x01\x00\x01\x00"), &NotAPicture{}, "GIF picture"},
		{"raw", []byte("II*\x00\x08\x00\x00\x00"), &NotAPicture{}, "raw"},
		{"JPEG's opening alone", good[:3], &Broken{}, "cut short"},
		{"PNG's opening alone", goodPNG[:8], &Broken{}, "cut short"},
		{"WebP's opening alone", lossy[:12], &Broken{}, "cut short"},
		{"PNG of 60000 by 60000", pngHead(60000, 60000), &TooLarge{}, "60000 by 60000"},
		{"PNG a pixel over 100 megapixels", pngHead(10001, 10000), &TooLarge{}, "100 megapixels"},
		{"PNG too wide", pngHead(65501, 1), &TooLarge{}, "65501 by 1"},
		{"PNG whose sides multiply to little in 32 bits", pngHead(65536, 65537), &TooLarge{}, "65536"},
		{"PNG at the limit, without pixels", pngHead(10000, 10000), &Broken{}, "decoded"},
		{"JPEG of 65535 by 65535", withSize(good, 65535, 65535), &TooLarge{}, "65535"},
		{"JPEG without height", withSize(good, 64, 0), &Broken{}, "decoded"},
		{"WebP with a small canvas and a large frame", webpOf(40, 30, lossy), &Broken{}, "canvas"},
		{"JPEG of a thousand scans", append(append([]byte(nil), good[:len(good)-2]...), bytes.Repeat([]byte("\xff\xda\x00\x02"), 1000)...), &Broken{}, "scans"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, _, _, err := Render(c.data, 100)
			require.Error(t, err)
			assert.IsType(t, c.want, err)
			assert.Contains(t, err.Error(), c.says)
			if _, broken := err.(*Broken); !broken {
				_, err = Inspect(c.data)
				assert.IsType(t, c.want, err)
			}
		})
	}
	_, err = Inspect(pngHead(10000, 10000))
	assert.NoError(t, err, "100 megapixels are allowed")
}

// Cut anywhere, a picture is refused or read, and never more.
func TestCutShort(t *testing.T) {
	lossy, err := os.ReadFile("testdata/video-001.lossy.webp")
	require.NoError(t, err)
	progressive, err := os.ReadFile("testdata/video-001.q50.420.progressive.jpeg")
	require.NoError(t, err)
	for name, data := range map[string][]byte{
		"JPEG": asJPEG(t, colourful(40, 30), 80), "PNG": asPNG(t, colourful(20, 15)), "WebP": lossy, "progressive": progressive,
	} {
		refused := 0
		for n := 0; n < len(data); n += 1 + len(data)/400 {
			_, _, _, err := Render(data[:n], 16)
			if err != nil {
				refused++
				switch err.(type) {
				case *Broken, *NotAPicture:
				default:
					require.Fail(t, "an error of no known type", "%s: %v", name, err)
				}
			}
		}
		assert.Greater(t, refused, 200, name)
	}
}

// Inspect tells the size as Render gives it, and the time.
func TestInspect(t *testing.T) {
	data := withSegment(asJPEG(t, colourful(64, 48), 90), 0xe1, exifOpening+tiff("MM", 6, "2026:04:06 18:30:00"))
	info, err := Inspect(data)
	require.NoError(t, err)
	assert.Equal(t, Info{48, 64, "JPEG", time.Date(2026, 4, 6, 18, 30, 0, 0, time.UTC)}, info)
	_, w, h, err := Render(data, 100)
	require.NoError(t, err)
	assert.Equal(t, [2]int{48, 64}, [2]int{w, h})
}

// Run it with -fuzzminimizetime 20x: the decoders' coverage differs a little from run to run, and making inputs smaller
// would take all the time.
func FuzzRender(f *testing.F) {
	files, _ := filepath.Glob("testdata/*.*")
	for _, file := range files {
		if data, err := os.ReadFile(file); err == nil && len(data) < 5000 {
			f.Add(data)
		}
	}
	f.Add(withSegment(asJPEG(f, colourful(9, 7), 50), 0xe1, exifOpening+tiff("II", 5, "2026:04:06 18:30:00")))
	f.Add(asPNG(f, colourful(9, 7)))
	f.Fuzz(func(t *testing.T, data []byte) {
		info, err := Inspect(data)
		if err != nil || info.Width*info.Height > 1<<18 {
			return // what is large is slow, not wrong
		}
		start := time.Now()
		out, w, h, err := Render(data, 64)
		require.Less(t, time.Since(start), 5*time.Second)
		if err != nil {
			return
		}
		require.LessOrEqual(t, w, 64)
		require.LessOrEqual(t, w, info.Width)
		require.NoError(t, onlyAllowed(out))
		c, err := jpeg.DecodeConfig(bytes.NewReader(out))
		require.NoError(t, err)
		require.Equal(t, [2]int{w, h}, [2]int{c.Width, c.Height})
	})
}

func TestMemoryIsBounded(t *testing.T) {
	b := newBudget(100)
	var mu sync.Mutex
	used, most, done := 0, 0, 0
	var wait sync.WaitGroup
	for i := range 200 {
		n := 10 + i%50
		if i%40 == 0 {
			n = 500 // more than there is: alone
		}
		wait.Go(func() {
			b.take(int64(n))
			mu.Lock()
			used += n
			if used > 100 {
				assert.Equal(t, n, used, "one that is too large wasn't alone")
			}
			most = max(most, used)
			mu.Unlock()
			runtime.Gosched()
			mu.Lock()
			used -= n
			done++
			mu.Unlock()
			b.give(int64(n))
		})
	}
	wait.Wait()
	assert.Equal(t, 200, done)
	assert.Equal(t, 500, most)
	assert.Zero(t, b.used)
}

func BenchmarkRender12MP(b *testing.B) {
	src := image.NewYCbCr(image.Rect(0, 0, 4032, 3024), image.YCbCrSubsampleRatio420)
	copy(src.Y, scene(4032, 3024).Pix)
	for i := range src.Cb {
		src.Cb[i], src.Cr[i] = byte(100+i%56), byte(120+i%16)
	}
	data := asJPEG(b, src, 90)
	for _, n := range []turn{1, 6} {
		b.Run(fmt.Sprintf("turn %d", n), func(b *testing.B) {
			turned := withSegment(data, 0xe1, exifOpening+tiff("II", int(n), ""))
			b.ReportAllocs()
			for range b.N {
				_, _, _, err := Render(turned, 1200)
				require.NoError(b, err)
			}
		})
	}
	b.Run("decoding alone", func(b *testing.B) {
		for range b.N {
			_, err := jpeg.Decode(bytes.NewReader(data))
			require.NoError(b, err)
		}
	})
}
