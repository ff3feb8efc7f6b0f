package main

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// Progress speaks from the first second on, once a second, over its own line, and
// takes the line back at the end. The clock is the test's.
func TestProgressSpeaksOnceASecond(t *testing.T) {
	var talk bytes.Buffer
	clock := time.Date(2026, 4, 6, 12, 0, 0, 0, time.UTC)
	told := progressTo(&talk, "files", func() time.Time { return clock })
	for n, c := range []struct {
		after time.Duration
		want  string
	}{
		{900 * time.Millisecond, ""},
		{200 * time.Millisecond, "\r\x1b[K2 of 9 files"},
		{500 * time.Millisecond, ""},
		{600 * time.Millisecond, "\r\x1b[K4 of 9 files"},
		{2 * time.Second, "\r\x1b[K5 of 9 files"},
	} {
		clock = clock.Add(c.after)
		told(n+1, 9)
		assert.Equal(t, c.want, talk.String(), "call %d", n+1)
		talk.Reset()
	}
	told(9, 9)
	assert.Equal(t, "\r\x1b[K", talk.String())

	// A quick job says nothing at all.
	talk.Reset()
	told = progressTo(&talk, "files", func() time.Time { return clock })
	for n := range 9 {
		told(n+1, 9)
	}
	assert.Empty(t, talk.String())
}

func TestWhatIsDoneIsToldOnTerminalsAlone(t *testing.T) {
	var talk bytes.Buffer
	v := voice{talk: &talk}
	v.doing("reading the diary")()
	assert.Empty(t, talk.String())
	assert.Nil(t, v.progress("files"))
}
