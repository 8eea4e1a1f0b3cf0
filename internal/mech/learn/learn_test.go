package learn

import (
	"math"
	"testing"

	"rodwork/internal/mech/spread"
)

// bench draws readings of hidden things, repeatably.
type bench struct{ seed, at uint64 }

func (b *bench) read(mean, sd float64, n int) Measured {
	f := spread.Fit{Seed: b.seed*7919 + b.at, Causes: []spread.Cause{{Mean: mean, SD: sd}}, Of: func(x []float64) spread.Outcome {
		return spread.Outcome{Tight: x[0], Loose: x[0], Gap: x[0]}
	}}
	b.at++
	r := f.Build(n, spread.Open())
	return Measured{Mean: r.Tight.Mean, SD: r.Tight.SD, N: n}
}

// strip is a synthetic test strip with hidden blade, skin and hinge: ten kerfs of
// each width, each with its own skin, bent under one moment.
func (b *bench) strip(w, skin, skinSD, beta float64) Hinge {
	h := Hinge{Kerf: b.read(w, 0.015, 6), Double: b.read(2*w, 0.015, 6), Skin: b.read(skin, skinSD, 10)}
	turn := func(width float64) Measured {
		var xs []float64
		for range 10 {
			own := b.read(skin, skinSD, 2).Mean // of two draws: its scatter is skinSD/√2
			own = skin + (own-skin)*math.Sqrt2
			a := 0.02 * (width + beta*own) / math.Pow(own/skin, 3)
			xs = append(xs, b.read(a, 0.0004*math.Sqrt2, 2).Mean)
		}
		return of(xs)
	}
	h.Once, h.Twice = turn(w), turn(2*w)
	return h
}

func of(xs []float64) Measured {
	m := Measured{N: len(xs)}
	for _, x := range xs {
		m.Mean += x / float64(len(xs))
	}
	for _, x := range xs {
		m.SD += (x - m.Mean) * (x - m.Mean) / float64(len(xs)-1)
	}
	m.SD = math.Sqrt(m.SD)
	return m
}

func within(x float64, m Measured) bool {
	low, high := m.Interval(LeastError)
	return low <= x && x <= high
}

// Hidden blade, skin and hinge are found again, each within the interval that is
// told with it, at least 19 times out of 20 over all strips; and the interval
// of the hinge is narrow enough to be worth a strip.
func TestHiddenStripsAreLearned(t *testing.T) {
	var blade, skin, hinge, all int
	var wide float64
	for seed := range uint64(300) {
		b := &bench{seed: seed + 1}
		w, h, beta := 1.8+float64(seed%5)*0.35, 1.3+float64(seed%4)*0.3, float64(seed%9)*0.25
		s := b.strip(w, h, 0.03, beta)
		all++
		if within(w, s.Kerf) {
			blade++
		}
		if within(h, s.Skin) {
			skin++
		}
		got, low, high, ok := s.Beta()
		if !ok {
			t.Fatalf("strip %d tells nothing: %+v", seed, s)
		}
		if low <= beta && beta <= high {
			hinge++
		}
		if !(low < got && got < high) {
			t.Errorf("strip %d: %g is not between %g and %g", seed, got, low, high)
		}
		wide += (high - low) / 2 / 300
	}
	t.Logf("of %d: blade %d, skin %d, hinge %d; half width %.2f", all, blade, skin, hinge, wide)
	for what, n := range map[string]int{"blade": blade, "skin": skin, "hinge": hinge} {
		if n < all*95/100 {
			t.Errorf("the %s was within its interval %d times of %d", what, n, all)
		}
	}
	if wide > 0.9 {
		t.Errorf("β is told to ± %.2f: of no use, as it lies between 0 and 2 anyway", wide)
	}
}

// An interval that is too wide proves nothing: a quarter of it must miss now and then.
func TestAQuarterOfTheIntervalMisses(t *testing.T) {
	missed := 0
	for seed := range uint64(300) {
		b := &bench{seed: seed + 1}
		s := b.strip(2.2, 1.6, 0.03, 1)
		got, low, _, _ := s.Beta()
		if math.Abs(got-1) > (got-low)/4 {
			missed++
		}
	}
	if missed < 15 {
		t.Errorf("a quarter of the interval misses %d of 300 only", missed)
	}
}

func TestReadingsThatTellNothing(t *testing.T) {
	one := Measured{Mean: 1, N: 3}
	for _, h := range []Hinge{{}, {Kerf: one, Double: one, Skin: one, Once: one, Twice: one},
		{Kerf: one, Double: Measured{Mean: 2}, Skin: one, Once: one, Twice: one}} {
		if _, _, _, ok := h.Beta(); ok {
			t.Errorf("%+v tells β", h)
		}
	}
}

func TestBent(t *testing.T) {
	for _, c := range []struct {
		held, cracked float64
		want          Held
	}{{0.04, 0, Barely}, {0.05, 0, Holds}, {0.03, 0, Unknown}, {0.03, 0.035, Breaks}, {0.04, 0.045, Breaks}, {0.05, 0.06, Holds}, {0, 0, Unknown}} {
		if got := Bent(0.04, c.held, c.cracked); got != c.want {
			t.Errorf("held %g, cracked %g: %q, want %q", c.held, c.cracked, got, c.want)
		}
	}
}

func TestSteps(t *testing.T) {
	got := Steps(0.1, 0.1, -0.05, 5)
	for i, want := range []float64{-0.05, 0.05, 0.15, 0.25, 0.35} {
		if math.Abs(got[i]-want) > 1e-12 {
			t.Errorf("%v", got)
		}
	}
}

// Student's factors against the distribution: 95 % of means of normal readings
// lie within them.
func TestFactorsHold(t *testing.T) {
	for _, n := range []int{2, 3, 5, 10} {
		in := 0
		for seed := range uint64(2000) {
			b := &bench{seed: seed + 1, at: uint64(n) * 100}
			m := b.read(0, 1, n)
			if low, high := m.Interval(0); low <= 0 && 0 <= high {
				in++
			}
		}
		if share := float64(in) / 2000; math.Abs(share-0.95) > 0.02 {
			t.Errorf("%d readings: %.3f", n, share)
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
