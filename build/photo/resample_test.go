package photo

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/draw"
)

// scene is a grey picture with what pictures have: a smooth ground, hard edges at angles, fine lines and grain.
func scene(w, h int) *image.Gray {
	rnd := rand.New(rand.NewPCG(1, 2))
	m := image.NewGray(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := 110 + 60*math.Sin(float64(x)/37) + 40*math.Cos(float64(y)/23)
			if (x*3+y*2)/50%4 == 0 {
				v = 240
			}
			if (x-y/2)%17 == 0 {
				v = 15
			}
			m.Pix[y*m.Stride+x] = uint8(min(max(v+rnd.NormFloat64()*6, 0), 255))
		}
	}
	return m
}

func psnr(a, b []byte) float64 {
	sum := 0.0
	for i := range a {
		d := float64(a[i]) - float64(b[i])
		sum += d * d
	}
	return 10 * math.Log10(255*255*float64(len(a))/sum)
}

// The reference is CatmullRom of golang.org/x/image/draw, an implementation of the same kernel in floating point. The
// bound is that of rounding: 1/2 of a level on average in either gives about 52 dB.
func TestResampleAgainstXImage(t *testing.T) {
	for _, c := range []struct{ w, h, toW, toH int }{
		{400, 300, 120, 90}, {400, 300, 399, 299}, {401, 301, 200, 150}, {333, 517, 100, 155}, {400, 300, 7, 5},
		{400, 300, 400, 150}, {400, 300, 200, 300}, {640, 480, 639, 31},
	} {
		src := scene(c.w, c.h)
		ref := image.NewRGBA(image.Rect(0, 0, c.toW, c.toH))
		draw.CatmullRom.Scale(ref, ref.Bounds(), src, src.Bounds(), draw.Src, nil)
		want := make([]byte, c.toW*c.toH)
		for i := range want {
			want[i] = ref.Pix[4*i]
		}
		columns := weigh(c.toW, c.w, float64(c.w)/float64(c.toW), 1, 1, c.toW, false)
		rows := weigh(c.toH, c.h, float64(c.h)/float64(c.toH), 1, 1, c.toH, false)
		got := resample(plane{src.Pix, src.Stride, c.w, c.h, 1, 1}, columns, rows)
		require.Len(t, got, len(want))
		assert.Greater(t, psnr(got, want), 50.0, "%v", c)
		worst := 0
		for i := range got {
			worst = max(worst, int(math.Abs(float64(got[i])-float64(want[i]))))
		}
		assert.LessOrEqual(t, worst, 2, "%v: a sample is off", c)
	}
}

func TestKernel(t *testing.T) {
	// By hand from Keys 1981 with a = -1/2: k(1/2) = 1.5/8 - 2.5/4 + 1, k(3/2) = -13.5/16 - … = -1/16.
	for at, want := range map[float64]float64{0: 1, 0.5: 0.5625, -0.5: 0.5625, 1: 0, 1.5: -0.0625, 2: 0, 2.5: 0} {
		assert.InDelta(t, want, kernel(at), 1e-15, "%v", at)
	}
}

func TestExactCases(t *testing.T) {
	line := func(values ...byte) plane { return plane{values, len(values), len(values), 1, 1, 1} }
	same := weigh(1, 1, 1, 1, 1, 1, false)

	// Nothing to do is nothing done, and a mirror is a mirror.
	assert.Equal(t, []byte{3, 1, 4, 1, 5}, resample(line(3, 1, 4, 1, 5), weigh(5, 5, 1, 1, 1, 5, false), same))
	assert.Equal(t, []byte{5, 1, 4, 1, 3}, resample(line(3, 1, 4, 1, 5), weigh(5, 5, 1, 1, 1, 5, true), same))

	// A step at scale 2. By hand: k(1/4) = .8671875, k(3/4) = .2265625, k(5/4) = -.0703125, k(7/4) = -.0234375, and twice
	// their sum is 2. Sample 1 lies at 2.5 and takes .2265625 - .0703125 - .0234375 = .1328125 of 2 from beyond the step,
	// 64·.06640625 = 4.25. Sample 0 lies at 0.5 and reaches to -3: the weights of -1, -2 and -3 fall outside, 1.8671875 are left, and
	// from beyond the step it takes -.0234375 of them, 64·-.01255 = -.8. The other side is its mirror.
	assert.Equal(t, []byte{63, 68, 124, 129}, resample(line(64, 64, 64, 64, 128, 128, 128, 128), weigh(4, 8, 2, 1, 1, 4, false), same))
	// The same step from black to white is cut at both ends: 255·.06640625 = 16.9.
	assert.Equal(t, []byte{0, 17, 238, 255}, resample(line(0, 0, 0, 0, 255, 255, 255, 255), weigh(4, 8, 2, 1, 1, 4, false), same))

	// An even slope stays one away from the ends: sample i is the mean of 2i and 2i+1.
	slope := make([]byte, 40)
	for i := range slope {
		slope[i] = byte(4 * i)
	}
	got := resample(line(slope...), weigh(20, 40, 2, 1, 1, 20, false), same)
	for i := 2; i < 18; i++ {
		assert.EqualValues(t, 8*i+2, got[i])
	}
}

