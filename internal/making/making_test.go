package making

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

func n(v float64) trace.Num { return trace.Const(v) }

var ply = &design.Stock{Name: "ply", Density: n(700e-9)}

// panel is a panel of l × w × t that lies flat with its datum at the origin: x
// to the right, y to the back, its A face up.
func panel(l, w, t float64) *piece.Part {
	return &piece.Part{ID: "panel", Stock: ply, Length: n(l), Width: n(w), Thick: n(t), Outline: planar.Rect(0, 0, l, w),
		Pose: r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s is %.9g, want %.9g", what, got, want)
	}
}

func one(q *piece.Part) work.MassLine {
	ls, _ := Masses(&piece.Piece{Parts: []*piece.Part{q}, Width: n(1000), Height: n(1000)})
	return ls[0]
}

func TestMassOfPanel(t *testing.T) {
	q := panel(1000, 400, 20)
	q.Pose.O = r3.Vec{X: 100, Y: 50, Z: 400}
	l := one(q)
	near(t, "mass", l.Mass.V, 1000*400*20*700e-9, 1e-12)
	near(t, "x", l.X.V, 600, 1e-9)
	near(t, "y", l.Y.V, 60, 1e-9)
	near(t, "z", l.Z.V, 200, 1e-9)
}

// A rabbet along the whole rear edge, from the upper face: 1000 × 40 × 10 of
// 1000 × 400 × 20. First moments about the datum, in units of 1000:
// width (8000·200 − 400·380)/7600, thickness (8000·10 − 400·15)/7600.
func TestMassLessItsCuts(t *testing.T) {
	q := panel(1000, 400, 20)
	q.Cuts = []piece.Cut{{Kind: piece.Rabbet, Face: piece.FaceA, X0: n(0), X1: n(1000), Y0: n(360), Y1: n(400), Depth: n(10)}}
	l := one(q)
	near(t, "mass", l.Mass.V, 7600e3*700e-9, 1e-12)
	near(t, "z", l.Z.V, -(8000.0*200-400*380)/7600, 1e-9)
	near(t, "y", l.Y.V, (8000.0*10-400*15)/7600, 1e-9)
	q.Cuts = []piece.Cut{{Kind: piece.HoleRow, Face: piece.FaceB, X0: n(100), Y0: n(50), Diameter: n(35), Depth: n(13), Count: 3, StepX: n(32)}}
	near(t, "mass with holes", one(q).Mass.V, (8e6-3*math.Pi/4*35*35*13)*700e-9, 1e-12)
}

// A cut that runs off the part takes only what is there.
func TestCutOffTheEdge(t *testing.T) {
	q := panel(100, 100, 10)
	q.Cuts = []piece.Cut{{Kind: piece.Groove, Face: piece.FaceA, X0: n(-20), X1: n(120), Y0: n(90), Y1: n(130), Depth: n(4)}}
	near(t, "mass", one(q).Mass.V, (1e5-100*10*4)*700e-9, 1e-12)
}

// What a rounded corner lacks, against the outline's own area and centroid.
func TestRoundedCornerAgainstOutline(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l, w := rapid.Float64Range(200, 900).Draw(rt, "l"), rapid.Float64Range(200, 900).Draw(rt, "w")
		r := rapid.Float64Range(10, 150).Draw(rt, "r")
		b := math.Tan(math.Pi / 8)
		q := panel(l, w, 10)
		q.Pose = r3.Identity()
		q.Outline = planar.Region{{Outer: planar.Loop{{P: r2.Vec{}}, {P: r2.Vec{X: l}}, {P: r2.Vec{X: l, Y: w}},
			{P: r2.Vec{X: r, Y: w}, Bulge: b}, {P: r2.Vec{Y: w - r}}}}}
		strip := &piece.Part{ID: "shell", Stock: ply, Thick: n(18), Bends: []piece.Bend{{Corner: "top left", Radius: n(r)}}}
		p := &piece.Piece{Parts: []*piece.Part{q, strip}, Width: n(l), Height: n(w)}
		got := massOf(p, q)
		area, at := q.Outline.Area(), q.Outline.Centroid()
		if math.Abs(got.Mass.V-area*10*700e-9) > 1e-9*got.Mass.V || math.Abs(got.X.V-at.X) > 1e-6 || math.Abs(got.Y.V-at.Y) > 1e-6 {
			rt.Fatalf("got %.9g at %.6f, %.6f; the outline says %.9g at %v", got.Mass.V, got.X.V, got.Y.V, area*10*700e-9, at)
		}
	})
}

// The mass follows the bend's radius as its partial says.
func TestRoundedCornerNamesTheRadius(t *testing.T) {
	var led trace.Ledger
	r := led.Var(100, trace.Input{Path: "sizes.turn"})
	mass := func(r trace.Num) trace.Num {
		q := panel(500, 300, 10)
		q.Pose = r3.Identity()
		q.Outline = planar.Region{{Outer: planar.Loop{{P: r2.Vec{}}, {P: r2.Vec{X: 500}}, {P: r2.Vec{X: 500, Y: 300}},
			{P: r2.Vec{X: r.V, Y: 300}, Bulge: math.Tan(math.Pi / 8)}, {P: r2.Vec{Y: 300 - r.V}}}}}
		strip := &piece.Part{ID: "shell", Bends: []piece.Bend{{Corner: "top left", Radius: r}}}
		return massOf(&piece.Piece{Parts: []*piece.Part{q, strip}, Width: n(500), Height: n(300)}, q).Mass
	}
	want := (mass(r.Plus(0.01)).V - mass(r.Plus(-0.01)).V) / 0.02
	near(t, "partial", mass(r).D(0), want, 1e-4*math.Abs(want))
	if want >= 0 {
		t.Error("a larger radius must take more away")
	}
}

