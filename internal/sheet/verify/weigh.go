package verify

import (
	"errors"
	"fmt"
	"math/big"
	"slices"

	"rodwork/internal/sheet"
)

// cover is the sheet that covers all stocks, enlarged by the kerf, and what
// offcuts at hand may carry: a number, and an area in µm².
type cover struct {
	l, w    int64
	count   int64
	area    *big.Int
	endless bool // no end of offcuts
}

func covering(p sheet.Problem) cover {
	c := cover{area: new(big.Int)}
	for _, s := range p.Stocks {
		if s.Available == 0 {
			continue
		}
		l, w := s.Length-2*s.Trim+p.Kerf, s.Width-2*s.Trim+p.Kerf
		c.l, c.w = max(c.l, l), max(c.w, w)
		if s.Offcut {
			c.endless = c.endless || s.Available < 0
			c.count += int64(s.Available)
			c.area.Add(c.area, new(big.Int).Mul(big.NewInt(int64(s.Available)), new(big.Int).Mul(big.NewInt(l), big.NewInt(w))))
		}
	}
	return c
}

// leastSheets weighs all parts in exact fractions.
func leastSheets(p sheet.Problem, c sheet.Certificate) (int, *big.Rat, error) {
	k := covering(p)
	if k.endless {
		return 0, big.NewRat(0, 1), nil
	}
	if c.Mean && k.l != k.w {
		return 0, nil, errors.New("the proof takes the mean of both ways on a sheet that is not square")
	}
	less := big.NewRat(k.count, 1)
	if plain := (sheet.Func{Family: sheet.Identity}); c.F == plain && c.G == plain && !c.Mean && len(c.Lifts) == 0 {
		less.SetFrac(k.area, new(big.Int).Mul(big.NewInt(k.l), big.NewInt(k.w)))
	}
	all := standing(p, c.Mean)
	if err := lifted(all, c.Lifts, k); err != nil {
		return 0, nil, err
	}
	f, errF := weight(c.F, k.l, all, sheet.X)
	g, errG := weight(c.G, k.w, all, sheet.Y)
	if err := errors.Join(errF, errG); err != nil {
		return 0, nil, err
	}
	sum := new(big.Rat)
	for _, b := range all {
		sum.Add(sum, b.weigh(f, g, c.Mean))
	}
	return above(new(big.Rat).Sub(sum, less)), sum, nil
}

// above rounds up; no less than 0.
func above(r *big.Rat) int {
	if r.Sign() <= 0 {
		return 0
	}
	n, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	least := int(n.Int64())
	if rest.Sign() > 0 {
		least++
	}
	return least
}

// way is one way in which a copy may lie, and block a copy with all its ways,
// enlarged by the kerf.
type way struct {
	extent [2]int64 // by axis
	turned bool
}

type block struct {
	part, copy int
	ways       []way
}

// standing lists all copies with the ways that the proof allows them.
func standing(p sheet.Problem, mean bool) []block {
	var out []block
	for i, q := range p.Parts {
		straight := way{[2]int64{q.Length + p.Kerf, q.Width + p.Kerf}, false}
		ways := []way{straight, {[2]int64{straight.extent[1], straight.extent[0]}, true}}
		if !mean {
			ways = nil
			for _, lie := range q.Lies() {
				if holds(p, lie) {
					ways = append(ways, way{[2]int64{lie.DX + p.Kerf, lie.DY + p.Kerf}, lie.Turned})
				}
			}
		}
		for c := range q.Copies {
			out = append(out, block{i, c, slices.Clone(ways)})
		}
	}
	return out
}

// holds tells whether any stock takes the lie.
func holds(p sheet.Problem, lie sheet.Lie) bool {
	return slices.ContainsFunc(p.Stocks, func(s sheet.Stock) bool {
		return s.Available != 0 && lie.DX <= s.Length-2*s.Trim && lie.DY <= s.Width-2*s.Trim
	})
}

// weigh returns what the copy weighs: the less of its ways, or their mean.
func (b block) weigh(f, g func(int64) *big.Rat, mean bool) *big.Rat {
	var least *big.Rat
	both := new(big.Rat)
	for _, w := range b.ways {
		v := new(big.Rat).Mul(f(w.extent[sheet.X]), g(w.extent[sheet.Y]))
		both.Add(both, v)
		if least == nil || v.Cmp(least) < 0 {
			least = v
		}
	}
	if mean {
		return both.Mul(both, big.NewRat(1, 2))
	}
	return least
}

// mostReplay bounds the work of replaying lifts, in words of sums.
const mostReplay = 250_000_000

// lifted makes the lifts, each checked with the lengths as they are then.
func lifted(all []block, lifts []sheet.Lift, c cover) error {
	at := map[[2]int]int{}
	for i, b := range all {
		at[[2]int{b.part, b.copy}] = i
	}
	work := int64(0)
	for n, lift := range lifts {
		i, ok := at[[2]int{lift.Part, lift.Copy}]
		if !ok || lift.Axis > sheet.Y {
			return fmt.Errorf("lift %d is of no copy that is wanted", n)
		}
		k := slices.IndexFunc(all[i].ways, func(w way) bool { return w.turned == lift.Turned })
		if k < 0 {
			return fmt.Errorf("lift %d is of a way in which the part does not lie", n)
		}
		room := c.l
		if lift.Axis == sheet.Y {
			room = c.w
		}
		x := &all[i].ways[k].extent[lift.Axis]
		unit := big.NewInt(room)
		for _, b := range all {
			for _, w := range b.ways {
				unit.GCD(nil, nil, unit, big.NewInt(w.extent[lift.Axis]))
			}
		}
		u := unit.Int64()
		if work += int64(len(all)) * (room/u/64 + 1); work > mostReplay {
			return errors.New("the lifts are too many to check")
		}
		if lift.To < *x || lift.To > room {
			return fmt.Errorf("lift %d is to %d, from %d in %d", n, lift.To, *x, room)
		}
		if s := bestSum(all, i, lift.Axis, u, room-*x); s > room-lift.To {
			return fmt.Errorf("lift %d to %d: other parts make %d beside it", n, lift.To, s)
		}
		*x = lift.To
	}
	return nil
}

// bestSum is the largest sum of lengths of other copies, each in one of its
// ways, that is no more than room. A number of bits stands for the sums.
func bestSum(all []block, but int, axis sheet.Axis, unit, room int64) int64 {
	mask := new(big.Int).Lsh(big.NewInt(1), uint(room/unit)+1)
	mask.Sub(mask, big.NewInt(1))
	sums, moved := big.NewInt(1), new(big.Int)
	for i, b := range all {
		if i == but {
			continue
		}
		was := new(big.Int).Set(sums)
		for _, w := range b.ways {
			if w.extent[axis] <= room {
				sums.Or(sums, moved.Lsh(was, uint(w.extent[axis]/unit)))
			}
		}
		sums.And(sums, mask)
	}
	return int64(sums.BitLen()-1) * unit
}
