package build

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"sync"

	"wardian/build/page"
	"wardian/build/photo"
)

// Prints keeps pictures made small from one sight of a diary to the next: a
// picture is decoded when it is first asked for, and again only if its bytes
// change. It may be used from several goroutines at once.
type Prints struct {
	mu    sync.Mutex
	paths map[string]hash // of what the camera wrote, until Forget
	made  map[negative]*print
	order []*print // those whose bytes are kept, oldest first
	bytes int      // of them all
}

// keptBytes bounds the small pictures in memory: those made first are let go
// first, and made again if they are asked for. About a thousand stay.
const keptBytes = 192 << 20

type hash [sha256.Size]byte

// negative is a picture as the camera wrote it.
type negative struct {
	path string
	hash hash
}

// print is a picture made small, once it was asked for.
type print struct {
	making        sync.Mutex
	width, height int
	data          []byte // nil before it was made, and where it was let go
	unfit         error
}

// NewPrints keeps nothing yet.
func NewPrints() *Prints {
	return &Prints{paths: map[string]hash{}, made: map[negative]*print{}}
}

// Forget says that a picture at a diary path may have other bytes now; "" says so
// of all.
func (k *Prints) Forget(path string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if path == "" {
		clear(k.paths)
	}
	delete(k.paths, path)
}

// name is the picture's place in a site.
func (n negative) name() string { return pictureName(n.path, n.hash) }

// picture tells where a picture stands in a sight, and its size when small. The
// error is the disk's or one that unfit knows.
func (k *Prints) picture(files fs.FS, path string) (page.Picture, negative, error) {
	k.mu.Lock()
	known, ok := k.paths[path]
	k.mu.Unlock()
	n := negative{path, known}
	if !ok {
		data, err := fs.ReadFile(files, path)
		if err != nil {
			return page.Picture{}, n, fmt.Errorf("read %s: %w", path, err)
		}
		n.hash = sha256.Sum256(data)
		width, height, err := photo.Size(data, pictureWidth)
		k.mu.Lock()
		k.paths[path] = n.hash
		if k.made[n] == nil {
			k.made[n] = &print{width: width, height: height, unfit: err}
		}
		k.mu.Unlock()
	}
	k.mu.Lock()
	p := k.made[n]
	k.mu.Unlock()
	p.making.Lock()
	defer p.making.Unlock()
	return page.Picture{Path: n.name(), Width: p.width, Height: p.height}, n, p.unfit
}

// small makes a picture, or gives it as it was made.
func (k *Prints) small(files fs.FS, n negative) ([]byte, error) {
	k.mu.Lock()
	p := k.made[n]
	k.mu.Unlock()
	p.making.Lock()
	defer p.making.Unlock()
	if p.unfit != nil || p.data != nil {
		return p.data, p.unfit
	}
	data, err := fs.ReadFile(files, n.path)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", n.path, err)
	}
	if sha256.Sum256(data) != n.hash {
		return nil, fmt.Errorf("read %s: %w", n.path, errOther)
	}
	small, width, height, err := photo.Render(data, pictureWidth)
	if err != nil {
		p.unfit = err
		return nil, err
	}
	p.data, p.width, p.height = small, width, height
	k.keep(p, len(small))
	return small, nil
}

// errOther is the error of a picture that changed since the sight was planned;
// another sight is on its way.
var errOther = fmt.Errorf("it is another picture now: %w", fs.ErrNotExist)

// keep counts a picture's bytes and lets go of older ones where there are too
// many. One that is being made again just now stays.
func (k *Prints) keep(p *print, size int) {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.order = append(k.order, p)
	k.bytes += size
	for len(k.order) > 1 && k.bytes > keptBytes {
		old := k.order[0]
		if !old.making.TryLock() {
			return
		}
		k.bytes -= len(old.data)
		old.data = nil
		old.making.Unlock()
		k.order = k.order[1:]
	}
}
