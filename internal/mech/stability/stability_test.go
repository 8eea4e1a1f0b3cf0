package stability_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/stability"
)

type v = r3.Vec

// dresser is the worked sum of a student engineering page, University of
// Delaware, 7 April 2017: three closed drawers, the carcase, one drawer open, a
// child at its front.
func dresser(child float64) stability.State {
	return stability.State{
		Name: "dresser", Gravity: 9.8,
		Feet: []stability.Foot{{X: 0, Z: 0}, {X: 800, Z: 0}, {X: 800, Z: 480}, {X: 0, Z: 480}},
		Masses: []stability.Mass{
			{Name: "three drawers", Kg: 27.75, At: v{X: 400, Y: 500, Z: 240}},
			{Name: "carcase", Kg: 35.95, At: v{X: 400, Y: 670, Z: 240}},
			{Name: "open drawer", Kg: 9.25, At: v{X: 400, Y: 1100, Z: 720}},
			{Name: "child", Kg: child, At: v{X: 400, Y: 1100, Z: 1030}},
		},
	}
}

func ExampleState_About() {
	for _, kg := range []float64{28, 23} {
		o, err := dresser(kg).About("front")
		fmt.Printf("%.0f kg: %.2f N·m, stands %v, %v\n", kg, o.Net/1000, o.Stands, err)
	}
	load, _ := dresser(0).TipLoad("front", v{X: 400, Y: 1100, Z: 1030})
	fmt.Printf("tips at %.2f kg\n", load)
	// Output:
	// 28 kg: -22.85 N·m, stands false, <nil>
	// 23 kg: 4.10 N·m, stands true, <nil>
	// tips at 23.76 kg
}

// A block of 0.43 in under feet 17 in apart, a mass 9 in behind and 20 in up.
func TestBlock(t *testing.T) {
	const in = 25.4
	s := stability.State{Name: "block", Block: 0.43 * in,
		Feet:   []stability.Foot{{X: 0, Z: 0}, {X: 500, Z: 0}, {X: 500, Z: 17 * in}, {X: 0, Z: 17 * in}},
		Masses: []stability.Mass{{Name: "all", Kg: 1, At: v{X: 250, Y: 20 * in, Z: 8 * in}}}}
	o, err := s.About("front")
	if err != nil {
		t.Fatal(err)
	}
	if got := o.Net / stability.Gravity / in; math.Abs(got-8.491) > 0.0005 {
		t.Errorf("lever %.4f in, want 8.491", got)
	}
	if got := o.Tilt * 180 / math.Pi; math.Abs(got-1.4494) > 0.00005 {
		t.Errorf("tilt %.5f°", got)
	}
}

// Case of a bookcase of 1500 N: tips at a level pull of 750 N at 1.80 m.
func TestPull(t *testing.T) {
	s := stability.State{Name: "bookcase",
		Feet:   []stability.Foot{{X: 0, Z: 0}, {X: 900, Z: 0}, {X: 900, Z: 1800}, {X: 0, Z: 1800}},
		Masses: []stability.Mass{{Name: "all", Kg: 1500 / stability.Gravity, At: v{X: 450, Y: 900, Z: 900}}}}
	f, err := s.TipPull("front", v{X: 450, Y: 1800, Z: 1800})
	if err != nil || math.Abs(f-750) > 1e-6 {
		t.Errorf("%g N, %v", f, err)
	}
	s.Pulls = []stability.Pull{{Name: "pull", N: 750, At: v{X: 450, Y: 1800, Z: 1800}}}
	o, err := s.About("front")
	if err != nil || math.Abs(o.Net) > 1e-6 || math.Abs(o.Margin-1) > 1e-9 {
		t.Errorf("at the tipping pull: %+v %v", o, err)
	}
}

func anyState(t *rapid.T) stability.State {
	w, d := rapid.Float64Range(300, 2000).Draw(t, "w"), rapid.Float64Range(150, 800).Draw(t, "d")
	s := stability.State{Name: "any", Feet: []stability.Foot{{X: 0, Z: d}, {X: w, Z: 0}, {X: 0, Z: 0}, {X: w, Z: d}},
		Block: rapid.Float64Range(0, 20).Draw(t, "block")}
	for i := range rapid.IntRange(1, 6).Draw(t, "n") {
		s.Masses = append(s.Masses, stability.Mass{Name: fmt.Sprint(i), Kg: rapid.Float64Range(0.1, 60).Draw(t, "kg"),
			At: v{X: rapid.Float64Range(-200, w+200).Draw(t, "x"), Y: rapid.Float64Range(0, 2000).Draw(t, "y"), Z: rapid.Float64Range(-100, d+500).Draw(t, "z")}})
	}
	return s
}

