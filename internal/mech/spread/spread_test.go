package spread

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The inverse of the normal distribution, against the error function.
func TestQuantileInvertsTheNormalDistribution(t *testing.T) {
	for _, z := range []float64{-5, -3.2, -1.96, -1.2, -0.5, -0.01, 0, 0.3, 1.15, 1.2, 2.5, 4.5} {
		p := 0.5 * math.Erfc(-z/math.Sqrt2)
		if got := quantile(p); math.Abs(got-z) > 2e-6*(1+math.Abs(z)) {
			t.Errorf("quantile(%g) = %.8f, want %g", p, got, z)
		}
	}
}

func one(o float64) Outcome { return Outcome{Tight: o, Loose: o, Gap: o} }

const builds = 10_000

// A straight fit: the builds' mean and variance are those of the closed form
// within four standard errors, and the shares are the terms of the sum.
func TestStraightFitsAgreeWithTheClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Fit{Seed: rapid.Uint64().Draw(t, "seed")}
		var by []float64
		mean, variance := 0.0, 0.0
		for range rapid.IntRange(1, 5).Draw(t, "causes") {
			c := Cause{Mean: rapid.Float64Range(-20, 20).Draw(t, "mean"), SD: rapid.Float64Range(0, 0.5).Draw(t, "sd"),
				Shape: Shape(rapid.IntRange(0, 1).Draw(t, "shape")), Times: rapid.IntRange(0, 4).Draw(t, "times")}
			k := rapid.Float64Range(-3, 3).Draw(t, "factor")
			for range c.times() {
				by = append(by, k)
				mean, variance = mean+k*c.Mean, variance+k*k*c.SD*c.SD
			}
			f.Causes = append(f.Causes, c)
		}
		f.Of = func(x []float64) Outcome {
			s := 0.0
			for i, v := range x {
				s += by[i] * v
			}
			return one(s)
		}
		r := f.Build(2000, Open())
		if math.Abs(r.Tight.Mean-mean) > 4.5*r.Tight.MeanSE+1e-9 || math.Abs(r.Tight.SD-math.Sqrt(variance)) > 4.5*r.Tight.SDSE+1e-9 {
			t.Fatalf("builds %.5f ± %.5f, closed form %.5f ± %.5f (errors %.5f, %.5f)", r.Tight.Mean, r.Tight.SD, mean, math.Sqrt(variance), r.Tight.MeanSE, r.Tight.SDSE)
		}
		lm, ls := f.Linear()
		if math.Abs(lm-mean) > 1e-9 || math.Abs(ls-math.Sqrt(variance)) > 1e-6 || math.Abs(r.Alone-math.Sqrt(variance)) > 0.1*math.Sqrt(variance)+1e-9 {
			t.Fatalf("linear %g ± %g, shares' sum %g, want %g ± %g", lm, ls, r.Alone, mean, math.Sqrt(variance))
		}
	})
}

// Four standard errors, with fixed seeds: the closed form of a housing.
func TestTenThousandBuildsOfAHousing(t *testing.T) {
	for seed := range uint64(20) {
		f := Fit{Seed: seed, Causes: []Cause{{Name: "slot", Mean: 17.8, SD: 0.06}, {Name: "panel", Mean: 17.7, SD: 0.05}},
			Of: func(x []float64) Outcome { return one(x[0] - x[1]) }}
		r := f.Build(builds, Limits{Tight: 0, Loose: 0.3, Gap: math.Inf(1)})
		sd := math.Hypot(0.06, 0.05)
		if math.Abs(r.Tight.Mean-0.1) > 4*r.Tight.MeanSE || math.Abs(r.Tight.SD-sd) > 4*r.Tight.SDSE {
			t.Errorf("seed %d: %v", seed, r.Tight)
		}
		under := 0.5 * math.Erfc(0.1/sd/math.Sqrt2)
		if math.Abs(r.TooTight.P-under) > 4*r.TooTight.SE {
			t.Errorf("seed %d: too tight %v, want %.4f", seed, r.TooTight, under)
		}
		if math.Abs(r.Shares[0].Of-0.0036/0.0061) > 1e-9 || r.Shares[0].Cause != "slot" {
			t.Errorf("shares %v", r.Shares)
		}
	}
}

