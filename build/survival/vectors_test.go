package survival

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slowVectors counts by walking through every deal, and gives the largest number of
// vectors that stand after any class of tied units.
func slowVectors(d deal) (most int) {
	type key struct {
		state int
		sums  [maxOthers]int64
	}
	now := map[key][maxOthers]float64{{}: {}}
	for _, st := range d.stages() {
		next := map[key][maxOthers]float64{}
		for k, sums := range now {
			splits(st.class.n, st.hand.counts, st.hand.used(k.state, st.dealt), func(part []int) bool {
				to, raw := key{state: k.state + st.hand.state(part)}, sums
				if st.last {
					to.state = 0
				}
				for g := range len(d.groups) - 1 {
					raw[g] += float64(part[g]) * st.class.score
					to.sums[g] = int64(math.Round(raw[g] * 1e9))
				}
				next[to] = raw
				return true
			})
		}
		now = next
		most = max(most, len(now))
	}
	return most
}

// TestVectorsAreRefusedJustWhereTheyAreTooMany: looking ahead never refuses what
// can be counted, and whatever is counted stays within the bound; the ways add up to
// all relabellings.
func TestVectorsAreRefusedJustWhereTheyAreTooMany(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	foreseen := 0
	for range 25 {
		k, strata := 3+r.IntN(2), 1+r.IntN(2)
		var members []Member
		for g := range k {
			for range 2 + r.IntN(3) {
				members = append(members, Member{Subject{float64(1 + r.IntN(9)), r.IntN(3) > 0}, g, r.IntN(strata)})
			}
		}
		d := dealOf(Units(members))
		if len(d.groups) < 3 {
			continue
		}
		peak := slowVectors(d)
		for _, most := range []int{peak + 1, peak, peak - 1, peak / 2, peak / 8, 1} {
			all, ok := d.vectors(most)
			require.Equal(t, peak <= most, ok, "%d at most, %d in all", most, peak)
			must, _ := mustOverflow(d.stages(), map[int]int{0: 1}, most, patience)
			require.False(t, must && ok)
			if must {
				foreseen++
			}
			if !ok {
				continue
			}
			ways := 0.0
			for _, w := range all.ways {
				ways += w
			}
			require.Equal(t, d.result().Relabellings, ways)
		}
	}
	assert.Greater(t, foreseen, 20)
	// Without patience it says no.
	d := dealOf(Units(crowd(14, 18, 19, 9)))
	must, left := mustOverflow(d.stages(), map[int]int{0: 1}, 10, 1<<19)
	assert.True(t, must)
	assert.Positive(t, left)
	must, left = mustOverflow(d.stages(), map[int]int{0: 1}, 10, 3)
	assert.False(t, must)
	assert.LessOrEqual(t, left, 0)
}

// More groups than a vector holds are drawn.
func TestManyGroupsAreDrawn(t *testing.T) {
	var members []Member
	for g := range maxOthers + 2 {
		members = append(members, Member{Subject{float64(g), true}, g, 0}, Member{Subject{float64(g), false}, g, 0})
	}
	p := PermutationLogRank(members)
	assert.Equal(t, Drawn, p.Method)
	assert.False(t, p.HasSmallestP)
	assert.True(t, p.P > 0 && p.P <= 1)
}
