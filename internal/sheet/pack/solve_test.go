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

// problems draws problems of a small shop, and hard corners of them: parts as
// large as the sheet, remainders thinner than the kerf, several stocks.
func problems(t *rapid.T) sheet.Problem {
	unit := rapid.SampledFrom([]int64{1, 100, 1000, 9973}).Draw(t, "unit")
	p := sheet.Problem{
		Kerf:     rapid.Int64Range(0, min(3*unit, sheet.MaxKerf)).Draw(t, "kerf"),
		KeptSide: rapid.Int64Range(0, 20*unit).Draw(t, "kept"),
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "stocks") {
		trim := rapid.Int64Range(0, 5*unit).Draw(t, "trim")
		s := sheet.Stock{
			Name:      fmt.Sprint("stock ", i),
			Length:    rapid.Int64Range(40*unit, 250*unit).Draw(t, "length"),
			Width:     rapid.Int64Range(40*unit, 250*unit).Draw(t, "width"),
			Trim:      trim,
			Price:     rapid.Int64Range(0, 9000).Draw(t, "price"),
			Available: sheet.Unlimited,
		}
		if i > 0 {
			s.Available = rapid.IntRange(0, 4).Draw(t, "available")
			s.Offcut = rapid.Bool().Draw(t, "offcut")
			if s.Offcut {
				s.Price = 0
			}
		}
		p.Stocks = append(p.Stocks, s)
	}
	l, w := p.Stocks[0].Usable() // which can be bought: all parts go on it
	for i := range rapid.IntRange(1, 20).Draw(t, "parts") {
		q := sheet.Part{
			ID:     fmt.Sprint("part ", i),
			Length: rapid.Int64Range(1, l).Draw(t, "l"),
			Width:  rapid.Int64Range(1, w).Draw(t, "w"),
			Grain:  sheet.Grain(rapid.IntRange(0, 2).Draw(t, "grain")),
			Copies: rapid.IntRange(1, 3).Draw(t, "copies"),
		}
		if q.Grain == sheet.Across {
			q.Length, q.Width = q.Width, q.Length
		}
		p.Parts = append(p.Parts, q)
	}
	return p
}

func TestAnyProblem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := problems(t)
		effort := rapid.SampledFrom([]int{0, 0, 1, 5}).Draw(t, "effort")
		a, err := pack.Solve(context.Background(), p, effort)
		if err != nil {
			t.Fatal(err)
		}
		if err := verify.Sheets(p, a); err != nil {
			t.Fatalf("%v\n%+v\n%+v", err, p, a)
		}
	})
}
