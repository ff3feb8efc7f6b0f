//go:build race

package themes

// racing says that the race detector watches, under which all is slower some ten
// times. What shares nothing is then done in part or left out; without the detector
// all of it is done (.ci/run does both).
const racing = true
