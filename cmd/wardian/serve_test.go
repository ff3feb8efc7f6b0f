package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The example is served until the command is stopped; then its folder is gone
// and the code is 130.
func TestTryServesUntilStopped(t *testing.T) {
	if racing {
		t.Skip("all the example's pictures are made here: it is done without the race detector")
	}
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
