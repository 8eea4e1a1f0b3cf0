package beam_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/mech/beam"
)

// The trade association's formula with its own letters: 20 kg on 800 mm of 18
// mm fibreboard, 300 deep, E 2500: 5·W·L³·g/(32·E·b·t³).
func ExampleSag() {
	ei, _ := beam.EI(beam.Rect{Width: 300, High: 18, E: 2500})
	fmt.Printf("%.2f mm\n", beam.Sag(20*9.81/800, 800, ei, beam.Pins))
	// Output: 3.59 mm
}

func anyShelf(t *rapid.T) beam.Shelf {
	return beam.Shelf{
		Span: rapid.Float64Range(200, 2000).Draw(t, "span"), Load: rapid.Float64Range(1, 90).Draw(t, "load"),
		Depth: rapid.Float64Range(100, 600).Draw(t, "depth"), Thick: rapid.Float64Range(9, 40).Draw(t, "thick"),
		E: rapid.Float64Range(1500, 14000).Draw(t, "E"), Kdef: rapid.Float64Range(0, 3).Draw(t, "kdef"),
		EdgingWidth: rapid.Float64Range(5, 40).Draw(t, "ew"), EdgingHigh: rapid.Float64Range(0, 80).Draw(t, "eh"), EdgingE: 12000,
		BackHeld: rapid.Bool().Draw(t, "held"), Strength: rapid.Float64Range(0, 40).Draw(t, "f"),
		Ends: rapid.SampledFrom([]beam.Ends{beam.Pins, beam.Fixed, beam.Continuous}).Draw(t, "ends"),
	}
}

func judge(t interface {
	Helper()
	Fatal(...any)
}, s beam.Shelf) beam.Result {
	t.Helper()
	r, err := beam.Judge(s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var order = map[beam.Level]int{beam.Fine: 0, beam.Look: 1, beam.Stop: 2}

// Longer, heavier, thinner, softer and older shelves are never better.
func TestNeverBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShelf(t)
		a := judge(t, s)
		k := rapid.Float64Range(1.01, 2).Draw(t, "k")
		for name, worse := range map[string]func(*beam.Shelf){
			"longer":   func(s *beam.Shelf) { s.Span *= k },
			"heavier":  func(s *beam.Shelf) { s.Load *= k },
			"thinner":  func(s *beam.Shelf) { s.Thick /= k; s.EdgingHigh = 0 },
			"softer":   func(s *beam.Shelf) { s.E /= k; s.EdgingE /= k },
			"creeping": func(s *beam.Shelf) { s.Kdef += k },
		} {
			w := s
			worse(&w)
			if name == "thinner" {
				bare := s
				bare.EdgingHigh = 0
				a = judge(t, bare)
			} else {
				a = judge(t, s)
			}
			b := judge(t, w)
			if b.Long < a.Long-1e-9 {
				t.Errorf("%s: %g to %g", name, a.Long, b.Long)
			}
			// A longer span is allowed more sag, but never as much more.
			if order[b.Level] < order[a.Level] {
				t.Errorf("%s: %s to %s", name, a.Level, b.Level)
			}
		}
	})
}

// δ goes with q, L⁴, 1/E, 1/b and 1/t³.
func TestScalingLaws(t *testing.T) {
	s := beam.Shelf{Span: 800, Load: 30, Depth: 300, Thick: 18, E: 8000}
	d := judge(t, s).First
	for name, c := range map[string]struct {
		change func(*beam.Shelf)
		want   float64
	}{
		"load":  {func(s *beam.Shelf) { s.Load *= 2 }, 2},
		"span":  {func(s *beam.Shelf) { s.Span *= 2 }, 16},
		"E":     {func(s *beam.Shelf) { s.E *= 2 }, 0.5},
		"depth": {func(s *beam.Shelf) { s.Depth *= 2 }, 0.5},
		"thick": {func(s *beam.Shelf) { s.Thick *= 2 }, 0.125},
		"fixed": {func(s *beam.Shelf) { s.Ends = beam.Fixed }, 0.2},
	} {
		w := s
		c.change(&w)
		if got := judge(t, w).First / d; math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %g, want %g", name, got, c.want)
		}
	}
}

func TestMaxSpanIsWhereTheLimitIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q, ei := rapid.Float64Range(0.01, 2).Draw(t, "q"), rapid.Float64Range(1e7, 1e11).Draw(t, "ei")
		ratio := rapid.Float64Range(100, 500).Draw(t, "ratio")
		l := beam.MaxSpan(q, ei, ratio)
		if d := beam.Sag(q, l, ei, beam.Pins); math.Abs(l/d-ratio) > 1e-6*ratio {
			t.Errorf("span %g sags %g", l, d)
		}
	})
}

// A section cut in two and glued again is the same section; the order of its
// parts and the height of the level do not matter.
func TestSectionsAdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h, e := rapid.Float64Range(10, 400).Draw(t, "w"), rapid.Float64Range(3, 60).Draw(t, "h"), rapid.Float64Range(500, 15000).Draw(t, "e")
		cut, low := rapid.Float64Range(0.1, 0.9).Draw(t, "cut")*h, rapid.Float64Range(-100, 100).Draw(t, "low")
		whole, _ := beam.EI(beam.Rect{Width: w, High: h, Low: low, E: e})
		a, b := beam.Rect{Width: w, High: cut, Low: low, E: e}, beam.Rect{Width: w, High: h - cut, Low: low + cut, E: e}
		ab, y := beam.EI(a, b)
		ba, _ := beam.EI(b, a)
		if math.Abs(ab-whole) > 1e-9*whole || math.Abs(ba-whole) > 1e-9*whole || math.Abs(y-low-h/2) > 1e-9*(1+math.Abs(low)) {
			t.Errorf("%g %g %g", whole, ab, ba)
		}
	})
}

