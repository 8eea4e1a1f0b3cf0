package chain

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r2"
)

// tip solves a cantilever of length 1 with EI 1 and a dead load at its end.
func tip(t testing.TB, n int, load, angle float64) (x, y, turn float64) {
	t.Helper()
	x, y, turn, err := Cantilever(n, load, angle)
	if err != nil {
		t.Fatal(err)
	}
	return x, y, turn
}

// The printed tables of the elastica: K. Mattiasson, 'Numerical results from
// large deflection beam and frame problems analysed by means of elliptic
// integrals', Int. J. Numer. Methods Eng. 17 (1981) 145-153, cantilever with an
// end load (from memory; each was reckoned again by the integral below).
func TestCantileverIsTheElastica(t *testing.T) {
	for _, c := range []struct{ load, sag, in, turn float64 }{
		{0.2, 0.06636, 0.00265, 0.09964},
		{1, 0.30172, 0.05643, 0.46135},
		{2, 0.49346, 0.16064, 0.78175},
		{5, 0.71379, 0.38763, 1.21537},
		{10, 0.81061, 0.55500, 1.43029},
	} {
		x, y, turn := tip(t, 200, c.load, math.Pi/2)
		for _, v := range [][2]float64{{y, c.sag}, {1 - x, c.in}, {turn, c.turn}} {
			if math.Abs(v[0]-v[1]) > 0.005*v[1] {
				t.Errorf("load %g: %.5f, printed %.5f", c.load, v[0], v[1])
			}
		}
		ix, iy := integral(c.load, turn)
		if math.Abs(iy-c.sag) > 0.002*c.sag || math.Abs(1-ix-c.in) > 0.01*c.in {
			t.Errorf("load %g: the integral gives %.5f %.5f, the table %.5f %.5f", c.load, iy, 1-ix, c.sag, c.in)
		}
	}
}

// integral reckons the cantilever's end from its end's turn by the elastica's
// own integral: dθ/ds = √(2P(sin θ_L − sin θ)), a second way that shares
// nothing with the chain. With sin θ = sin θ_L·(1 − u²) the root at the end goes.
func integral(load, end float64) (x, y float64) {
	const steps = 20000
	top := math.Sin(end)
	var length float64
	for i := range steps {
		u := (float64(i) + 0.5) / steps
		sin := top * (1 - u*u)
		cos := math.Sqrt(1 - sin*sin)
		ds := 2 * math.Sqrt(top) / math.Sqrt(2*load) / cos / steps
		length, x, y = length+ds, x+ds*cos, y+ds*sin
	}
	return x / length, y / length
}

// A column bent far over: S. P. Timoshenko and J. M. Gere, Theory of Elastic
// Stability, 2nd ed. 1961, table 2-4 (from memory): P/P_cr, x/l and y/l of the
// free end by the angle that it has turned.
func TestBuckledColumnIsTheElastica(t *testing.T) {
	for _, c := range []struct{ turn, load, x, y float64 }{
		{40, 1.063, 0.881, 0.422}, {60, 1.152, 0.741, 0.593}, {80, 1.293, 0.560, 0.719}, {100, 1.518, 0.349, 0.792}, {120, 1.884, 0.123, 0.803},
	} {
		x, y, turn := tip(t, 200, c.load*math.Pi*math.Pi/4, math.Pi)
		if math.Abs(turn*180/math.Pi-c.turn) > 0.5 || math.Abs(x-c.x) > 0.006 || math.Abs(y-c.y) > 0.006 {
			t.Errorf("load %g: turned %.2f°, at %.4f %.4f; printed %g° %.3f %.3f", c.load, turn*180/math.Pi, x, y, c.turn, c.x, c.y)
		}
	}
}

// Twice the kerfs, a quarter of the error: the chain goes to the elastica.
func TestConvergesWithTheSquareOfTheCount(t *testing.T) {
	_, fine, _ := tip(t, 400, 2, math.Pi/2)
	_, a, _ := tip(t, 25, 2, math.Pi/2)
	_, b, _ := tip(t, 50, 2, math.Pi/2)
	if r := (a - fine) / (b - fine); r < 3.5 || r > 4.5 {
		t.Errorf("errors %.6f and %.6f: ratio %.2f", a-fine, b-fine, r)
	}
}

