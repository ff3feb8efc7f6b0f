package measure

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDate(t *testing.T) {
	d, ok := Date(2024, 2, 29)
	require.True(t, ok)
	assert.Equal(t, "2024-02-29", d.String())
	assert.Equal(t, "29 February 2024", d.InWords())
	for _, none := range [][3]int{{2023, 2, 29}, {2024, 13, 1}, {2024, 0, 1}, {2024, 4, 31}, {2024, 4, 0}} {
		d, ok := Date(none[0], none[1], none[2])
		assert.False(t, ok, none)
		assert.False(t, d.Known())
	}
	assert.Empty(t, NoDay.String())
	assert.Equal(t, "a day not known", NoDay.InWords())
	// A time belongs to the day of its own zone: 23:30 on the 6th in Bergen is
	// 21:30 UTC, and 00:30 on the 7th is still the 6th in UTC.
	bergen := time.FixedZone("summer", 2*60*60)
	assert.Equal(t, "2026-04-06", DayOf(time.Date(2026, 4, 6, 23, 30, 0, 0, bergen)).String())
	assert.Equal(t, "2026-04-07", DayOf(time.Date(2026, 4, 7, 0, 30, 0, 0, bergen)).String())
}

func TestMoment(t *testing.T) {
	d, _ := Date(2026, 4, 6)
	untimed, morning, evening := At(d), Moment{d, 8 * 60}, Moment{d, 18*60 + 30}
	assert.True(t, untimed.Before(morning), "without a time comes first")
	assert.True(t, morning.Before(evening))
	assert.False(t, evening.Before(morning))
	assert.False(t, untimed.Before(untimed))
	assert.True(t, evening.Before(At(d+1)))
	hours, ok := morning.HoursUntil(Moment{d + 1, 8*60 + 30})
	assert.True(t, ok)
	assert.Equal(t, Hours(24.5), hours)
	for _, other := range []Moment{untimed, NoMoment} {
		_, ok = morning.HoursUntil(other)
		assert.False(t, ok)
		_, ok = other.HoursUntil(morning)
		assert.False(t, ok)
	}
	assert.Empty(t, NoMoment.String())
	assert.Equal(t, "2026-04-06 18:30", evening.String())
	assert.False(t, untimed.Timed())
}

func TestSpan(t *testing.T) {
	d, _ := Date(2026, 4, 6)
	s := On(d)
	assert.True(t, s.Known())
	assert.False(t, s.Half())
	assert.Zero(t, s.Width())
	assert.Equal(t, "2026-04-06", s.Written)
	s, _ = ParseSpan("2024-05")
	assert.True(t, s.Half())
	assert.Equal(t, 30, s.Width())
	assert.False(t, NoSpan.Known())
}

func TestMoneyZero(t *testing.T) {
	for text, want := range map[string]bool{"0.00": true, "0 USD": true, "0.01": false, "-1": false} {
		m, trouble := ParseMoney(text, "NOK")
		require.Nil(t, trouble)
		assert.Equal(t, want, m.Zero(), text)
	}
}
