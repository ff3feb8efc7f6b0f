//go:build !race

package themes

const racing = false
