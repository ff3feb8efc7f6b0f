package header

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v4"

	"wardian/content/format"
)

// told tells all of a tree that is looked at.
func told(n *yaml.Node) string {
	var b strings.Builder
	var tell func(n *yaml.Node, depth int)
	tell = func(n *yaml.Node, depth int) {
		fmt.Fprintf(&b, "%s%d %q %d:%d style %d anchor %q merge %t\n", strings.Repeat("  ", depth), n.Kind, n.Value, n.Line, n.Column,
			n.Style, n.Anchor, n.Tag == "!!merge")
		for _, c := range n.Content {
			tell(c, depth+1)
		}
	}
	tell(n, 0)
	return b.String()
}

var simpleBlocks = []string{
	"date: 2026-04-06 18:02\nspecimen: b26-03\nleaves: {count: 3, sizes: [12x8 cm, 10x7 cm]}\nroots: {grade: 2}\nturgor: firm\narrival: yes\n",
	"date: 2026-04-06\nplace: tote\nspecimens:\n  b26-03: new root, roots 2 length 14, firm\n  b26-04: to cabinet\nothers: same\n",
	"name: Hoya cf. callistophylla\n\nimport: 2026-spring-b\nprice: 45",
	"did: [washed, repotted]\nnote: it's sour (a little); look again\n",
	"yes: no\nnull: null\ntrue: 12\nkey: ~x\n",
	"a: b\na: c\n",
	"a:\nb:\n  c: d\n e: f\n",
	"a:\n  b:\n  c: d\n",
	"a: b: c\n", "a: b:\n", "a:b\n", "a: {b: c, d}\n", "a: {b: [c, d], e: f}\n", "a: [b,c]\n", "a: [b, ]\n", "a: {}\n", "a: [ b, c ]\n",
	"a: b\n c\n", " a: b\n", "a:  b\n", "a: b \n", "---\na: b\n", "a: - b\n", "", "\n", "a: {b: c}d\n", "a: [b]: c\n",
}

func TestSimpleBlocksAreReadAsTheLibraryReadsThem(t *testing.T) {
	blocks := simpleBlocks
	for _, file := range format.Files() {
		for _, k := range file.Keys {
			blocks = append(blocks, k.Name+": "+k.Example+"\n")
		}
	}
	taken := 0
	for _, block := range blocks {
		if sameAsLibrary(t, block) {
			taken++
		}
	}
	assert.Greater(t, taken, len(format.Files())*4, "too few of the examples are taken as simple: the test compares nothing")
	for _, block := range simpleBlocks[:4] {
		_, ok := simple([]byte(block), &nodes{})
		assert.True(t, ok, block)
	}
}

// sameAsLibrary compares the nodes of a block that is taken as simple.
func sameAsLibrary(t *testing.T, block string) bool {
	got, ok := simple([]byte(block), &nodes{})
	if !ok {
		return false
	}
	want, err := load([]byte(block))
	require.NoError(t, err, "%q", block)
	require.NotNil(t, want, "%q", block)
	assert.Equal(t, told(want), told(got), "%q", block)
	return true
}

func FuzzSimple(f *testing.F) {
	for _, block := range simpleBlocks {
		f.Add(block)
	}
	f.Fuzz(func(t *testing.T, block string) { sameAsLibrary(t, block) })
}

func BenchmarkSimple(b *testing.B) {
	block := []byte(simpleBlocks[0])
	b.Run("here", func(b *testing.B) {
		for b.Loop() {
			room := rooms.Get().(*nodes)
			simple(block, room)
			room.drop()
		}
	})
	b.Run("library", func(b *testing.B) {
		for b.Loop() {
			if _, err := load(block); err != nil {
				b.Fatal(err)
			}
		}
	})
}
