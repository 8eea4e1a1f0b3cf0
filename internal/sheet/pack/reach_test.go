package pack_test

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/pack"
	"rodwork/internal/sheet/verify"
)

// cabinet is a shop's order on sheets of 2440 by 1220 mm.
func cabinet(sides ...int64) sheet.Problem {
	p := sheet.Problem{Kerf: 2200, KeptSide: 100_000,
		Stocks: []sheet.Stock{{Name: "ply", Length: 2_440_000, Width: 1_220_000, Trim: 8000, Available: sheet.Unlimited}}}
	for i := 0; i+1 < len(sides); i += 2 {
		p.Parts = append(p.Parts, sheet.Part{ID: fmt.Sprint(i), Length: sides[i] * 1000, Width: sides[i+1] * 1000, Grain: sheet.Along, Copies: 2})
	}
	return p
}

func beyond(p sheet.Problem, a sheet.Answer) int {
	n := 0
	for _, l := range a.Sheets {
		n += l.Beyond(p)
	}
	return n
}

// TestReach: a saw that cuts 1400 mm in one go breaks the sheet across first,
// and needs no longer cut, where another saw would rip it from end to end.
func TestReach(t *testing.T) {
	p := cabinet(1150, 390, 1150, 580, 720, 560, 700, 300, 390, 300)
	free := solve(t, "any length", p, 0)
	p.Reach = 1_400_000
	if beyond(p, free) == 0 {
		t.Error("the layout for a saw of any length has no long cut: this tests nothing")
	}
	short := solve(t, "1400 mm", p, 0)
	if n := beyond(p, short); n > 0 || short.Full > free.Full {
		t.Errorf("%d cuts beyond the reach, %d sheets; without one, %d sheets", n, short.Full, free.Full)
	}
}

// TestReachOfLongParts: a part longer than the reach needs a long cut on each
// side that is no edge of the sheet's; there is an answer all the same.
func TestReachOfLongParts(t *testing.T) {
	p := cabinet(2100, 390, 400, 300)
	p.Reach = 1_400_000
	a := solve(t, "long parts", p, 0)
	if n := beyond(p, a); n < 2 || a.Full != 1 {
		t.Errorf("%d cuts beyond the reach on %d sheets, want two or more on one", n, a.Full)
	}
}

// TestReachCostsNoSheet: with a reach there are never more sheets than a first
// layout without one takes.
func TestReachCostsNoSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var sides []int64
		for range rapid.IntRange(1, 12).Draw(t, "parts") {
			sides = append(sides, rapid.Int64Range(50, 1200).Draw(t, "length"), rapid.Int64Range(50, 1000).Draw(t, "width"))
		}
		p := cabinet(sides...)
		free := first(t, p)
		p.Reach = rapid.Int64Range(200, 2500).Draw(t, "reach") * 1000
		short := first(t, p)
		if short.Full > free.Full {
			t.Fatalf("%d sheets with a reach, %d without", short.Full, free.Full)
		}
	})
}

func first(t *rapid.T, p sheet.Problem) sheet.Answer {
	a, err := pack.Solve(context.Background(), p, 0)
	if err == nil {
		err = verify.Sheets(p, a)
	}
	if err != nil {
		t.Fatal(err)
	}
	return a
}
