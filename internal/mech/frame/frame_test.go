package frame

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r3"
)

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.Abs(got-want) > share*math.Max(1e-9, math.Abs(want)) {
		t.Errorf("%s is %.8g, want %.8g", what, got, want)
	}
}

// stout is a section that hardly gives along its axis: closed forms leave that
// out.
func stout(i float64) Section {
	return Section{A: 1e7, Iy: i, Iz: i, J: i, E: 1e4, G: 600}
}

// portal is a frame h high and l wide with posts and beam of their own second
// moments.
func portal(h, l, post, beam float64, held bool) Frame {
	foot := [6]bool{true, true, true, true, true, held}
	f := Frame{Plane: true, Nodes: []Node{{Fix: foot}, {At: r3.Vec{Y: h}}, {At: r3.Vec{X: l, Y: h}}, {At: r3.Vec{X: l}, Fix: foot}}}
	for i, s := range []float64{post, beam, post} {
		f.Bars = append(f.Bars, Bar{A: i, B: i + 1, Section: stout(s), Ends: [2]Spring{Welded, Welded}})
	}
	return f
}

// Portal frames against the closed forms of the handbooks (A. Kleinlogel, Rigid
// Frame Formulas, from memory), k = I_beam·h/(I_post·l).
func TestPortalFrames(t *testing.T) {
	for _, c := range []struct{ h, l, post, beam float64 }{{700, 900, 4e4, 4e4}, {400, 1500, 1e5, 3e4}, {2000, 500, 2e4, 9e4}} {
		k := c.beam * c.h / (c.post * c.l)
		p, e := 300.0, 1e4
		f := portal(c.h, c.l, c.post, c.beam, false)
		f.Loads = []Load{{Node: 1, Force: r3.Vec{X: p}}}
		s := solved(t, f)
		near(t, "pinned, push, corner", s.Moment(1), p*c.h/2, 1e-4)
		near(t, "pinned, push, thrust", -s.Holds[0][0], p/2, 1e-3)
		near(t, "pinned, push, sway", s.Moves[1][0], p*c.h*c.h*c.h/(6*e*c.post)+p*c.h*c.h*c.l/(12*e*c.beam), 1e-3)
		f = portal(c.h, c.l, c.post, c.beam, true)
		f.Loads = []Load{{Node: 1, Force: r3.Vec{X: p}}}
		s = solved(t, f)
		near(t, "fixed, push, corner", math.Abs(s.Ends[0][11]), p*c.h/2*3*k/(6*k+1), 1e-3)
		near(t, "fixed, push, foot", math.Abs(s.Ends[0][5]), p*c.h/2*(3*k+1)/(6*k+1), 1e-3)
		f = portal(c.h, c.l, c.post, c.beam, false)
		f.Spreads = []Spread{{Bar: 1, Per: r3.Vec{Y: -2}}}
		s = solved(t, f)
		near(t, "pinned, load, thrust", s.Holds[0][0], 2*c.l*c.l/(4*c.h*(2*k+3)), 1e-3)
		near(t, "pinned, load, hold", s.Holds[3][1], c.l, 1e-9)
	}
}

// A two-member frame, both feet fixed, a load anywhere on the beam: the printed
// formulas of an engineering formula page (read): H = 3·P·x²·(L − x)/(2·h·L²·(β·e + 1)), the
// column's head P·x²·(L − x)/(L²·(β·e + 1)), β·e = I_h·h/(I_v·L), x from the
// wall.
func TestTwoMemberFrame(t *testing.T) {
	h, l, x, p := 600.0, 1000.0, 350.0, 500.0
	post, beam := 5e4, 8e4
	all := [6]bool{true, true, true, true, true, true}
	f := Frame{Plane: true, Nodes: []Node{{Fix: all}, {At: r3.Vec{Y: h}}, {At: r3.Vec{X: l - x, Y: h}}, {At: r3.Vec{X: l, Y: h}, Fix: all}}}
	for i, s := range []float64{post, beam, beam} {
		f.Bars = append(f.Bars, Bar{A: i, B: i + 1, Section: stout(s), Ends: [2]Spring{Welded, Welded}})
	}
	f.Loads = []Load{{Node: 2, Force: r3.Vec{Y: -p}}}
	s := solved(t, f)
	be := beam / post * h / l
	near(t, "thrust", s.Holds[0][0], 3*p*x*x/(2*h*l*l)*(l-x)/(be+1), 2e-4)
	near(t, "head", math.Abs(s.Ends[0][11]), p*x*x/(l*l)*(l-x)/(be+1), 2e-4)
	near(t, "foot", math.Abs(s.Ends[0][5]), p*x*x/(2*l*l)*(l-x)/(be+1), 2e-4)
}

