package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is written for a figure must be short and must read back as that figure.
func TestWritten(t *testing.T) {
	assert.Equal(t, "4 cm", Length(4).In(metric))
	assert.Equal(t, "4.5 cm", Length(4.5).In(metric))
	assert.Equal(t, "7 in", Length(17.78).In(imperial))
	assert.Equal(t, "12x8 cm", Size{12, 8}.In(metric))
	assert.Equal(t, "12.5x8 in", Size{31.75, 20.32}.In(imperial))
	assert.Equal(t, "-2.5 C", Temperature(-2.5).In(metric))
	assert.Equal(t, "75 F", Celsius(75).In(imperial))
	assert.Equal(t, "98%", Humidity(98).String())
	assert.Equal(t, "33%", Share(0.33).String())
	assert.Equal(t, "7%", Share(0.07).String())
	assert.Equal(t, "24 h", Hours(24).String())
	assert.Equal(t, "90 min", Hours(1.5).String())
	assert.Equal(t, "10 min", Hours(10.0/60).String())
	assert.Equal(t, "~14 cm", Figure[Length]{14, true}.Written(Length(14).In(metric)))
	assert.Equal(t, "25.5 C ~98%", Climate{Figure[Temperature]{25.5, false}, Figure[Humidity]{98, true}}.In(metric))
}

// Every tenth of an inch and of a degree Fahrenheit that a diary can hold comes
// back as it was written: conversions lose nothing.
func TestWrittenTenths(t *testing.T) {
	for i := 1; i <= 1968; i++ {
		text := plain(float64(i)/10) + " in"
		got, trouble := ParseLength(text, metric)
		require.Nil(t, trouble, text)
		require.Equal(t, text, got.Value.In(imperial))
	}
	for i := -760; i <= 1940; i++ {
		text := plain(float64(i)/10) + " F"
		got, trouble := ParseTemperature(text, metric)
		require.Nil(t, trouble, text)
		require.Equal(t, text, got.Value.In(imperial))
	}
	for i := 0; i <= 1000; i++ {
		text := plain(float64(i)/10) + "%"
		got, trouble := ParseShare(text)
		require.Nil(t, trouble, text)
		require.Equal(t, text, got.Value.String())
	}
}
