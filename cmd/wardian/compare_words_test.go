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
