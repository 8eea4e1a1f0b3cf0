package pack_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"runtime"
	"testing"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/pack"
	"rodwork/internal/sheet/verify"
)

// TestSameEverywhere: the same problem and effort give the same answer, however
// many threads there are.
func TestSameEverywhere(t *testing.T) {
	p := turned(order(30, true))
	one := solve(t, "first", p, 8)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if again := solve(t, "again", p, 8); !reflect.DeepEqual(one, again) {
		t.Error("another answer on one thread")
	}
}

// TestEffortHelps: more effort is never worse by the goals in their order.
func TestEffortHelps(t *testing.T) {
	for _, n := range []int{8, 20, 40} {
		p := order(n, true)
		few, more := solve(t, "few", p, 0), solve(t, "more", p, 20)
		if more.Cost > few.Cost || more.Cost == few.Cost && more.Largest() < few.Largest()*95/100 {
			t.Errorf("%d parts: cost %d and offcut %d, with effort %d and %d", n, few.Cost, few.Largest(), more.Cost, more.Largest())
		}
	}
}

// TestOffcutFirst: what an offcut at hand holds is not cut from a new sheet.
func TestOffcutFirst(t *testing.T) {
	p := order(4, true)
	p.Parts = p.Parts[:1]
	p.Stocks = append(p.Stocks, sheet.Stock{Name: "offcut", Length: p.Parts[0].Length + 40_000, Width: p.Parts[0].Width + 40_000,
		Trim: 8000, Available: 1, Offcut: true})
	a := solve(t, "offcut", p, 0)
	if a.Full != 0 || a.Cost != 0 || len(a.Sheets) != 1 || !a.Proven {
		t.Errorf("%d full sheets, cost %d", a.Full, a.Cost)
	}
}

// TestCheapestMix: two small sheets are dearer than one large, one is cheaper.
func TestCheapestMix(t *testing.T) {
	p := sheet.Problem{Stocks: []sheet.Stock{
		{Name: "large", Length: 2_000_000, Width: 1_000_000, Price: 100, Available: sheet.Unlimited},
		{Name: "small", Length: 1_000_000, Width: 1_000_000, Price: 60, Available: sheet.Unlimited},
	}, Parts: []sheet.Part{{ID: "a", Length: 900_000, Width: 900_000, Copies: 3}}}
	if a := solve(t, "mix", p, 5); a.Cost != 160 || a.Full != 2 {
		t.Errorf("cost %d on %d sheets, want 160 on 2", a.Cost, a.Full)
	}
}

func TestImpossible(t *testing.T) {
	good := func() sheet.Problem { return order(3, true) }
	for name, spoil := range map[string]func(*sheet.Problem){
		"no stock":      func(p *sheet.Problem) { p.Stocks = nil },
		"no parts":      func(p *sheet.Problem) { p.Parts = nil },
		"no length":     func(p *sheet.Problem) { p.Parts[1].Length = 0 },
		"no copies":     func(p *sheet.Problem) { p.Parts[1].Copies = -5 },
		"a huge length": func(p *sheet.Problem) { p.Parts[1].Length = math.MaxInt64 },
		"a huge sheet":  func(p *sheet.Problem) { p.Stocks[0].Width = math.MaxInt64 },
		"a huge trim":   func(p *sheet.Problem) { p.Stocks[0].Trim = math.MaxInt64 },
		"all trim":      func(p *sheet.Problem) { p.Stocks[0].Trim = p.Stocks[0].Width },
		"a huge kerf":   func(p *sheet.Problem) { p.Kerf = math.MaxInt64 },
		"no such grain": func(p *sheet.Problem) { p.Parts[0].Grain = 9 },
		"many copies":   func(p *sheet.Problem) { p.Parts[0].Copies, p.Parts[1].Copies = 900, 900 },
		"many parts":    func(p *sheet.Problem) { p.Parts = make([]sheet.Part, 5000) },
	} {
		p := good()
		spoil(&p)
		_, err := pack.Solve(context.Background(), p, 0)
		var in *sheet.InputError
		if !errors.As(err, &in) {
			t.Errorf("%s: %v, want an InputError", name, err)
		}
	}
	p := good()
	p.Parts[2].Length = 2_430_000
	var large *sheet.TooLargeError
	if _, err := pack.Solve(context.Background(), p, 0); !errors.As(err, &large) || large.Part != 2 || large.NeedLength != 2_446_000 {
		t.Errorf("%v, want part 2 too large, for 2446000", err)
	}
	p = good()
	p.Stocks[0].Available = 1
	p.Parts[0] = sheet.Part{ID: "big", Length: 2_000_000, Width: 1_000_000, Copies: 2}
	var short *sheet.ShortError
	if _, err := pack.Solve(context.Background(), p, 0); !errors.As(err, &short) || len(short.Left) == 0 {
		t.Errorf("%v, want a ShortError", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p = good()
	if a, err := pack.Solve(ctx, p, 1<<30); err != nil || verify.Sheets(p, a) != nil {
		t.Errorf("%v: a context that has ended must leave the first layout", err)
	}
}

// TestManyParts: the most parts that are taken on still get a first layout.
func TestManyParts(t *testing.T) {
	p := order(100, true)
	for i := range p.Parts {
		p.Parts[i].Copies = sheet.MaxCopies / 100
	}
	if a := solve(t, "many", p, 0); a.Full > a.Proof.Least*12/10 {
		t.Errorf("%d sheets, at least %d", a.Full, a.Proof.Least)
	}
}

// FuzzSolve: no problem, however wild, makes it panic or pass a bad layout.
func FuzzSolve(f *testing.F) {
	f.Add(int64(2440), int64(1220), int64(8), int64(3), int64(700), int64(400), 3, uint8(1), int64(300), int64(300), 2, uint8(0))
	f.Add(int64(math.MaxInt64), int64(-1), int64(1<<40), int64(1<<62), int64(1), int64(1<<50), 1<<30, uint8(7), int64(0), int64(0), -1, uint8(2))
	f.Fuzz(func(t *testing.T, l, w, trim, kerf, l1, w1 int64, n1 int, g1 uint8, l2, w2 int64, n2 int, g2 uint8) {
		p := sheet.Problem{Kerf: kerf, Stocks: []sheet.Stock{{Length: l, Width: w, Trim: trim, Available: sheet.Unlimited}},
			Parts: []sheet.Part{{Length: l1, Width: w1, Copies: n1, Grain: sheet.Grain(g1)}, {Length: l2, Width: w2, Copies: n2, Grain: sheet.Grain(g2)}}}
		if n1 > 100 || n2 > 100 {
			return
		}
		a, err := pack.Solve(context.Background(), p, 1)
		if err != nil {
			return
		}
		if err := verify.Sheets(p, a); err != nil {
			t.Fatal(err)
		}
	})
}
