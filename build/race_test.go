//go:build race

package build_test

// racing says that the race detector watches, under which all is slower some ten
// times. What only looks at pages that are made, or has another program look at
// them, is then done in part or left out; without the detector all of it is done
// (.ci/run does both).
const racing = true