func worst(t *rapid.T, s stability.State) stability.Outcome {
	o, _, err := stability.Tip([]stability.State{s})
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// The upward support of a body that stands: its weight's line goes through the
// hull of its feet. A second way to the same verdict.
func TestStandsWhereTheWeightFallsInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyState(t)
		o := worst(t, s)
		var m, x, y, z, w, d float64
		for _, q := range s.Masses {
			m += q.Kg
			x, y, z = x+q.Kg*q.At.X, y+q.Kg*q.At.Y, z+q.Kg*q.At.Z
		}
		for _, f := range s.Feet {
			w, d = math.Max(w, f.X), math.Max(d, f.Z)
		}
		// Where the true vertical through the centre meets the plane of the feet.
		z = (z + y*math.Tan(math.Asin(s.Block/d))) / m
		x /= m
		inside := math.Min(math.Min(x, w-x), math.Min(z, d-z))
		if math.Abs(inside) > 1e-6 && (inside > 0) != o.Stands {
			t.Errorf("inside by %g, stands %v (%+v)", inside, o.Stands, o)
		}
	})
}

// A deeper base, a lower block, less out in front, less pull: never worse.
func TestNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyState(t)
		s.Pulls = []stability.Pull{{N: rapid.Float64Range(0, 200).Draw(t, "pull"), At: v{X: 100, Y: 1000, Z: s.Feet[0].Z}}}
		front := func(s stability.State) float64 {
			o, err := s.About("front")
			if err != nil {
				t.Fatal(err)
			}
			return o.Net
		}
		a := front(s)
		deeper, lower, weaker := s, s, s
		deeper.Pulls = nil // the lever of a level pull leans with the block, and so hangs on the depth
		still := front(deeper)
		deeper.Feet = append([]stability.Foot(nil), s.Feet...)
		for i := range deeper.Feet {
			if deeper.Feet[i].Z > 0 {
				deeper.Feet[i].Z += 50 // the front feet come forward
			}
		}
		// A block under what hangs far out and low may even help, and so may it
		// against a pull: the law is for what stands behind the front feet.
		lower.Pulls = nil
		lower.Masses = nil
		for _, m := range s.Masses {
			m.At.Z = math.Min(m.At.Z, s.Feet[0].Z)
			lower.Masses = append(lower.Masses, m)
		}
		higher := lower
		lower.Block /= 2
		if x, y := front(higher), front(lower); y < x-1e-6*math.Abs(x)-1e-6 {
			t.Errorf("lower block: %g to %g", x, y)
		}
		weaker.Pulls = []stability.Pull{{N: s.Pulls[0].N / 2, At: s.Pulls[0].At}}
		if b := front(weaker); b < a-1e-6*math.Abs(a)-1e-6 {
			t.Errorf("a weaker pull: %g to %g", a, b)
		}
		if b := front(deeper); b < still-1e-6*math.Abs(still)-1e-6 {
			t.Errorf("a deeper base: %g to %g", still, b)
		}
	})
}

// nets are the net moments about all edges, in order.
func nets(t *rapid.T, s stability.State) []float64 {
	all, err := s.Outcomes()
	if err != nil || len(all) != 4 {
		t.Fatalf("%d edges, %v", len(all), err)
	}
	var out []float64
	for _, o := range all {
		out = append(out, o.Net)
	}
	slices.Sort(out)
	return out
}

