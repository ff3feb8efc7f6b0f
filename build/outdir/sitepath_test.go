package outdir

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPathsThatASiteCannotHold(t *testing.T) {
	bad := []string{
		"", ".", "..", "/", "/index.html", "../index.html", "a/../b", "a//b", "a/", "./a", "a/.", "a/..",
		`a\b`, `..\a`, `C:\a`, "C:a", "a:b", "a\x00b", "a\nb", "a\u0085b", "a?b", "a*b", `a"b`, "a<b", "a>b", "a|b", "a\xffb",
		"a./b", "a /b", "a/ b", "a.", "a ", "con", "CON.html", "a/Nul.tar.gz", "aux", "prn.", "com1", "LPT9.txt", "com¹", "COM0", "con .txt",
		"conin$", MarkerName, strings.ToUpper(MarkerName), strings.Repeat("a", 201),
	}
	for _, path := range bad {
		assert.Error(t, checkPath(path), "%q", path)
	}
	good := []string{
		"index.html", "a/b/c.html", "specimens/b26-01.html", ".nojekyll", "com.html", "com10.html", "console.html", "auxin.html",
		"blåbær.html", "a b.html", "a..b", "...a", "open-data/" + MarkerName,
	}
	for _, path := range good {
		assert.NoError(t, checkPath(path), "%q", path)
	}
}

func TestPathsThatMeet(t *testing.T) {
	cases := []struct {
		name string
		have []string
		add  string
		why  string
	}{
		{"twice", []string{"a.html"}, "a.html", "twice"},
		{"other case", []string{"a.html"}, "A.html", "the same as"},
		{"other Unicode form", []string{"\u00e5.html"}, "a\u030a.html", "the same as"},
		{"other form and case", []string{"\u00e5.html"}, "A\u030a.html", "the same as"},
		{"folder of other case", []string{"a/b.html"}, "A/c.html", "spelt"},
		{"under a file", []string{"a"}, "a/b", "is a file"},
		{"under a file of other case", []string{"a"}, "A/b", "is a file"},
		{"where a folder is", []string{"a/b"}, "a", "is a folder"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s, err := Open(filepath.Join(t.TempDir(), "shown"), Options{})
			require.NoError(t, err)
			defer s.Discard()
			for _, have := range c.have {
				require.NoError(t, s.WriteFile(have, nil))
			}
			err = s.WriteFile(c.add, nil)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.why)
		})
	}
}

func FuzzCheckPath(f *testing.F) {
	for _, seed := range []string{"a/b.html", "../x", "con.txt", "\u00e5", "a\\b", "a/./b"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, path string) {
		if checkPath(path) != nil {
			return
		}
		require.True(t, filepath.IsLocal(filepath.FromSlash(path)), "it leaves the site")
		require.Equal(t, path, filepath.ToSlash(filepath.Clean(filepath.FromSlash(path))))
		require.Equal(t, foldPath(path), foldPath(foldPath(path)), "folding twice is not folding once")
		files, ours := parseMarker(marker([]string{path}))
		require.True(t, ours)
		require.Equal(t, map[string]bool{path: true}, files)
	})
}

func FuzzParseMarker(f *testing.F) {
	f.Add(marker([]string{"a", "b/c"}))
	f.Add([]byte("Made by Wardian.\r\n\r\na\r\n"))
	f.Add([]byte(markerOpening))
	f.Fuzz(func(t *testing.T, data []byte) {
		files, ours := parseMarker(data)
		if !ours {
			require.Nil(t, files)
			return
		}
		require.True(t, strings.HasPrefix(string(data), markerOpening))
		for f := range files {
			require.NotEmpty(t, f)
			require.NotContains(t, f, "\n")
		}
	})
}
