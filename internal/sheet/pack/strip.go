package pack

import "rodwork/internal/sheet"

// strip is a node of a finished layout, out of the search's tree: a rectangle,
// enlarged by the kerf, that is free, a part, or parted into kids.
type strip struct {
	l, w   int64
	kind   kind
	axis   sheet.Axis
	kids   []*strip
	item   int32
	turned bool
}

// plain copies the tree below node i.
func (t *tree) plain(i int32) *strip {
	n := &t.nodes[i]
	s := &strip{l: n.l, w: n.w, kind: n.kind, axis: n.axis, item: n.item, turned: n.turned}
	if n.kind == split {
		for k := n.first; k != none; k = t.nodes[k].next {
			s.kids = append(s.kids, t.plain(k))
		}
	}
	return s
}

func (s *strip) extent(axis sheet.Axis) int64 {
	if axis == sheet.X {
		return s.l
	}
	return s.w
}

func (s *strip) setExtent(axis sheet.Axis, v int64) {
	if axis == sheet.X {
		s.l = v
	} else {
		s.w = v
	}
}

// need is how much of its extent along the axis the parts below take.
func (s *strip) need(axis sheet.Axis) int64 {
	switch {
	case s.kind == free:
		return 0
	case s.kind == part:
		return s.extent(axis)
	}
	n := int64(0)
	for _, k := range s.kids {
		if s.axis == axis {
			n += k.need(axis)
		} else {
			n = max(n, k.need(axis))
		}
	}
	return n
}

// tighten cuts each strip no wider than its widest part needs, and leaves the
// rest to the free strip beside it: so the widest part of a row needs no second
// rip. It returns the strip, changed in place.
func (s *strip) tighten() *strip {
	if s.kind != split {
		return s
	}
	kids := s.kids
	s.kids = nil
	slack := int64(0)
	for _, k := range kids {
		k.tighten()
		if k.kind == split {
			if n := k.need(s.axis); n < k.extent(s.axis) {
				slack += k.extent(s.axis) - n
				k = k.narrow(s.axis, n)
			}
		}
		switch {
		case k.kind == free:
			slack += k.extent(s.axis)
		case k.kind == split && k.axis == s.axis:
			for _, g := range k.kids {
				if g.kind == free {
					slack += g.extent(s.axis)
				} else {
					s.kids = append(s.kids, g)
				}
			}
		default:
			s.kids = append(s.kids, k)
		}
	}
	if slack > 0 {
		rest := &strip{l: s.l, w: s.w, kind: free, item: none}
		rest.setExtent(s.axis, slack)
		s.kids = append(s.kids, rest)
	}
	return s
}

// narrow makes a tightened strip v wide along the axis, which is no less than it
// needs. What is left of a split with one kid is that kid.
func (s *strip) narrow(axis sheet.Axis, v int64) *strip {
	if s.kind == split && s.axis == axis {
		left := v
		var kids []*strip
		for _, k := range s.kids {
			if k.kind != free {
				kids = append(kids, k)
				left -= k.extent(axis)
			}
		}
		if left == 0 && len(kids) == 1 {
			return kids[0]
		}
		if left > 0 {
			rest := &strip{l: s.l, w: s.w, kind: free, item: none}
			rest.setExtent(axis, left)
			kids = append(kids, rest)
		}
		s.kids = kids
	} else if s.kind == split {
		for i, k := range s.kids {
			s.kids[i] = k.narrow(axis, v)
		}
		s.flatten()
	}
	s.setExtent(axis, v)
	return s
}

// flatten takes up the kids of a kid that is parted along the same axis, and
// keeps one free kid.
func (s *strip) flatten() {
	var kids []*strip
	var rest *strip
	add := func(k *strip) {
		switch {
		case k.kind != free:
			kids = append(kids, k)
		case rest == nil:
			rest = k
		default:
			rest.setExtent(s.axis, rest.extent(s.axis)+k.extent(s.axis))
		}
	}
	for _, k := range s.kids {
		if k.kind == split && k.axis == s.axis {
			for _, g := range k.kids {
				add(g)
			}
			continue
		}
		add(k)
	}
	if rest != nil {
		kids = append(kids, rest)
	}
	s.kids = kids
}

// least is the least item below, which makes the order of kids of one size
// independent of the way in which they were found.
func (s *strip) least() int32 {
	if s.kind != split {
		return s.item
	}
	n := int32(sheet.MaxCopies)
	for _, k := range s.kids {
		if k.kind != free {
			n = min(n, k.least())
		}
	}
	return n
}
