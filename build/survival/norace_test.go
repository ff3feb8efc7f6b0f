//go:build !race

package survival

const racing = false
