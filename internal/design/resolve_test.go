package design_test

import (
	"os"
	"path/filepath"
	"testing"

	"rodwork/internal/design"
)

var examples = []string{"main", "wall-shelf", "plain-box", "low-cabinet", "bookcase", "chest", "wall-cabinet", "nursery-bench", "half-round-table", "splayed-table"}

func load(t testing.TB, name string) (piece, shop []byte) {
	t.Helper()
	read := func(parts ...string) []byte {
		b, err := os.ReadFile(filepath.Join(append([]string{"..", "..", "examples"}, parts...)...))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	if _, err := os.Stat(filepath.Join("..", "..", "examples", name, "shop.yaml")); err == nil {
		return read(name, "piece.yaml"), read(name, "shop.yaml")
	}
	return read(name, "piece.yaml"), read("main", "shop.yaml")
}

func TestExamplesAreRead(t *testing.T) {
	for _, name := range examples {
		piece, shop := load(t, name)
		d, remarks := design.Resolve("piece.yaml", piece, "shop.yaml", shop)
		if d == nil || len(remarks) > 0 {
			t.Errorf("%s:", name)
			remarks.Write(testWriter{t}, func(f string) []byte { return map[string][]byte{"piece.yaml": piece, "shop.yaml": shop}[f] })
		}
	}
}

type testWriter struct{ t testing.TB }

func (w testWriter) Write(p []byte) (int, error) { w.t.Log(string(p)); return len(p), nil }

func BenchmarkResolve(b *testing.B) {
	piece, shop := load(b, "main")
	b.ReportAllocs()
	for b.Loop() {
		design.Resolve("piece.yaml", piece, "shop.yaml", shop)
	}
}
