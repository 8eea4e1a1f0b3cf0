package planar

import (
	"rodwork/internal/geom/r2"
)

// Difference returns triangles, anticlockwise and told by the Weave's points,
// that fill what is in region a and not in region b; b may be -1 for none. Each
// side of the result is the side of one triangle, and each side within it that
// of two: nothing is added and no corner skipped, even in the middle of a
// straight side.
func (w Weave) Difference(a, b int) ([][3]int, error) {
	t := &table{points: w.Points, tol: Near}
	loops, err := t.stitch(w.outline(a, b))
	if err != nil {
		return nil, err
	}
	at := make(map[r2.Vec]int, len(w.Points))
	for i, p := range w.Points {
		at[p] = i
	}
	var outers, holes [][]int
	for _, l := range loops {
		ring := make([]int, len(l))
		for i, v := range l {
			ring[i] = at[v.P]
		}
		if l.Area() > 0 {
			outers = append(outers, ring)
		} else {
			holes = append(holes, ring)
		}
	}
	within := w.sorted(outers, holes)
	var out [][3]int
	for i, o := range outers {
		out = append(out, triangles(w.Points, o, within[i])...)
	}
	return out, nil
}

// outline returns the sides of what is in a and not in b; see overlay's table.
func (w Weave) outline(a, b int) []piece {
	mine := w.Regions[a]
	var theirs []Side
	if b >= 0 {
		theirs = w.Regions[b]
	}
	type way struct{ from, to int }
	index := func(sides []Side) map[way]bool {
		m := make(map[way]bool, len(sides))
		for _, s := range sides {
			m[way{s.From, s.To}] = true
		}
		return m
	}
	inA, inB := index(mine), index(theirs)
	var out []piece
	put := func(from, to int) {
		out = append(out, piece{Edge: Edge{A: w.Points[from], B: w.Points[to]}, from: from, to: to})
	}
	for _, s := range mine {
		same, opposite := inB[way{s.From, s.To}], inB[way{s.To, s.From}]
		if opposite || !same && !w.holds(theirs, s) {
			put(s.From, s.To)
		}
	}
	for _, s := range theirs {
		if !inA[way{s.From, s.To}] && !inA[way{s.To, s.From}] && w.holds(mine, s) {
			put(s.To, s.From)
		}
	}
	return out
}

// holds reports whether the middle of a side lies in a region told by its sides.
func (w Weave) holds(sides []Side, s Side) bool {
	p := w.Points[s.From].Lerp(w.Points[s.To], 0.5)
	n := 0
	for _, e := range sides {
		a, b := w.Points[e.From], w.Points[e.To]
		if (a.Y > p.Y) == (b.Y > p.Y) {
			continue
		}
		left := leftOf(a, b, p)
		switch {
		case a.Y <= p.Y && left:
			n++
		case b.Y <= p.Y && !left:
			n--
		}
	}
	return n > 0
}

// sorted gives each hole to the smallest outer ring round it.
func (w Weave) sorted(outers, holes [][]int) [][][]int {
	loop := func(ring []int) Loop {
		l := make(Loop, len(ring))
		for i, k := range ring {
			l[i].P = w.Points[k]
		}
		return l
	}
	around := make([]Loop, len(outers))
	for i, o := range outers {
		around[i] = loop(o)
	}
	out := make([][][]int, len(outers))
	for _, h := range holes {
		hole := loop(h)
		best := -1
		for i, l := range around {
			if (len(around) == 1 || l.holds(hole, Near)) && (best < 0 || l.Area() < around[best].Area()) {
				best = i
			}
		}
		if best >= 0 {
			out[best] = append(out[best], h)
		}
	}
	return out
}
