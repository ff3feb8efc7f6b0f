package address

import (
	"path"
	"strings"
)

// nameLength bounds what of a picture's diary path is kept in its name, so that
// no file system finds it too long.
const nameLength = 60

// Picture names a picture of the site: readable words of its diary path
// ("photos/2026-04-06/b26-03-2.jpg"), and a hash of that path and of data, whose
// change must change the name, since browsers keep a picture for ever. Two
// pictures never share a name, however their paths are spelled; pictures of the
// site are JPEGs, whatever the camera wrote.
func Picture(diaryPath string, data []byte) string {
	words := strings.TrimPrefix(diaryPath, "photos/")
	words = slug(strings.TrimSuffix(words, path.Ext(words)), "", nameLength)
	if words == "" {
		words = "picture"
	}
	return "pictures/" + words + "-" + fingerprint([]byte(diaryPath), data) + ".jpg"
}
