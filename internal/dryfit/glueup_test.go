package dryfit

import (
	"math"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/work"
)

// timed is a shop with two kinds of clamps, and rates by which sums are easy.
func timed(open float64) *design.Design {
	d := shop(1000, open)
	d.Shop.Glues[0].Spread, d.Shop.Glues[0].ClampTime = n(200e-9), n(3600)
	d.Shop.Rates.Part, d.Shop.Rates.Clamp = n(20), n(15)
	d.Shop.Clamps = []design.Clamp{{Name: "long", Reach: n(1200), Force: n(2000), Count: 6}, {Name: "short", Reach: n(400), Force: n(1000), Count: 4}}
	return d
}

// trestle is two sides with a board housed between them: one row of clamps
// along the board does both housings.
func trestle() *bench {
	var b bench
	b.part("left", 0, 0, 0, 18, 400, 300)
	b.part("right", 600, 0, 0, 618, 400, 300)
	b.part("board", 12, 200, 0, 606, 218, 300)
	b.joint("housing", "board", "left", left)
	b.joint("housing", "board", "right", right)
	return &b
}

// The clock by hand: 2 joints of 0.01 m² at 1000 s/m², two parts brought in, one
// row of 302 mm with a clamp every 250.
func TestClockByHand(t *testing.T) {
	b := trestle()
	r := Order(&b.p, timed(540))
	if len(r.GlueUps) != 1 {
		t.Fatalf("%d glue-ups", len(r.GlueUps))
	}
	g := r.GlueUps[0]
	want := [...]float64{20, 40, 30, 90, 432, 0.004, 3600}
	for i, got := range [...]float64{g.Spread.V, g.Close.V, g.Clamp.V, g.Total.V, g.Limit.V, g.Glue.V, g.Dry.V} {
		if math.Abs(got-want[i]) > 1e-9 {
			t.Errorf("number %d is %v, want %v", i, got, want[i])
		}
	}
	if len(g.Rows) != 1 || len(g.Rows[0].Joints) != 2 || g.Rows[0].Clamp != "long" || g.Rows[0].Reach != 618+jaws {
		t.Errorf("%+v", g.Rows)
	}
}

// The order is split where the last clamp would be too late, and no glue-up is
// longer than it may be but one that is a single act.
func TestSplitByTheClock(t *testing.T) {
	for _, open := range []float64{100, 150, 250, 500, 1000} {
		b := carcase()
		r := Order(&b.p, timed(open))
		for _, g := range r.GlueUps {
			glued := 0
			for _, s := range r.Steps {
				if s.Group == g.Number && gluedArea(&b.p, s.Joints) > 0 {
					glued++
				}
			}
			if g.Total.V > g.Limit.V && glued > 1 {
				t.Errorf("open %v: glue-up %d of %d acts takes %v of %v", open, g.Number, glued, g.Total.V, g.Limit.V)
			}
		}
	}
	few, many := carcase(), carcase()
	if a, b := len(Order(&few.p, timed(2000)).GlueUps), len(Order(&many.p, timed(150)).GlueUps); a >= b {
		t.Errorf("%d glue-ups with much time, %d with little", a, b)
	}
}

// Clamps that are lacking are told with what they must span, and a weak row with
// its forces; where there are enough, nothing is said.
func TestClampsOfTheShop(t *testing.T) {
	find := func(d *design.Design, b *bench) *work.Finding {
		r := Order(&b.p, d)
		for i := range r.Findings {
			if r.Findings[i].Rule == ClampRule.ID {
				return &r.Findings[i]
			}
		}
		return nil
	}
	if f := find(timed(540), trestle()); f != nil {
		t.Errorf("enough, and yet: %v", words(f))
	}
	d := timed(540)
	d.Shop.Clamps = d.Shop.Clamps[1:]
	if f := find(d, trestle()); f == nil || f.Value.V != 2 {
		t.Errorf("none reaches: %v", f)
	}
	var b bench
	b.part("top", 0, 18, 0, 100, 36, 100)
	b.part("rail", 0, 0, 0, 100, 18, 100)
	b.joint("butt", "rail", "top", r3.Vec{Y: 1})
	if f := find(timed(540), &b); f == nil || f.Value.V != 2000 || f.Limit.V != 7000 { // room for two, seven wanted
		t.Errorf("weak: %v", f)
	}
}
