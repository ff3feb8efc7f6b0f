// Package preview shows a site while its diary is written: a server on this
// machine that makes a page when it is asked for, tells the pages that are open
// when they have changed, and lays what is wrong over them.
//
// It is handed a folder to watch and a function that reads it. What comes back
// is a Site, of which any file can be made at any time, or the findings that
// kept one from being made; then the last good site stays, and the findings
// lie over its pages as a slip until they are mended. It knows no diary, and
// no page of a site but by its path and bytes.
//
// # What changes are seen
//
// Watching is by events, and events are never trusted: they can be lost, name
// a file by a path it no longer has, or come for half a change. An event only
// says where to look. The folder it names is listed again and compared with
// what was known of it; after an overflow everything is (see Watcher).
//
// # Who may read
//
// A diary is private until it is built, and every page of the web that is open
// in a browser on this machine can send requests here. So the server listens
// on loopback only, answers only under its own names (a name elsewhere that was
// pointed at 127.0.0.1 is not one), refuses whatever a browser says comes from
// another site, and never sends a header that lets another site read an answer
// (see gate). It serves what the Site makes, from memory; no path of a request
// ever reaches the disk.
//
// # What it refuses to do
//
// It writes no file. It does not reload an open page: the page is mended in
// place, so that scroll position, opened tables and the focus stay. Nothing of
// it is in a built site: its script, its style and its marks are put into a
// page as it is served.
package preview