// A beam between two springs under a spread load: at mid-span it sags
// 5wL⁴/384EI − M·L²/8EI, with M = wL²/12 · r·3/(2 + r) for equal fixities
// (derived; r = 1/(1 + 3EI/kL)).
func TestSpringsAtTheEnds(t *testing.T) {
	l, ei, w := 800.0, 1e4*4e4, 0.4
	for _, k := range []float64{0, 1e4, 1e5, 1e6, 1e7, Rigid} {
		all := [6]bool{true, true, true, true, true, true}
		f := Frame{Plane: true, Nodes: []Node{{Fix: all}, {At: r3.Vec{X: l / 2}}, {At: r3.Vec{X: l}, Fix: all}}}
		f.Bars = []Bar{{A: 0, B: 1, Section: stout(4e4), Ends: [2]Spring{{k, k}, Welded}}, {A: 1, B: 2, Section: stout(4e4), Ends: [2]Spring{Welded, {k, k}}}}
		f.Spreads = []Spread{{0, r3.Vec{Y: -w}}, {1, r3.Vec{Y: -w}}}
		s := solved(t, f)
		r := fixity(k, ei, l)
		m := w * l * l / 12 * 3 * r / (2 + r)
		near(t, "moment", math.Abs(s.Ends[0][5]), m, 1e-6)
		near(t, "sag", -s.Moves[1][1], 5*w*l*l*l*l/(384*ei)-m*l*l/(8*ei), 1e-6)
	}
}

// In space: a cantilever that turns a corner, loaded across its plane: it sags
// P·a³/3EI + P·b³/3EI + P·b²·a/GJ (bent arm a, then b at a right angle).
func TestCornerInSpace(t *testing.T) {
	a, b, p := 500.0, 300.0, 40.0
	all := [6]bool{true, true, true, true, true, true}
	sec := stout(3e4)
	f := Frame{Nodes: []Node{{Fix: all}, {At: r3.Vec{X: a}}, {At: r3.Vec{X: a, Z: b}}}}
	f.Bars = []Bar{{A: 0, B: 1, Section: sec, Ends: [2]Spring{Welded, Welded}}, {A: 1, B: 2, Section: sec, Ends: [2]Spring{Welded, Welded}}}
	f.Loads = []Load{{Node: 2, Force: r3.Vec{Y: -p}}}
	s := solved(t, f)
	ei, gj := sec.E*sec.Iz, sec.G*sec.J
	near(t, "sag", -s.Moves[2][1], p*a*a*a/(3*ei)+p*b*b*b/(3*ei)+p*b*b*a/gj, 1e-6)
	near(t, "hold", s.Holds[0][1], p, 1e-9)
	near(t, "turn of the wall", math.Abs(s.Holds[0][0+3]), p*b, 1e-9)
}

// Four hinged bars are no frame; a panel in them makes one, that sways F·h/(G·t·w).
func TestPanelKeepsSquare(t *testing.T) {
	h, w, gt, p := 800.0, 500.0, 1500.0, 100.0
	f := portal(h, w, 4e4, 4e4, false)
	for i := range f.Bars {
		f.Bars[i].Ends = [2]Spring{{}, {}}
	}
	f.Loads = []Load{{Node: 1, Force: r3.Vec{X: p}}}
	var none *Error
	if _, err := f.Solve(); !errors.As(err, &none) {
		t.Fatalf("a mechanism came out: %v", err)
	}
	f.Panels = []Panel{{Nodes: [4]int{0, 3, 2, 1}, Shear: gt}}
	s := solved(t, f)
	near(t, "sway", (s.Moves[1][0]+s.Moves[2][0])/2, p*h/(gt*w), 2e-3)
	near(t, "ground", s.Holds[0][0]+s.Holds[3][0], -p, 1e-6)
}

