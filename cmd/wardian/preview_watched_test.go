package main

import (
	"context"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/build/preview"
)

// Two thousand random operations, ten thousand where everything is checked
// (WARDIAN_CI=1), and two hundred under the race detector, as fast as the disk takes
// them and told by the system: when it is quiet, what the preview serves is to the
// byte what a site made from scratch serves (standards A11), with the diary as the
// operations left it and once it is mended.
func TestAWatchedFolderEndsInThePagesFromScratch(t *testing.T) {
	noGoroutineIsLeft(t)
	operations := 2_000
	switch {
	case testing.Short():
		operations = 200
	case racing:
		operations = 200
	case os.Getenv("WARDIAN_CI") != "":
		operations = 10_000
	}
	dir := everyKind(t)
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	address, ended := make(chan string, 1), make(chan error, 1)
	var mu sync.Mutex
	var last preview.Reading
	changes := 0
	r := &reader{dir: dir, on: twinsDay, reader: build.NewReader()}
	go func() {
		ended <- preview.Run(ctx, preview.Options{Folder: dir, Pass: unread, Style: build.Style(), Read: r.read,
			Ready: func(at string) { address <- at },
			Told: func(told preview.Told) {
				mu.Lock()
				defer mu.Unlock()
				last = told.Reading
				changes++
			},
		})
	}()
	at := <-address
	client := &http.Client{Transport: &http.Transport{}}
	w := &twins{dir: dir, fresh: preview.NewServer(build.Style()), untold: map[string]bool{}, ever: map[string]bool{}, pictures: map[string]bool{}}
	w.freshAt = w.fresh.Handler(twinsPort)
	w.liveAt = http.HandlerFunc(func(out http.ResponseWriter, r *http.Request) {
		answer, err := client.Get(strings.TrimSuffix(at, "/") + r.URL.Path)
		if err != nil {
			http.Error(out, err.Error(), http.StatusBadGateway)
			return
		}
		defer answer.Body.Close()
		out.Header().Set("Content-Type", answer.Header.Get("Content-Type"))
		out.WriteHeader(answer.StatusCode)
		_, _ = io.Copy(out, answer.Body)
	})
	p := &player{twins: w, files: everyKindFiles(t)}
	// Only a comparison over which nothing was told counts against the preview.
	same := func(when string) {
		t.Helper()
		for end := time.Now().Add(30 * time.Second); ; time.Sleep(50 * time.Millisecond) {
			mu.Lock()
			before := changes
			w.reading, w.fromHere = last, false // what it read last that was good is not known
			mu.Unlock()
			wrong := w.differ()
			if wrong == "" {
				return
			}
			mu.Lock()
			settled := changes == before
			mu.Unlock()
			if settled && time.Now().After(end) {
				require.Fail(t, "the preview differs", "%s\n%s", when, wrong)
			}
		}
	}
	same("at first")
	random := rand.New(rand.NewPCG(11, 10))
	for n := range operations {
		mu.Lock()
		w.reading = last
		mu.Unlock()
		w.tree = w.look()
		p.do(act{kind: random.Uint64(), which: random.Uint64(), how: random.Uint64()})
		if n%(operations/4) == operations/4-1 {
			same("after some operations")
		}
	}
	p.mend(0, 0)
	same("all mended")
	require.Greater(t, w.good, 1)
	mu.Lock()
	require.Greater(t, changes, operations/200, "the operations were told in parts")
	t.Logf("%d operations told as %d changes; %d comparisons of all pages, %d of findings", operations, changes, w.good, w.broken)
	mu.Unlock()
	client.CloseIdleConnections()
	stop()
	require.ErrorIs(t, <-ended, context.Canceled)
}
