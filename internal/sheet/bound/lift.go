package bound

import (
	"math/bits"

	"rodwork/internal/sheet"
)

// # Lifting
//
// If no choice of other parts fits beside a part but some room is always left,
// the part may as well be longer by that room: with C the capacity and S the
// largest sum of other lengths that fits in C - x, the length x is lifted to
// C - S. (Push what lies before the part to one edge of the sheet and what lies
// beyond it to the other: the longest chain on either side is a choice of other
// parts, so the room is there. Boschetti and Mingozzi, 'The two-dimensional
// finite bin packing problem', 4OR 1, 2003.) The next part is lifted with the
// first one as it is now. A dual feasible function does not fall, so parts never
// weigh less for it.

// mostLifting bounds the work of lifting, in words of 64 sums: that of the
// checker, which starts afresh for each lift.
const mostLifting = 60_000_000

// one is one copy of a part with the ways that it may lie.
type one struct {
	part, copy int
	lies       []sheet.Lie
}

// copiesOf lists all copies with their ways of lying; with mean all may turn.
func (f frame) copiesOf(mean bool) []one {
	var out []one
	for i, lies := range f.lies {
		if mean {
			d := f.both[i]
			lies = []sheet.Lie{{DX: d[0], DY: d[1]}, {DX: d[1], DY: d[0], Turned: true}}
		}
		for c := range f.copies[i] {
			out = append(out, one{i, int(c), append([]sheet.Lie(nil), lies...)})
		}
	}
	return out
}

// lifter lifts along one axis.
type lifter struct {
	axis  sheet.Axis
	unit  int64 // that all lengths are multiples of
	c     int64 // capacity, in units
	all   []one
	lifts []sheet.Lift
}

// lift lifts all lengths along both axes, in place, as far as the work allows.
func (f frame) lift(all []one) []sheet.Lift {
	var lifts []sheet.Lift
	for _, axis := range []sheet.Axis{sheet.X, sheet.Y} {
		l := &lifter{axis: axis, all: all}
		c := f.l
		if axis == sheet.Y {
			c = f.w
		}
		l.unit = c
		for _, o := range all {
			for k := range o.lies {
				l.unit = gcd(l.unit, *l.at(&o.lies[k]))
			}
		}
		l.c = c / l.unit
		n := int64(len(all))
		if words := l.c/64 + 1; 4*n*n*words > mostLifting {
			continue
		}
		for range 3 {
			before := len(l.lifts)
			empty := make(sums, l.c/64+1)
			empty[0] = 1
			l.without(0, len(all), empty)
			if len(l.lifts) == before {
				break
			}
		}
		lifts = append(lifts, l.lifts...)
	}
	return lifts
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func (l *lifter) at(lie *sheet.Lie) *int64 {
	if l.axis == sheet.X {
		return &lie.DX
	}
	return &lie.DY
}

// without lifts the copies from lo to hi. Given are the sums that all copies
// before lo and from hi on make together: each half is lifted with the sums of
// the other half added.
func (l *lifter) without(lo, hi int, others sums) {
	if hi-lo == 1 {
		o := &l.all[lo]
		for k := range o.lies {
			x := l.at(&o.lies[k])
			to := (l.c - others.most(l.c-*x/l.unit)) * l.unit
			if to > *x {
				*x = to
				l.lifts = append(l.lifts, sheet.Lift{Part: o.part, Copy: o.copy, Turned: o.lies[k].Turned, Axis: l.axis, To: to})
			}
		}
		return
	}
	mid := (lo + hi) / 2
	more := make(sums, len(others))
	l.addAll(more, others, mid, hi)
	l.without(lo, mid, more)
	l.addAll(more, others, lo, mid)
	l.without(mid, hi, more)
}

func (l *lifter) addAll(into, from sums, lo, hi int) {
	copy(into, from)
	was := make(sums, len(into))
	for _, o := range l.all[lo:hi] {
		copy(was, into)
		for k := range o.lies {
			into.or(was, *l.at(&o.lies[k])/l.unit, l.c)
		}
	}
}

// sums is a set of whole numbers, a bit each.
type sums []uint64

// or adds each number of the other set, moved by n.
func (s sums) or(other sums, n, most int64) {
	if n > most {
		return
	}
	word, bit := int(n/64), uint(n%64)
	for i := len(s) - 1; i >= word; i-- {
		v := other[i-word] << bit
		if bit > 0 && i > word {
			v |= other[i-word-1] >> (64 - bit)
		}
		s[i] |= v
	}
}

// most is the largest number in the set that is no more than n, which is at
// least 0; 0 is always in it.
func (s sums) most(n int64) int64 {
	i := int(n / 64)
	v := s[i] & (^uint64(0) >> (63 - uint(n%64)))
	for v == 0 {
		i--
		v = s[i]
	}
	return int64(i)*64 + int64(bits.Len64(v)) - 1
}
