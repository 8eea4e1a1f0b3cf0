package pack_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/pack"
)

// order is n parts of cabinets from sheets of 2440 × 1220, for the benchmarks.
func order(n int, grain bool) sheet.Problem {
	rng := rand.New(rand.NewPCG(7, 7))
	p := sheet.Problem{Kerf: 2200, KeptSide: 100_000,
		Stocks: []sheet.Stock{{Name: "ply", Length: 2_440_000, Width: 1_220_000, Trim: 8000, Price: 9450, Available: sheet.Unlimited}}}
	for i := range n {
		q := sheet.Part{ID: fmt.Sprint(i), Length: 250_000 + 100*rng.Int64N(11_000), Width: 80_000 + 100*rng.Int64N(4_000), Copies: 1}
		if grain {
			q.Grain = sheet.Along
		}
		p.Parts = append(p.Parts, q)
	}
	return p
}

func BenchmarkFirst(b *testing.B) {
	for _, n := range []int{10, 40, 100} {
		for _, grain := range []bool{true, false} {
			b.Run(fmt.Sprintf("%d parts, grain %v", n, grain), func(b *testing.B) {
				p := order(n, grain)
				for b.Loop() {
					a, err := pack.Solve(context.Background(), p, 0)
					if err != nil {
						b.Fatal(err)
					}
					b.ReportMetric(float64(a.Full), "sheets")
					b.ReportMetric(float64(a.Proof.Least), "proved")
				}
			})
		}
	}
}

// BenchmarkEffort tells how long a hundred units of effort take.
func BenchmarkEffort(b *testing.B) {
	p := order(40, true)
	for b.Loop() {
		a, err := pack.Solve(context.Background(), p, 100)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(a.Full), "sheets")
		b.ReportMetric(float64(a.SetUps), "set-ups")
		b.ReportMetric(float64(a.Largest())/1e12, "m²-offcut")
	}
}
