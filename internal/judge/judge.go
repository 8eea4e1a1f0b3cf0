// Package judge lets tests hand our files to readers that are not ours: general
// libraries for open formats, driven by the small scripts in tools/judges. What
// such a reader makes of a file is evidence that our own reader, written by the
// same hand as the writer, cannot give.
//
// The libraries for Node are installed by 'npm ci' in tools/judges, those for
// Python by the system. Where one is missing the test skips and says so, through
// package noskip: not in continuous integration.
package judge

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"rodwork/internal/noskip"
)

// folder finds tools/judges, upwards from the test's own folder.
func folder(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, "tools", "judges")
		}
		if up := filepath.Dir(dir); up != dir {
			dir = up
			continue
		}
		t.Fatal("the test does not run within the module")
	}
}

// Node runs a script of tools/judges that needs the named npm package, and
// decodes the JSON that it prints into out.
func Node(t testing.TB, needs, script string, out any, args ...string) {
	t.Helper()
	program := noskip.Program(t, "node", "nodejs")
	dir := folder(t)
	if _, err := os.Stat(filepath.Join(dir, "node_modules", needs)); err != nil {
		noskip.Skip(t, "npm package "+needs+" is not installed: npm ci in tools/judges")
	}
	run(t, exec.Command(program, append([]string{filepath.Join(dir, script)}, args...)...), out)
}

// Python runs a script of tools/judges that needs the named module ("" for
// none beside the standard library), and decodes the JSON that it prints. Where
// a machine has several Pythons, the system's own may have the module and the
// one that is found first not: both are tried.
func Python(t testing.TB, needs, script string, out any, args ...string) {
	t.Helper()
	for _, program := range []string{noskip.Program(t, "python3"), "/usr/bin/python3"} {
		if needs == "" || exec.Command(program, "-c", "import "+needs).Run() == nil {
			run(t, exec.Command(program, append([]string{filepath.Join(folder(t), script)}, args...)...), out)
			return
		}
	}
	noskip.Skip(t, "Python's module "+needs+" is not installed")
}

func run(t testing.TB, c *exec.Cmd, out any) {
	t.Helper()
	var said bytes.Buffer
	c.Stderr = &said
	text, err := c.Output()
	if err != nil {
		t.Fatalf("%s: %v\n%s", c.Args[1], err, said.Bytes())
	}
	if err := json.Unmarshal(text, out); err != nil {
		t.Fatalf("%s printed no JSON: %v\n%.500s", c.Args[1], err, text)
	}
}
