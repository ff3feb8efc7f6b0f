package forecast

import (
	"fmt"
	"math"
)

// Needed is the inverse of Order: the smallest order of which at least alive are
// alive on the day with a chance of at least chance. A larger order never has a
// smaller chance, so the first that reaches it is the answer.
//
// The chance is summed over the plants instead of the counts. Plants are alike
// in the model, so count them in any order: with μ and κ given, the n-th is the
// alive-th survivor with the beta negative binomial chance
//
//	Γ(n)/(Γ(k)Γ(n−k+1)) · Γ(α+k)Γ(β+n−k)/Γ(κ+n) · Γ(κ)/(Γ(α)Γ(β)),  k = alive
//
// (Johnson, Kemp and Kotz, Univariate Discrete Distributions, section 6.2, from
// memory), and each term follows from the one before.
//
// ok is false where the order would be larger than Most, for less than 1 alive,
// and if p learned nothing. It panics if chance isn't between 0 and 1, both
// excluded.
func (p Posterior) Needed(alive int, chance float64) (planned int, ok bool) {
	if !(chance > 0 && chance < 1) {
		panic(fmt.Sprintf("forecast: %v is no chance", chance))
	}
	if alive < 1 || alive > Most || len(p.weights) == 0 {
		return 0, false
	}
	type wait struct {
		beta, kappa float64
		// ln is the logarithm of weight times term; term is the same once it
		// is large enough to be a double (0 before).
		ln, term float64
	}
	var waits []wait
	k := float64(alive)
	for i, mean := range p.points.means {
		for j, kappa := range p.points.loads {
			weight := p.weights[i*len(p.points.loads)+j]
			if weight == 0 {
				continue
			}
			// The first k are all alive: n = k.
			waits = append(waits, wait{beta: (1 - mean) * kappa, kappa: kappa, ln: math.Log(weight) + lnBetaBinomial(k, k, mean, kappa)})
		}
	}
	const small = -600 // e^-600 is a double, and far below any chance that counts
	reached := 0.0
	for n := alive; n <= Most; n++ {
		now := float64(n)
		for at := range waits {
			w := &waits[at]
			if w.term == 0 && w.ln > small {
				w.term = math.Exp(w.ln)
			}
			reached += w.term
			next := now / (now - k + 1) * (w.beta + now - k) / (w.kappa + now)
			if w.term == 0 {
				w.ln += math.Log(next)
			}
			w.term *= next
		}
		if reached >= chance-equal {
			return n, true
		}
	}
	return 0, false
}
