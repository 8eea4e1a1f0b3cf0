package bound

import (
	"math"
	"math/bits"
	"slices"

	"rodwork/internal/sheet"
)

// row is a number of like copies for the sums: where their lengths along both
// axes are in the lists of lengths, one way of lying and the other.
type row struct {
	x1, y1, x2, y2 int
	copies         int64
}

// lengthsOf lists what each copy measures along the axis, in its ways of lying.
func lengthsOf(all []one, axis sheet.Axis) [][]int64 {
	out := make([][]int64, len(all))
	for i, o := range all {
		for _, lie := range o.lies {
			if axis == sheet.X {
				out[i] = append(out[i], lie.DX)
			} else {
				out[i] = append(out[i], lie.DY)
			}
		}
	}
	return out
}

func rows(all []one, xs, ys []int64) []row {
	find := func(vs []int64, v int64) int {
		i, _ := slices.BinarySearch(vs, v)
		return i
	}
	var out []row
	for _, o := range all {
		a, b := o.lies[0], o.lies[len(o.lies)-1]
		r := row{find(xs, a.DX), find(ys, a.DY), find(xs, b.DX), find(ys, b.DY), 1}
		same := func(q row) bool { q.copies = 1; return q == r }
		if i := slices.IndexFunc(out, same); i >= 0 {
			out[i].copies++
			continue
		}
		out = append(out, r)
	}
	return out
}

// pairs tries all pairs of functions, and returns the best certificate. Sums are
// taken in floating point first; where they promise more, in whole numbers.
func (f frame) pairs(best sheet.Certificate, all []one, lifts []sheet.Lift, mean bool, most, enough int) sheet.Certificate {
	xs, ys := lengthsOf(all, sheet.X), lengthsOf(all, sheet.Y)
	fs, gs := functions(f.l, xs, most), functions(f.w, ys, most)
	rs := rows(all, once(xs), once(ys))
	weights := make([][]float64, len(gs))
	for k, b := range gs {
		weights[k] = b.floats()
	}
	for _, a := range fs {
		av := a.floats()
		for k, b := range gs {
			byArea := a.plain() && b.plain() && !mean && len(lifts) == 0
			less := float64(f.lessCount)
			if byArea {
				less = float64(f.lessArea) / float64(a.den) / float64(b.den)
			}
			s := guess(rs, av, weights[k], mean) - less
			if !(math.Ceil(s-1e-9) > float64(best.Least) || byArea && best.Sum == 0) {
				continue
			}
			sum, den := sum(rs, a, b, mean)
			c := f.certificate(a, b, mean, lifts, sum, den)
			if c.Least > best.Least || best.Sum == 0 {
				best = c
			}
			if enough > 0 && best.Least >= enough {
				return best
			}
		}
	}
	return best
}

func (t table) plain() bool { return t.f.Family == sheet.Identity && t.f.Floor == 0 }

func (t table) floats() []float64 {
	out := make([]float64, len(t.num))
	for i, n := range t.num {
		out[i] = float64(n) / float64(t.den)
	}
	return out
}

// guess weighs all parts, nearly.
func guess(rs []row, a, b []float64, mean bool) float64 {
	s := 0.0
	if mean {
		for i := range rs {
			r := &rs[i]
			s += float64(r.copies) * (a[r.x1]*b[r.y1] + a[r.x2]*b[r.y2])
		}
		return s / 2
	}
	for i := range rs {
		r := &rs[i]
		s += float64(r.copies) * min(a[r.x1]*b[r.y1], a[r.x2]*b[r.y2])
	}
	return s
}

// sum weighs all parts.
func sum(rs []row, a, b table, mean bool) (s wide, den int64) {
	for _, r := range rs {
		one, two := a.num[r.x1]*b.num[r.y1], a.num[r.x2]*b.num[r.y2]
		if mean {
			s = s.add(r.copies, one+two)
		} else {
			s = s.add(r.copies, min(one, two))
		}
	}
	if mean {
		return s, 2 * a.den * b.den
	}
	return s, a.den * b.den
}

func (f frame) certificate(a, b table, mean bool, lifts []sheet.Lift, sum wide, den int64) sheet.Certificate {
	c := sheet.Certificate{F: a.f, G: b.f, Mean: mean, Lifts: lifts, Sum: sum.float() / float64(den), Less: float64(f.lessCount)}
	if a.plain() && b.plain() && !mean && len(lifts) == 0 {
		c.Less = float64(f.lessArea) / float64(den)
		less := wide{}.add(1, f.lessArea)
		lo, borrow := bits.Sub64(sum.lo, less.lo, 0)
		hi, under := bits.Sub64(sum.hi, less.hi, borrow)
		if under == 0 {
			c.Least = int(wide{hi, lo}.over(den))
		}
		return c
	}
	c.Least = int(max(sum.over(den)-f.lessCount, 0))
	return c
}