func TestWeightsSumToOne(t *testing.T) {
	for _, n := range []int{1, 2, 3, 7, 100, 1199, 1200, 4000} {
		for _, to := range []int{1, 2, 3, 5, 99, 1200} {
			if to > n {
				continue
			}
			for _, step := range []int{1, 2} {
				for _, srcStep := range []int{1, 2, 4} {
					srcN := (n + srcStep - 1) / srcStep
					for _, mirrored := range []bool{false, true} {
						for _, tap := range weigh((to+step-1)/step, srcN, float64(n)/float64(to), step, srcStep, to, mirrored) {
							sum, abs := int32(0), int32(0)
							for _, w := range tap.weight {
								sum += w
								abs += max(w, -w)
							}
							require.EqualValues(t, one, sum)
							require.Less(t, float64(abs)/one, 1.3, "values between the passes could overflow")
							require.GreaterOrEqual(t, tap.from, 0)
							require.LessOrEqual(t, tap.from+len(tap.weight), srcN)
						}
					}
				}
			}
		}
	}
}

// One colour stays that colour, at any size and in every turn.
func TestFlatStaysFlat(t *testing.T) {
	src := image.NewYCbCr(image.Rect(0, 0, 77, 51), image.YCbCrSubsampleRatio420)
	y, cb, cr := color.RGBToYCbCr(62, 110, 71)
	for i := range src.Y {
		src.Y[i] = y
	}
	for i := range src.Cb {
		src.Cb[i], src.Cr[i] = cb, cr
	}
	for n := upright; n <= 8; n++ {
		for _, width := range []int{1, 2, 13, 50, 77, 500} {
			m := planesOf(src).fit(n, width).(*image.YCbCr)
			for _, v := range m.Y {
				require.Equal(t, y, v)
			}
			for i := range m.Cb {
				require.Equal(t, [2]byte{cb, cr}, [2]byte{m.Cb[i], m.Cr[i]})
			}
		}
	}
}

// Chroma keeps its place: where luma and chroma hold the same slope, they hold it after any turn and scale, at odd sizes
// too. A slip of one pixel would be 2 levels.
func TestChromaStaysUnderLuma(t *testing.T) {
	for _, ratio := range []image.YCbCrSubsampleRatio{image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420, image.YCbCrSubsampleRatio440} {
		src := image.NewYCbCr(image.Rect(0, 0, 61, 45), ratio)
		value := func(x, y float64) byte { return byte(math.Round(20 + 2*x + 2*y)) }
		for y := range 45 {
			for x := range 61 {
				src.Y[src.YOffset(x, y)] = value(float64(x), float64(y))
			}
		}
		sx, sy := steps(ratio)
		for y := range (45 + sy - 1) / sy {
			for x := range (61 + sx - 1) / sx {
				// A chroma sample stands in the middle of its pixels.
				src.Cb[y*src.CStride+x] = value(float64(x*sx)+float64(sx-1)/2, float64(y*sy)+float64(sy-1)/2)
			}
		}
		for n := upright; n <= 8; n++ {
			for _, width := range []int{61, 45, 33} {
				m := planesOf(src).fit(n, width).(*image.YCbCr)
				w, h := m.Rect.Dx(), m.Rect.Dy()
				for y := 4; y < h/2-4; y++ { // away from the edges, where the kernel runs out of slope
					for x := 4; x < w/2-4; x++ {
						luma := 0.0
						for _, o := range []int{0, 1, w, w + 1} {
							luma += float64(m.Y[2*y*w+2*x+o]) / 4
						}
						require.InDelta(t, luma, float64(m.Cb[y*m.CStride+x]), 1.1, "%v turn %d width %d at %d,%d", ratio, n, width, x, y)
					}
				}
			}
		}
	}
}

func TestFitted(t *testing.T) {
	for _, c := range []struct {
		w, h       int
		transposed bool
		limit      int
		wantW      int
		wantH      int
	}{
		{4000, 3000, false, 1200, 1200, 900}, {4000, 3000, true, 1200, 1600, 1200}, {3000, 4000, true, 1200, 900, 1200}, {1200, 900, false, 1200, 1200, 900},
		{800, 600, false, 1200, 800, 600}, {800, 1600, true, 1200, 600, 1200}, {65500, 1, false, 1200, 1200, 1}, {1, 65500, false, 1200, 1, 65500},
		{1000, 333, false, 100, 100, 33}, {1000, 335, false, 100, 100, 34}, {65500, 1500, false, 1, 1, 1},
	} {
		w, h := fitted(c.w, c.h, c.transposed, c.limit)
		assert.Equal(t, [2]int{c.wantW, c.wantH}, [2]int{w, h}, "%v", c)
	}
}
