package main

import (
	"hash/fnv"
	"math/rand/v2"
)

// plant is what one look knows of one specimen: the figures that its drawing is
// made from.
type plant struct {
	id     string
	name   string
	day    int
	leaves int          // -1 where nobody has counted yet
	sizes  [][2]float64 // cm, those measured, largest first
	droop  float64      // 0 firm, 0.45 soft, 1 limp
	grade  int          // roots, 0 to 5
	root   float64      // the longest, cm; 0 where not measured
	rest   bool
	dead   bool
	rotten bool // rot at the stem or the growing point
	medium string
	cut    bool    // a section, without roots of its own at first
	dusk   float64 // how dark it is outside, 0 to 1
}

// setting is where a picture is taken.
type setting int

const (
	paper   setting = iota // bare-root on dark paper
	tote                   // near saturation, droplets
	cool                   // the same without heat or lamp
	cabinet                // behind glass, under a lamp
	sill                   // in the room, by the window
	room                   // in the room, away from it
)

// chance gives the same numbers for the same words, each time.
func chance(words ...string) *rand.Rand {
	h := fnv.New64a()
	for _, w := range words {
		h.Write([]byte(w))
		h.Write([]byte{0})
	}
	return rand.New(rand.NewPCG(h.Sum64(), 20))
}

// around is a value within a share of v, either way.
func around(r *rand.Rand, v, share float64) float64 { return v * (1 + share*(2*r.Float64()-1)) }

// size gives the length and width of the i-th leaf: measured, or like those that
// were.
func (p plant) size(i int, r *rand.Rand) (float64, float64) {
	if i < len(p.sizes) {
		return p.sizes[i][0], p.sizes[i][1]
	}
	if len(p.sizes) == 0 {
		f := kindOf(p.name)
		return around(r, f.length, 0.15), around(r, f.width, 0.15)
	}
	s := p.sizes[len(p.sizes)-1]
	k := 0.72 + 0.28*r.Float64()
	return s[0] * k, s[1] * k
}
