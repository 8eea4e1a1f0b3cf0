package pack

import (
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/bound"
	"rodwork/internal/sheet/verify"
)

// stripped cuts sheets of 1000 by 800 into strips, the strips into columns, and
// the columns into parts, without waste.
func stripped(t *rapid.T, sheets int) sheet.Problem {
	p := sheet.Problem{Stocks: []sheet.Stock{{Name: "sheet", Length: 1000, Width: 800, Available: sheet.Unlimited}}}
	cuts := func(all int64, most int, name string) []int64 {
		var out []int64
		for n := rapid.IntRange(1, most).Draw(t, name); n > 1 && all > 200; n-- {
			v := rapid.Int64Range(100, all-100).Draw(t, name)
			out, all = append(out, v), all-v
		}
		return append(out, all)
	}
	for range sheets {
		for _, h := range cuts(800, 3, "strip") {
			for _, w := range cuts(1000, 3, "column") {
				for _, y := range cuts(h, 2, "part") {
					g := rapid.SampledFrom([]sheet.Grain{sheet.Along, sheet.Free}).Draw(t, "grain")
					p.Parts = append(p.Parts, sheet.Part{Length: w, Width: y, Grain: g, Copies: 1})
				}
			}
		}
	}
	return p
}

// What was one sheet cut in strips is put together again, and sawn by the
// checker; two sheets in hand are never more than four.
func TestBeamPutsStripsTogether(t *testing.T) {
	met, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 2).Draw(t, "sheets")
		j := newJob(stripped(t, n))
		b := newBeam(j)
		b.limit = int64(2*n) * j.stocks[0].weight
		var best *tree
		for b.rounds < 40 {
			got := b.round(t.Context())
			if got == nil {
				continue
			}
			if len(got.out) > 0 || got.weight > b.limit {
				t.Fatalf("%d parts are out, %d weighs more than %d", len(got.out), got.weight, b.limit)
			}
			best, b.limit = got, got.weight-1
		}
		if best == nil {
			t.Fatal("no layout within twice the sheets")
		}
		w := work{j: j, best: j.judge(best), proof: bound.Sheets(j.p, 0, 0)}
		a := w.answer()
		if err := verify.Sheets(j.p, a); err != nil {
			t.Fatal(err)
		}
		if tried++; a.Full == n {
			met++
		}
	})
	if 10*met < 8*tried {
		t.Errorf("%d of %d were put together without waste", met, tried)
	}
}
