package build_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"
)

// tinyPicture is a picture of eight by six pixels.
var tinyPicture = func() []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 6)), nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}()

var (
	article = regexp.MustCompile(`(?s)<article.*</article>`)
	ways    = regexp.MustCompile(`(?s)<p class="by">.*?</p>`)
)

// letterOf is a letter's own part of its page, without its date line and the
// ways to others.
func letterOf(t *testing.T, page []byte) string {
	t.Helper()
	body := article.Find(page)
	require.NotEmpty(t, body)
	return string(ways.ReplaceAll(body, nil))
}
