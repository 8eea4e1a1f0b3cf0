package bound

import (
	"cmp"
	"math/bits"
	"slices"

	"rodwork/internal/sheet"
)

// The work of a bound: products of two weights, first for effort 0, then more
// for each unit of effort, up to the most that can be of use.
const (
	firstProducts = 100_000
	eachProducts  = 10_000
	mostProducts  = 40_000_000
)

// frame is a problem as the bounds see it: one sheet that covers all stocks,
// all enlarged by the kerf.
type frame struct {
	l, w   int64
	lies   [][]sheet.Lie // of each part, those that fit some stock
	both   [][2]int64    // both sides of each part
	copies []int64
	// What offcuts at hand may carry: shares of area over l·w, and a number.
	// endless is set where there is no end of them.
	lessArea, lessCount int64
	endless             bool
}

func newFrame(p sheet.Problem) frame {
	var f frame
	for _, s := range p.Stocks {
		l, w := s.Usable()
		l, w = l+p.Kerf, w+p.Kerf
		if s.Available == 0 {
			continue
		}
		f.l, f.w = max(f.l, l), max(f.w, w)
		if !s.Offcut {
			continue
		}
		if s.Available == sheet.Unlimited || s.Available > sheet.MaxCopies {
			f.endless = true
			continue
		}
		if f.lessArea += int64(s.Available) * l * w; f.lessArea > 1<<60 {
			f.endless = true // more than the most parts could ever fill
		}
		f.lessCount += int64(s.Available)
	}
	for _, q := range p.Parts {
		var lies []sheet.Lie
		for _, lie := range q.Lies() {
			if somewhere(p, lie) {
				lies = append(lies, sheet.Lie{DX: lie.DX + p.Kerf, DY: lie.DY + p.Kerf})
			}
		}
		f.lies = append(f.lies, lies)
		f.both = append(f.both, [2]int64{q.Length + p.Kerf, q.Width + p.Kerf})
		f.copies = append(f.copies, int64(q.Copies))
	}
	return f
}

func somewhere(p sheet.Problem, lie sheet.Lie) bool {
	for _, s := range p.Stocks {
		if l, w := s.Usable(); s.Available != 0 && lie.DX <= l && lie.DY <= w {
			return true
		}
	}
	return false
}

// Sheets returns the best proof found of how many full sheets are needed at
// least. It stops when enough are proved (0: never), and works harder with
// effort. The problem must be valid.
func Sheets(p sheet.Problem, enough, effort int) sheet.Certificate {
	f := newFrame(p)
	nothing := sheet.Certificate{F: sheet.Func{Family: sheet.Identity}, G: sheet.Func{Family: sheet.Identity}}
	if f.endless {
		return nothing
	}
	products := min(firstProducts+int64(max(effort, 0))*eachProducts, mostProducts)
	most := 5 // of functions each way
	for int64(most+1)*int64(most+1)*int64(len(f.lies)) <= products && most < 400 {
		most++
	}
	best := f.pairs(sheet.Certificate{}, false, most, enough)
	if f.l == f.w && (enough == 0 || best.Least < enough) {
		best = f.pairs(best, true, most, enough)
	}
	return best
}

// pairs tries all pairs of functions, and returns the best certificate.
func (f frame) pairs(best sheet.Certificate, mean bool, most, enough int) sheet.Certificate {
	xs, ys := f.lengths(mean)
	fs := functions(f.l, xs, !mean, most)
	gs := functions(f.w, ys, !mean, most)
	rs := f.index(once(xs), once(ys), mean)
	for _, a := range fs {
		for _, b := range gs {
			sum, den := sum(rs, a, b, mean)
			c := f.certificate(a, b, mean, sum, den)
			if best.F.Family == "" || c.Least > best.Least || c.Least == best.Least && c.Sum-c.Less > best.Sum-best.Less+1e-9 {
				best = c
			}
			if enough > 0 && best.Least >= enough {
				return best
			}
		}
	}
	return best
}

