//go:build race

package patience

const slowness = 15
