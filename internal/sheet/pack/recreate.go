package pack

import (
	"slices"

	"rodwork/internal/sheet"
)

// place is what is open to an item that is out: in how many ways it could go in,
// and the best of those that are not overlooked.
type place struct {
	ways  int32
	found bool
	best  trial
}

// recreate puts items back, the one with the fewest ways first, until none that
// is out has a place. What is open to an item is kept from one to the next: only
// the leaf that was filled, and those made of it, change it.
func (s *search) recreate() {
	j, t := s.j, &s.now
	for n := 0; n < len(t.out) && s.openOne(n); n++ {
	}
	s.leaves = s.large(t.leaves(s.leaves))
	s.places = slices.Grow(s.places[:0], len(t.out))[:len(t.out)]
	for k, i := range t.out {
		s.places[k] = place{}
		s.look(i, &s.places[k], s.leaves, true)
	}
	for {
		at := s.rarest()
		if at < 0 { // no leaf takes any of them
			break
		}
		tr, i := s.places[at].best, t.out[at]
		last := len(t.out) - 1
		t.out[at], s.places[at] = t.out[last], s.places[last]
		t.out, s.places = t.out[:last], s.places[:last]
		s.put(i, tr)
	}
	for _, o := range t.sheets { // opened, and then overlooked
		if o.root != none && t.nodes[o.root].kind == free {
			t.close(j, o.root)
		}
	}
}

// large keeps the leaves that are no smaller than the least extents of all items
// that are out, along either axis.
func (s *search) large(leaves []int32) []int32 {
	l, w := int64(1<<62), int64(1<<62)
	for _, i := range s.now.out {
		for _, lie := range s.j.items[i].lies {
			l, w = min(l, lie.DX), min(w, lie.DY)
		}
	}
	s.j.trials += int64(len(leaves) / 4)
	return slices.DeleteFunc(leaves, func(leaf int32) bool {
		n := &s.now.nodes[leaf]
		return n.l < l || n.w < w
	})
}

// look looks at the leaves for the item; with count set it also counts the ways.
func (s *search) look(i int32, p *place, leaves []int32, count bool) {
	j := s.j
	lies := j.items[i].lies
	for _, leaf := range leaves {
		n := &s.now.nodes[leaf]
		for _, lie := range lies {
			if lie.DX > n.l || lie.DY > n.w {
				continue
			}
			if count {
				p.ways++
			}
			if s.blink() {
				continue
			}
			loss, axis, _ := j.try(n, lie.DX, lie.DY)
			if !j.obey && s.stray(n, lie) {
				axis = sheet.Axis(s.bits >> 7 & 1)
			}
			if !p.found || loss < p.best.loss {
				p.best, p.found = trial{leaf, lie.DX, lie.DY, axis, lie.Turned, loss}, true
			}
		}
	}
	j.trials += int64(len(leaves) * len(lies))
}

// stray tells whether the first cut is left to chance: on an empty sheet, where
// it decides how all else will lie, and one time in four elsewhere. What is worth
// most now, the largest free rectangle, is not what most parts will want.
func (s *search) stray(n *node, lie sheet.Lie) bool {
	return s.rng != nil && (n.parent == none || s.bits>>8&3 == 0) && lie.DX < n.l && lie.DY < n.w
}

// blink tells whether a trial is overlooked, one in 32; it draws from bits at
// hand. A search without chance overlooks none.
func (s *search) blink() bool {
	if s.rng == nil {
		return false
	}
	if s.few == 0 {
		s.bits, s.few = s.rng.Uint64(), 12
	}
	b := s.bits & 31
	s.bits >>= 5
	s.few--
	return b == 0
}

// after corrects what is open to all items that are out for one leaf that is
// gone and those that were made of it.
func (s *search) after(leaf int32, gone node, made [2]int32) {
	for k, i := range s.now.out {
		p := &s.places[k]
		for _, lie := range s.j.items[i].lies {
			if lie.DX <= gone.l && lie.DY <= gone.w {
				p.ways--
			}
		}
		again := p.found && p.best.leaf == leaf
		if again {
			p.found = false
		}
		for m, id := range made {
			if id != none {
				s.look(i, p, made[m:m+1], true)
			}
		}
		if again {
			s.look(i, p, s.leaves, false)
		}
	}
}

// rarest returns the index in out of the item with the fewest ways, but at least
// one that is not overlooked, the larger at a tie; -1 where there is none.
func (s *search) rarest() int {
	best := -1
	for k := range s.places {
		p := &s.places[k]
		if !p.found {
			continue
		}
		if best < 0 || p.ways < s.places[best].ways ||
			p.ways == s.places[best].ways && s.j.items[s.now.out[k]].area > s.j.items[s.now.out[best]].area {
			best = k
		}
	}
	return best
}
