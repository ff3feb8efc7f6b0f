package main

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/content/format"
)

// orderFile is an order in a file of its own.
func orderFile(t testing.TB, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "order.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

// What is printed fits the published schema, all of its parts key by key, whether
// there is a forecast or none.
func TestForecastsFitTheirSchema(t *testing.T) {
	dir := exampleFolder(t)
	s := outputSchema(t, "forecast")
	for _, c := range []struct {
		order  string
		args   []string
		code   int
		absent []string
	}{
		{format.Order.Example().Text, []string{"--want", "10"}, exitClean, []string{"reason"}},
		{format.Order.Example().Text, nil, exitClean, []string{"order_for", "reason"}},
		{"lines: [{name: Hoya obovata}]\n", []string{"--want", "9000"}, exitClean, []string{"cost_per_survivor"}},
		{"lines: [{name: Hoya obovata, price: 0}]\n", []string{"--at", "84"}, exitClean, []string{"order_for", "reason"}},
		{format.Order.Example().Text, []string{"--at", "4000", "--want", "10"}, exitUsage, []string{"expected", "range_80", "range_95", "order_for", "cost_per_survivor"}},
	} {
		code, out, _ := said(t, append([]string{"forecast", dir, orderFile(t, c.order), "--json"}, c.args...)...)
		require.Equal(t, c.code, code, out)
		require.Equal(t, 1, fits(t, s, out), out)
		assert.NotContains(t, out, "NaN")
		value, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
		require.NoError(t, err)
		top := value.(map[string]any)
		var absent []string
		for _, key := range s.Required {
			if top[key] == nil {
				absent = append(absent, key)
			}
		}
		assert.ElementsMatch(t, c.absent, absent, out)
		for _, key := range []string{"order_for", "cost_per_survivor"} {
			if part, ok := top[key].(map[string]any); ok {
				assert.ElementsMatch(t, slices.Collect(maps.Keys(part)), keysOf(s.Properties[key].Properties), key)
			}
		}
		for _, i := range top["imports"].([]any) {
			assert.ElementsMatch(t, slices.Collect(maps.Keys(i.(map[string]any))), []string{"id", "lines", "alive"})
		}
	}
}

// causal are words that say more than counts of untidy records can (standards C6).
var causal = regexp.MustCompile(`(?i)\b(because|caused|works|proves|proven|effect of|improved by|significant\w*|due to|thanks to)\b`)

func TestAForecastSaysNoWordsOfCause(t *testing.T) {
	require.Regexp(t, causal, "losses caused by cold", "the list finds what it should")
	dir := exampleFolder(t)
	order := orderFile(t, format.Order.Example().Text)
	for _, args := range [][]string{{"--want", "10"}, {"--at", "84"}, {"--at", "4000"}, {"--help"}} {
		_, out, talk := said(t, append([]string{"forecast", dir, order}, args...)...)
		require.NotEmpty(t, out)
		assert.NotRegexp(t, causal, out+talk)
		assert.NotContains(t, out+talk, "NaN")
	}
}

// What a diary says can't steer the terminal from among a forecast's words.
func TestAForecastIsUnsteered(t *testing.T) {
	_, out, _ := said(t, "forecast", exampleFolder(t), orderFile(t, "lines: [{name: \"Hoya \\u202eobovata\"}]\n"))
	require.NotEmpty(t, out)
	assert.NotContains(t, out, "\u202e")
}
