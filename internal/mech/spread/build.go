package spread

import (
	"math"
	"slices"
)

// Fit is a fit as a function: the causes, what comes of them, and what is asked.
type Fit struct {
	Causes []Cause
	// Of is the fit's own function of the variables: each cause's in order, Times
	// of each. It is asked once for each build and must not keep x. What does not
	// come out (NaN) counts as a failure of the build.
	Of func(x []float64) Outcome
	// Seed of the draws, see SeedOf.
	Seed uint64
}

// Outcome is what one build comes to. Tight and Loose are the fit's least and
// greatest clearance, the same number where a fit has one only; Gap is what
// shows. All in the fit's unit.
type Outcome struct{ Tight, Loose, Gap float64 }

// Limits are what an outcome is held against: too tight under Tight, too loose
// over Loose, visible over Gap. Use ±Inf for what is not asked.
type Limits struct{ Tight, Loose, Gap float64 }

// Open are limits that ask nothing.
func Open() Limits {
	return Limits{Tight: math.Inf(-1), Loose: math.Inf(1), Gap: math.Inf(1)}
}

// Chance is a share of builds, with the standard error of a count of that many.
type Chance struct{ P, SE float64 }

func chance(hits, n int) Chance {
	p := float64(hits) / float64(n)
	// With no hit or only hits the plain error would be nought, which claims too
	// much: a count is taken as one off (the 'rule of three' is of that size).
	q := (float64(hits) + 1) / (float64(n) + 2)
	return Chance{P: p, SE: math.Sqrt(q * (1 - q) / float64(n))}
}

// Moments are the mean and the deviation of one of the outcome's numbers, with
// their standard errors, and the places under which 5, 50 and 95 % of the
// builds lie.
type Moments struct {
	Mean, SD, MeanSE, SDSE float64
	Low, Middle, High      float64
}

// Share is one cause's part in the scatter.
type Share struct {
	Cause string
	// Of is its share of the sum of what each cause does alone.
	Of float64
	// SD is what the fit scatters with this cause alone.
	SD float64
}

// Result is what the virtual builds say.
type Result struct {
	Builds, Failed int
	// Tight, Loose and Gap scatter so; Nominal is the outcome at the means.
	Tight, Loose, Gap Moments
	Nominal           Outcome
	// TooTight, TooLoose and Visible are chances; Bad that of any of them.
	TooTight, TooLoose, Visible, Bad Chance
	// Shares of the scatter of what is asked about, largest first.
	Shares []Share
	// Alone is the deviation of the causes' single effects added up; where Sum
	// differs from it, causes work together.
	Alone float64
}

// Linear is the plain stack: the mean and the deviation of the outcome's Tight
// by first differences at the means (SPREAD-01). It draws no lots.
func (f Fit) Linear() (mean, sd float64) {
	x := Means(f.Causes)
	mean = f.Of(x).Tight
	i, sum := 0, 0.0
	for _, c := range f.Causes {
		for range c.times() {
			if h := c.SD / 100; h > 0 {
				x[i] = c.Mean + h
				up := f.Of(x).Tight
				x[i] = c.Mean - h
				down := f.Of(x).Tight
				x[i] = c.Mean
				d := (up - down) / (2 * h) * c.SD
				sum += d * d
			}
			i++
		}
	}
	return mean, math.Sqrt(sum)
}

