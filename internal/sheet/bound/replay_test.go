package bound

import (
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/verify"
)

// TestProofsReplay: the checker, which has its own code, adds each proof up to
// the same number, whichever functions and lifts it takes.
func TestProofsReplay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Int64Range(8, 130)
		p := sheet.Problem{Kerf: rapid.Int64Range(0, 3).Draw(t, "kerf"),
			Stocks: []sheet.Stock{{Length: side.Draw(t, "length"), Width: side.Draw(t, "width"), Available: sheet.Unlimited}}}
		s := &p.Stocks[0]
		if rapid.Bool().Draw(t, "square") {
			s.Width = s.Length
		}
		for range rapid.IntRange(1, 12).Draw(t, "parts") {
			q := sheet.Part{Length: rapid.Int64Range(1, s.Length).Draw(t, "l"), Width: rapid.Int64Range(1, s.Width).Draw(t, "w"),
				Grain: sheet.Grain(rapid.IntRange(0, 1).Draw(t, "grain")), Copies: rapid.IntRange(1, 2).Draw(t, "copies")}
			p.Parts = append(p.Parts, q)
		}
		c := Sheets(p, 0, fullEffort)
		if err := verify.Proof(p, c); err != nil {
			t.Fatalf("%v\n%+v\n%+v", err, p, c)
		}
	})
}
