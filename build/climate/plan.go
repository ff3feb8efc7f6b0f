package climate

import (
	"math"

	"wardian/content/measure"
)

// Conditions are a temperature and a relative humidity, measured or wanted.
type Conditions struct {
	T  measure.Temperature
	RH measure.Humidity
}

// Deficit is the conditions' vapour pressure deficit, in kPa.
func (c Conditions) Deficit() measure.Pressure { return Deficit(c.T, c.RH) }

// air says whether the conditions are any that a diary may hold.
func (c Conditions) air() bool {
	return c.T >= measure.ColdestTemperature && c.T <= measure.HottestTemperature && c.RH >= 0 && c.RH <= 100
}

// PlanStep is one step of a plan: what to set, and what it asks of a plant.
type PlanStep struct {
	Conditions
	Deficit      measure.Pressure // kPa
	Ratio        float64          // this step's deficit over the one before; step 1: over the start, floored
	AtLeast      bool             // step 1 from a floored start: the true ratio is this or more
	FromStart    float64          // this step's deficit over the start, floored
	FromStartLow bool             // from a floored start: the true ratio is this or more
}

// Plan leads from a humid place to a dry one in steps that ask for an equal
// ratio more each time.
type Plan struct {
	From, To Conditions
	Floored  bool // the start was under Floor and counts as Floor
	Steps    []PlanStep
}

// Refusal says why no plan is made.
type Refusal int

// Why no plan is made.
const (
	Made           Refusal = iota // a plan was made
	StepsOutOf                    // fewer than 1 step or more than MostSteps
	TargetTooDamp                 // the target is under Floor: no sensor would show the way there
	TargetNotDrier                // the target asks no more than the start: there is nothing to step down
	OutOfAir                      // a step would need a humidity below 0 % or figures that aren't air's
)

// MostSteps is the most steps that a plan may have.
const MostSteps = 100

// StepDown plans n steps from one pair of conditions to another: temperature in
// equal steps, deficit in equal ratios from the start, which counts as Floor if
// it is less. The last step is the target itself. The ladder is by deficit, not
// by relative humidity, since one humidity asks different things at different
// temperatures. No source is known for how many steps or how long between them:
// that is the grower's own. 25 °C 98 % to 22 °C 55 % in 4 passes 24.25/93.9,
// 23.5/88.1 and 22.75/76.8, each ×1.857.
func StepDown(from, to Conditions, n int) (Plan, Refusal) {
	if n < 1 || n > MostSteps {
		return Plan{}, StepsOutOf
	}
	start, end := from.Deficit(), to.Deficit()
	plan := Plan{From: from, To: to, Floored: BelowFloor(start)}
	if !from.air() || !to.air() {
		return Plan{}, OutOfAir
	}
	if BelowFloor(end) {
		return Plan{}, TargetTooDamp
	}
	start = max(start, Floor)
	if end <= start {
		return Plan{}, TargetNotDrier
	}
	before := start
	for i := 1; i <= n; i++ {
		part := float64(i) / float64(n)
		step := PlanStep{Conditions: to, Deficit: end}
		if i < n {
			step.T = from.T + (to.T-from.T)*measure.Temperature(part)
			step.Deficit = start * measure.Pressure(math.Pow(float64(end/start), part))
			var ok bool
			if step.RH, ok = HumidityFor(step.T, step.Deficit); !ok {
				return Plan{}, OutOfAir
			}
		}
		step.Ratio = float64(step.Deficit / before)
		step.FromStart = float64(step.Deficit / start)
		step.AtLeast = i == 1 && plan.Floored
		step.FromStartLow = plan.Floored
		plan.Steps = append(plan.Steps, step)
		before = step.Deficit
	}
	return plan, Made
}