// Build builds the fit n times, and counts.
func (f Fit) Build(n int, lim Limits) Result {
	n = max(n, 2)
	r := Result{Builds: n, Nominal: f.Of(Means(f.Causes))}
	tight, loose, gap := make([]float64, 0, n), make([]float64, 0, n), make([]float64, 0, n)
	x := Means(f.Causes)
	var nt, nl, ng, bad int
	for j := range n {
		f.draw(x, uint64(j))
		o := f.Of(x)
		if math.IsNaN(o.Tight + o.Loose + o.Gap) {
			r.Failed++
			bad++
			continue
		}
		tight, loose, gap = append(tight, o.Tight), append(loose, o.Loose), append(gap, o.Gap)
		isTight, isLoose, isGap := o.Tight < lim.Tight, o.Loose > lim.Loose, o.Gap > lim.Gap
		nt, nl, ng = nt+btoi(isTight), nl+btoi(isLoose), ng+btoi(isGap)
		bad += btoi(isTight || isLoose || isGap)
	}
	r.Tight, r.Loose, r.Gap = moments(tight), moments(loose), moments(gap)
	r.TooTight, r.TooLoose, r.Visible, r.Bad = chance(nt, n), chance(nl, n), chance(ng, n), chance(bad, n)
	r.Shares, r.Alone = f.shares(lim)
	return r
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// draw fills x with build j.
func (f Fit) draw(x []float64, j uint64) {
	i := 0
	for k, c := range f.Causes {
		for m := range c.times() {
			x[i] = c.value(uniform(f.Seed, j, uint64(k)<<20+uint64(m)))
			i++
		}
	}
}

func moments(xs []float64) Moments {
	n := float64(len(xs))
	if len(xs) < 2 {
		return Moments{}
	}
	var m Moments
	for _, v := range xs {
		m.Mean += v
	}
	m.Mean /= n
	var s2, s4 float64
	for _, v := range xs {
		d := (v - m.Mean) * (v - m.Mean)
		s2, s4 = s2+d, s4+d*d
	}
	variance := s2 / (n - 1)
	m.SD = math.Sqrt(variance)
	m.MeanSE = m.SD / math.Sqrt(n)
	if m.SD > 0 { // of the variance: √((m4 − var²)/n); of its root half of that over the root
		m.SDSE = math.Sqrt(math.Max(s4/n-variance*variance, 0)/n) / (2 * m.SD)
	}
	slices.Sort(xs)
	at := func(p float64) float64 { return xs[min(int(p*n), len(xs)-1)] }
	m.Low, m.Middle, m.High = at(0.05), at(0.5), at(0.95)
	return m
}

// shares asks the fit with one variable moved at a time. What is asked about is
// the gap where only a gap has a limit, else the tight side.
func (f Fit) shares(lim Limits) ([]Share, float64) {
	of := func(o Outcome) float64 { return o.Tight }
	if math.IsInf(lim.Tight, -1) && math.IsInf(lim.Loose, 1) && !math.IsInf(lim.Gap, 1) {
		of = func(o Outcome) float64 { return o.Gap }
	}
	x := Means(f.Causes)
	var out []Share
	i, sum := 0, 0.0
	for k, c := range f.Causes {
		v := 0.0
		if c.times() == 1 {
			v = f.alone(x, i, c, of)
		} else if c.SD > 0 {
			v = f.together(x, i, k, of)
		}
		i += c.times()
		out = append(out, Share{Cause: c.Name, Of: v, SD: math.Sqrt(v)})
		sum += v
	}
	for k := range out {
		if sum > 0 {
			out[k].Of /= sum
		}
	}
	slices.SortStableFunc(out, func(a, b Share) int {
		switch {
		case a.Of > b.Of:
			return -1
		case a.Of < b.Of:
			return 1
		}
		return 0
	})
	return out, math.Sqrt(sum)
}

// groupBuilds is how often a cause of several variables is drawn for its share,
// which is then known to a thirtieth or so.
const groupBuilds = 1500

// together is the variance of the fit with all variables of cause k alone, which
// begin at i: by draws, as what is asked is often the worst of them.
func (f Fit) together(x []float64, i, k int, of func(Outcome) float64) float64 {
	c := f.Causes[k]
	base := of(f.Of(x))
	var first, second float64
	for j := range uint64(groupBuilds) {
		for m := range c.times() {
			x[i+m] = c.value(uniform(f.Seed, j, uint64(k)<<20+uint64(m)))
		}
		v := of(f.Of(x)) - base
		first, second = first+v, second+v*v
	}
	for m := range c.times() {
		x[i+m] = c.Mean
	}
	first /= groupBuilds
	return math.Max(second/groupBuilds-first*first, 0)
}

// alone is the variance of the fit with variable i alone, by the Gauss rule.
func (f Fit) alone(x []float64, i int, c Cause, of func(Outcome) float64) float64 {
	if c.SD == 0 {
		return 0
	}
	var first, second float64
	base := of(f.Of(x)) // taken off first, so that large means lose no digits
	for _, n := range c.nodes() {
		x[i] = c.Mean + n.at*c.SD
		v := of(f.Of(x)) - base
		first, second = first+n.weight*v, second+n.weight*v*v
	}
	x[i] = c.Mean
	return math.Max(second-first*first, 0)
}
