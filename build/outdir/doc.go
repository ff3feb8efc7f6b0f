// Package outdir puts a finished site in the place of the old one, whole or not at all.
//
// A site is made in a folder beside its target and takes the target's place in one step. Whatever
// happens meanwhile (a full disk, a failing one, a kill, a power cut), the target holds the old
// site or the new one, byte for byte; the next build clears away what an interrupted one left.
//
// For a target P/shown everything that isn't the site itself lies in two entries beside it:
//
//	P/.shown.wardian-lock    held while a build runs, gone after
//	P/.shown.wardian-stage/  the stage: made-by-wardian, site/, and for the second way below
//	                         old/ and journal
//
// Both stand on the target's mount, which is what makes a rename possible, and both names open
// with a dot. The names are fixed, not random: the lock lets one build in at a time, so there is
// never a second stage, and an interrupted one is found without searching.
//
// # What each system promises
//
// Linux: renameat2(RENAME_EXCHANGE). The target's name leads to the old site or the new one at
// every moment, for every reader. One syncfs(2) before it writes the whole stage to disk, one
// fsync(2) of the parent folder after it makes the exchange lasting.
//
// macOS: renamex_np(RENAME_SWAP), which promises the same on APFS. There is no syncfs there: each
// file and folder gets an fsync(2), and the last one F_FULLFSYNC, which empties the drive's cache.
//
// Windows, and kernels or file systems that know no exchange (EINVAL, ENOSYS, ENOTSUP, EXDEV,
// EPERM from a sandbox): the complete stage is written to disk with its marker last, then a
// journal, then the old site is renamed into the stage and the new one to the target. A reader
// between the two renames finds nothing at that path for some microseconds; a process killed there
// leaves it so until the next build, which finds the journal and puts the new site in place before it
// does anything else. A rename that fails (rather than dies) is undone at once. On Windows a folder
// can't be flushed, and a file of the old site that is open in another program stops the exchange:
// an error, and the old site stays. The Windows and macOS halves are compiled and vetted but were
// not run by their author; the second way itself was tested on Linux, at every step.
//
// Nowhere promised: the times of files; the owner, extra attributes or mode that someone gave the
// old folder; a program whose working folder is the target (it stays in the old one, which goes).
//
// # What it refuses
//
// It never touches a folder that it did not write. A file named .made-by-wardian in the site says
// so and lists the site's files; a folder that isn't empty and has none is refused, and so is one
// that holds a file which isn't on its list (someone's .git or CNAME would be lost with the old
// site). The files that desktops drop everywhere (.DS_Store, Thumbs.db, desktop.ini) don't count.
// Refused too: a symbolic link, a file, the root, and what the caller names in Options.
//
// Two builds of one target don't wait for each other: the second gets ErrBusy at once, since it
// would most often build the same thing again.
//
// # Same diary, same bytes
//
// Files have mode 0644 and folders 0755 whatever the umask, the marker lists files in byte order,
// and paths that would be one file on another system (other case, other Unicode form, a device name
// of Windows) are refused everywhere. If nothing differs from the old site it is left alone.
//
// The package knows nothing of diaries or pages. It imports nothing of the project.
package outdir
