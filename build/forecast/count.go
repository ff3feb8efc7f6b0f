package forecast

import (
	"fmt"
	"math"
)

// Most is the largest order that is forecast, in plants.
const Most = 10_000

// equal is how near two sums of chances have to be to count as the same: a
// range mustn't depend on the last bit of a tenth.
const equal = 1e-12

// Count is how many of a planned order may be alive on the day: a chance for
// each number. The zero Count is that of an order of nothing.
type Count struct {
	// Planned is the number of plants ordered.
	Planned int
	// Expected is the mean number alive, above 0 and below Planned for any
	// order of Posterior's.
	Expected float64
	atMost   []float64 // atMost[y] is the chance of y or fewer; the last is 1
}

// Order forecasts an order of planned plants as one new import: the posterior
// mean of the beta-binomial distribution of planned (the posterior predictive
// distribution; Gelman et al., Bayesian Data Analysis, section 1.3, from
// memory). ok is false for less than 1 plant, for more than Most, and if p
// learned nothing.
//
// The counts are whole here, so the gamma functions of lnBetaBinomial come down
// to products, which risings takes for all counts at once.
func (p Posterior) Order(planned int) (c Count, ok bool) {
	if planned < 1 || planned > Most || len(p.weights) == 0 {
		return Count{}, false
	}
	chances := make([]float64, planned+1)
	alive, lost, all := make([]float64, planned+1), make([]float64, planned+1), make([]float64, planned+1)
	for j, kappa := range p.points.loads {
		risings(all, kappa)
		for i, mean := range p.points.means {
			w := p.weights[i*len(p.points.loads)+j]
			if w == 0 {
				continue
			}
			risings(alive, mean*kappa)
			risings(lost, (1-mean)*kappa)
			for y := range chances {
				chances[y] += w * math.Exp(alive[y]+lost[planned-y]-all[planned])
			}
		}
	}
	return counted(chances), true
}

// risings fills ln with ln (Γ(a+y)/(Γ(a)·y!)) = Σ ln ((a+i)/(1+i)) over i below
// y, for y = 0, 1, 2 …
func risings(ln []float64, a float64) {
	sum := 0.0
	for y := range ln {
		ln[y] = sum
		sum += math.Log((a + float64(y)) / float64(1+y))
	}
}

// counted makes a Count of the chances of 0, 1, 2 … alive, scaled so that they
// add up to 1 to the last bit.
func counted(chances []float64) Count {
	total := 0.0
	for _, f := range chances {
		total += f
	}
	c := Count{Planned: len(chances) - 1, atMost: make([]float64, len(chances))}
	sum := 0.0
	for y, f := range chances {
		sum += f
		c.atMost[y] = math.Min(1, sum/total)
		c.Expected += float64(y) * f / total
	}
	c.atMost[c.Planned] = 1
	return c
}

// AtMost is the chance that alive or fewer are alive, 0 to 1.
func (c Count) AtMost(alive int) float64 {
	switch {
	case alive < 0:
		return 0
	case alive >= c.Planned:
		return 1
	}
	return c.atMost[alive]
}

// AtLeast is the chance that alive or more are alive, 0 to 1.
func (c Count) AtLeast(alive int) float64 { return 1 - c.AtMost(alive-1) }

// Chance is the chance that just alive are alive; 0 for a number that can't be.
func (c Count) Chance(alive int) float64 {
	return math.Max(0, c.AtMost(alive)-c.AtMost(alive-1))
}

// Range is a range of whole plants, both ends in it.
type Range struct {
	Low, High int
}

// Range holds the number alive with a chance of at least confidence, no more
// than (1−confidence)/2 being left out on either side: from the smallest y with
// P(alive ≤ y) > (1−confidence)/2 to the smallest with P(alive ≤ y) ≥
// (1+confidence)/2. Plants are whole, so it usually holds more. It panics if
// confidence isn't between 0 and 1, both excluded.
func (c Count) Range(confidence float64) Range {
	if !(confidence > 0 && confidence < 1) {
		panic(fmt.Sprintf("forecast: %v is no confidence", confidence))
	}
	var r Range
	for r.Low < c.Planned && c.atMost[r.Low] <= (1-confidence)/2+equal {
		r.Low++
	}
	for r.High = r.Low; r.High < c.Planned && c.atMost[r.High] < (1+confidence)/2-equal; r.High++ {
	}
	return r
}
