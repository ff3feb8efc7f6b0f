package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestASiteIsServedUnderItsOwnNameOnly(t *testing.T) {
	files := fstest.MapFS{"index.html": {Data: []byte("the front")}}
	handler := ownNameOnly(4711, http.FileServerFS(files))
	for _, c := range []struct {
		method, host, path string
		want               int
	}{
		{"GET", "127.0.0.1:4711", "/", 200},
		{"HEAD", "127.0.0.1:4711", "/", 200},
		{"GET", "localhost:4711", "/", 200},
		{"GET", "[::1]:4711", "/", 200},
		{"GET", "127.0.0.1:4711", "/nowhere.html", 404},
		{"GET", "127.0.0.1", "/", 403},
		{"GET", "127.0.0.1:4712", "/", 403},
		{"GET", "localhost.", "/", 403},
		{"GET", "localhost:4711.example.org", "/", 403},
		{"GET", "example.org", "/", 403},
		{"GET", "example.org:4711", "/", 403},
		{"GET", "", "/", 403},
		{"POST", "127.0.0.1:4711", "/", 405},
		{"PUT", "127.0.0.1:4711", "/index.html", 405},
		{"DELETE", "localhost:4711", "/index.html", 405},
		{"OPTIONS", "localhost:4711", "/", 405},
		{"POST", "example.org", "/", 403},
	} {
		r := httptest.NewRequest(c.method, "http://placeholder"+c.path, nil)
		r.Host = c.host
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		assert.Equal(t, c.want, w.Code, "%s %s at host %q", c.method, c.path, c.host)
		assert.Empty(t, w.Header().Get("Access-Control-Allow-Origin"))
	}
}

// The example is served until the command is stopped; then its folder is gone
// and the code is 130.
func TestTryServesUntilStopped(t *testing.T) {
	temp := t.TempDir()
	t.Setenv("TMPDIR", temp)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	out, data := io.Pipe()
	var talk bytes.Buffer
	ended := make(chan int, 1)
	go func() {
		code := run(ctx, []string{"try"}, nil, data, &talk)
		data.Close()
		ended <- code
	}()
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	address := strings.TrimSpace(line)
	require.Regexp(t, `^http://127\.0\.0\.1:\d+/$`, address)
	answer, err := http.Get(address)
	require.NoError(t, err)
	page, err := io.ReadAll(answer.Body)
	answer.Body.Close()
	require.NoError(t, err)
	assert.Equal(t, 200, answer.StatusCode)
	assert.Contains(t, string(page), "<!doctype html>")
	answer, err = http.Get(address + "../diary.yaml")
	require.NoError(t, err)
	answer.Body.Close()
	assert.Equal(t, 404, answer.StatusCode)

	stop()
	assert.Equal(t, exitStopped, <-ended)
	left, err := filepath.Glob(filepath.Join(temp, "wardian-try-*"))
	require.NoError(t, err)
	assert.Empty(t, left, "the built example is gone")
	_, err = os.Stat(temp)
	require.NoError(t, err)
}
