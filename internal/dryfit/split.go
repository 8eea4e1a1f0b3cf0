package dryfit

import (
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// split is one way to part a set: moving comes off, rest stays. Dir is the
// direction in which moving goes on.
type split struct {
	moving, rest set
	dir          dir
	how          manner
	joints       []int
}

// bestSplit finds all ways in which the set parts, and takes the one that a
// joiner would do last.
func (s *search) bestSplit(c set, unit map[int]int) (split, bool) {
	var all []split
	for _, d := range s.dirs {
		all = append(all, s.along(c, d, unit)...)
	}
	for _, i := range c.sorted() {
		if w, ok := s.unwrap(c, i); ok {
			all = append(all, w)
		}
	}
	if len(all) == 0 {
		return split{}, false
	}
	best, least := 0, s.rank(all[0])
	for i := 1; i < len(all); i++ {
		if r := s.rank(all[i]); r.less(least) {
			best, least = i, r
		}
	}
	return all[best], true
}

// rank orders splits; the lowest comes off first, so it goes on last. Sets that
// fall into pieces of their own come last of all: they would have to be held.
// Then single parts before sub-assemblies, and what belongs to another part
// before that one; then a wrapped shell (so that the rails that hold its bend
// are in before it), what goes on from behind or from the front, what comes
// down from above, from the side, from below; then the higher part.
type rank [5]float64

func (a rank) less(b rank) bool {
	for i := range a {
		if a[i] != b[i] {
			return a[i] < b[i]
		}
	}
	return false
}

func (s *search) rank(x split) rank {
	var r rank
	if !s.connected(x.moving) || !s.connected(x.rest) {
		r[0] = 1
	}
	r[1] = float64(x.moving.size())
	switch {
	case x.how == wrapped:
		r[2] = 0
	case x.dir.axis == 2:
		r[2] = 1
	case x.dir == dir{1, -1}:
		r[2] = 2
	case x.dir.axis == 0:
		r[2] = 3
	default:
		r[2] = 4
	}
	top := 0.0
	for _, i := range x.moving.sorted() {
		for _, b := range s.boxes[i] {
			top = max(top, b.lo[1])
		}
		if s.p.Parts[i].Of != "" {
			r[1] -= 0.5
		}
		r[4] = -float64(i)
	}
	r[3] = -top
	return r
}

// along lists the sets that can leave the others in the direction d: for each
// part the smallest set that it must take with it.
func (s *search) along(c set, d dir, unit map[int]int) []split {
	var out []split
	seen := map[string]bool{}
	for _, i := range c.sorted() {
		m := s.closure(i, c, d, unit)
		rest := c.without(m)
		big, small := m.size(), rest.size()
		if small == 0 {
			continue
		}
		x := split{moving: m, rest: rest, dir: d.back(), how: straight}
		// The smaller set moves, but nothing is lifted against what hangs over it:
		// of such two the upper one comes down.
		up := dir{1, 1}
		if d != up && (small < big || d == up.back()) {
			x.moving, x.rest, x.dir = rest, m, d
		}
		key := x.moving.key()
		if seen[key] {
			continue
		}
		seen[key] = true
		if x.joints = s.between(m, rest); len(x.joints) > 0 {
			out = append(out, x)
		}
	}
	return out
}

// closure is what moves along d with part i, of the set.
func (s *search) closure(i int, c set, d dir, unit map[int]int) set {
	arrows := s.arrowsAlong(d)
	m := newSet(len(s.p.Parts))
	m.add(i)
	todo := []int{i}
	take := func(k int) {
		if c.has(k) && !m.has(k) {
			m.add(k)
			todo = append(todo, k)
		}
	}
	for len(todo) > 0 {
		k := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, o := range arrows[k] {
			take(o)
		}
		if unit == nil {
			continue
		}
		for _, n := range s.at[k] { // what belongs together is held by a joint
			if o := s.joints[n].a + s.joints[n].b - k; unit[o] == unit[k] && c.has(o) {
				take(o)
			}
		}
	}
	return m
}

// arrowsAlong lists for each part those that must move with it along d. They
// do not hang on what else is there, so they are found once.
func (s *search) arrowsAlong(d dir) [][]int {
	if a, ok := s.arrows[d]; ok {
		return a
	}
	a := make([][]int, len(s.p.Parts))
	for i := range a {
		for k := range a {
			if i != k && s.drags(i, k, d) {
				a[i] = append(a[i], k)
			}
		}
	}
	s.arrows[d] = a
	return a
}

// drags tells whether part i, moving along d, takes part k with it.
func (s *search) drags(i, k int, d dir) bool {
	js := s.of[pair(i, k)]
	held := false
	for _, n := range js {
		j := s.joints[n]
		if j.loose {
			continue
		}
		held = true
		out := d // A leaves along a way in, B against it
		if j.b == i {
			out = d.back()
		}
		if !has(j.ways, out) {
			return true
		}
	}
	return !held && ahead(s.boxes[i], s.boxes[k], d)
}

func has(ds []dir, d dir) bool {
	for _, e := range ds {
		if e == d {
			return true
		}
	}
	return false
}

// unwrap tells whether a bent strip can be peeled off the others: each joint
// with them must let it go square to one of its flats.
func (s *search) unwrap(c set, i int) (split, bool) {
	q := s.p.Parts[i]
	if len(q.Bends) == 0 {
		return split{}, false
	}
	m := newSet(len(s.p.Parts))
	m.add(i)
	rest := c.without(m)
	x := split{moving: m, rest: rest, how: wrapped, joints: s.between(m, rest)}
	for _, n := range x.joints {
		j := s.joints[n]
		if j.a != i || !anyNormal(q, j.ways) {
			return split{}, false
		}
	}
	return x, len(x.joints) > 0
}

// anyNormal tells whether one of the ways in points out through a flat of the
// strip: the flat then comes to rest against what enters it.
func anyNormal(q *piece.Part, ways []dir) bool {
	for _, s := range q.Run {
		if s.Radius != 0 {
			continue
		}
		out := q.Pose.Dir(r3.Vec{X: -s.Dir.Y, Y: s.Dir.X})
		for _, w := range ways {
			if v := w.vec(); out.Dot(r3.Vec{X: v[0], Y: v[1], Z: v[2]}) > 1-1e-6 {
				return true
			}
		}
	}
	return false
}
