package measure

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	metric   = Units{}
	imperial = Units{Inches: true, Fahrenheit: true}
)

func TestParseLength(t *testing.T) {
	for _, c := range []struct {
		text     string
		units    Units
		want     Length
		estimate bool
	}{
		{"18 cm", metric, 18, false},
		{"18cm", metric, 18, false},
		{"  18 cm\t", metric, 18, false},
		{"18\u00a0cm", metric, 18, false},
		{"18 CM", metric, 18, false},
		{"18", metric, 18, false},
		{"4.5", metric, 4.5, false},
		{"007 cm", metric, 7, false},
		{"5 mm", metric, 0.5, false},
		{"0.2 m", metric, 20, false},
		{"500 cm", metric, 500, false},
		{"0.01 mm", metric, 0.001, false},
		{"~14 cm", metric, 14, true},
		{"~ 14", metric, 14, true},
		// International yard and pound agreement, 1959: one inch is 2.54 cm.
		{"1 in", metric, 2.54, false},
		{"10 inches", metric, 25.4, false},
		{`10"`, metric, 25.4, false},
		{"100", imperial, 254, false},
		{"100 cm", imperial, 100, false},
	} {
		got, trouble := ParseLength(c.text, c.units)
		require.Nil(t, trouble, c.text)
		assert.Equal(t, Figure[Length]{c.want, c.estimate}, got, c.text)
	}
}

func TestParseSize(t *testing.T) {
	for _, c := range []struct {
		text     string
		units    Units
		want     Size
		estimate bool
	}{
		{"12x8 cm", metric, Size{12, 8}, false},
		{"12 x 8", metric, Size{12, 8}, false},
		{"12X8", metric, Size{12, 8}, false},
		{"12×8cm", metric, Size{12, 8}, false},
		{"~12x8", metric, Size{12, 8}, true},
		{"12.5x8.25 cm", metric, Size{12.5, 8.25}, false},
		{"12 cm x 8 cm", metric, Size{12, 8}, false},
		{"12cmx8cm", metric, Size{12, 8}, false},
		{"12 cm x 8", imperial, Size{12, 8}, false},
		{"12 x 8 cm", imperial, Size{12, 8}, false},
		{"100x50", imperial, Size{254, 127}, false},
		{"120x80 mm", metric, Size{12, 8}, false},
		{"8x12 cm", metric, Size{8, 12}, false}, // wider than long: some leaves are
	} {
		got, trouble := ParseSize(c.text, c.units)
		require.Nil(t, trouble, c.text)
		assert.Equal(t, Figure[Size]{c.want, c.estimate}, got, c.text)
	}
}

func TestParseTemperature(t *testing.T) {
	for _, c := range []struct {
		text     string
		units    Units
		want     Temperature
		estimate bool
	}{
		{"24 C", metric, 24, false},
		{"24C", metric, 24, false},
		{"24 °C", metric, 24, false},
		{"24 c", metric, 24, false},
		{"24", metric, 24, false},
		{"-2.5", metric, -2.5, false},
		{"-0 C", metric, 0, false},
		{"~25", metric, 25, true},
		{"-60 C", metric, -60, false},
		{"90 C", metric, 90, false},
		// The scales' fixed points: ice melts at 32 °F, and both agree at -40.
		{"32 F", metric, 0, false},
		{"-40 °F", metric, -40, false},
		{"50", imperial, 10, false},
		{"10 C", imperial, 10, false},
	} {
		got, trouble := ParseTemperature(c.text, c.units)
		require.Nil(t, trouble, c.text)
		assert.Equal(t, Figure[Temperature]{c.want, c.estimate}, got, c.text)
	}
}

func TestParsePerCent(t *testing.T) {
	for text, want := range map[string]Humidity{
		"98%": 98, "98 %": 98, "98": 98, "98 % RH": 98, "98%rh": 98, "0%": 0, "100%": 100, "64.5 %": 64.5,
	} {
		got, trouble := ParseHumidity(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, Figure[Humidity]{Value: want}, got, text)
	}
	for text, want := range map[string]Share{"50%": 0.5, "0 %": 0, "100%": 1, "33%": 0.33} {
		got, trouble := ParseShare(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, Figure[Share]{Value: want}, got, text)
	}
}

func TestParseHours(t *testing.T) {
	for text, want := range map[string]Hours{
		"24 h": 24, "24": 24, "24h": 24, "3 days": 72, "1 day": 24, "90 min": 1.5, "1.5 hours": 1.5, "2 weeks": 336, "0 h": 0,
	} {
		got, trouble := ParseHours(text)
		require.Nil(t, trouble, text)
		assert.Equal(t, Figure[Hours]{Value: want}, got, text)
	}
}

func TestParseClimate(t *testing.T) {
	for _, c := range []struct {
		text  string
		units Units
		want  Climate
	}{
		{"25.5 C 98%", metric, Climate{Figure[Temperature]{25.5, false}, Figure[Humidity]{98, false}}},
		{"25.5C 98 %", metric, Climate{Figure[Temperature]{25.5, false}, Figure[Humidity]{98, false}}},
		{"25.5 98", metric, Climate{Figure[Temperature]{25.5, false}, Figure[Humidity]{98, false}}},
		{"~25 C ~98%", metric, Climate{Figure[Temperature]{25, true}, Figure[Humidity]{98, true}}},
		{"-1 C 70% RH", metric, Climate{Figure[Temperature]{-1, false}, Figure[Humidity]{70, false}}},
		{"50 60%", imperial, Climate{Figure[Temperature]{10, false}, Figure[Humidity]{60, false}}},
	} {
		got, trouble := ParseClimate(c.text, c.units)
		require.Nil(t, trouble, c.text)
		assert.Equal(t, c.want, got, c.text)
	}
}
