package main

import (
	"flag"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"wardian": main})
}

// The scripts type what a user types. A folder without scripts is a failure, not
// a pass.
func TestScripts(t *testing.T) {
	dir := filepath.Join("..", "..", "testdata", "scripts")
	scripts, err := filepath.Glob(filepath.Join(dir, "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, scripts)
	testscript.Run(t, testscript.Params{
		Dir: dir, UpdateScripts: *update, RequireExplicitExec: true, RequireUniqueNames: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"picture": pictureCommand, "seen": seenCommand},
		Setup: func(e *testscript.Env) error {
			help, err := filepath.Abs("help")
			e.Setenv("HELP", help)
			e.Setenv("TMPDIR", e.WorkDir)
			return err
		},
	})
}
