package build

import "runtime"

// Spare is the memory, in bytes, that Room sets aside.
const Spare = 64 << 20

// Room lets the heap grow further before garbage is looked for, until back is
// called. Reading a diary and building its site once keeps nearly all that it
// makes and is over: looking through the whole diary again and again for the few
// pages that are done with costs more than the memory does. What is set aside is
// never touched, and so takes no memory of its own; it only counts when the next
// look is due, which is when as much was made as it and the diary hold together.
func Room() (back func()) {
	// In pieces, since one that begins where something lay before is wiped whole.
	aside := make([][]byte, 8)
	for n := range aside {
		aside[n] = make([]byte, Spare/len(aside))
	}
	return func() { runtime.KeepAlive(aside) }
}
