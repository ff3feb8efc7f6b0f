package chart

import (
	"math"
)

// drawnDeficit puts what no sensor tells at one height.
func drawnDeficit(kPa float64) float64 {
	if kPa < underSensor {
		return underSensor / 2
	}
	return kPa
}

// cleanDeficit floors what no sensor tells to one drawn height.
func cleanDeficit(in []DayValue) []DayValue {
	out := cleanValues(in, 0, 100, 100)
	for i := range out {
		out[i].Value = drawnDeficit(out[i].Value)
	}
	return out
}

// deficitScale is a round top and its step: to 1.5 kPa where that holds all.
func deficitScale(vs []DayValue) (hi, step float64) {
	most := 0.0
	for _, v := range vs {
		most = max(most, v.Value)
	}
	hi = max(1.5, most)
	step = niceStep(hi, 3)
	if hi > 1.5 {
		hi = math.Ceil(hi/step-1e-9) * step
	}
	return hi, step
}

// deficit draws the day bars over their levels.
func (c *canvas) deficit(a area, vs []DayValue, step float64, stage func(int) Stage) {
	var ys []float64
	var words []string
	for _, v := range ticks(a.y.Max, step) {
		ys, words = append(ys, a.py(v)), append(words, f2(v))
	}
	c.levels(ys, words)
	c.dayBars(a, vs, stage)
	c.textPlus(0, 0, a.top-12, start, "b hal", "deficit, kPa", "day means")
}