// The twist of an edged shelf against a second way: its two equations solved
// for every wave of the load, n = 1, 3 … 199, by elimination.
func TestTwistAgainstManyWaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := beam.Twist{
			Load: rapid.Float64Range(0.05, 1).Draw(t, "q"), Span: rapid.Float64Range(400, 1500).Draw(t, "L"),
			PanelEI: rapid.Float64Range(1e8, 5e9).Draw(t, "p"), StripEI: rapid.Float64Range(0, 5e9).Draw(t, "s"),
			Depth: rapid.Float64Range(150, 500).Draw(t, "b"), StripWidth: 20, GJ: rapid.Float64Range(1e7, 1e9).Draw(t, "GJ"),
		}
		front, middle, back := w.Sags()
		z := (w.Depth + w.StripWidth) / 2
		var sag, turn float64
		for n := 1.0; n < 200; n += 2 {
			k2 := math.Pow(n*math.Pi/w.Span, 2)
			load := 4 * w.Load / (n * math.Pi)
			// row 1: a·w + b·φ = load; row 2: b·w + c·φ = 0
			a, b := (w.PanelEI+w.StripEI)*k2*k2, w.StripEI*z*k2*k2
			c := (w.PanelEI*w.Depth*w.Depth/12+w.StripEI*z*z)*k2*k2 + w.GJ*k2
			phi := -load * b / a / (c - b*b/a)
			sign := math.Sin(n * math.Pi / 2)
			sag += sign * (load - b*phi) / a
			turn += sign * phi
		}
		for _, x := range [][2]float64{{front, sag + turn*w.Depth/2}, {middle, sag}, {back, sag - turn*w.Depth/2}} {
			if math.Abs(x[0]-x[1]) > 0.02*math.Abs(back) {
				t.Errorf("%v: one wave %g, many %g", w, x[0], x[1])
			}
		}
		if !(front <= middle && middle <= back) {
			t.Errorf("front %g, middle %g, back %g", front, middle, back)
		}
	})
}

// A strip that is held at the back helps; one on pins helps the front only.
func TestEdging(t *testing.T) {
	s := beam.Shelf{Span: 900, Load: 54, Depth: 350, Thick: 17.6, E: 10048, G: 620}
	bare := judge(t, s)
	s.EdgingWidth, s.EdgingHigh, s.EdgingE = 20, 30, 12000
	pins := judge(t, s)
	s.BackHeld = true
	held := judge(t, s)
	if !(held.First < bare.First && pins.Front < held.First && pins.Back > 0.95*bare.First && pins.Middle < bare.First) {
		t.Errorf("bare %g; on pins %g %g %g; held %g", bare.First, pins.Front, pins.Middle, pins.Back, held.First)
	}
	if pins.First != pins.Back {
		t.Errorf("judged by %g, the back edge sags %g", pins.First, pins.Back)
	}
}

func TestLimitsAndLevels(t *testing.T) {
	l := beam.Limits(3000)
	if l[1].Sag != 6.35 {
		t.Errorf("the kitchen limit is capped at a quarter of an inch, not %g", l[1].Sag)
	}
	s := beam.Shelf{Span: 900, Depth: 300, Thick: 18, E: 10000}
	for _, c := range []struct {
		load float64
		want beam.Level
	}{{10, beam.Fine}, {60, beam.Look}, {150, beam.Stop}} {
		s.Load = c.load
		if r := judge(t, s); r.Level != c.want {
			t.Errorf("%g kg/m: %s, sag %g of %v", c.load, r.Level, r.Long, r.Limits)
		}
	}
	s.Load, s.Strength = 10, 0.1
	if r := judge(t, s); r.Level != beam.Stop || r.Used <= 1 {
		t.Errorf("beyond its strength: %s, %g", r.Level, r.Used)
	}
}

func TestBadShelves(t *testing.T) {
	good := beam.Shelf{Span: 900, Load: 30, Depth: 300, Thick: 18, E: 10000}
	for name, spoil := range map[string]func(*beam.Shelf){
		"span 0": func(s *beam.Shelf) { s.Span = 0 }, "span NaN": func(s *beam.Shelf) { s.Span = math.NaN() },
		"load negative": func(s *beam.Shelf) { s.Load = -1 }, "E infinite": func(s *beam.Shelf) { s.E = math.Inf(1) },
		"thick 0": func(s *beam.Shelf) { s.Thick = 0 }, "kdef NaN": func(s *beam.Shelf) { s.Kdef = math.NaN() },
	} {
		s := good
		spoil(&s)
		if r, err := beam.Judge(s); err == nil {
			t.Errorf("%s: %+v", name, r)
		}
	}
	good.Load = 0
	if r := judge(t, good); r.First != 0 || r.Level != beam.Fine {
		t.Errorf("an empty shelf: %+v", r)
	}
}
