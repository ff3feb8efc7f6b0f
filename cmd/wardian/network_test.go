package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"net"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The network is touched in two places only, and there only by serving this
// machine: no other file of the program's own can open a connection, none asks
// anybody for anything, and other programs are run only where a person named
// them (editor and pager).
func TestNothingIsFetched(t *testing.T) {
	root := filepath.Join("..", "..")
	serving := []string{"cmd/wardian/serve.go", "build/preview/"}
	running := []string{"cmd/wardian/page.go", "cmd/wardian/scaffold.go"}
	allowed := func(file string, list []string) bool {
		for _, a := range list {
			if file == a || strings.HasSuffix(a, "/") && strings.HasPrefix(file, a) {
				return true
			}
		}
		return false
	}
	asking := map[string][]string{
		"http": {"Get", "Post", "PostForm", "Head", "Client", "DefaultClient", "Transport", "DefaultTransport", "NewRequest", "NewRequestWithContext"},
		"net": {"Dial", "DialTimeout", "Dialer", "DialTCP", "DialUDP", "DialIP", "DialUnix", "LookupHost", "LookupIP", "LookupAddr", "LookupTXT", "LookupMX", "LookupNS", "LookupCNAME", "LookupSRV", "DefaultResolver", "Resolver",
			"ListenPacket", "ListenUDP"},
	}
	files, listens := 0, 0
	require.NoError(t, filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		files++
		name, err := filepath.Rel(root, path)
		require.NoError(t, err)
		name = filepath.ToSlash(name)
		parsed, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		require.NoError(t, err)
		for _, i := range parsed.Imports {
			imported, err := strconv.Unquote(i.Path.Value)
			require.NoError(t, err)
			switch imported {
			case "net", "net/http", "crypto/tls", "net/rpc", "net/smtp":
				assert.True(t, allowed(name, serving), "%s imports %s", name, imported)
			case "os/exec":
				assert.True(t, allowed(name, running), "%s runs programs", name)
			}
		}
		ast.Inspect(parsed, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				if s, ok := call.Fun.(*ast.SelectorExpr); ok && isName(s.X, "net") && s.Sel.Name == "Listen" {
					listens++
					listensToItself(t, name, parsed)
				}
			}
			s, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			for pkg, names := range asking {
				if isName(s.X, pkg) {
					assert.NotContains(t, names, s.Sel.Name, "%s: %s.%s", name, pkg, s.Sel.Name)
				}
			}
			return true
		})
		return nil
	}))
	require.Greater(t, files, 200)
	require.GreaterOrEqual(t, listens, 2)
}

// listensToItself holds a file that opens a port to the addresses that it names:
// all of them are this machine's own, and none stands for every address.
func listensToItself(t *testing.T, name string, file *ast.File) {
	own := 0
	ast.Inspect(file, func(n ast.Node) bool {
		text, ok := n.(*ast.BasicLit)
		if !ok || text.Kind != token.STRING {
			return true
		}
		words, err := strconv.Unquote(text.Value)
		require.NoError(t, err)
		assert.False(t, words == ":" || strings.HasPrefix(words, ":%") || strings.HasPrefix(words, ":0"), "%s listens to every address: %s", name, words)
		if ip := net.ParseIP(strings.TrimSuffix(words, ":%d")); ip != nil {
			own++
			assert.True(t, ip.IsLoopback(), "%s listens at %s", name, words)
		}
		return true
	})
	assert.Positive(t, own, "%s names no address", name)
}

func isName(e ast.Expr, name string) bool {
	id, ok := e.(*ast.Ident)
	return ok && id.Name == name
}
