package brief

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

func n(v float64) trace.Num { return trace.Const(v) }

// open is a piece of one space w × h × d with its corner at (18, 18, 6), and
// shelves on pins, that holes lie every 32 mm from 100 up.
func open(w, h, d float64, pinned int) *piece.Piece {
	p := &piece.Piece{Width: n(w + 36), Height: n(h + 36), Depth: n(d + 6)}
	s := piece.Space{Name: "inside", Min: [3]trace.Num{n(18), n(18), n(6)}, Size: [3]trace.Num{n(w), n(h), n(d)}, Floor: "bottom", Ceiling: "top"}
	p.Parts = append(p.Parts, flat("bottom", piece.Bottom, 18, 0, 6, w, d))
	if pinned > 0 {
		for y := 100.0; y <= h-100; y += 32 {
			s.Holes = append(s.Holes, n(y))
		}
	}
	for i := range pinned {
		id := fmt.Sprintf("shelf %d", i+1)
		q := flat(id, piece.Shelf, 18, 18+100+32*float64(i), 6, w, d)
		q.Loose = true
		p.Parts = append(p.Parts, q)
		s.Shelves = append(s.Shelves, id)
	}
	p.Spaces = []piece.Space{s}
	return p
}

// flat is a panel 18 thick with its lower left rear corner at (x, y, z).
func flat(id string, role piece.Role, x, y, z, w, d float64) *piece.Part {
	q := &piece.Part{ID: id, Role: role, Length: n(w), Width: n(d), Thick: n(18),
		Pose: r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}}
	q.Origin = [3]trace.Num{n(x), n(y), n(z + d)}
	q.Pose.O = r3.Vec{X: x, Y: y, Z: z + d}
	return q
}

func thing(what string, count int, h, d, t, kg float64) design.Thing {
	return design.Thing{What: what, Count: count, Height: n(h), Depth: n(d), Thickness: n(t), Mass: n(kg)}
}

func asks(ts ...design.Thing) *design.Design {
	for i := range ts {
		ts[i].Path = fmt.Sprintf("brief.holds.%d", i)
	}
	return &design.Design{Brief: design.Brief{Holds: ts}}
}

func TestRows(t *testing.T) {
	for _, c := range []struct {
		name    string
		w, h, d float64
		thing   design.Thing
		fits    int
		why     string
	}{
		{"one row", 484, 400, 300, thing("folder", 40, 320, 240, 22, 0.9), 21, "full"},
		{"a hair under a whole number", 15 + 22*10, 400, 300, thing("folder", 40, 320, 240, 22, 0.9), 10, "full"},
		{"two rows deep", 484, 400, 300, thing("book", 50, 210, 140, 25, 0.4), 36, "full"},
		{"a finger over it", 484, 330, 300, thing("folder", 4, 320, 240, 22, 0.9), 4, ""},
		{"no finger over it", 484, 329, 300, thing("folder", 4, 320, 240, 22, 0.9), 0, "height"},
		{"too deep", 484, 400, 239, thing("folder", 4, 320, 240, 22, 0.9), 0, "deep"},
		{"wider than the space", 30, 400, 300, thing("folder", 4, 320, 240, 22, 0.9), 0, "at once"},
	} {
		r := Make(open(c.w, c.h, c.d, 0), asks(c.thing))
		if f := r.Fits[0]; f.Fits != c.fits || !strings.Contains(f.Why, c.why) || (c.why == "") != (f.Why == "") {
			t.Errorf("%s: %d fit, %q; want %d, %q", c.name, f.Fits, f.Why, c.fits, c.why)
		}
		if got := math.Abs(r.Load.V - float64(c.fits)*c.thing.Mass.V); got > 1e-9 {
			t.Errorf("%s: the load is off by %g kg", c.name, got)
		}
	}
}

// Under a bent corner of inside radius 100 a thing whose top reaches 60 over
// the arc's centre loses 100 − √(100² − 60²) = 20 of its row.
func TestBentCornerShortensTheRow(t *testing.T) {
	p := open(500, 400, 300, 0)
	p.Spaces[0].Round = map[string]trace.Num{design.TopLeft: n(100)}
	for _, c := range []struct {
		high float64
		row  int
	}{{300, 48}, {360, 46}, {389, 43}} { // (485 − loss)/10; at 389: 100 − √(100² − 89²) = 54.4
		r := Make(p, asks(thing("box", 99, c.high, 250, 10, 1)))
		if r.Fits[0].Fits != c.row {
			t.Errorf("%.0f high: %d fit, want %d", c.high, r.Fits[0].Fits, c.row)
		}
	}
}

