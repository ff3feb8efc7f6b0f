package content

import (
	"io/fs"
	"os"

	"golang.org/x/sys/unix"
)

// A folder of the disk, as os.Root opens it, looks every folder on the way to a
// file up anew, so that nothing outside is ever opened: five calls of the system
// for an entry, and ten thousand entries. Linux can be asked in one call for a
// file that lies beneath a folder whatever links lead where (openat2(2) with
// RESOLVE_BENEATH, Linux 5.6). What it doesn't give at once, the long way does or
// refuses: no file is read here that isn't read there.

// disk is the diary's own folder, open.
type disk struct {
	dir *os.File
	fd  int
}

// openDisk opens the folder that a file system stands for; nil where it is none.
func openDisk(files fs.FS) *disk {
	f, err := files.Open(".")
	if err != nil {
		return nil
	}
	dir, ok := f.(*os.File)
	if !ok {
		f.Close()
		return nil
	}
	return &disk{dir, int(dir.Fd())}
}

func (d *disk) close() {
	if d != nil {
		d.dir.Close()
	}
}

// list lists a folder, unsorted, in which no link leads the way; ok is false for
// any that is to be listed the long way, on which os.Root asks the system about
// each entry by itself. The entries' Info is not to be asked for: it would look for
// their names in the folder that the program runs in.
func (d *disk) list(at string) (entries []fs.DirEntry, ok bool) {
	if d == nil {
		return nil, false
	}
	fd, err := unix.Openat2(d.fd, at, &unix.OpenHow{Flags: unix.O_RDONLY | unix.O_CLOEXEC | unix.O_DIRECTORY, Resolve: unix.RESOLVE_BENEATH | unix.RESOLVE_NO_SYMLINKS})
	if err != nil {
		return nil, false
	}
	dir := os.NewFile(uintptr(fd), at)
	defer dir.Close()
	entries, err = dir.ReadDir(-1)
	return entries, err == nil
}

// read reads a file of at most so many bytes, into room where it is large enough;
// ok is false for any that is to be read the long way.
func (d *disk) read(at string, most int64, room []byte) (data []byte, ok bool) {
	if d == nil {
		return nil, false
	}
	fd, err := unix.Openat2(d.fd, at, &unix.OpenHow{Flags: unix.O_RDONLY | unix.O_CLOEXEC | unix.O_NONBLOCK, Resolve: unix.RESOLVE_BENEATH})
	if err != nil {
		return nil, false
	}
	defer unix.Close(fd)
	var info unix.Stat_t
	if unix.Fstat(fd, &info) != nil || info.Mode&unix.S_IFMT != unix.S_IFREG || info.Size > most {
		return nil, false
	}
	if data = room[:cap(room)]; len(data) <= int(info.Size) {
		data = make([]byte, info.Size+1)
	}
	n := 0
	for n < len(data) {
		got, err := unix.Read(fd, data[n:])
		if err != nil {
			return nil, false
		}
		n += got
		if got == 0 || n == int(info.Size) {
			// A plain file that gives all it has, and no more where more was asked
			// for, need not be asked again.
			return data[:n], true
		}
	}
	return nil, false // it grows while it is read
}