func solved(t *testing.T, f Frame) Solution {
	t.Helper()
	s, err := f.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What the ground holds balances the loads, whichever way the frame lies in
// space; and a stiffer joint never makes it sway more.
func TestBalanceAndStiffening(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := rapid.Float64Range(200, 2000).Draw(rt, "h")
		l := rapid.Float64Range(200, 2000).Draw(rt, "l")
		k := rapid.Float64Range(0, 1e8).Draw(rt, "k")
		more := rapid.Float64Range(0, 1e8).Draw(rt, "more")
		f := portal(h, l, 4e4, 6e4, true)
		f.Loads = []Load{{Node: 1, Force: r3.Vec{X: rapid.Float64Range(-500, 500).Draw(rt, "x"), Y: rapid.Float64Range(-500, 500).Draw(rt, "y")}}}
		f.Spreads = []Spread{{1, r3.Vec{Y: rapid.Float64Range(-2, 2).Draw(rt, "w")}}}
		f.Bars[1].Ends = [2]Spring{{k, k}, {k, k}}
		s, err := f.Solve()
		if err != nil {
			rt.Fatal(err)
		}
		x := s.Holds[0][0] + s.Holds[3][0] + f.Loads[0].Force.X
		y := s.Holds[0][1] + s.Holds[3][1] + f.Loads[0].Force.Y + f.Spreads[0].Per.Y*l
		if math.Abs(x) > 1e-3 || math.Abs(y) > 1e-3 {
			rt.Fatalf("out of balance by %g, %g", x, y)
		}
		f.Spreads = nil
		f.Loads = []Load{{Node: 1, Force: r3.Vec{X: 100}}}
		a, _ := f.Solve()
		f.Bars[1].Ends = [2]Spring{{k + more, k + more}, {k + more, k + more}}
		b, _ := f.Solve()
		if b.Moves[1][0] > a.Moves[1][0]*(1+1e-9) {
			rt.Fatalf("stiffer sways %g, was %g", b.Moves[1][0], a.Moves[1][0])
		}
	})
}

func TestHostileFrames(t *testing.T) {
	good := portal(500, 500, 1e4, 1e4, true)
	for name, spoil := range map[string]func(*Frame){
		"no nodes":       func(f *Frame) { f.Nodes = nil },
		"no such node":   func(f *Frame) { f.Bars[0].B = 9 },
		"no length":      func(f *Frame) { f.Bars[0].B = f.Bars[0].A },
		"no section":     func(f *Frame) { f.Bars[0].E = 0 },
		"no spring":      func(f *Frame) { f.Bars[0].Ends[0].Z = math.NaN() },
		"no place":       func(f *Frame) { f.Nodes[1].At.X = math.NaN() },
		"load nowhere":   func(f *Frame) { f.Loads = []Load{{Node: -1}} },
		"load on no bar": func(f *Frame) { f.Spreads = []Spread{{Bar: 7}} },
		"panel nowhere":  func(f *Frame) { f.Panels = []Panel{{Nodes: [4]int{0, 1, 2, 7}}} },
		"panel of what":  func(f *Frame) { f.Panels = []Panel{{Shear: math.Inf(1)}} },
		"floats":         func(f *Frame) { f.Nodes[0].Fix, f.Nodes[3].Fix = [6]bool{}, [6]bool{} },
	} {
		f := portal(500, 500, 1e4, 1e4, true)
		spoil(&f)
		var want *Error
		if _, err := f.Solve(); !errors.As(err, &want) || want.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := good.Solve(); err != nil {
		t.Error(err)
	}
}
