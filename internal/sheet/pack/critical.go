package pack

import (
	"cmp"
	"slices"

	"rodwork/internal/sheet"
)

// mostCritical is the number of items up to which the critical fit is tried: its
// work grows with the square of it.
const mostCritical = 250

// critical makes a first layout item by item, always the one with the fewest
// ways to go in (the critical fit of Fleszar 2013, see construct). A sheet is
// opened as soon as an item has no way in, if eager, else when none has one. Its
// first cut is against the worth of what is left, if so wished: a strip beside a
// pile of long parts takes others that are turned.
func (j *job) critical(by order, stocks []int32, eager, against bool) *tree {
	s := &search{j: j}
	s.now.used = make([]int, len(j.stocks))
	t := &s.now
	for i := range j.items {
		t.out = append(t.out, int32(i))
	}
	slices.SortStableFunc(t.out, func(a, b int32) int {
		return cmp.Compare(by(j.items[b]), by(j.items[a]))
	})
	s.places = make([]place, len(t.out))
	var left []int32
	for len(t.out) > 0 {
		at := s.rarest()
		if stuck := s.stuck(); stuck >= 0 && (eager || at < 0) {
			root := t.openFor(j, t.out[stuck], stocks)
			if root == none {
				left = append(left, s.pull(stuck))
				continue
			}
			s.leaves = append(s.leaves, root)
			for k, i := range t.out {
				s.look(i, &s.places[k], s.leaves[len(s.leaves)-1:], true)
			}
			at = stuck
			if tr, n := &s.places[at].best, &t.nodes[root]; against && tr.leaf == root && tr.a < n.l && tr.b < n.w {
				tr.axis = sheet.X + sheet.Y - tr.axis
			}
		}
		tr := s.places[at].best
		s.put(s.pull(at), tr)
	}
	t.out = left
	return t
}

// stuck returns the index in out of the first item that has no way in, -1 where
// each has one.
func (s *search) stuck() int {
	return slices.IndexFunc(s.places, func(p place) bool { return p.ways == 0 })
}

// pull takes the item at the index off those that are out, whose order stays.
func (s *search) pull(at int) int32 {
	i := s.now.out[at]
	s.now.out = slices.Delete(s.now.out, at, at+1)
	s.places = slices.Delete(s.places, at, at+1)
	return i
}

// put carries out the trial of an item and corrects what is open to the others.
func (s *search) put(i int32, tr trial) {
	gone := s.now.nodes[tr.leaf]
	made := s.now.place(s.j, i, tr)
	s.leaves = replace(s.leaves, tr.leaf, made)
	s.after(tr.leaf, gone, made)
}
