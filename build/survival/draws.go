package survival

import (
	"crypto/sha256"
	"encoding/binary"
	"math"
	"math/bits"
	"math/rand/v2"
)

// draws is the number of random relabellings where counting all is too much.
const draws = 99_999

// draw estimates the p of a statistic of the groups' sums. The generator is
// seeded from the data's own bytes, so the same data give the same p whenever
// and wherever they are tested, in whatever order they come.
func (d deal) draw(p *Permutation, statistic func(sums []float64) float64) {
	p.Method, p.Draws = Drawn, draws
	seen := math.Abs(p.Statistic)
	slack := equal * math.Max(1, seen)
	r := d.generator()
	labels := make([][]int, len(d.strata))
	for i, h := range d.strata {
		labels[i] = append([]int(nil), h.labels...)
	}
	sums := make([]float64, len(d.groups))
	var atLeast, greater, less int
	for range draws {
		clear(sums)
		for i, h := range d.strata {
			l := labels[i]
			for j := len(l) - 1; j >= 0; j-- {
				// A number in 0..j, by the high half of a product: the bias is
				// below j/2⁶⁴, and the rule is ours, so no release of a library
				// changes a printed p.
				at, _ := bits.Mul64(r.Uint64(), uint64(j+1))
				l[j], l[at] = l[at], l[j]
				sums[l[j]] += h.scores[j]
			}
		}
		u := statistic(sums)
		if math.Abs(u) >= seen-slack {
			atLeast++
		}
		if u >= p.Statistic-slack {
			greater++
		}
		if u <= p.Statistic+slack {
			less++
		}
	}
	share := func(b int) float64 { return float64(1+b) / (1 + draws) }
	p.AtLeast, p.Greater, p.Less = float64(atLeast), float64(greater), float64(less)
	p.P, p.PGreater, p.PLess = share(atLeast), share(greater), share(less)
	p.MonteCarloError = math.Sqrt(p.P * (1 - p.P) / draws)
}

// generator is PCG (O'Neill 2014, HMC-CS-2014-0905) seeded by a hash of the
// sorted scores and labels.
func (d deal) generator() *rand.PCG {
	hash := sha256.New()
	var word [8]byte
	put := func(v uint64) {
		binary.LittleEndian.PutUint64(word[:], v)
		hash.Write(word[:])
	}
	for _, h := range d.strata {
		put(uint64(len(h.scores)))
		for i, s := range h.scores {
			put(math.Float64bits(s))
			put(uint64(h.labels[i]))
		}
	}
	sum := hash.Sum(nil)
	return rand.NewPCG(binary.LittleEndian.Uint64(sum), binary.LittleEndian.Uint64(sum[8:]))
}
