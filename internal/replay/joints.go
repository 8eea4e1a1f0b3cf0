package replay

import (
	"fmt"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Fault is what the replay finds wrong with an order.
type Fault struct {
	Step int // its number; 0: the order as a whole
	Text string
}

// Joints goes through an order, step by step, as joints alone tell it. Each part
// comes in once; each joint is closed once, by a move along one of its ways in;
// no joint closes unseen; no flat part's box stands in the way; at the end
// nothing is left over. It is quick enough for every change of a number; Solids
// is the whole proof.
func Joints(p *piece.Piece, steps []work.Step) []Fault {
	r := replay{p: p, lot: map[string]int{}, closed: map[string]bool{}, joints: map[string]*piece.Joint{}}
	for i := range p.Joints {
		r.joints[p.Joints[i].ID] = &p.Joints[i]
	}
	for _, s := range steps {
		r.step(s)
	}
	for _, q := range p.Parts {
		if r.lot[q.ID] == 0 {
			r.fault(0, "%s never comes in", q.ID)
		}
	}
	for _, j := range p.Joints {
		if !r.closed[j.ID] && p.Part(j.A) != nil && p.Part(j.B) != nil {
			r.fault(0, "joint %s is never closed", j.ID)
		}
	}
	return r.faults
}

// replay is the state of the bench: which lot each part belongs to (0: not yet
// there), and which joints are closed.
type replay struct {
	p      *piece.Piece
	lots   int
	lot    map[string]int
	closed map[string]bool
	joints map[string]*piece.Joint
	faults []Fault
	pairs  map[[2]string]bool // parts that share a joint
	// reaches are the extents of flat parts that were asked for.
	reaches map[*piece.Part][3][2]float64
}

func (r *replay) fault(step int, format string, args ...any) {
	r.faults = append(r.faults, Fault{step, fmt.Sprintf(format, args...)})
}

func (r *replay) step(s work.Step) {
	if r.p.Part(s.Part) == nil {
		r.fault(s.Number, "there is no part %s", s.Part)
		return
	}
	if r.lot[s.Part] == 0 {
		r.lots++
		r.lot[s.Part] = r.lots
	} else if len(s.Joints) == 0 {
		r.fault(s.Number, "%s is there already", s.Part)
	}
	mine := r.lot[s.Part]
	meets := map[int]bool{}
	said := map[string]bool{}
	for _, id := range s.Joints {
		j := r.joints[id]
		if j == nil {
			r.fault(s.Number, "there is no joint %s", id)
			continue
		}
		said[id] = true
		if lot := r.closing(s, j, mine); lot != 0 {
			meets[lot] = true
		}
	}
	r.unseen(s, mine, meets, said)
	r.barred(s, mine, meets)
	for _, q := range r.p.Parts {
		if meets[r.lot[q.ID]] {
			r.lot[q.ID] = mine
		}
	}
}

// closing closes one joint, and returns the lot that it joins to the moving one.
func (r *replay) closing(s work.Step, j *piece.Joint, mine int) int {
	if r.closed[j.ID] {
		r.fault(s.Number, "joint %s is closed already", j.ID)
	}
	r.closed[j.ID] = true
	a, b := r.lot[j.A], r.lot[j.B]
	if a == 0 || b == 0 {
		r.fault(s.Number, "joint %s closes on a part that is not there", j.ID)
		return 0
	}
	if (a == mine) == (b == mine) {
		r.fault(s.Number, "joint %s does not lie between what moves and what stands", j.ID)
		return 0
	}
	if !r.along(s, j, b == mine) {
		r.fault(s.Number, "joint %s is closed across its way in", j.ID)
	}
	if b == mine {
		return a
	}
	return b
}

// along tells whether the step's move closes the joint along a way in.
func (r *replay) along(s work.Step, j *piece.Joint, bMoves bool) bool {
	for _, w := range append([]r3.Vec{j.Enter}, j.Also...) {
		if s.Move == "wrapped round" {
			if !bMoves && squareTo(r.p.Part(j.A), w) {
				return true
			}
			continue
		}
		d := r3.Vec{X: s.Dir[0], Y: s.Dir[1], Z: s.Dir[2]}
		if !bMoves {
			d = d.Mul(-1)
		}
		if d.Len() > 0 && d.Unit().Dot(w.Unit()) > 1-1e-6 {
			return true
		}
	}
	return false
}

// squareTo tells whether w points out of a flat of the strip, at right angles.
func squareTo(q *piece.Part, w r3.Vec) bool {
	for _, s := range q.Run {
		if s.Radius == 0 && w.Unit().Dot(q.Pose.Dir(r3.Vec{X: -s.Dir.Y, Y: s.Dir.X})) > 1-1e-6 {
			return true
		}
	}
	return false
}

// unseen finds joints between what moves and what it meets that the step does
// not name.
func (r *replay) unseen(s work.Step, mine int, meets map[int]bool, said map[string]bool) {
	for _, j := range r.p.Joints {
		a, b := r.lot[j.A], r.lot[j.B]
		if r.closed[j.ID] || said[j.ID] {
			continue
		}
		if a == mine && meets[b] || b == mine && meets[a] {
			r.fault(s.Number, "joint %s closes unseen", j.ID)
		}
	}
}

// barred looks along the path of what moves: no part of the lots it meets may
// stand in it. Only glued moves are looked at, and a wrap has no straight path.
func (r *replay) barred(s work.Step, mine int, meets map[int]bool) {
	d := r3.Vec{X: s.Dir[0], Y: s.Dir[1], Z: s.Dir[2]}
	if d.Len() == 0 || r.p.Part(s.Part).Loose || s.Group == 0 {
		return
	}
	for _, m := range r.p.Parts {
		if r.lot[m.ID] != mine {
			continue
		}
		for _, o := range r.p.Parts {
			if meets[r.lot[o.ID]] && !r.joined(m.ID, o.ID) && r.inPath(m, o, d) {
				r.fault(s.Number, "%s stands in the way of %s", o.ID, m.ID)
			}
		}
	}
}

// joined tells whether two parts share a joint.
func (r *replay) joined(a, b string) bool {
	if r.pairs == nil {
		r.pairs = make(map[[2]string]bool, 2*len(r.p.Joints))
		for i := range r.p.Joints {
			j := &r.p.Joints[i]
			r.pairs[[2]string{j.A, j.B}], r.pairs[[2]string{j.B, j.A}] = true, true
		}
	}
	return r.pairs[[2]string{a, b}]
}

// reach is a flat part's extent along the piece's axes, found once.
func (r *replay) reach(q *piece.Part) [3][2]float64 {
	if e, ok := r.reaches[q]; ok {
		return e
	}
	var e [3][2]float64
	for k, u := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		e[k][0], e[k][1] = extent(q, u)
	}
	if r.reaches == nil {
		r.reaches = map[*piece.Part][3][2]float64{}
	}
	r.reaches[q] = e
	return e
}

