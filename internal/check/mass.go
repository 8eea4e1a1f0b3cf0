package check

import (
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/stability"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// mass is a mass in space, traced.
type mass struct {
	name    string
	kg      trace.Num
	at      [3]trace.Num
	content bool
	door    string // id of the door that it moves with, or ""
}

// pull is a level pull, N, to the front, in the middle of the width.
type pull struct {
	name string
	n    float64
	y    trace.Num
}

// ground is the rectangle that the piece stands on: its left, right, rear and
// front edges.
type ground struct{ left, right, rear, front trace.Num }

// stance is one state of the piece: how it is filled, which doors are open,
// who does what to it, on what floor.
type stance struct {
	name   string
	ground ground
	load   *loading
	doors  []door
	person *mass
	act    string // what a child does there, "" where nobody or no child does
	pulls  []pull
	floor  flooring
	test   string // key of the published test that this is, or ""
	own    bool   // the piece alone, nobody near
}

// flooring is what it stands on: a block (mm) under one side's feet, so that it
// leans toward the opposite one.
type flooring struct {
	word, toward string
	block        float64
}

// lean is the way it leans, as a unit vector in plan (x, z), and the distance of
// the feet along it.
func (f flooring) lean(g ground) (x, z float64, base trace.Num) {
	switch f.toward {
	case "left":
		return -1, 0, g.right.Sub(g.left)
	case "right":
		return 1, 0, g.right.Sub(g.left)
	case "back":
		return 0, -1, g.front.Sub(g.rear)
	}
	return 0, 1, g.front.Sub(g.rear)
}

// loading is a way of filling it: the masses with all doors shut, traced and
// plain.
type loading struct {
	word   string
	masses []mass
	plain  []stability.Mass
}

func newLoading(word string, ms []mass) *loading {
	l := &loading{word: word, masses: ms}
	for _, m := range ms {
		l.plain = append(l.plain, m.plain())
	}
	return l
}

func (m mass) plain() stability.Mass {
	return stability.Mass{Name: m.name, Kg: m.kg.V, Content: m.content, At: r3.Vec{X: m.at[0].V, Y: m.at[1].V, Z: m.at[2].V}}
}

// masses are the state's masses, traced.
func (s stance) masses() []mass {
	ms := s.load.masses
	for _, d := range s.doors {
		ms = d.opened(ms)
	}
	if s.person != nil {
		ms = append(append([]mass(nil), ms...), *s.person)
	}
	return ms
}

// plain are the state's masses in plain values.
func (s stance) plain() []stability.Mass {
	var out []stability.Mass
	for _, m := range s.masses() {
		out = append(out, m.plain())
	}
	return out
}

// nothingHolds stands for 'what tips over what holds' where nothing holds.
const nothingHolds = 1e6

// state is the state as the solver takes it.
func (s stance) state() stability.State {
	g := s.ground
	out := stability.State{Name: s.name, Block: s.floor.block, Toward: s.floor.toward, Masses: s.plain(), Feet: []stability.Foot{
		{X: g.left.V, Z: g.rear.V}, {X: g.right.V, Z: g.rear.V}, {X: g.right.V, Z: g.front.V}, {X: g.left.V, Z: g.front.V}}}
	for _, p := range s.pulls {
		out.Pulls = append(out.Pulls, stability.Pull{Name: p.name, N: p.n, At: r3.Vec{X: (g.left.V + g.right.V) / 2, Y: p.y.V, Z: g.front.V}})
	}
	return out
}

// edgeNames are the edges of the ground.
var edgeNames = [4]string{"front", "back", "left", "right"}

// outward is the way an edge looks, in plan (x, z), and its place along it.
func outward(edge string, g ground) (x, z float64, at trace.Num) {
	switch edge {
	case "front":
		return 0, 1, g.front
	case "back":
		return 0, -1, g.rear.Neg()
	case "left":
		return -1, 0, g.left.Neg()
	}
	return 1, 0, g.right
}

// used computes what tips over what holds about an edge: 0 where nothing tips,
// 1 where it just falls. It reckons in traced numbers, apart from the solver; a
// test holds the two against each other.
func (s stance) used(edge string) trace.Num {
	lx, lz, base := s.floor.lean(s.ground)
	ratio := trace.Const(s.floor.block).Div(base)
	tilt := ratio.Apply(math.Asin(ratio.V), 1/math.Sqrt(1-ratio.V*ratio.V))
	sin, cos := tilt.Sin(), tilt.Cos()
	ox, oz, at := outward(edge, s.ground)
	with := ox*lx + oz*lz // 1 where it leans out over the edge
	var holds, tips trace.Num
	add := func(moment trace.Num) {
		if moment.V >= 0 {
			holds = holds.Add(moment)
		} else {
			tips = tips.Sub(moment)
		}
	}
	for _, m := range s.masses() {
		inside := at.Sub(m.at[0].Scale(ox)).Sub(m.at[2].Scale(oz))
		lever := inside.Mul(cos).Sub(m.at[1].Mul(sin).Scale(with))
		add(m.kg.Scale(stability.Gravity).Mul(lever))
	}
	for _, p := range s.pulls {
		add(p.moment(edge, s.ground, s.floor, sin, cos))
	}
	if holds.V <= 0 { // nothing holds it: as good as any large number
		return trace.Step(nothingHolds, tips)
	}
	return tips.Div(holds)
}

// moment is what a pull at the front adds about an edge. A level pull on a
// tilted body also lifts or presses a little, as the body sees it.
func (p pull) moment(edge string, g ground, f flooring, sin, cos trace.Num) trace.Num {
	lx, lz, _ := f.lean(g)
	ox, oz, at := outward(edge, g)
	// The pull is (0, 0, 1), turned with the body: lz of it along the lean.
	out := cos.Plus(-1).Scale(lz * (ox*lx + oz*lz)).Plus(oz)
	lift := sin.Scale(lz)
	inside := at.Sub(g.left.Add(g.right).Scale(0.5 * ox)).Sub(g.front.Scale(oz))
	return out.Mul(p.y).Add(lift.Mul(inside)).Scale(-p.n)
}

// partMasses are the masses of the parts, each with the door or drawer that it
// moves with.
func partMasses(in Input, ds []door) []mass {
	with := map[string]string{}
	for _, d := range ds {
		for _, id := range d.parts {
			with[id] = d.id
		}
	}
	var out []mass
	for _, l := range in.Masses {
		out = append(out, mass{name: l.Part, kg: l.Mass, at: [3]trace.Num{l.X, l.Y, l.Z}, door: with[l.Part]})
	}
	return out
}

// contentMasses are what the brief puts in; none of it lies in a door or drawer.
func contentMasses(lines []work.MassLine) []mass {
	var out []mass
	for _, l := range lines {
		out = append(out, mass{name: "on " + l.Part, kg: l.Mass, at: [3]trace.Num{l.X, l.Y, l.Z}, content: true})
	}
	return out
}

// groundOf finds what the piece stands on: everything that reaches the floor.
// The front edge of a set-back plinth is the fulcrum, not the body's. ok is
// false where nothing reaches it.
func groundOf(p *piece.Piece) (ground, bool) {
	var g ground
	found := false
	for _, q := range p.Parts {
		lo, hi, y := footprint(q)
		if y > 1 {
			continue
		}
		if !found || lo[0].V < g.left.V {
			g.left = lo[0]
		}
		if !found || hi[0].V > g.right.V {
			g.right = hi[0]
		}
		if !found || lo[1].V < g.rear.V {
			g.rear = lo[1]
		}
		if !found || hi[1].V > g.front.V {
			g.front = hi[1]
		}
		found = true
	}
	for _, c := range feetOf(p) {
		if !found || c[0].V < g.left.V {
			g.left = c[0]
		}
		if !found || c[0].V > g.right.V {
			g.right = c[0]
		}
		if !found || c[2].V < g.rear.V {
			g.rear = c[2]
		}
		if !found || c[2].V > g.front.V {
			g.front = c[2]
		}
		found = true
	}
	return g, found && g.right.V-g.left.V > 1 && g.front.V-g.rear.V > 1
}

// feetOf are the centres of bought feet on the floor: how broad a foot is is not
// known, so that its centre is taken for its edge, which is cautious.
func feetOf(p *piece.Piece) [][3]trace.Num {
	var out [][3]trace.Num
	for _, f := range p.Fittings {
		if f.Kind == "foot" {
			out = append(out, f.At...)
		}
	}
	return out
}

// footprint is a part's reach in plan, (x, z), and the height of its lowest
// point.
func footprint(q *piece.Part) (lo, hi [2]trace.Num, y float64) {
	if len(q.Run) > 0 {
		return stripFootprint(q)
	}
	if q.Role == piece.Leg || q.Role == piece.Free || len(q.Bevels) > 0 {
		return shapedFootprint(q)
	}
	at := func(axis int) (trace.Num, trace.Num) {
		a := q.Origin[axis]
		b := a
		for _, e := range []struct {
			c    float64
			size trace.Num
		}{{comp(q.Pose.X, axis), q.Length}, {comp(q.Pose.Y, axis), q.Width}, {comp(q.Pose.Z, axis), q.Thick}} {
			if e.c > 0.5 {
				b = b.Add(e.size)
			} else if e.c < -0.5 {
				a = a.Sub(e.size)
			}
		}
		return a, b
	}
	lo[0], hi[0] = at(0)
	lo[1], hi[1] = at(2)
	low, _ := at(1)
	return lo, hi, low.V
}

func comp(v r3.Vec, axis int) float64 { return [3]float64{v.X, v.Y, v.Z}[axis] }

// stripFootprint takes the outer faces of the strip's flats; they hang on the
// piece's sizes, which the strip's own numbers stand for.
func stripFootprint(q *piece.Part) (lo, hi [2]trace.Num, y float64) {
	if q.InPlan() {
		return planFootprint(q)
	}
	x0, x1, low := math.Inf(1), math.Inf(-1), math.Inf(1)
	for _, s := range q.Run {
		end := s.From.Add(s.Dir.Mul(s.X1 - s.X0))
		if s.Radius != 0 {
			end = s.From
		}
		for _, v := range []struct{ x, y float64 }{{s.From.X, s.From.Y}, {end.X, end.Y}} {
			x0, x1, low = math.Min(x0, v.x), math.Max(x1, v.x), math.Min(low, v.y)
		}
	}
	front := q.Origin[2]
	lo = [2]trace.Num{trace.Step(x0, q.Length), front.Sub(q.Width)}
	hi = [2]trace.Num{trace.Step(x1, q.Length), front}
	return lo, hi, low
}
