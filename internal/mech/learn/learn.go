// Package learn turns what a test piece measured into what the model takes: the
// width of a blade's kerf, the skin that a depth stop leaves, how far a fit's
// slot comes out from what was set, how long the hinge under a kerf is, and how
// far a skin bends before it breaks. Each comes with an interval that it lies in
// 19 times out of 20, if the readings scatter as they did.
//
// # Readings
//
// The mean of n readings of deviation s is known to ± t·s/√n, with Student's t
// for n − 1: with three readings the deviation is itself hardly known, and t is
// 4.3, not 2. A calliper that always reads 0.02 mm too much is not found by
// reading it again; a least error stands beside the scatter.
//
// # The hinge
//
// The skin under a kerf bends some way into the ribs, so that the hinge is not w
// long but w + β·h. One angle under one weight does not tell β, as the skin's
// stiffness is known to a fifth at best. Two do: cut some kerfs once, and as
// many twice as wide in two passes, in the same piece and at one depth, and hang
// a weight on it. Every hinge is the same skin, so each turns as it is long,
//
//	r = α_1/α_2 = (w_1 + β·h)/(w_2 + β·h),   β = (w_1 − r·w_2)/((r − 1)·h)
//
// and the stiffness is gone from it (rule LEARN-01). Over several kerfs of each
// width the skin's own scatter averages out; what is left of it, three times
// its share as the stiffness goes with the third power, is in the interval.
package learn

import "math"

// Measured is a mean of readings.
type Measured struct {
	Mean, SD float64 // of one reading
	N        int     // readings; 0 counts as one
}

// LeastError is what a calliper, its jaws and the hand on them are trusted to at
// best, mm: it does not average out.
const LeastError = 0.02

// student has the factors within which 95 % lie, by n − 1 (the two-sided table
// of Student's t that every handbook prints; from memory, held by a test).
var student = [...]float64{12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086}

// Factor is Student's t for n readings; past the table it is that of the next
// smaller n. One reading has no scatter of its own: what its SD says is taken.
func Factor(n int) float64 {
	switch {
	case n <= 1:
		return 2
	case n-2 < len(student):
		return student[n-2]
	}
	return student[len(student)-1]
}

// SE is the standard error of the mean, with what does not average out.
func (m Measured) SE(least float64) float64 {
	return math.Hypot(m.SD/math.Sqrt(float64(max(m.N, 1))), least/2)
}

// Interval is what the mean lies in.
func (m Measured) Interval(least float64) (low, high float64) {
	d := math.Hypot(Factor(m.N)*m.SD/math.Sqrt(float64(max(m.N, 1))), least)
	return m.Mean - d, m.Mean + d
}

// Hinge is what a test strip with single and doubled kerfs measured. Lengths in
// mm, turns of one kerf in rad (or in any one unit).
type Hinge struct {
	Kerf, Double Measured // widths
	Skin         Measured
	Once, Twice  Measured // turns of a single and of a doubled kerf under one weight; N: kerfs of each
}

// Beta returns β and the interval that it lies in. ok is false where the
// readings tell nothing: the doubled kerf does not turn more, or is not wider.
func (h Hinge) Beta() (beta, low, high float64, ok bool) {
	if !(h.Double.Mean > h.Kerf.Mean && h.Kerf.Mean > 0 && h.Skin.Mean > 0 && h.Twice.Mean > h.Once.Mean && h.Once.Mean > 0) {
		return 0, 0, 0, false
	}
	beta = betaOf(h.Kerf.Mean, h.Double.Mean, h.Skin.Mean, h.Once.Mean, h.Twice.Mean)
	d := h.error()
	if math.IsNaN(d) || math.IsInf(d, 0) {
		return 0, 0, 0, false
	}
	return beta, beta - d, beta + d, true
}

func betaOf(w1, w2, skin, once, twice float64) float64 {
	r := once / twice
	return (w1 - r*w2) / ((r - 1) * skin)
}

// error is how far β may be off, by differences: each reading is moved by its
// own 95 %, and what comes of it is added as squares.
func (h Hinge) error() float64 {
	x := []float64{h.Kerf.Mean, h.Double.Mean, h.Skin.Mean, h.Once.Mean, h.Twice.Mean}
	off := make([]float64, len(x))
	for i, m := range []Measured{h.Kerf, h.Double, h.Skin} {
		_, high := m.Interval(LeastError)
		off[i] = high - m.Mean
	}
	// A kerf's turn scatters as it is read, and as its own skin is: by the third
	// power, whatever the reading.
	for i, m := range []Measured{h.Once, h.Twice} {
		n := math.Sqrt(float64(max(m.N, 1)))
		skin := 3 * h.Skin.SD / h.Skin.Mean * m.Mean
		off[3+i] = Factor(max(m.N, 2)) * math.Hypot(m.SD, skin) / n
	}
	sum := 0.0
	base := betaOf(x[0], x[1], x[2], x[3], x[4])
	for i := range x {
		v := x[i]
		worst := 0.0
		for _, s := range []float64{-1, 1} {
			x[i] = v + s*off[i]
			worst = math.Max(worst, math.Abs(betaOf(x[0], x[1], x[2], x[3], x[4])-base))
		}
		x[i] = v
		sum += worst * worst
	}
	return math.Sqrt(sum)
}

// Held is what a strip that was bent until it broke, or not, says about another
// turn at the same skin and blade.
type Held string

// The answers.
const (
	Unknown Held = ""       // the strip was bent less than is wanted, and held
	Holds   Held = "holds"  // it was bent further, with a reserve, and held
	Barely  Held = "barely" // it was bent as far or a little further, and held
	Breaks  Held = "breaks" // it cracked at less, or hardly more
)

// Reserve is how much further than the plan a strip must have been bent for the
// plan to be trusted: one strip is no proof of the next, since skins scatter
// (common practice).
const Reserve = 1.15

// Bent answers for a wanted turn of one kerf, rad: held is the largest turn that
// the strip bore, cracked the one at which it cracked (0: it did not).
func Bent(wanted, held, cracked float64) Held {
	switch {
	case cracked > 0 && cracked < wanted*Reserve:
		return Breaks
	case held >= wanted*Reserve-1e-12 || cracked >= wanted*Reserve && cracked > 0:
		return Holds
	case held >= wanted-1e-12:
		return Barely
	}
	return Unknown
}

// Steps are the clearances of a step test piece: n slots side by side, the wanted
// one in the middle, step mm apart, none under least.
func Steps(wanted, step, least float64, n int) []float64 {
	first := math.Max(wanted-float64(n/2)*step, least)
	out := make([]float64, n)
	for i := range out {
		out[i] = first + float64(i)*step
	}
	return out
}
