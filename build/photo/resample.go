package photo

// The resampler is our own, and this is why.
//
// The picture comes out of the decoder as three planes, luma and twice chroma, chroma mostly at a quarter of luma's
// samples, and the encoder wants it back in the same shape. General image libraries take it to
// RGBA first: four bytes a pixel in place of one and a half, two conversions of colour over the whole
// picture, and a filter that runs over four channels where two of them hold a quarter of the data. A filter on planes
// does the least work that gives the same picture, and needs a hundred lines. It works on samples as they are
// stored, not on light (common practice, no source): very fine bright patterns come out a little darker.
//
// The kernel is Catmull–Rom (Keys 1981, a = -1/2), widened by the scale when a picture is made smaller, as
// golang.org/x/image/draw does it; that package is the reference in the tests. It keeps leaf edges and moss crisp without the
// halos of sharper ones.
//
// It works in whole numbers, so that every machine gives the same bytes: weights in 1/16384, sums exactly one.
// Only the weights are computed in floating point, with each product rounded on its own: Go may otherwise
// join a product and a sum into one step on some processors and not on others.

import "math"

const (
	one      = 1 << 14 // the weights of one sample sum up to this
	between  = 6       // bits that values carry beyond the byte's eight between the two passes
	rounding = 1 << (14 + between - 1)
)

// taps are the weights that make one sample: of from, from+1, …
type taps struct {
	from   int
	weight []int32
}

// kernel is Catmull–Rom at a distance t from the sample, in samples; it reaches to 2.
func kernel(t float64) float64 {
	t = math.Abs(t)
	switch {
	case t < 1:
		a := float64(1.5*t) - 2.5
		return float64(float64(a*t)*t) + 1
	case t < 2:
		a := float64(-0.5*t) + 2.5
		b := float64(a*t) - 4
		return float64(b*t) + 2
	}
	return 0
}

// weigh makes the taps of one axis: n samples out, each over step pixels of a picture that is length pixels long
// now and was scale times as long, from samples over srcStep pixels of which there are srcN. The first
// sample is the last one of the source if mirrored. At an edge the weights that fall outside are shared out among those inside.
//
// The centre of sample i covers pixels i·step to (i+1)·step. Mirrored this is counted from the other end of
// the picture, not of the samples: where length is odd, the last chroma sample covers half as much as the others,
// and the colours would slide by a pixel.
func weigh(n, srcN int, scale float64, step, srcStep, length int, mirrored bool) []taps {
	stretch := float64(scale*float64(step)) / float64(srcStep) // source samples to one sample
	wide := max(stretch, 1)
	all := make([]taps, n)
	for i := range all {
		centre := float64(2*i+1) * float64(step) / 2 // in pixels now
		if mirrored {
			centre = float64(length) - centre
		}
		at := float64(centre*scale)/float64(srcStep) - 0.5 // in source samples
		first := int(math.Ceil(at - float64(2*wide)))
		last := int(math.Floor(at + float64(2*wide)))
		from, to := max(first, 0), min(last, srcN-1)
		exact := make([]float64, to-from+1)
		sum := 0.0
		for k := range exact {
			exact[k] = kernel((float64(from+k) - at) / wide)
			sum += exact[k]
		}
		all[i] = whole(from, exact, sum)
	}
	return all
}

// whole turns weights into whole numbers whose sum is exactly one: each running total is rounded, and a weight
// is the step from one total to the next. Zeros at both ends are cut off.
func whole(from int, exact []float64, sum float64) taps {
	w := make([]int32, len(exact))
	total, given := 0.0, int32(0)
	for i, e := range exact {
		total += e
		upTo := int32(math.Round(float64(total/sum) * one))
		w[i], given = upTo-given, upTo
	}
	for len(w) > 1 && w[len(w)-1] == 0 {
		w = w[:len(w)-1]
	}
	for len(w) > 1 && w[0] == 0 {
		w, from = w[1:], from+1
	}
	return taps{from, w}
}

// resample makes a plane of len(columns) by len(rows) samples, first along the rows, then down the columns. Between
// the two, each source row that is still wanted is kept in a ring, so that little memory is
// touched however tall the picture is.
func resample(src plane, columns, rows []taps) []byte {
	w := len(columns)
	out := make([]byte, w*len(rows))
	ring := 1
	for _, r := range rows {
		ring = max(ring, len(r.weight))
	}
	kept := make([][]int16, ring)
	holds := make([]int, ring) // the source row in each place of the ring, -1 for none
	for i := range kept {
		kept[i], holds[i] = make([]int16, w), -1
	}
	sum := make([]int32, w)
	for y, r := range rows {
		for x := range sum {
			sum[x] = rounding
		}
		for k, weight := range r.weight {
			at := r.from + k
			slot := at % ring
			if holds[slot] != at {
				across(kept[slot], src.pix[at*src.stride:at*src.stride+src.w], columns)
				holds[slot] = at
			}
			row := kept[slot][:len(sum)]
			for x := range sum {
				sum[x] += weight * int32(row[x])
			}
		}
		dst := out[y*w : (y+1)*w]
		for x, s := range sum {
			dst[x] = uint8(min(max(s>>(14+between), 0), 255))
		}
	}
	return out
}

// across filters one row. With six bits more than a byte the results fit: the weights' absolute values sum up to
// less than 1.3, so they lie between -2500 and 21 300.
func across(dst []int16, src []byte, columns []taps) {
	for x := range dst {
		c := &columns[x]
		part := src[c.from : c.from+len(c.weight)]
		s := int32(1 << (14 - between - 1))
		for k, weight := range c.weight {
			s += weight * int32(part[k])
		}
		dst[x] = int16(s >> (14 - between))
	}
}
