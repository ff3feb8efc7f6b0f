package main

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/themes"
)

// Help names every template and every custom property that there is, and no other.
func TestHelpTellsOfTheLook(t *testing.T) {
	text := helped(t, "style")
	root := regexp.MustCompile(`:root\{([^}]*)\}`).FindStringSubmatch(string(build.Style()))
	require.NotNil(t, root)
	var roles []string
	for _, m := range regexp.MustCompile(`(?:^|;)(--[a-z0-9-]+):`).FindAllStringSubmatch(root[1], -1) {
		roles = append(roles, m[1])
	}
	require.Greater(t, len(roles), 30)
	var told, names []string
	for _, word := range strings.Fields(text) {
		switch {
		case strings.HasPrefix(word, "--"):
			told = append(told, word)
		case strings.HasSuffix(word, ".html") && !strings.Contains(word, "/"):
			names = append(names, word)
		}
	}
	slices.Sort(roles)
	slices.Sort(told)
	assert.Equal(t, roles, told)
	assert.Equal(t, themes.Names(), names)
}