// A rail before the back takes its thickness from what reaches up to it.
func TestRailTakesDepth(t *testing.T) {
	p := open(500, 400, 300, 0)
	rail := &piece.Part{ID: "rail", Role: piece.Rail, Length: n(500), Width: n(80), Thick: n(18), Pose: r3.Identity()}
	rail.Origin = [3]trace.Num{n(18), n(338), n(6)}
	p.Parts = append(p.Parts, rail)
	low, high := thing("low", 1, 300, 290, 20, 1), thing("high", 1, 315, 290, 20, 1)
	if r := Make(p, asks(low)); r.Fits[0].Fits != 1 {
		t.Error("a thing under the rail does not fit")
	}
	if r := Make(p, asks(high)); r.Fits[0].Fits != 0 {
		t.Error("a thing fits into the rail")
	}
}

// The heights of shelves on pins against trying all of them by hand.
func TestPinnedShelvesAgainstAllHeights(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := rapid.Float64Range(420, 900).Draw(rt, "h")
		p := open(500, h, 300, 2)
		th := thing("book", 999, rapid.Float64Range(100, 300).Draw(rt, "high"), 250, 20, 0.5)
		got := Make(p, asks(th)).Fits[0].Fits
		best := 0
		hs := p.Spaces[0].Holes
		for i := range hs {
			for k := i + 1; k < len(hs); k++ {
				if hs[k].V-hs[i].V < 18 {
					continue
				}
				n := 0
				for _, clear := range []float64{hs[i].V, hs[k].V - hs[i].V - 18, h - hs[k].V - 18} {
					if th.Height.V+FingerAbove <= clear {
						n += 24
					}
				}
				best = max(best, n)
			}
		}
		if got != best {
			rt.Fatalf("%d fit, the best of all heights is %d", got, best)
		}
	})
}

func TestOrderOfTheBrief(t *testing.T) {
	p := open(500, 400, 300, 0)
	a, b := thing("a", 20, 300, 250, 20, 1), thing("b", 20, 300, 250, 20, 1)
	r := Make(p, asks(a, b))
	if r.Fits[0].Fits != 20 || r.Fits[1].Fits != 4 {
		t.Errorf("%d and %d fit, want 20 and 4", r.Fits[0].Fits, r.Fits[1].Fits)
	}
	look := 0
	for _, f := range r.Findings {
		if f.Verdict == work.Look {
			look++
			if f.Mends[0].New != "4" || f.Mends[0].Path != "brief.holds.1.count" {
				t.Errorf("the mend is %+v", f.Mends[0])
			}
		}
	}
	if look != 1 {
		t.Errorf("%d findings say look, want 1", look)
	}
}

// Shelves that hold all as they stand are not moved.
func TestNothingIsMovedWithoutNeed(t *testing.T) {
	if h := Make(open(500, 800, 300, 1), asks(thing("tin", 3, 60, 60, 60, 0.2))).Holes(); len(h) != 0 {
		t.Errorf("moved: %v", h)
	}
	if h := Make(open(500, 800, 300, 1), asks(thing("folder", 48, 330, 250, 20, 0.9))).Holes(); len(h) != 1 {
		t.Errorf("moved: %v, want the shelf at 100 to go up", h)
	}
}

// Each surface is loaded by the heaviest row that fits: 20 kg/m for two rows of
// 0.2 kg every 20 mm, whatever the allotment does.
func TestLoads(t *testing.T) {
	p := open(500, 800, 300, 1)
	r := Make(p, asks(thing("light", 1, 100, 250, 25, 0.1), thing("heavy", 1, 200, 140, 20, 0.2)))
	for _, id := range []string{"bottom", "shelf 1"} {
		if got := r.Loads[id].V; math.Abs(got-20) > 1e-9 {
			t.Errorf("%s bears %.3f kg/m, want 20", id, got)
		}
	}
	if math.Abs(r.Load.V-0.3) > 1e-9 {
		t.Errorf("%.3f kg are put in", r.Load.V)
	}
}

