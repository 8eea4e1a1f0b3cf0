package verify

import (
	"testing"

	"rodwork/internal/sheet"
)

func TestFewer(t *testing.T) {
	// 4 of 40 and 4 of 60 go on four sticks of 100, with a kerf of nothing; 6 of
	// 35 go two on a stick, though their sum would go on three.
	pairs := sheet.StickProblem{Stick: 100, Lengths: []sheet.Length{{Length: 40, Copies: 4}, {Length: 60, Copies: 4}}}
	twos := sheet.StickProblem{Stick: 100, Lengths: []sheet.Length{{Length: 35, Copies: 6}}}
	kerfs := sheet.StickProblem{Stick: 100, Kerf: 3, Lengths: pairs.Lengths}
	for _, c := range []struct {
		name        string
		p           sheet.StickProblem
		n           int
		found, done bool
	}{
		{"pairs on four", pairs, 4, true, true},
		{"pairs on three", pairs, 3, false, true},
		{"pairs with a kerf on four", kerfs, 4, false, true},
		{"twos on two", twos, 2, false, true},
		{"twos on three", twos, 3, true, true},
		{"none", twos, 0, false, true},
	} {
		if found, done := fewer(c.p, c.n); found != c.found || done != c.done {
			t.Errorf("%s: found %v, done %v", c.name, found, done)
		}
	}
}

// TestFalseSearch: an answer that says that a search proved more sticks than are
// needed is refused.
func TestFalseSearch(t *testing.T) {
	p := sheet.StickProblem{Stick: 100, Lengths: []sheet.Length{{ID: "a", Length: 50, Copies: 2}}}
	a := sheet.StickAnswer{F: sheet.Func{Family: sheet.Identity}, Sum: 1, Least: 2, Searched: true, Proven: true,
		Sticks: []sheet.Stick{{Pieces: []sheet.Piece{{Length: 0, Copy: 0}}, Left: 50}, {Pieces: []sheet.Piece{{Length: 0, Copy: 1}}, Left: 50}}}
	if err := Sticks(p, a); err == nil {
		t.Error("two sticks are said to be the least where one does, and the checker takes it")
	}
	a.Least, a.Searched, a.Proven = 1, false, false
	if err := Sticks(p, a); err != nil {
		t.Errorf("the same without the claim: %v", err)
	}
}
