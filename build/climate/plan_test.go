package climate

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The worked plan of the project's own definitions, computed by another program.
func TestStepDown(t *testing.T) {
	plan, refusal := StepDown(Conditions{25, 98}, Conditions{22, 55}, 4)
	require.Equal(t, Made, refusal)
	require.Len(t, plan.Steps, 4)
	assert.True(t, plan.Floored)
	for i, want := range []struct{ t, rh, d, from float64 }{
		{24.25, 93.868, 0.185723, 1.857},
		{23.5, 88.087, 0.344930, 3.449},
		{22.75, 76.850, 0.640615, 6.406},
		{22, 55, 1.189769, 11.898},
	} {
		s := plan.Steps[i]
		assert.InDelta(t, want.t, float64(s.T), 1e-12)
		assert.InDelta(t, want.rh, float64(s.RH), 5e-4)
		assert.InDelta(t, want.d, float64(s.Deficit), 5e-7)
		assert.InDelta(t, 1.857, s.Ratio, 5e-4, "each step asks the same more")
		assert.InDelta(t, want.from, s.FromStart, 5e-4)
		assert.InDelta(t, float64(Deficit(s.T, s.RH)), float64(s.Deficit), 1e-12, "the figures belong together")
		assert.Equal(t, i == 0, s.AtLeast)
		assert.True(t, s.FromStartLow)
	}
}

func TestStepDownFromADrierStart(t *testing.T) {
	plan, refusal := StepDown(Conditions{24, 90}, Conditions{22, 55}, 1)
	require.Equal(t, Made, refusal)
	require.Len(t, plan.Steps, 1)
	assert.False(t, plan.Floored)
	assert.False(t, plan.Steps[0].AtLeast)
	assert.Equal(t, Conditions{22, 55}, plan.Steps[0].Conditions, "the last step is the target itself")
	assert.InDelta(t, float64(Deficit(22, 55)/Deficit(24, 90)), plan.Steps[0].Ratio, 1e-12)
}

// The ends of what a diary may hold are still air.
func TestStepDownAtTheEdges(t *testing.T) {
	for _, c := range []struct{ from, to Conditions }{
		{Conditions{-15, 100}, Conditions{90, 0}}, {Conditions{25, 98}, Conditions{22, 0.5}}, {Conditions{90, 99.9}, Conditions{90, 0}},
	} {
		_, refusal := StepDown(c.from, c.to, MostSteps)
		assert.Equal(t, Made, refusal, "%+v", c)
	}
	_, refusal := StepDown(Conditions{90.1, 98}, Conditions{22, 55}, 3)
	assert.Equal(t, OutOfAir, refusal)
	_, refusal = StepDown(Conditions{25, 98}, Conditions{22, -0.1}, 3)
	assert.Equal(t, OutOfAir, refusal)
}

func TestStepDownRefusals(t *testing.T) {
	for _, c := range []struct {
		name     string
		from, to Conditions
		n        int
		want     Refusal
	}{
		{"no steps", Conditions{25, 98}, Conditions{22, 55}, 0, StepsOutOf},
		{"too many", Conditions{25, 98}, Conditions{22, 55}, 101, StepsOutOf},
		{"a target that no sensor can tell", Conditions{25, 98}, Conditions{22, 97}, 3, TargetTooDamp},
		{"a target as humid as the start", Conditions{22, 55}, Conditions{22, 55}, 3, TargetNotDrier},
		{"a target more humid than the start", Conditions{22, 55}, Conditions{25, 90}, 3, TargetNotDrier},
		{"humidity out of range", Conditions{25, 101}, Conditions{22, 55}, 3, OutOfAir},
		{"no room's temperature", Conditions{-237.3, 50}, Conditions{22, 55}, 3, OutOfAir},
		{"the floor is more than cold air holds", Conditions{-60, 100}, Conditions{-20, 0}, 3, OutOfAir},
	} {
		plan, refusal := StepDown(c.from, c.to, c.n)
		assert.Equal(t, c.want, refusal, c.name)
		assert.Empty(t, plan.Steps, c.name)
	}
}

func FuzzStepDown(f *testing.F) {
	f.Add(25.0, 98.0, 22.0, 55.0, 4)
	f.Add(-60.0, 0.0, 90.0, 0.0, 100)
	f.Fuzz(func(t *testing.T, t1, rh1, t2, rh2 float64, n int) {
		plan, refusal := StepDown(Conditions{celsius(t1), percent(rh1)}, Conditions{celsius(t2), percent(rh2)}, n)
		if refusal != Made {
			return
		}
		if len(plan.Steps) != n {
			t.Fatalf("%d steps of %d", len(plan.Steps), n)
		}
		for _, s := range plan.Steps {
			if !(s.RH >= 0 && s.RH <= 100) || !(s.Ratio >= 1) || !(s.FromStart >= 1) {
				t.Fatalf("%+v", s)
			}
		}
	})
}