// A larger space never holds less.
func TestLargerHoldsNoLess(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		w, h, d := rapid.Float64Range(100, 900).Draw(rt, "w"), rapid.Float64Range(250, 900).Draw(rt, "h"), rapid.Float64Range(100, 500).Draw(rt, "d")
		th := thing("box", 200, rapid.Float64Range(50, 400).Draw(rt, "high"), rapid.Float64Range(50, 300).Draw(rt, "deep"), rapid.Float64Range(5, 80).Draw(rt, "thick"), 1)
		more := rapid.Float64Range(0, 200).Draw(rt, "more")
		base := Make(open(w, h, d, 0), asks(th)).Fits[0].Fits
		for _, p := range []*piece.Piece{open(w+more, h, d, 0), open(w, h+more, d, 0), open(w, h, d+more, 0)} {
			if got := Make(p, asks(th)).Fits[0].Fits; got < base {
				rt.Fatalf("%d fit before, %d after", base, got)
			}
		}
	})
}

func TestPlace(t *testing.T) {
	p := open(500, 400, 300, 0) // 536 × 436 × 306 outside
	at := func(w, h, d float64) *design.Design {
		x, y, z := n(w), n(h), n(d)
		return &design.Design{Brief: design.Brief{Place: design.Place{Width: &x, Height: &y, Depth: &z}},
			Sizes: []design.Size{{Name: "width", Num: n(536), Text: "536", Path: "sizes.width"}}}
	}
	for _, f := range Make(p, at(600, 500, 400)).Findings {
		if f.Verdict != work.Fine {
			t.Errorf("%s: %s", f.ID, f.Verdict)
		}
	}
	for _, f := range Make(p, at(530, 436, 300)).Findings {
		if want := map[string]work.Verdict{"place/width": work.Stop, "place/height": work.Fine, "place/depth": work.Stop}[f.ID]; f.Verdict != want {
			t.Errorf("%s says %s, want %s", f.ID, f.Verdict, want)
		}
		if f.ID == "place/width" && (f.Mends[0].Path != "sizes.width" || f.Mends[0].New != "530 mm") {
			t.Errorf("the mend is %+v", f.Mends[0])
		}
	}
}

func TestSkirting(t *testing.T) {
	for _, c := range []struct {
		plinth, behind float64
		verdict        work.Verdict
		off            float64
	}{{100, 16, work.Fine, 0}, {100, 10, work.Look, 6}, {80, 40, work.Look, 16}} {
		p := open(500, 400, 300, 0)
		board := &piece.Part{ID: "plinth, rear", Role: piece.Plinth, Length: n(400), Width: n(c.plinth), Thick: n(18), Pose: r3.Identity()}
		board.Origin = [3]trace.Num{n(50), n(0), n(c.behind)}
		p.Parts = append(p.Parts, board)
		high, deep, room := n(95), n(16), n(400)
		d := &design.Design{Brief: design.Brief{Place: design.Place{SkirtingHigh: &high, SkirtingDeep: &deep, Depth: &room}},
			Base: design.Base{Kind: "plinth", Height: n(c.plinth)}}
		for _, f := range Make(p, d).Findings {
			if f.ID == "place/skirting" && f.Verdict != c.verdict {
				t.Errorf("plinth %.0f, %.0f behind: %s", c.plinth, c.behind, f.Verdict)
			}
			if f.ID == "place/depth" && math.Abs(f.Value.V-306-c.off) > 1e-9 {
				t.Errorf("plinth %.0f, %.0f behind: %.1f deep, want %.1f", c.plinth, c.behind, f.Value.V, 306+c.off)
			}
		}
	}
}

func TestRulesAreComplete(t *testing.T) {
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}

func TestNoSpaceNoThing(t *testing.T) {
	if r := Make(&piece.Piece{}, asks(thing("a", 1, 1, 1, 1, 1))); r.Fits[0].Fits != 0 || r.Fits[0].Why == "" {
		t.Errorf("%+v", r.Fits[0])
	}
	if r := Make(open(1, 1, 1, 0), asks()); len(r.Fits) != 0 {
		t.Errorf("%+v", r.Fits)
	}
}
