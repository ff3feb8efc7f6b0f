package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pictureCommand is "picture FILE TIME" in a script: a JPEG as a camera leaves it,
// last written at a time.
func pictureCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: picture FILE TIME")
	}
	at, err := time.Parse(time.RFC3339, args[1])
	ts.Check(err)
	picture := image.NewRGBA(image.Rect(0, 0, 640, 480))
	for y := range 480 {
		for x := range 640 {
			picture.Set(x, y, color.RGBA{uint8(x), uint8(y), 96, 255})
		}
	}
	var b bytes.Buffer
	ts.Check(jpeg.Encode(&b, picture, nil))
	file := ts.MkAbs(args[0])
	ts.Check(os.MkdirAll(filepath.Dir(file), 0o755))
	ts.Check(os.WriteFile(file, b.Bytes(), 0o644))
	ts.Check(os.Chtimes(file, at, at))
}

// seenCommand is "seen DIARY PAGE WORDS" in a script: the preview of a diary shows
// the page with these words and with a picture, which is fetched and decoded.
func seenCommand(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: seen DIARY PAGE WORDS")
	}
	site := fmt.Sprintf("http://127.0.0.1:%d/", usualPort(ts.MkAbs(args[0])))
	var page []byte
	for range 200 {
		if page, _ = got(site + args[1]); bytes.Contains(page, []byte(args[2])) {
			break
		}
		time.Sleep(50 * time.Millisecond)
	}
	if !bytes.Contains(page, []byte(args[2])) {
		ts.Fatalf("%s%s doesn't say %q:\n%s", site, args[1], args[2], page)
	}
	m := regexp.MustCompile(`<img [^>]*src="\.\./([^"]+)"`).FindSubmatch(page)
	if m == nil {
		ts.Fatalf("no picture on %s", args[1])
	}
	data, err := got(site + string(m[1]))
	ts.Check(err)
	_, err = jpeg.Decode(bytes.NewReader(data))
	ts.Check(err)
}

func got(address string) ([]byte, error) {
	r, err := http.Get(address)
	if err != nil {
		return nil, err
	}
	defer r.Body.Close()
	return io.ReadAll(r.Body)
}

// The newcomer's script types commands of the README alone, five at most, from
// the first to the preview.
func TestTheNewcomerTypesWhatTheReadmeSays(t *testing.T) {
	script, err := os.ReadFile(filepath.Join("..", "..", "testdata", "scripts", "newcomer.txtar"))
	require.NoError(t, err)
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	var typed []string
	for line := range strings.Lines(string(script)) {
		if _, command, ok := strings.Cut(line, "exec wardian "); ok {
			command, _, _ = strings.Cut(strings.TrimSpace(command), " &")
			typed = append(typed, command)
		}
	}
	require.NotEmpty(t, typed)
	assert.LessOrEqual(t, len(typed), 5)
	assert.True(t, strings.HasPrefix(typed[0], "start "))
	assert.True(t, strings.HasPrefix(typed[len(typed)-1], "preview "))
	for _, command := range typed {
		assert.True(t, strings.Contains(string(readme), "$ wardian "+command+"\n"), "the README doesn't have: wardian %s", command)
	}
}

func parsedTime(t testing.TB, text string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, text)
	require.NoError(t, err)
	return at
}