// The centre of a bent strip against a fine chain of short chords.
func TestStripCentreAgainstChords(t *testing.T) {
	run := []piece.Stretch{
		{X0: 0, X1: 600, From: r2.Vec{Y: 100}, Dir: r2.Vec{Y: 1}},
		{X0: 600, X1: 800, From: r2.Vec{Y: 700}, Dir: r2.Vec{Y: 1}, Radius: 140, Angle: math.Pi / 2},
		{X0: 800, X1: 1500, From: r2.Vec{X: 140, Y: 840}, Dir: r2.Vec{X: 1}},
	}
	const thick = 18
	var area float64
	var first r2.Vec
	add := func(c r2.Vec, a float64) { area += a; first = first.Add(c.Mul(a)) }
	add(r2.Vec{X: thick / 2.0, Y: 400}, 600*thick)
	add(r2.Vec{X: 490, Y: 840 - thick/2.0}, 700*thick)
	const steps = 4000
	for i := range steps {
		th := (float64(i) + 0.5) / steps * math.Pi / 2
		for k := range 20 { // rings through the thickness
			r := 140 - thick*(float64(k)+0.5)/20
			add(r2.Vec{X: 140 - r*math.Cos(th), Y: 700 + r*math.Sin(th)}, r*math.Pi/2/steps*thick/20)
		}
	}
	want := first.Mul(1 / area)
	got := ringCentre(run, []float64{0, 100, thick, 600, 140, 700}, nil)
	near(t, "x", got.X, want.X, 0.01)
	near(t, "y", got.Y, want.Y, 0.01)
}

func TestMassGrowsWithSize(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := rapid.Float64Range(100, 2000).Draw(rt, "l")
		w := rapid.Float64Range(100, 600).Draw(rt, "w")
		more := rapid.Float64Range(0.1, 100).Draw(rt, "more")
		if one(panel(l+more, w, 18)).Mass.V <= one(panel(l, w, 18)).Mass.V {
			rt.Fatal("longer and no heavier")
		}
	})
}

func shop() *design.Design {
	return &design.Design{Shop: &design.ShopFile{
		Stocks: []*design.Stock{
			{Name: "ply", Length: n(2440), Width: n(1220), Price: n(90), InHand: 1},
			{Name: "ash", Length: n(2400), Width: n(32), Price: n(14), InHand: 5, Stick: true},
			{Name: "odd", Length: n(1000), Width: n(1000)},
		},
		Glues: []design.Glue{{Name: "no spread"}, {Name: "white glue", Spread: n(200e-9), Price: n(8)}},
	}}
}

func TestBuying(t *testing.T) {
	p := &piece.Piece{
		Parts: []*piece.Part{panel(100, 100, 18)},
		Fittings: []piece.Fitting{
			{What: "hinge", Kind: "hinge", Count: 2, On: "door, left", InHand: 3, Price: n(3)},
			{What: "hinge", Kind: "hinge", Count: 2, On: "door, right", InHand: 3, Price: n(3)},
			{What: "slide", Kind: "slide", Count: 1, On: "drawer", Price: n(11)},
		},
		Joints: []piece.Joint{{Glued: true, Area: n(1e6)}, {Area: n(5e6)}},
	}
	b := Buying(p, shop(), []work.Layout{
		{Stock: "ply", Sheets: make([]work.SheetLayout, 3), Count: n(3)},
		{Stock: "ash", Sticks: make([]work.StickLayout, 2), Count: n(2)},
		{Stock: "odd", Sheets: make([]work.SheetLayout, 1), Count: n(1)},
	})
	want := []struct {
		what, unit string
		count, pay float64
	}{
		{"ply", "sheet", 3, 180}, {"ash", "stick", 2, 0}, {"odd", "sheet", 1, 0},
		{"hinge", "piece", 4, 3}, {"slide", "pair", 1, 11}, {"white glue", "kg", 0.2, 1.6},
	}
	if len(b.Lines) != len(want) {
		t.Fatalf("%d lines, want %d", len(b.Lines), len(want))
	}
	for i, w := range want {
		l := b.Lines[i]
		if l.What != w.what || l.Unit != w.unit {
			t.Errorf("line %d is %s by the %s, want %s by the %s", i, l.What, l.Unit, w.what, w.unit)
		}
		near(t, w.what+", count", l.Count.V, w.count, 1e-9)
		near(t, w.what+", cost", l.Cost.V, w.pay, 1e-9)
	}
	near(t, "missing", b.Missing.V, 180+3+11+1.6, 1e-9)
	near(t, "stock", b.Stock.V, 270+28+12+11+1.6, 1e-9)
	if len(b.Unpriced) != 1 || b.Unpriced[0] != "odd" {
		t.Errorf("unpriced: %v", b.Unpriced)
	}
	if b.Lines[3].For != "door, left, door, right" {
		t.Errorf("hinges are for %q", b.Lines[3].For)
	}
}

// More in hand never costs more.
func TestMoreInHandCostsNoMore(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		need := rapid.IntRange(0, 9).Draw(rt, "need")
		has := rapid.IntRange(0, 9).Draw(rt, "has")
		cost := func(inHand int) float64 { return missing(n(float64(need)), inHand).V }
		if cost(has+1) > cost(has) || cost(has) > float64(need) {
			rt.Fatal("more in hand, more to buy")
		}
	})
}
