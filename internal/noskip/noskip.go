// Package noskip is the one way in which a test may skip itself. On a maker's
// machine a test that lacks a browser or a reader of figures skips and says
// why; where RODWORK_NO_SKIP is 1, as in continuous integration, the same test
// fails, so that nothing goes untested unnoticed. A test of the import policy
// demands that no other file calls Skip.
package noskip

import (
	"os"
	"os/exec"
	"strings"
	"testing"
)

// Skip ends the test: skipped with the reason, or failed with it where no test
// may skip.
func Skip(t testing.TB, reason string) {
	t.Helper()
	if os.Getenv("RODWORK_NO_SKIP") == "1" {
		t.Fatalf("would skip, and RODWORK_NO_SKIP=1 forbids it: %s", reason)
	}
	t.Skip(reason)
}

// Program returns the path of the first of the named programs that is
// installed; it skips the test where there is none.
func Program(t testing.TB, names ...string) string {
	t.Helper()
	for _, n := range names {
		if path, err := exec.LookPath(n); err == nil {
			return path
		}
	}
	Skip(t, "none of these programs is installed: "+strings.Join(names, ", "))
	return ""
}
