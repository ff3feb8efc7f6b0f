// Package patience says how long reading may take before a test calls it a hang.
// It is for tests alone: no text that a person writes, however odd, may keep a
// parser longer than a second for each 64 KiB. Under the race detector, which
// slows code some ten times, the same code gets that much longer.
package patience

import "time"

// For is the longest that a text of so many bytes may take.
func For(bytes int) time.Duration {
	return time.Duration(1+bytes/(64<<10)) * time.Second * slowness
}

// Times is how often a test repeats what it does at random: a part of what it is
// asked for under the race detector, where each time takes longer.
func Times(n int) int { return (n + slowness - 1) / slowness }
