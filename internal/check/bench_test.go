package check_test

import (
	"testing"

	"rodwork/internal/brief"
	"rodwork/internal/check"
)

// BenchmarkChecks is all checks of the demo, as each step of a drag runs them.
func BenchmarkChecks(b *testing.B) {
	p := examples(b)["main"]
	held := brief.Make(p.Piece, p.Design)
	in := check.Input{Piece: p.Piece, Design: p.Design, Masses: p.Masses, Contents: held.Contents, Loads: held.Loads}
	for b.Loop() {
		check.Make(in)
	}
}
