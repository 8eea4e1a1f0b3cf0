package pack

import (
	"context"
	"math/rand/v2"
)

// The search is ruin and recreate towards a goal (after Gardeyn and Wauters, 'A
// goal-driven ruin and recreate heuristic for the 2D variable-sized bin packing
// problem with guillotine constraints', European Journal of Operational
// Research 301, 2022): the sheets may weigh no more than a limit just under the
// best layout known, so some items are out; parts of the trees are torn out at
// random, and items are put back, the one with the fewest places first. A step
// is kept if it is no worse than the layout of some steps ago (late acceptance).
// When no item is out, the limit is lowered.

// score is what a step is judged by, less is better: the area of the items that
// are out, then, towards the second goal, the cuts beyond the saw's reach and
// what is missing in the largest offcut, then the worth of the free rectangles.
type score struct{ out, beyond, offcut, free int64 }

func (a score) less(b score) bool {
	if a.out != b.out {
		return a.out < b.out
	}
	if a.beyond != b.beyond {
		return a.beyond < b.beyond
	}
	if a.offcut != b.offcut {
		return a.offcut < b.offcut
	}
	return a.free < b.free
}

// search is one run of ruin and recreate.
type search struct {
	j       *job
	rng     *rand.Rand
	limit   int64 // of the sheets' weight
	offcuts bool  // the second goal: large offcuts
	now     tree
	was     tree // before the step
	leaves  []int32
	places  []place // of each item that is out
	bits    uint64  // of chance, at hand
	few     int     // draws left in them
	history int
	past    []score // of the last steps, history of them
	cur     score
	steps   int
}

const (
	removals = 4 // nodes torn out in one step, on average
)

func (s *search) score() score {
	var sc score
	for _, i := range s.now.out {
		sc.out += s.j.items[i].area
	}
	largest := int64(0)
	for i := range s.now.nodes {
		n := &s.now.nodes[i]
		if n.kind != free {
			continue
		}
		sc.free -= n.value
		if s.offcuts {
			largest = max(largest, s.j.kept(n))
		}
	}
	sc.offcut = -largest
	if s.offcuts && s.j.obey {
		sc.beyond = int64(s.j.beyond(&s.now))
	}
	return sc
}

// kept is the real area of a free node where it is large enough to keep.
func (j *job) kept(n *node) int64 {
	l, w := n.l-j.p.Kerf, n.w-j.p.Kerf
	if l <= 0 || w <= 0 || min(l, w) < j.p.KeptSide {
		return 0
	}
	return l * w
}

// run makes steps until the trials are spent, and goes on where it was. It calls
// found for each layout with no item out; found returns false to end the run.
func (s *search) run(ctx context.Context, trials int64, found func(*tree) bool) error {
	end := s.j.trials + trials
	if s.past == nil {
		s.cur = s.score()
		s.past = make([]score, s.history)
		for i := range s.past {
			s.past[i] = s.cur
		}
	}
	for ; s.j.trials < end; s.steps++ {
		if s.steps%64 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		s.was.copyFrom(&s.now)
		s.ruin()
		s.recreate()
		s.j.trials++ // a step costs something even where nothing was tried
		next := s.score()
		h := s.steps % s.history
		if next.less(s.cur) || !s.past[h].less(next) {
			s.cur = next
		} else {
			s.now, s.was = s.was, s.now
		}
		s.past[h] = s.cur
		if s.cur.out == 0 && !found(&s.now) {
			return nil
		}
	}
	return nil
}

// lower sets a new limit and closes sheets until it is kept.
func (s *search) lower(limit int64) {
	s.limit, s.past = limit, nil
	for s.now.weight > limit {
		open := make([]int32, 0, len(s.now.sheets))
		for _, o := range s.now.sheets {
			if o.root != none && s.j.stocks[o.stock].weight > 0 {
				open = append(open, o.root)
			}
		}
		s.now.clear(s.j, open[s.rng.IntN(len(open))])
	}
}

// ruin tears random nodes out.
func (s *search) ruin() {
	n := 1 + s.rng.IntN(2*removals-1)
	for range n {
		if len(s.now.nodes) == len(s.now.spare) {
			return
		}
		for range 8 { // most nodes are in use: a few draws find one
			i := int32(s.rng.IntN(len(s.now.nodes)))
			if k := s.now.nodes[i].kind; k == part || k == split {
				s.now.clear(s.j, i)
				break
			}
		}
	}
}

// openOne opens a sheet, of a stock chosen at random, for the item at index k of
// those that are out or one after it, if the limit allows one.
func (s *search) openOne(k int) bool {
	t, j := &s.now, s.j
	for ; k < len(t.out); k++ {
		n, chosen := 0, none
		for st := range j.stocks {
			c := int32(st)
			if t.used[c] < j.stocks[c].available && t.weight+j.stocks[c].weight <= s.limit && j.fits(t.out[k], c) {
				if n++; s.rng.IntN(n) == 0 {
					chosen = c
				}
			}
		}
		if chosen != none {
			t.open(j, chosen)
			return true
		}
	}
	return false
}
