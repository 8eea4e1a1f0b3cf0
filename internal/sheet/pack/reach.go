package pack

import "rodwork/internal/sheet"

// A saw on a track, or a table with so much room behind it, makes a cut in one
// go only up to its reach. The number of sheets comes first: the search for
// fewer does not know the reach. But of layouts with as few sheets that with the
// fewest cuts beyond it is taken: once the sheets are settled, first layouts are
// made again so that items keep out of places that need such a cut, and the best
// is worked on.

// long tells whether a cut across an extent of the enlarged model is beyond the
// reach.
func (j *job) long(extent int64) bool { return j.p.Reach > 0 && extent-j.p.Kerf > j.p.Reach }

// tryWithin is try where the reach is obeyed: the first cut is the one that
// needs the fewer cuts beyond it, and each of them loses as much as the leaf is
// worth.
func (j *job) tryWithin(n *node, a, b int64) (loss int64, axis sheet.Axis, ok bool) {
	count := func(long ...bool) (c int64) {
		for _, l := range long {
			if l {
				c++
			}
		}
		return c
	}
	rip := count(j.long(n.l), a < n.l && j.long(b))
	cross := count(j.long(n.w), b < n.w && j.long(a))
	switch {
	case a == n.l && b == n.w:
		return n.value, sheet.Y, true
	case a == n.l:
		return n.value - j.worth(a, n.w-b) + count(j.long(n.l))*n.value, sheet.Y, true
	case b == n.w:
		return n.value - j.worth(n.l-a, b) + count(j.long(n.w))*n.value, sheet.X, true
	}
	ofRip := n.value - j.worth(n.l, n.w-b) - j.worth(n.l-a, b) + rip*n.value
	ofCross := n.value - j.worth(n.l-a, n.w) - j.worth(a, n.w-b) + cross*n.value
	if rip < cross || rip == cross && ofRip <= ofCross {
		return ofRip, sheet.Y, true
	}
	return ofCross, sheet.X, true
}

// withinReach judges the best layout by the reach and, where cuts are beyond it,
// makes first layouts again, within the reach; it keeps the best of all.
func (w *work) withinReach() {
	j := w.j
	if j.p.Reach == 0 || w.best.tree == nil {
		return
	}
	j.reaching = true
	if w.best = j.judge(w.best.tree); w.best.beyond == 0 {
		return
	}
	j.obey = true
	if f := j.first(j.trials + firstTrials); f.better(w.best) {
		w.best = f
	}
	j.obey = false
}

// beyond counts the cuts of a tree that are beyond the reach, about: how a sheet
// is trimmed is left out.
func (j *job) beyond(t *tree) int {
	n := 0
	for i := range t.nodes {
		s := &t.nodes[i]
		if s.kind != split || !j.long(across(s)) {
			continue
		}
		for k := s.first; k != none; k = t.nodes[k].next {
			if t.nodes[k].kind != free {
				n++
			}
		}
	}
	return n
}

// across is how long the cuts of a split are.
func across(s *node) int64 {
	if s.axis == sheet.X {
		return s.w
	}
	return s.l
}
