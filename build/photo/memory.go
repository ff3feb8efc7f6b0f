package photo

import (
	"image/color"
	"sync"
)

// budget lets work in by the memory it will take. It exists because pictures differ a thousandfold: a
// number of workers that is right for drawings would take 10 GiB for a folder of a modern camera's pictures.
type budget struct {
	mu    sync.Mutex
	freed *sync.Cond
	size  int64 // bytes that may be in use
	used  int64
}

func newBudget(size int64) *budget {
	b := &budget{size: size}
	b.freed = sync.NewCond(&b.mu)
	return b
}

// memory is shared by every Render of the process: 256 MiB are six plain pictures of 12 megapixels at a time.
var memory = newBudget(256 << 20)

// take waits until n bytes are free. More than there are in all get in alone.
func (b *budget) take(n int64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for b.used > 0 && b.used+n > b.size {
		b.freed.Wait()
	}
	b.used += n
}

func (b *budget) give(n int64) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.used -= n
	b.freed.Broadcast()
}

// memory estimates the bytes that decoding takes at its height, from above: the pixels, for progressive JPEG four bytes
// of coefficient a sample beside them, for interlaced PNG and transparent WebP a second picture.
func (h head) memory() int64 {
	perPixel := int64(4)
	switch {
	case h.progressive:
		perPixel = 3 + 12
	case h.format.name == "JPEG":
		perPixel = 3
		if h.config.ColorModel == color.CMYKModel {
			perPixel = 8
		}
	case h.config.ColorModel == color.RGBA64Model, h.config.ColorModel == color.NRGBA64Model:
		perPixel = 8
	}
	if h.format.name != "JPEG" {
		perPixel *= 2
	}
	perPixel += 3 // the planes that PNG and the like are turned into
	return perPixel * int64(h.width) * int64(h.height)
}
