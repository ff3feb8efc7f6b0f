//go:build !race

package chart

const racing = false
