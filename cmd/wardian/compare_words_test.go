package main

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A comparison tells of differences and of no causes.
func TestNoWordOfCauseInComparisons(t *testing.T) {
	claims := regexp.MustCompile(`(?i)\b(because|caused|works|proves|effect of|improved by|significant)`)
	files, err := filepath.Glob("compare*.go")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	seen := 0
	for _, name := range append(files, filepath.Join("help", "compare.txt"), filepath.Join("..", "..", "testdata", "scripts", "compare.txtar")) {
		if filepath.Base(name) == "compare_words_test.go" {
			continue
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Empty(t, claims.FindAllString(string(text), -1), name)
		seen++
	}
	assert.GreaterOrEqual(t, seen, 4)
}

func TestPInWords(t *testing.T) {
	for _, c := range []struct {
		p              float64
		words, figures string
	}{
		{1, "all", "1.00"},
		{0.97, "about 19 of 20", "0.97"},
		{0.51, "about 5 of 10", "0.51"},
		{0.2, "about 1 of 5", "0.20"},
		{0.05, "about 1 of 20", "0.050"},
		{2.0 / 252, "about 1 of 130", "0.0079"},
		{1e-5, "about 1 of 100000", "0.000010"},
		{9.1e-5, "about 1 of 11000", "0.000091"},
	} {
		assert.Equal(t, c.words, oneOf(c.p), "%g", c.p)
		assert.Equal(t, c.figures, twoFigures(c.p), "%g", c.p)
	}
}
