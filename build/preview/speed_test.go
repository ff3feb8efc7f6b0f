package preview

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkSaveToServed is the preview's own share of what a grower waits for,
// the reading of the folder taken to cost nothing: from the rename that saves a
// file until the open page was told and served. The quiet time is in it. Folders
// of 1 000 and 10 000 files, twenty in each, since a plant has its own.
func BenchmarkSaveToServed(b *testing.B) {
	for _, files := range []int{1_000, 10_000} {
		b.Run(fmt.Sprint(files), func(b *testing.B) {
			root := b.TempDir()
			for n := range files {
				put(b, root, fmt.Sprintf("check-ins/%d/%d.md", n/20, n), "words")
			}
			ctx, stop := context.WithCancel(context.Background())
			at := filepath.Join(root, "check-ins", "7", "141.md")
			address, ended := make(chan string, 1), make(chan error, 1)
			go func() {
				ended <- Run(ctx, Options{Folder: root, Ready: func(a string) { address <- a }, Read: func(Change) Reading {
					data, err := os.ReadFile(at)
					return Reading{Site: fixed{"index.html": small + string(data)}, Err: err}
				}})
			}()
			site := <-address
			answer, err := http.Get(site + "preview/changes?page=/")
			require.NoError(b, err)
			stream := bufio.NewReader(answer.Body)
			next := func() {
				for {
					line, err := stream.ReadString('\n')
					require.NoError(b, err)
					if strings.HasPrefix(line, "data: ") {
						return
					}
				}
			}
			next()
			var took []time.Duration
			for i := 0; b.Loop(); i++ {
				beside := filepath.Join(root, ".beside")
				require.NoError(b, os.WriteFile(beside, []byte(fmt.Sprint("edit ", i)), 0o644))
				began := time.Now()
				require.NoError(b, os.Rename(beside, at))
				next()
				page, err := http.Get(site)
				require.NoError(b, err)
				body, err := io.ReadAll(page.Body)
				require.NoError(b, err)
				page.Body.Close()
				took = append(took, time.Since(began))
				require.Contains(b, string(body), fmt.Sprint("edit ", i))
			}
			slices.Sort(took)
			b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "ms-median")
			b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "ms-p99")
			answer.Body.Close()
			stop()
			require.ErrorIs(b, <-ended, context.Canceled)
		})
	}
}