// corner is a strip of n kerfs round a former that it just fits, with the turn
// and the radius of its inner face.
func corner(n int, angle float64) (Kerfed, *Former) {
	w, y, thick, rn := 2.2, 0.6, 17.7, 139.4
	alpha := angle / float64(n)
	s := w + 2*(rn-w/alpha)*math.Tan(alpha/2)
	k := Kerfed{Before: 200, After: 200, Flat: float64(n) * s, Kerf: w, Alpha: alpha, Stiff: 4e5, Shut: w / (thick - y), Over: thick - y, EI: 1.5e9}
	for i := range n {
		k.Positions = append(k.Positions, (float64(i)+0.5)*s)
	}
	a := (s-w)/2/math.Tan(alpha/2) + w/alpha - (thick - y)
	return k, &Former{Centre: r2.Vec{X: 200, Y: a + k.Over}, Radius: a, Angle: angle}
}

func solved(t testing.TB, k Kerfed, f *Former, clamps ...int) (Shape, []Link) {
	t.Helper()
	links := k.Links()
	for i, c := range clamps {
		if c < 0 {
			clamps[i] = len(links) + c
		}
	}
	s, err := Solve(Problem{Links: links, Former: f, Clamps: clamps, Start: Bent(links, k.Alpha)})
	if err != nil {
		t.Fatal(err)
	}
	return s, links
}

// A strip that was planned for the former, clamped at both flats, lies on it
// with every rib's middle within a hundredth, and its edges stand off as the
// closed form says.
func TestAPlannedStripLiesOnItsFormer(t *testing.T) {
	k, f := corner(36, math.Pi/2)
	s, links := solved(t, k, f, 0, 5, -6, -1)
	for _, g := range s.Gaps {
		l := links[g.Link]
		if l.Rib && l.To-l.From < 10 && g.Off > 0.06 {
			t.Errorf("rib %d stands off by %.3f at %.1f", g.Link, g.Off, g.Along)
		}
	}
	if s.Shut != 0 {
		t.Errorf("%d kerfs are shut", s.Shut)
	}
	for _, p := range s.Pulls {
		if p > 5000 {
			t.Errorf("pulls %.0f", s.Pulls)
		}
	}
}

// Clamps are set until the strip lies on, and each brings the largest gap down.
func TestClampsAreSetUntilTheStripLiesOn(t *testing.T) {
	k, f := corner(36, math.Pi/2)
	f.Radius, f.Centre.Y = f.Radius+1, f.Centre.Y+1
	links := k.Links()
	p := Problem{Links: links, Former: f, Clamps: []int{0, len(links) - 1}, Start: Bent(links, k.Alpha)}
	before, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	few, err := Place(p, 0.1, 3)
	if err != nil || few.Enough && few.Shape.Worst.Off > 0.1 || len(few.Clamps) > 3 {
		t.Errorf("%v %v", few.Clamps, err)
	}
	c, err := Place(p, 0.1, 12)
	if err != nil {
		t.Fatal(err)
	}
	if !c.Enough || c.Shape.Worst.Off > 0.1 || before.Worst.Off <= c.Shape.Worst.Off {
		t.Errorf("%d clamps leave %.3f, two left %.3f", len(c.Clamps), c.Shape.Worst.Off, before.Worst.Off)
	}
	if len(c.Along) != len(c.Clamps) {
		t.Errorf("%v", c.Along)
	}
}

// The energy falls at each step.
func TestEnergyFalls(t *testing.T) {
	k, f := corner(20, math.Pi/2)
	s, _ := solved(t, k, f, 0, 4, -5, -1)
	if len(s.Way) < 2 {
		t.Fatal("no way at all")
	}
	for i := 1; i < len(s.Way); i++ {
		if s.Way[i] >= s.Way[i-1] {
			t.Errorf("step %d: %g after %g", i, s.Way[i], s.Way[i-1])
		}
	}
}

// A strip that is alike from both ends takes a shape that is.
func TestSymmetry(t *testing.T) {
	k, f := corner(24, math.Pi/2)
	f.Radius += 1.5 // the rail is cut too round: the ends stand off
	f.Centre.Y += 1.5
	links := k.Links()
	n := len(links)
	s, err := Solve(Problem{Links: links, Former: f, Clamps: []int{0, n - 1}, Start: Bent(links, k.Alpha), Slides: true})
	if err != nil {
		t.Fatal(err)
	}
	for i := range n {
		if a, b := s.Turned[i]-s.Turned[0], s.Turned[n-1]-s.Turned[n-1-i]; math.Abs(a-b) > 2e-4 {
			t.Fatalf("link %d has turned %.6f from the start, its twin %.6f from the end", i, a, b)
		}
	}
}

