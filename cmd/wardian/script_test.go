package main

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"wardian": main})
}

// figuresAlone are the scripts of which the race detector learns nothing: they are
// after figures, of diaries that hold little, or build the whole example with its
// pictures, as tests of build do.
var figuresAlone = []string{"degenerate", "forecast", "try"}

// The scripts type what a user types. A folder without scripts is a failure, not
// a pass.
func TestScripts(t *testing.T) {
	dir := filepath.Join("..", "..", "testdata", "scripts")
	scripts, err := filepath.Glob(filepath.Join(dir, "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, scripts)
	scripts = slices.DeleteFunc(scripts, func(file string) bool {
		return racing && slices.Contains(figuresAlone, strings.TrimSuffix(filepath.Base(file), ".txtar"))
	})
	testscript.Run(t, testscript.Params{
		Files: scripts, UpdateScripts: *update, RequireExplicitExec: true, RequireUniqueNames: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"picture": pictureCommand, "seen": seenCommand},
		Setup: func(e *testscript.Env) error {
			help, err := filepath.Abs("help")
			e.Setenv("HELP", help)
			e.Setenv("TMPDIR", e.WorkDir)
			e.Setenv("GORACE", os.Getenv("GORACE"))
			return err
		},
	})
}
