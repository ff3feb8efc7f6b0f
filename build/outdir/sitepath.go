package outdir

import (
	"fmt"
	"io/fs"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// checkPath judges a path inside a site: slashes between its parts, no part that leaves the site, and
// nothing that some system writes differently or not at all. The names and characters that
// Windows keeps for itself are those of Microsoft's "Naming Files, Paths, and Namespaces" (from
// memory).
func checkPath(path string) error {
	bad := func(why string) error { return fmt.Errorf("the site can't hold %q: %s", path, why) }
	if strings.ContainsRune(path, '\\') {
		return bad("a backslash is no separator here")
	}
	if !fs.ValidPath(path) || path == "." {
		return bad("it must lead downwards from the site's folder")
	}
	if i := strings.IndexFunc(path, func(r rune) bool {
		return unicode.IsControl(r) || strings.ContainsRune(`<>:"|?*`, r)
	}); i >= 0 {
		return bad("it holds a character that not every system can write")
	}
	for _, part := range strings.Split(path, "/") {
		switch {
		case len(part) > 200:
			return bad("a name is longer than 200 bytes")
		case strings.HasSuffix(part, ".") || strings.HasSuffix(part, " ") || strings.HasPrefix(part, " "):
			return bad("a name opens or ends with a space, or ends with a dot")
		case isDevice(part):
			return bad("a name belongs to a device of Windows")
		}
	}
	if foldPath(path) == foldPath(MarkerName) {
		return bad("the name is the marker's")
	}
	return nil
}

// isDevice tells whether Windows takes a file's name for a device, with any extension.
func isDevice(part string) bool {
	stem, _, _ := strings.Cut(part, ".")
	stem = strings.ToUpper(strings.TrimRight(stem, " "))
	switch stem {
	case "CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$":
		return true
	}
	digit, found := strings.CutPrefix(stem, "COM")
	if !found {
		digit, found = strings.CutPrefix(stem, "LPT")
	}
	return found && len([]rune(digit)) == 1 && strings.ContainsAny(digit, "0123456789¹²³")
}

// foldPath gives paths the same spelling that some file system takes for the same file.
func foldPath(path string) string {
	return norm.NFC.String(strings.ToLower(norm.NFD.String(path)))
}