// A fit that is not straight: the thickest of three places binds. Its mean lies
// 0.846 deviations above that of one (the mean of the greatest of three normal
// draws is 3/(2√π)), which the plain stack does not see.
func TestTheThickestOfThreePlacesIsNoPlainStack(t *testing.T) {
	f := Fit{Seed: 7, Causes: []Cause{{Name: "place", Mean: 0, SD: 1, Times: 3}},
		Of: func(x []float64) Outcome { return one(max(x[0], x[1], x[2])) }}
	r := f.Build(builds, Open())
	want := 3 / (2 * math.Sqrt(math.Pi))
	if math.Abs(r.Tight.Mean-want) > 4*r.Tight.MeanSE {
		t.Errorf("mean %.4f, want %.4f ± %.4f", r.Tight.Mean, want, r.Tight.MeanSE)
	}
	if mean, _ := f.Linear(); math.Abs(mean-want) < 20*r.Tight.MeanSE {
		t.Errorf("the plain stack gives %.4f too: this case shows nothing", mean)
	}
}

// What is the same N times scatters as N, what is drawn anew as √N.
func TestSameErrorsAddAsNOwnOnesAsItsRoot(t *testing.T) {
	sum := func(x []float64) Outcome {
		s := 0.0
		for _, v := range x {
			s += v
		}
		return one(s)
	}
	for _, n := range []int{4, 16, 64} {
		own := Fit{Seed: 3, Causes: []Cause{{SD: 0.1, Times: n}}, Of: sum}.Build(builds, Open()).Tight
		if want := Stack(n, 0, 0.1); math.Abs(own.SD-want) > 4*own.SDSE {
			t.Errorf("%d own errors: %.4f, want %.4f", n, own.SD, want)
		}
		same := Fit{Seed: 3, Causes: []Cause{{SD: 0.1}}, Of: func(x []float64) Outcome { return one(float64(n) * x[0]) }}.Build(builds, Open()).Tight
		if want := Stack(n, 0.1, 0); math.Abs(same.SD-want) > 4*same.SDSE {
			t.Errorf("%d times the same: %.4f, want %.4f", n, same.SD, want)
		}
	}
}

// The same seed builds the same; a cause more leaves the others' draws alone.
func TestBuildsRepeat(t *testing.T) {
	f := Fit{Seed: SeedOf("divider / top"), Causes: []Cause{{SD: 1}, {SD: 2, Shape: Even}}, Of: func(x []float64) Outcome { return one(x[0] * x[1]) }}
	a, b := f.Build(500, Limits{0, 1, 2}), f.Build(500, Limits{0, 1, 2})
	if a.Tight != b.Tight || a.Bad != b.Bad {
		t.Error("two runs differ")
	}
	x, y := make([]float64, 2), make([]float64, 3)
	f.draw(x, 17)
	f.Causes = append(f.Causes, Cause{SD: 1})
	f.draw(y, 17)
	if x[0] != y[0] || x[1] != y[1] {
		t.Error("a third cause stirs up the first two")
	}
}

// A chance never claims to be surer than its count.
func TestNoHitIsNotNoChance(t *testing.T) {
	if c := chance(0, 10_000); c.P != 0 || c.SE <= 0 || c.SE > 2e-4 {
		t.Errorf("%v", c)
	}
}

// What does not come out counts as failed, and spoils no mean.
func TestFailedBuildsAreCounted(t *testing.T) {
	f := Fit{Seed: 1, Causes: []Cause{{Mean: 1, SD: 1}}, Of: func(x []float64) Outcome { return one(math.Sqrt(x[0])) }}
	r := f.Build(1000, Open())
	if r.Failed < 100 || r.Failed > 220 || math.IsNaN(r.Tight.Mean) {
		t.Errorf("%d failed, mean %g", r.Failed, r.Tight.Mean)
	}
	if math.Abs(r.Bad.P-float64(r.Failed)/1000) > 1e-9 {
		t.Errorf("bad %v", r.Bad)
	}
}

func BenchmarkBuild(b *testing.B) {
	f := Fit{Seed: 1, Causes: []Cause{{Mean: 1, SD: 1}, {SD: 0.1, Times: 36}}, Of: func(x []float64) Outcome { return one(x[0] + x[3]) }}
	for b.Loop() {
		f.Build(builds, Open())
	}
}

func TestRulesAreComplete(t *testing.T) {
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}
