package build_test

import (
	"bufio"
	"bytes"
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

	"wardian/build"
	"wardian/build/preview"
	"wardian/content"
	"wardian/content/measure"
)

// BenchmarkEditToPage measures what a grower waits for under preview: from the
// writing of one edited check-in until its plant's page, open in a browser, was
// told of the change and served anew. The figures beside are the median and the
// 99th percentile of that, and the median without the quiet time that the watcher
// waits for; a few dozen edits make the percentile a rough one (use -benchtime
// 300x for a better).
func BenchmarkEditToPage(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			dir := b.TempDir()
			require.NoError(b, os.CopyFS(dir, generated(n)))
			ctx, stop := context.WithCancel(context.Background())
			address, told, ended := make(chan string, 1), make(chan preview.Told, 64), make(chan error, 1)
			reader, root := build.NewReader(), os.DirFS(dir)
			go func() {
				ended <- preview.Run(ctx, preview.Options{Folder: dir, Style: build.Style(),
					Read: func(c preview.Change) preview.Reading {
						var changed []string
						for _, p := range c.Paths {
							changed = append(changed, p.Name)
						}
						if c.All {
							changed = nil
						}
						s, findings, err := reader.Read(root, root, content.Options{Today: measure.NoDay}, changed)
						return preview.Reading{Site: s, Findings: findings, Err: err}
					},
					Ready: func(at string) { address <- at },
					Told:  func(t preview.Told) { told <- t },
				})
			}()
			site := <-address
			first := <-told
			require.NoError(b, first.Err)
			b.Logf("first reading %s", first.Took.Round(time.Millisecond))

			page := "specimens/g0-03.html"
			answer, err := http.Get(site + "preview/changes?page=/" + page)
			require.NoError(b, err)
			stream := bufio.NewReaderSize(answer.Body, 1<<16)
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
			found, err := filepath.Glob(filepath.Join(dir, "check-ins", "g0-03", "*.md"))
			require.NoError(b, err)
			require.NotEmpty(b, found)
			entry := found[len(found)/2]
			text, err := os.ReadFile(entry)
			require.NoError(b, err)

			var took, work []time.Duration
			for i := 0; b.Loop(); i++ {
				words := fmt.Sprintf("This is edit %d of this entry.", i)
				beside := filepath.Join(dir, ".beside")
				require.NoError(b, os.WriteFile(beside, append(bytes.Clone(text), words...), 0o644))
				began := time.Now()
				require.NoError(b, os.Rename(beside, entry))
				next()
				answer, err := http.Get(site + page)
				require.NoError(b, err)
				body, err := io.ReadAll(answer.Body)
				require.NoError(b, err)
				answer.Body.Close()
				took = append(took, time.Since(began))
				require.Contains(b, string(body), words)
				work = append(work, took[len(took)-1]-preview.Quiet)
				<-told
			}
			slices.Sort(took)
			slices.Sort(work)
			ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
			b.ReportMetric(ms(took[len(took)/2]), "ms-median")
			b.ReportMetric(ms(took[len(took)*99/100]), "ms-p99")
			b.ReportMetric(ms(work[len(work)/2]), "ms-work-median")
			answer.Body.Close()
			stop()
			require.ErrorIs(b, <-ended, context.Canceled)
		})
	}
}