// Kerfs shut and hold: on a former that is too small in radius for the blade
// the strip stops short of it.
func TestShutKerfsHoldTheStripOff(t *testing.T) {
	k, f := corner(24, math.Pi/2)
	k.Shut = k.Alpha * 0.9
	s, _ := solved(t, k, f, 0, -1)
	if s.Shut < 12 {
		t.Errorf("only %d kerfs are shut", s.Shut)
	}
	for i := 1; i < len(s.Turned); i++ {
		if turn := s.Turned[i] - s.Turned[i-1]; turn > k.Alpha*0.9*1.01 && k.Links()[i].Rib {
			t.Errorf("hinge %d turned by %.5f, past its stop at %.5f", i, turn, k.Alpha*0.9)
		}
	}
}

// The gradient is that of the energy, and the second derivatives that of the
// gradient: both by differences, at shapes of any kind.
func TestDerivatives(t *testing.T) {
	k, f := corner(6, 1.2)
	links := k.Links()
	rapid.Check(t, func(t *rapid.T) {
		s := newSystem(Problem{Links: links, Former: f, Clamps: []int{2, 7}, Loads: []Load{{Link: 9, Along: 3, Force: r2.Vec{X: 5, Y: -40}}}})
		n := s.n + 2
		q := make([]float64, n)
		for i := range n {
			q[i] = rapid.Float64Range(-0.3, 0.3).Draw(t, "q")
		}
		g, h := make([]float64, n), square(n)
		s.derivatives(q, g, h)
		i := rapid.IntRange(0, n-1).Draw(t, "i")
		const d = 1e-6
		up, down := make([]float64, n), make([]float64, n)
		hh := square(n)
		v := q[i]
		q[i] = v + d
		eu, a := s.derivatives(q, up, hh), s.state()
		q[i] = v - d
		ed, b := s.derivatives(q, down, hh), s.state()
		if a != b {
			t.Skip("a place begins to touch between the two: a kink")
		}
		if got := (eu - ed) / (2 * d); math.Abs(got-g[i]) > 1e-3*(1+math.Abs(g[i]))+4e-16*math.Abs(eu)/d {
			t.Fatalf("gradient %d: %g by differences, %g", i, got, g[i])
		}
		for j := range n {
			want := (up[j] - down[j]) / (2 * d)
			got := h[max(i, j)][min(i, j)]
			if math.Abs(got-want) > 2e-3*(1e5+math.Abs(want)) {
				t.Fatalf("second derivative %d %d: %g by differences, %g", i, j, want, got)
			}
		}
	})
}

// state tells which places are in the former, and at which stretch of it.
func (s *system) state() string {
	out := make([]byte, 0, len(s.probes))
	for _, b := range s.probes {
		p := s.point(b)
		d, _, curv, _ := s.Former.gap(p)
		k := byte('0')
		if d < 0 {
			k++
		}
		if curv > 0 {
			k += 2
		} else if p.X > s.Former.Centre.X {
			k += 4
		}
		out = append(out, k)
	}
	return string(out)
}

// What cannot be solved is refused, and never panics.
func TestNonsenseIsRefused(t *testing.T) {
	var bad *InputError
	ok := Even(1, 1, 4)
	for i, p := range []Problem{
		{}, {Links: ok[:1]}, {Links: []Link{{Length: 1}, {Length: math.NaN(), Stiff: 1}}}, {Links: ok, Start: []float64{1}},
		{Links: ok, Clamps: []int{9}}, {Links: ok, Former: &Former{Radius: -1, Angle: 1}}, {Links: ok, Loads: []Load{{Link: -1}}},
		{Links: ok, Loads: []Load{{Force: r2.Vec{X: math.Inf(1)}}}},
	} {
		if _, err := Solve(p); !errors.As(err, &bad) {
			t.Errorf("problem %d: %v", i, err)
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

func BenchmarkCorner(b *testing.B) {
	k, f := corner(36, math.Pi/2)
	for b.Loop() {
		solved(b, k, f, 0, 5, -6, -1)
	}
}
