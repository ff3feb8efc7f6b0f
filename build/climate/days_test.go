package climate

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/measure"
)

// at makes a reading; a minute below 0 has no time of day.
func at(day measure.Day, minute int, t celsius, rh percent) Reading {
	return Reading{measure.Moment{Day: day, Minute: minute}, t, rh}
}

// Two readings of FAO-56 example 5: the day's deficit is the mean of theirs,
// 0.91435 (example 6), not 0.865 from the mean temperature and humidity.
func TestDaysMeansDeficits(t *testing.T) {
	days := Days([]Reading{at(100, 14*60, 25, 54), at(100, 5*60, 18, 82)})
	require.Len(t, days, 1)
	d := days[0]
	assert.Equal(t, measure.Day(100), d.Day)
	assert.Equal(t, 2, d.Readings)
	assert.Equal(t, 2, d.Hours, "nine hours apart: only the hours that hold a reading")
	assert.InDelta(t, 0.91435, float64(d.Deficit.Mean), 5e-6)
	assert.InDelta(t, float64(Deficit(18, 82)), float64(d.Deficit.Min), 1e-15)
	assert.InDelta(t, float64(Deficit(25, 54)), float64(d.Deficit.Max), 1e-15)
	assert.Equal(t, Range[celsius]{21.5, 18, 25}, d.T)
	assert.Equal(t, Range[percent]{68, 54, 82}, d.RH)
	wrongWay := float64(Deficit(21.5, 68))
	assert.Less(t, wrongWay, 0.83)
}

func TestDaysInAnyOrder(t *testing.T) {
	var readings []Reading
	for day := measure.Day(-2); day <= 2; day++ {
		for h := 0; h < 24; h++ {
			readings = append(readings, at(day, h*60+7, celsius(20+h%5), percent(90-h)))
		}
	}
	want := Days(readings)
	require.Len(t, want, 5)
	for _, d := range want {
		assert.Equal(t, 24, d.Hours, d.Day)
		assert.Equal(t, 24, d.Readings)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		shuffled := append([]Reading(nil), readings...)
		rng.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		assert.Equal(t, want, Days(shuffled))
	}
	assert.Empty(t, Days(nil))
	assert.Empty(t, Days([]Reading{{measure.NoMoment, 20, 50}}), "an unknown day is no day")
}

func TestCovered(t *testing.T) {
	for _, c := range []struct {
		name     string
		readings []Reading
		want     int
	}{
		{"none", nil, 0},
		{"one", []Reading{at(10, 30, 20, 50)}, 1},
		{"one without a time", []Reading{at(10, measure.NoMinute, 20, 50)}, 0},
		{"two in one hour", []Reading{at(10, 0, 20, 50), at(10, 59, 20, 50)}, 1},
		{"three hours apart", []Reading{at(10, 0, 20, 50), at(10, 180, 20, 50)}, 4},
		{"a minute more", []Reading{at(10, 0, 20, 50), at(10, 181, 20, 50)}, 2},
		{"every three hours", []Reading{at(10, 0, 20, 50), at(10, 180, 20, 50), at(10, 360, 20, 50)}, 7},
		{"over the midnight before", []Reading{at(9, 23*60, 20, 50), at(10, 2*60, 20, 50)}, 3},
		{"over the midnight after", []Reading{at(10, 22*60, 20, 50), at(11, 60, 20, 50)}, 2},
		{"out of order", []Reading{at(10, 180, 20, 50), at(10, 0, 20, 50)}, 4},
		{"another day", []Reading{at(11, 180, 20, 50)}, 0},
	} {
		assert.Equal(t, c.want, Covered(c.readings, 10, 10), c.name)
	}
}

// hourly gives one reading an hour for the first n hours of the days from a day.
func hourly(from measure.Day, n int, t celsius, rh percent) []Reading {
	var readings []Reading
	for h := range n {
		readings = append(readings, at(from+measure.Day(h/24), h%24*60, t, rh))
	}
	return readings
}

func TestAirAroundAMove(t *testing.T) {
	typical := Typical{true, 25, 98}
	for _, c := range []struct {
		name     string
		readings []Reading
		typical  Typical
		want     Air
	}{
		{"whole", hourly(97, 72, 24, 80), typical, Air{Measured, Deficit(24, 80), 72, 72, 72}},
		{"half the hours", hourly(97, 36, 24, 80), typical, Air{Measured, Deficit(24, 80), 36, 36, 72}},
		{"an hour less", hourly(97, 35, 24, 80), typical, Air{TypicalValue, Deficit(25, 98), 35, 35, 72}},
		{"an hour less, nothing typical", hourly(97, 35, 24, 80), Typical{}, Air{Unknown, 0, 35, 35, 72}},
		{"only on the move's day", hourly(100, 24, 24, 80), typical, Air{TypicalValue, Deficit(25, 98), 0, 0, 72}},
		{"nothing", nil, Typical{}, Air{Unknown, 0, 0, 0, 72}},
		{"untimed alone", []Reading{at(98, measure.NoMinute, 24, 80)}, typical, Air{TypicalValue, Deficit(25, 98), 1, 0, 72}},
	} {
		got := Before(c.readings, 100, c.typical)
		assert.InDelta(t, float64(c.want.Deficit), float64(got.Deficit), 1e-15, c.name)
		got.Deficit, c.want.Deficit = 0, 0
		assert.Equal(t, c.want, got, c.name)
	}
	after := After(append(hourly(97, 96, 10, 10), hourly(101, 72, 22, 55)...), 100, typical)
	assert.Equal(t, Measured, after.Source)
	assert.Equal(t, 72, after.Readings, "the move's own day is in neither window")
	assert.InDelta(t, float64(Deficit(22, 55)), float64(after.Deficit), 1e-12)
}

// A window's first and last hours may be covered from just outside it.
func TestAirCountsNeighbours(t *testing.T) {
	inside := hourly(97, 34, 24, 80)[2:] // 02:00 on day 97 to 09:00 on day 98: 32 hours
	inside = append(inside, at(99, 22*60, 24, 80))
	assert.Equal(t, 33, Before(inside, 100, Typical{}).Hours)
	first := append([]Reading{at(96, 23*60+30, 20, 50)}, inside...)
	assert.Equal(t, 35, Before(first, 100, Typical{}).Hours, "hours 0 and 1 of day 97")
	both := append(first, at(100, 30, 20, 50))
	air := Before(both, 100, Typical{})
	assert.Equal(t, 36, air.Hours, "and hour 23 of day 99")
	assert.Equal(t, Measured, air.Source)
	assert.Equal(t, 33, air.Readings, "a neighbour is no reading of these days")
	assert.InDelta(t, float64(Deficit(24, 80)), float64(air.Deficit), 1e-12)
}

func TestDaysOfOneReading(t *testing.T) {
	days := Days([]Reading{at(0, 90, 20, 50)}) // an hour and a half into 1970
	require.Len(t, days, 1)
	assert.Equal(t, measure.Day(0), days[0].Day)
	assert.Equal(t, 1, days[0].Hours)
}

func BenchmarkOverAYearOfReadings(b *testing.B) {
	var readings []Reading
	for day := range 365 {
		for minute := 0; minute < 24*60; minute += 5 {
			readings = append(readings, at(measure.Day(day), minute, 24, 90))
		}
	}
	for b.Loop() {
		Over(readings, 200, 202, Typical{})
	}
}
