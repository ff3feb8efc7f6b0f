package build

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"wardian/build/outdir"
	"wardian/build/photo"
)

// Making a picture small costs more than all the rest of a build, so it is done
// once in a picture's life: the small one is kept in the diary's cache under a
// hash of the camera's bytes and of how it is made. A kept picture bears the hash
// of its own bytes; one that was cut short or changed is made again. The cache is
// safe to delete, and a cache that can't be written is no reason to fail.

// making names how pictures are made; it changes when they come out otherwise.
const making = "1200 wide, jpeg 82, catmull-rom, 1"

// keep is a folder in which small pictures are kept; the zero keep keeps none.
type keep struct {
	dir string

	mu   sync.Mutex
	used map[string]bool
}

// newKeep keeps pictures in a folder, made when it is first needed; "" keeps
// none.
func newKeep(dir string) *keep { return &keep{dir: dir, used: map[string]bool{}} }

// small makes a picture small, or takes it from the cache.
func (k *keep) small(data []byte) (jpeg []byte, width, height int, err error) {
	if k.dir == "" {
		return photo.Render(data, pictureWidth)
	}
	h := sha256.New()
	h.Write([]byte(making))
	h.Write(data)
	name := hex.EncodeToString(h.Sum(nil)) + ".picture"
	k.mu.Lock()
	k.used[name] = true
	k.mu.Unlock()
	path := filepath.Join(k.dir, name)
	if kept, err := os.ReadFile(path); err == nil {
		if jpeg, width, height, ok := unpack(kept); ok {
			return jpeg, width, height, nil
		}
		os.Remove(path)
	}
	jpeg, width, height, err = photo.Render(data, pictureWidth)
	if err == nil {
		outdir.WriteNew(path, pack(jpeg, width, height)) // without it the next build makes it again
	}
	return jpeg, width, height, err
}

// pack writes a kept picture: the hash of all that follows, its sides, its bytes.
func pack(jpeg []byte, width, height int) []byte {
	body := binary.BigEndian.AppendUint32(nil, uint32(width))
	body = binary.BigEndian.AppendUint32(body, uint32(height))
	body = append(body, jpeg...)
	sum := sha256.Sum256(body)
	return append(sum[:], body...)
}

func unpack(kept []byte) (jpeg []byte, width, height int, ok bool) {
	if len(kept) < sha256.Size+8 {
		return nil, 0, 0, false
	}
	sum, body := kept[:sha256.Size], kept[sha256.Size:]
	if want := sha256.Sum256(body); !bytes.Equal(sum, want[:]) {
		return nil, 0, 0, false
	}
	return body[8:], int(binary.BigEndian.Uint32(body)), int(binary.BigEndian.Uint32(body[4:])), true
}

// forget clears away what this build didn't use. Only kept pictures are touched.
func (k *keep) forget() {
	if k.dir == "" {
		return
	}
	entries, err := os.ReadDir(k.dir)
	if errors.Is(err, fs.ErrNotExist) {
		return
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) == ".picture" && !k.used[e.Name()] {
			os.Remove(filepath.Join(k.dir, e.Name()))
		}
	}
}
