package solid

import "rodwork/internal/geom/r3"

// stitch closes what planar has left open at a lid: where a corner lies on a side
// to within planar.Near, the side is cut there on one face and not on the other.
// The triangle with the uncut side is parted at that corner.
func (m *Mesh) stitch() {
	for range 8 { // each round parts a side once
		open := map[[2]int]bool{}
		count := map[[2]int]int{}
		for _, t := range m.Triangles {
			for i := range 3 {
				count[[2]int{t.P[i], t.P[(i+1)%3]}]++
			}
		}
		from := map[int][]int{}
		for _, t := range m.Triangles {
			for i := range 3 {
				s := [2]int{t.P[i], t.P[(i+1)%3]}
				if count[[2]int{s[1], s[0]}] < count[s] && !open[s] {
					open[s] = true
					from[s[0]] = append(from[s[0]], s[1])
				}
			}
		}
		if len(open) == 0 {
			return
		}
		for k := range m.Triangles {
			m.part(k, open, from)
		}
	}
}

// part parts triangle k at a corner that lies on one of its open sides.
func (m *Mesh) part(k int, open map[[2]int]bool, from map[int][]int) {
	t := m.Triangles[k]
	for i := range 3 {
		a, b, c := t.P[i], t.P[(i+1)%3], t.P[(i+2)%3]
		if !open[[2]int{a, b}] {
			continue
		}
		for _, mid := range from[b] {
			if mid == c || mid == a || !open[[2]int{mid, a}] {
				continue
			}
			n := t.N[i].Add(t.N[(i+1)%3]).Unit()
			m.Triangles[k] = Triangle{P: [3]int{a, mid, c}, N: [3]r3.Vec{t.N[i], n, t.N[(i+2)%3]}}
			m.Triangles = append(m.Triangles, Triangle{P: [3]int{mid, b, c}, N: [3]r3.Vec{n, t.N[(i+1)%3], t.N[(i+2)%3]}})
			for _, s := range [][2]int{{a, b}, {b, mid}, {mid, a}} {
				delete(open, s)
			}
			return
		}
	}
}
