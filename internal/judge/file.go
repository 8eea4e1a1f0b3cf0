package judge

import (
	"os"
	"path/filepath"
	"testing"

	"rodwork/internal/noskip"
)

// File returns a file of an npm package that is installed in tools/judges, for
// judges that run in a browser. It skips the test where the package is missing.
func File(t testing.TB, pkg, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(folder(t), "node_modules", pkg, filepath.FromSlash(name)))
	if err != nil {
		noskip.Skip(t, "npm package "+pkg+" is not installed: npm ci in tools/judges")
	}
	return b
}