// inPath tells whether o lies where m has come from, for flat parts: their
// shadows along the path overlap by more than a hair, and o is behind.
func (r *replay) inPath(m, o *piece.Part, d r3.Vec) bool {
	if len(m.Run) > 0 || len(o.Run) > 0 {
		return false // a strip is not flat; its joints alone are looked at
	}
	mine, its := r.reach(m), r.reach(o)
	for k, along := range [3]float64{d.X, d.Y, d.Z} {
		m0, m1, o0, o1 := mine[k][0], mine[k][1], its[k][0], its[k][1]
		switch {
		case along > 0.5 && o1 > m0+1:
			return false
		case along < -0.5 && o0 < m1-1:
			return false
		case along > -0.5 && along < 0.5 && min(m1, o1)-max(m0, o0) < 1:
			return false
		}
	}
	return true
}

// extent is a flat part's reach along u.
func extent(q *piece.Part, u r3.Vec) (lo, hi float64) {
	if len(q.Bevels) > 0 {
		if s, err := piece.Solid(q, 0); err == nil {
			return s.Extent(u)
		}
	}
	lo = q.Pose.O.Dot(u)
	hi = lo
	for _, e := range []float64{q.Pose.X.Dot(u) * q.Length.V, q.Pose.Y.Dot(u) * q.Width.V, q.Pose.Z.Dot(u) * q.Thick.V} {
		if e > 0 {
			hi += e
		} else {
			lo += e
		}
	}
	return lo, hi
}
