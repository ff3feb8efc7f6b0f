//go:build !race

package content

const racing = false
