package cli

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"rodwork/examples"
)

// TestMain makes this test binary the program, for the scripts that call it.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"rodwork": func() { os.Exit(Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) },
	})
}

// TestScripts runs the commands as a person does: one script for each subject,
// in a folder that holds the examples.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(env *testscript.Env) error {
			env.Setenv("HOME", filepath.Join(env.WorkDir, "home"))
			env.Setenv("LocalAppData", filepath.Join(env.WorkDir, "home"))
			env.Setenv("DISPLAY", "")
			env.Setenv("WAYLAND_DISPLAY", "")
			if err := os.CopyFS(filepath.Join(env.WorkDir, "bends"), os.DirFS("testdata/bends")); err != nil {
				return err
			}
			return os.CopyFS(filepath.Join(env.WorkDir, "examples"), examples.Files)
		},
	})
}
