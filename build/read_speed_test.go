package build_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wardian/build"
	"wardian/content"
	"wardian/content/measure"
)

// BenchmarkReadAgain measures what one edited check-in asks of reading and
// planning, and of making its plant's page: no disk, no watching, no server.
func BenchmarkReadAgain(b *testing.B) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			files := generated(n)
			var entries []string
			for at := range files {
				if strings.HasPrefix(at, "check-ins/g0-03/") {
					entries = append(entries, at)
				}
			}
			slices.Sort(entries)
			at := entries[len(entries)/2]
			text := files[at].Data
			reader := build.NewReader()
			_, _, err := reader.Read(files, files, content.Options{Today: measure.NoDay}, nil)
			require.NoError(b, err)
			for i := 0; b.Loop(); i++ {
				words := fmt.Sprintf("This is edit %d of this entry.", i)
				files[at] = &fstest.MapFile{Data: append(bytes.Clone(text), words...)}
				s, _, err := reader.Read(files, files, content.Options{Today: measure.NoDay}, []string{at})
				require.NoError(b, err)
				data, ok, err := s.File("specimens/g0-03.html")
				require.NoError(b, err)
				require.True(b, ok)
				s.Marks()
				require.Contains(b, string(data), words)
			}
		})
	}
}
