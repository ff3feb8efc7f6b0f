//go:build !race

package build_test

const racing = false
