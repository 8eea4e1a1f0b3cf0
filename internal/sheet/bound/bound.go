package bound

import (
	"cmp"
	"math/bits"
	"slices"

	"rodwork/internal/sheet"
)

// How many functions each way are tried: few in a first layout, most from
// fullEffort on.
const (
	fewFunctions  = 100
	mostFunctions = 900
	fullEffort    = 1000
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
				lies = append(lies, sheet.Lie{DX: lie.DX + p.Kerf, DY: lie.DY + p.Kerf, Turned: lie.Turned})
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
// least, the plainest of those that prove as many. It stops when enough are
// proved (0: never), and works harder with effort. The problem must be valid.
func Sheets(p sheet.Problem, enough, effort int) sheet.Certificate {
	f := newFrame(p)
	plain := sheet.Func{Family: sheet.Identity}
	best := sheet.Certificate{F: plain, G: plain}
	if f.endless {
		return best
	}
	done := func() bool { return enough > 0 && best.Least >= enough }
	asIs := f.copiesOf(false)
	best = f.pairs(best, asIs, nil, false, 1, enough)
	if done() {
		return best
	}
	if best = f.pairs(best, asIs, nil, false, fewFunctions, enough); done() {
		return best
	}
	lifted, both := f.copiesOf(false), f.copiesOf(true)
	lifts := f.lift(lifted)
	free := f.l == f.w && slices.ContainsFunc(f.lies, func(l []sheet.Lie) bool { return len(l) == 2 })
	var liftsBoth []sheet.Lift
	if free {
		liftsBoth = f.lift(both)
	}
	for _, most := range []int{fewFunctions, mostFunctions} {
		if most > fewFunctions || len(lifts) > 0 {
			best = f.pairs(best, lifted, lifts, false, most, enough)
		}
		if free && !done() {
			best = f.pairs(best, both, liftsBoth, true, most, enough)
		}
		if done() || effort < fullEffort {
			break
		}
	}
	return best
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
