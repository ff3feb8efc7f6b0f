package address

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"

	"wardian/content"
)

// Anchor names an entry on every page that shows it: "entry-2026.04-06" for
// check-ins/2026/04-06.md. Two entries never share one, since it is made of the
// path.
func Anchor(e *content.Entry) string {
	path := strings.TrimPrefix(e.Path, "check-ins/")
	return "entry-" + exact(path, strings.ReplaceAll(path, "/", "."), strings.Contains(path, "."))
}

// SeasonAnchor names a season on the page of all seasons.
func SeasonAnchor(season string) string {
	return "season-" + exact(season, strings.ReplaceAll(season, " ", "-"), strings.Contains(season, "-"))
}

// exact gives readable where that is made of plain characters only and stands for
// nothing else; otherwise what is plain of it and, behind a low line, a hash of
// the whole: no readable name holds a low line.
func exact(whole, readable string, doubtful bool) string {
	plain := slug(readable, ".", len(readable))
	if plain == readable && plain != "" && !doubtful {
		return plain
	}
	return plain + "_" + fingerprint([]byte(whole))
}

// slug keeps letters (made small), digits and some other characters of a text,
// at most so many; any run of others between them becomes a hyphen.
func slug(text, others string, most int) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(text) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || strings.ContainsRune(others, r) {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			if gap = false; b.Len() >= most {
				break
			}
			b.WriteRune(r)
		} else {
			gap = true
		}
	}
	return b.String()
}

// fingerprint shortens a SHA-256 to 40 bits: among ten thousand names, two meet
// by chance once in twenty thousand diaries.
func fingerprint(parts ...[]byte) string {
	h := sha256.New()
	for _, p := range parts {
		h.Write(p)
		h.Write([]byte{0})
	}
	return hex.EncodeToString(h.Sum(nil)[:5])
}
