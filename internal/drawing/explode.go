package drawing

import (
	"math"
	"slices"

	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/view"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// apart is a piece taken apart along the ways in which its parts went in.
type apart struct {
	pc    *piece.Piece
	index map[string]int
	off   []r3.Vec // of each part, from its place in the piece
	boxes []extent // of each part in its place
	unit  []int    // parts with the same number hold together
	ways  []way
	gap   float64
}

// way is the move of one part, with all that is joined to it, to its place.
type way struct {
	part     int
	dir      r3.Vec // in
	distance float64
}

// frontFurther is how much further doors and drawers move out than it takes to
// stand clear, in shares of the piece: on paper they would hide what is behind.
const frontFurther = 0.45

// takeApart plays the order of assembly, and moves at each step what comes in
// back along its way until it stands clear of what it goes to by a gap. What
// goes in later therefore stands further out. Boxes of drawers stay together.
func takeApart(pc *piece.Piece, order []work.Step, bodies []view.Item) *apart {
	a := &apart{pc: pc, index: map[string]int{}, off: make([]r3.Vec, len(pc.Parts))}
	a.gap = 0.05 * max(pc.Width.V, pc.Height.V)
	joined := make([]int, len(pc.Parts))
	a.unit = make([]int, len(pc.Parts))
	for i, q := range pc.Parts {
		a.index[q.ID], joined[i], a.unit[i] = i, i, i
		a.boxes = append(a.boxes, extentOf(q))
	}
	for _, it := range bodies {
		if i, ok := a.index[it.ID]; ok {
			b := it.Body.Box()
			a.boxes[i] = extent{b.Min, b.Max}
		}
	}
	for _, s := range order {
		i, ok := a.index[s.Part]
		if !ok {
			continue
		}
		var into []int
		box := isDrawerBox(pc.Parts[i])
		for _, id := range s.Into {
			if j, ok := a.index[id]; ok && joined[j] != joined[i] {
				into = append(into, j)
				box = box && isDrawerBox(pc.Parts[j])
			}
		}
		if len(into) == 0 {
			continue
		}
		if box {
			for _, j := range into {
				merge(a.unit, j, i)
			}
		} else {
			a.move(i, into, r3.Vec{X: s.Dir[0], Y: s.Dir[1], Z: s.Dir[2]}, joined)
		}
		for _, j := range into {
			merge(joined, j, i)
		}
	}
	return a
}

// merge gives all that has the mark of j the mark of i.
func merge(marks []int, j, i int) {
	from, to := marks[j], marks[i]
	for k := range marks {
		if marks[k] == from {
			marks[k] = to
		}
	}
}

// move takes part i, with what is joined to it, out of what it goes into.
func (a *apart) move(i int, into []int, dir r3.Vec, joined []int) {
	if dir.Len() < 0.5 { // a strip that is wrapped round is shown as let down
		dir = r3.Vec{Y: -1}
	}
	dir = dir.Unit()
	with := a.off[into[0]].Sub(a.off[i])
	static := map[int]bool{}
	for _, j := range into {
		static[joined[j]] = true
	}
	gap := a.gap
	if q := a.pc.Parts[i]; q.Of != "" || q.Role == piece.DrawerFront {
		gap *= 0.6
	}
	distance := gap
	for m := range joined {
		if joined[m] != joined[i] {
			continue
		}
		a.off[m] = a.off[m].Add(with)
		for s := range joined {
			if static[joined[s]] && (a.inWay(m, s, dir) || dir.Z < -0.5 && slices.Contains(into, s)) {
				_, far := along(a.at(s), dir.Mul(-1))
				near, _ := along(a.at(m), dir.Mul(-1))
				distance = max(distance, far-near+gap)
			}
		}
	}
	if isFront(a.pc.Parts[i]) && dir.Z < -0.5 && !isFront(a.pc.Parts[into[0]]) {
		distance += frontFurther * max(a.pc.Width.V, a.pc.Height.V)
	}
	for m := range joined {
		if joined[m] == joined[i] {
			a.off[m] = a.off[m].Sub(dir.Mul(distance))
		}
	}
	a.ways = append(a.ways, way{i, dir, distance})
}

// at is the box of a part where it stands now.
func (a *apart) at(i int) extent {
	return extent{a.boxes[i].min.Add(a.off[i]), a.boxes[i].max.Add(a.off[i])}
}

// along returns the stretch of a box in a direction.
func along(e extent, d r3.Vec) (lo, hi float64) {
	for _, t := range [][3]float64{{d.X, e.min.X, e.max.X}, {d.Y, e.min.Y, e.max.Y}, {d.Z, e.min.Z, e.max.Z}} {
		lo += min(t[0]*t[1], t[0]*t[2])
		hi += max(t[0]*t[1], t[0]*t[2])
	}
	return lo, hi
}

// inWay tells whether two parts would meet if one moved along a direction.
func (a *apart) inWay(m, s int, dir r3.Vec) bool {
	p, q := a.at(m), a.at(s)
	const near = 0.5
	clear := func(d, lo, hi, lo2, hi2 float64) bool {
		return math.Abs(d) < 0.01 && (hi < lo2+near || hi2 < lo+near)
	}
	return !clear(dir.X, p.min.X, p.max.X, q.min.X, q.max.X) &&
		!clear(dir.Y, p.min.Y, p.max.Y, q.min.Y, q.max.Y) &&
		!clear(dir.Z, p.min.Z, p.max.Z, q.min.Z, q.max.Z)
}
