//go:build race

package main

import "os"

// racing says that the race detector watches, under which all is slower some ten
// times. What repeats one thing, and what looks at figures, words or another
// program's work, is then done in part or left out; without the detector all of
// it is done (.ci/run does both).
const racing = true

// A command that the detector watches lingers for a second when it has ended, to
// see what still runs. The tests call it some hundred times: a fiftieth is enough.
func init() {
	if os.Getenv("GORACE") == "" {
		os.Setenv("GORACE", "atexit_sleep_ms=20")
	}
}
