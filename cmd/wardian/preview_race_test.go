//go:build race

package main

// racing says that the race detector watches, under which all is slower some ten
// times.
const racing = true