// Moved and turned about the vertical, a level piece stands as before; feet in
// another order, or more feet inside the hull, change nothing.
func TestRigidMotions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyState(t)
		s.Block = 0
		a := nets(t, s)
		turn, dx, dz := rapid.Float64Range(0, 6.28).Draw(t, "turn"), rapid.Float64Range(-900, 900).Draw(t, "dx"), rapid.Float64Range(-900, 900).Draw(t, "dz")
		sin, cos := math.Sincos(turn)
		move := func(x, z float64) (float64, float64) { return dx + x*cos + z*sin, dz - x*sin + z*cos }
		b := stability.State{Name: "moved"}
		for i := len(s.Feet) - 1; i >= 0; i-- {
			x, z := move(s.Feet[i].X, s.Feet[i].Z)
			b.Feet = append(b.Feet, stability.Foot{X: x, Z: z})
		}
		x, z := move((s.Feet[0].X+s.Feet[1].X)/2, (s.Feet[0].Z+s.Feet[1].Z)/2)
		b.Feet = append(b.Feet, stability.Foot{X: x, Z: z})
		for _, m := range s.Masses {
			m.At.X, m.At.Z = move(m.At.X, m.At.Z)
			b.Masses = append(b.Masses, m)
		}
		for i, net := range nets(t, b) {
			if math.Abs(net-a[i]) > 1e-6*(1+math.Abs(a[i])) {
				t.Errorf("moved by %g, %g and turned by %g: %g about an edge, before %g", dx, dz, turn, net, a[i])
			}
		}
	})
}

func TestTipTakesTheWorst(t *testing.T) {
	w, all, err := stability.Tip([]stability.State{dresser(0), dresser(28), dresser(23)})
	if err != nil || len(all) != 12 || w.Stands || w.Edge.Name != "front" {
		t.Errorf("%+v of %d, %v", w, len(all), err)
	}
	sum := 0.0
	for _, s := range w.Shares {
		sum += s.Moment
	}
	if math.Abs(sum-w.Net) > 1e-6 || len(w.Shares) != 4 {
		t.Errorf("shares make %g of %g", sum, w.Net)
	}
}

func TestTipLoadTips(t *testing.T) {
	at := v{X: 400, Y: 1100, Z: 1030}
	load, err := dresser(0).TipLoad("front", at)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		kg     float64
		stands bool
	}{{load - 1e-6, true}, {load + 1e-6, false}} {
		if o, _ := dresser(c.kg).About("front"); o.Stands != c.stands {
			t.Errorf("%g kg: %+v", c.kg, o)
		}
	}
	if load, _ := dresser(0).TipLoad("front", v{X: 400, Z: 100}); !math.IsInf(load, 1) {
		t.Errorf("a load behind the feet tips at %g", load)
	}
	if load, _ := dresser(40).TipLoad("front", at); load != 0 {
		t.Errorf("what tips already bears %g", load)
	}
}

func TestBadStates(t *testing.T) {
	for name, spoil := range map[string]func(*stability.State){
		"no feet":       func(s *stability.State) { s.Feet = nil },
		"feet in line":  func(s *stability.State) { s.Feet = []stability.Foot{{0, 0}, {1, 1}, {2, 2}, {5, 5}} },
		"NaN foot":      func(s *stability.State) { s.Feet[0].X = math.NaN() },
		"negative mass": func(s *stability.State) { s.Masses[0].Kg = -1 },
		"NaN mass":      func(s *stability.State) { s.Masses[0].Kg = math.NaN() },
		"mass nowhere":  func(s *stability.State) { s.Masses[0].At.Y = math.Inf(1) },
		"block NaN":     func(s *stability.State) { s.Block = math.NaN() },
		"block huge":    func(s *stability.State) { s.Block = 480 },
		"pull NaN":      func(s *stability.State) { s.Pulls = []stability.Pull{{N: math.NaN()}} },
	} {
		s := dresser(20)
		spoil(&s)
		var se *stability.StateError
		if _, _, err := stability.Tip([]stability.State{s}); !errors.As(err, &se) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, _, err := stability.Tip(nil); err == nil {
		t.Error("no states")
	}
	if _, err := dresser(1).About("north"); err == nil {
		t.Error("no such edge")
	}
}

func TestScope(t *testing.T) {
	if !stability.InScope(686, 13.6, 90.6) || stability.InScope(685, 13.6, 90.6) || stability.InScope(686, 13.5, 90.6) || stability.InScope(686, 13.6, 90.5) {
		t.Error("the scope's edges")
	}
}

func TestChildMass(t *testing.T) {
	last := 0.0
	for y := 2.0; y <= 8; y += 0.25 {
		kg, ok := stability.ChildMass(y)
		if !ok || kg <= last {
			t.Errorf("%g years: %g kg after %g, %v", y, kg, last, ok)
		}
		last = kg
	}
	for _, y := range []float64{1.9, 8.1, math.NaN(), -1} {
		if kg, ok := stability.ChildMass(y); ok {
			t.Errorf("%g years: %g kg", y, kg)
		}
	}
}