// lengths lists all extents along both axes, sorted, copies repeated.
func (f frame) lengths(mean bool) (xs, ys []int64) {
	for i, lies := range f.lies {
		for range f.copies[i] {
			if mean {
				xs = append(xs, f.both[i][0], f.both[i][1])
				continue
			}
			for _, lie := range lies {
				xs, ys = append(xs, lie.DX), append(ys, lie.DY)
			}
		}
	}
	if mean {
		ys = xs
	}
	slices.Sort(xs)
	slices.Sort(ys)
	return xs, ys
}

// wide is a sum of products of 63 bits.
type wide struct{ hi, lo uint64 }

func (s wide) add(n, v int64) wide {
	hi, lo := bits.Mul64(uint64(n), uint64(v))
	var carry uint64
	s.lo, carry = bits.Add64(s.lo, lo, 0)
	s.hi, _ = bits.Add64(s.hi, hi, carry)
	return s
}

// over returns s/den rounded up.
func (s wide) over(den int64) int64 {
	q, r := bits.Div64(s.hi, s.lo, uint64(den))
	if r > 0 {
		q++
	}
	return int64(q)
}

func (s wide) float() float64 { return float64(s.hi)*(1<<64) + float64(s.lo) }

// row is one part for the sums: where its extents along both axes are in the
// lists of lengths, one way of lying and the other, and its copies.
type row struct {
	x1, y1, x2, y2 int
	copies         int64
}

func (f frame) index(xs, ys []int64, mean bool) []row {
	find := func(vs []int64, v int64) int {
		i, _ := slices.BinarySearch(vs, v)
		return i
	}
	rs := make([]row, len(f.lies))
	for i, lies := range f.lies {
		one, two := lies[0], lies[len(lies)-1]
		if mean {
			d := f.both[i]
			one, two = sheet.Lie{DX: d[0], DY: d[1]}, sheet.Lie{DX: d[1], DY: d[0]}
		}
		rs[i] = row{find(xs, one.DX), find(ys, one.DY), find(xs, two.DX), find(ys, two.DY), f.copies[i]}
	}
	return rs
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

func (f frame) certificate(a, b table, mean bool, sum wide, den int64) sheet.Certificate {
	c := sheet.Certificate{F: a.f, G: b.f, Mean: mean, Sum: sum.float() / float64(den), Less: float64(f.lessCount)}
	if a.f.Family == sheet.Identity && b.f.Family == sheet.Identity && !mean {
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

// Cost returns a bound of the cost in cents: the area of all parts, covered by
// the stocks that are cheapest by area, as if sheets could be bought in part.
// Where one price holds for all full sheets, Sheets times it is often better;
// Cost takes the larger of both.
func Cost(p sheet.Problem, least int) int64 {
	type kind struct{ area, price, left int64 }
	var kinds []kind
	cheapest := int64(-1)
	for _, s := range p.Stocks {
		l, w := s.Usable()
		left := int64(s.Available)
		if s.Available == sheet.Unlimited {
			left = sheet.MaxCopies
		}
		kinds = append(kinds, kind{(l + p.Kerf) * (w + p.Kerf), s.Price, min(left, sheet.MaxCopies)})
		if !s.Offcut && s.Available != 0 && (cheapest < 0 || s.Price < cheapest) {
			cheapest = s.Price
		}
	}
	slices.SortStableFunc(kinds, func(a, b kind) int {
		return cmp.Compare(float64(a.price)/float64(a.area), float64(b.price)/float64(b.area))
	})
	need, cost := int64(0), int64(0)
	for _, q := range p.Parts {
		need += int64(q.Copies) * (q.Length + p.Kerf) * (q.Width + p.Kerf)
	}
	for _, k := range kinds {
		whole := min(need/k.area, k.left)
		need, cost = need-whole*k.area, cost+whole*k.price
		if whole < k.left {
			cost += wide{}.add(need, k.price).over(k.area)
			break
		}
	}
	return max(cost, int64(least)*max(cheapest, 0))
}
