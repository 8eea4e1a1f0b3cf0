package replay

import (
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Halts and margins, mm.
const (
	// Fine is the least way from halt to halt: less than any clearance that is
	// sawn on purpose.
	Fine = 0.05
	// Coarse is the widest one in a joint whose clearance is larger.
	Coarse = 0.5
	// Clear is what can't be told from touching: a chord may lie 0.005 mm from its
	// arc on both parts, and lengths are summed.
	Clear = 0.02
)

// mostHalts bounds the work for two parts in one step.
const mostHalts = 20000

// Stats tells what a replay did.
type Stats struct {
	Steps, Pairs, Halts int
	// Finest is the least way between two halts that was used, mm.
	Finest float64
}

// Solids runs every step of an order through on the parts as solids, and returns
// where a part that moves meets one that stands. What the books of Joints find
// wrong is not told again. A part that can't be made a solid is a fault.
func Solids(p *piece.Piece, steps []work.Step) ([]Fault, Stats) {
	f := film{replay: replay{p: p, lot: map[string]int{}, closed: map[string]bool{}, joints: map[string]*piece.Joint{}},
		stats: Stats{Finest: math.Inf(1)}, at: map[string]*solid.Ready{}}
	for i := range p.Joints {
		f.joints[p.Joints[i].ID] = &p.Joints[i]
	}
	for _, q := range p.Parts {
		b, err := piece.Solid(q, leastHole)
		if err != nil {
			f.wrong = append(f.wrong, Fault{0, err.Error()})
			continue
		}
		f.at[q.ID] = solid.Prepare(b)
	}
	for _, s := range steps {
		f.play(s)
	}
	if f.stats.Halts == 0 {
		f.stats.Finest = 0
	}
	return f.wrong, f.stats
}

// leastHole is the diameter, mm, under which holes are taken as full: pins and
// screws fill them.
const leastHole = 12

// film is a replay with the solids at hand. Its books are kept by replay, its own
// faults apart from theirs.
type film struct {
	replay
	at    map[string]*solid.Ready
	wrong []Fault
	stats Stats
}

// play runs one step through, then books it.
func (f *film) play(s work.Step) {
	before := map[string]int{}
	for id, lot := range f.lot {
		before[id] = lot
	}
	f.step(s)
	if before[s.Part] == 0 {
		before[s.Part] = f.lots // a part that has just come in moves alone
	}
	var moving, standing []*piece.Part
	for _, q := range f.p.Parts {
		switch {
		case f.at[q.ID] == nil || f.lot[q.ID] != f.lot[s.Part]:
		case before[q.ID] == before[s.Part]:
			moving = append(moving, q)
		default:
			standing = append(standing, q)
		}
	}
	f.stats.Steps++
	if s.Move == wrap {
		f.close(s, moving, standing)
		return
	}
	for _, m := range moving {
		for _, o := range standing {
			f.pass(s, m, o)
		}
	}
}

// wrap is how a step says that a strip is bent round what it encloses.
const wrap = "wrapped round"

// pass runs one part past another, from its place outwards: the way in and the
// way out are one.
func (f *film) pass(s work.Step, m, o *piece.Part) {
	legs := s.Legs
	if len(legs) == 0 {
		d := r3.Vec{X: s.Dir[0], Y: s.Dir[1], Z: s.Dir[2]}
		if d.Len() == 0 {
			return // stood beside, by no joint
		}
		v := d.Unit().Mul(f.far(m, o, d.Unit()))
		legs = []work.Leg{{By: [3]float64{v.X, v.Y, v.Z}}}
	}
	f.stats.Pairs++
	halt, press := f.halt(m.ID, o.ID)
	place := r3.Identity()
	for i := len(legs) - 1; i >= 0; i-- {
		if !f.leg(s, m, o, legs[i], place, halt, press) {
			return
		}
		place = place.Then(undo(legs[i], 1))
	}
}

// far is how far m must be moved against d until its box is past o's, mm.
func (f *film) far(m, o *piece.Part, d r3.Vec) float64 {
	a, b := f.at[m.ID].Box(), f.at[o.ID].Box()
	reach := func(x r3.Box) (lo, hi float64) {
		mid, half := x.Min.Add(x.Max).Mul(0.5), x.Size().Mul(0.5)
		w := math.Abs(half.X*d.X) + math.Abs(half.Y*d.Y) + math.Abs(half.Z*d.Z)
		return mid.Dot(d) - w, mid.Dot(d) + w
	}
	_, front := reach(a)
	back, _ := reach(b)
	return max(0, front-back) + 1 // and a hair of room
}

// halt is the way between halts for two parts, and the interference that a press
// fit between them asks for, mm.
func (f *film) halt(a, b string) (halt, press float64) {
	halt = Coarse
	for i := range f.p.Joints {
		j := &f.p.Joints[i]
		if j.A == a && j.B == b || j.A == b && j.B == a {
			halt = min(halt, max(Fine, j.Clearance.V/2))
			press = max(press, -j.Clearance.V)
		}
	}
	return halt, press
}

// leg runs m out along one leg; false where it meets o.
func (f *film) leg(s work.Step, m, o *piece.Part, l work.Leg, place r3.Pose, halt, press float64) bool {
	length := f.travel(m, l, place)
	still := f.at[o.ID]
	asked := 0
	for way, n := 0.0, 0; ; n++ {
		share := 1.0
		if length > 0 {
			share = min(1, way/length)
		}
		if n >= mostHalts {
			f.wrong = append(f.wrong, Fault{s.Number, m.Name + " was not followed all the way past " + o.Name})
			return false
		}
		body := f.at[m.ID].Body
		body.Pose = body.Pose.Then(place.Then(undo(l, share)))
		now := solid.Prepare(body)
		f.stats.Halts++
		if share < 1 && past(now.Box(), still.Box(), l) {
			return true
		}
		ask := n >= asked
		on, hit := f.meets(now, still, press, ask)
		if hit {
			f.wrong = append(f.wrong, Fault{s.Number, m.Name + " meets " + o.Name + " on its way in"})
			return false
		}
		if share >= 1 {
			return true
		}
		if ask && on < halt {
			asked = n + patience
		}
		on = max(halt, on)
		f.stats.Finest = min(f.stats.Finest, on)
		way += on
	}
}

// patience is for how many halts parts that touch are taken to be still touching,
// and not asked how far they are apart.
const patience = 12

// past tells whether a straight leg, run outwards, takes a box no nearer to
// another: there is an upright plane between the two that it does not cross.
func past(a, b r3.Box, l work.Leg) bool {
	if l.Turn != 0 {
		return false
	}
	at := func(v r3.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }
	a0, a1, b0, b1 := at(a.Min), at(a.Max), at(b.Min), at(b.Max)
	for k, by := range l.By { // outwards is against it
		if by >= 0 && a1[k] <= b0[k]+1e-6 || by <= 0 && a0[k] >= b1[k]-1e-6 {
			return true
		}
	}
	return false
}

// meets tells whether two bodies share room, and else, if it is asked for, how
// far they are apart.
func (f *film) meets(a, b *solid.Ready, press float64, ask bool) (gap float64, hit bool) {
	if g := between(a.Box(), b.Box()); g > 0 {
		return g, false
	}
	s, err := a.Overlap(b)
	if err != nil || s.Reach > Clear+press {
		return 0, true
	}
	if s.Volume > 0 || !ask {
		return 0, false
	}
	return a.Distance(b).Distance, false
}

// between is how far two boxes are apart, mm; 0 where they are not.
func between(a, b r3.Box) float64 {
	g := r3.Vec{X: max(0, a.Min.X-b.Max.X, b.Min.X-a.Max.X), Y: max(0, a.Min.Y-b.Max.Y, b.Min.Y-a.Max.Y), Z: max(0, a.Min.Z-b.Max.Z, b.Min.Z-a.Max.Z)}
	return g.Len()
}

// travel is how far the corner of m goes that goes farthest along a leg, mm.
func (f *film) travel(m *piece.Part, l work.Leg, place r3.Pose) float64 {
	if l.Turn == 0 {
		return vec(l.By).Len()
	}
	box := f.at[m.ID].Box()
	far := 0.0
	for i := range 8 {
		c := box.Min
		if i&1 != 0 {
			c.X = box.Max.X
		}
		if i&2 != 0 {
			c.Y = box.Max.Y
		}
		if i&4 != 0 {
			c.Z = box.Max.Z
		}
		r := place.At(c).Sub(vec(l.About))
		far = max(far, r.Sub(vec(l.Axis).Mul(r.Dot(vec(l.Axis)))).Len())
	}
	return far * math.Abs(l.Turn)
}

func vec(v [3]float64) r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }

// undo is the pose that takes the piece's frame back along a share of a leg.
func undo(l work.Leg, share float64) r3.Pose {
	if l.Turn == 0 {
		return r3.Identity().Moved(vec(l.By).Mul(-share))
	}
	axis, a := vec(l.Axis), -l.Turn*share
	turn := func(v r3.Vec) r3.Vec { // O. Rodrigues' formula
		return v.Mul(math.Cos(a)).Add(axis.Cross(v).Mul(math.Sin(a))).Add(axis.Mul(axis.Dot(v) * (1 - math.Cos(a))))
	}
	at := vec(l.About)
	return r3.Pose{O: at.Sub(turn(at)), X: turn(r3.Vec{X: 1}), Y: turn(r3.Vec{Y: 1}), Z: turn(r3.Vec{Z: 1})}
}
