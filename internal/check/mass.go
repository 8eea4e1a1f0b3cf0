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
	block  float64
	own    bool // the piece alone, nobody near
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

// plain are the state's masses in plain values, appended to buf.
func (s stance) plain(buf []stability.Mass) []stability.Mass {
	buf = append(buf, s.load.plain...)
	for _, d := range s.doors {
		for i := range buf {
			switch {
			case s.load.masses[i].door != d.id:
			case d.drawer:
				buf[i].At.Z += d.travel.V
			default:
				buf[i].At.X, buf[i].At.Z = d.edgeX.V, d.face.V+d.width.V/2
			}
		}
	}
	if s.person != nil {
		buf = append(buf, s.person.plain())
	}
	return buf
}

// nothingHolds stands for 'what tips over what holds' where nothing holds.
const nothingHolds = 1e6

// state is the state as the solver takes it.
func (s stance) state() stability.State {
	g := s.ground
	out := stability.State{Name: s.name, Block: s.block, Masses: s.plain(nil), Feet: []stability.Foot{
		{X: g.left.V, Z: g.rear.V}, {X: g.right.V, Z: g.rear.V}, {X: g.right.V, Z: g.front.V}, {X: g.left.V, Z: g.front.V}}}
	for _, p := range s.pulls {
		out.Pulls = append(out.Pulls, stability.Pull{Name: p.name, N: p.n, At: r3.Vec{X: (g.left.V + g.right.V) / 2, Y: p.y.V, Z: g.front.V}})
	}
	return out
}

// edgeNames are the edges of the ground.
var edgeNames = [4]string{"front", "back", "left", "right"}

// quick is used about all four edges in plain values, without a word of where
// they come from: by it the worst state is found, which the solver then judges.
func (s stance) quick(buf *[]stability.Mass) [4]float64 {
	g := s.ground
	sin, cos := math.Sincos(math.Asin(s.block / (g.front.V - g.rear.V)))
	var holds, tips [4]float64
	add := func(e int, moment float64) {
		if moment >= 0 {
			holds[e] += moment
		} else {
			tips[e] -= moment
		}
	}
	*buf = s.plain((*buf)[:0])
	for _, m := range *buf {
		w := m.Kg * stability.Gravity
		add(0, w*((g.front.V-m.At.Z)*cos-m.At.Y*sin))
		add(1, w*((m.At.Z-g.rear.V)*cos+m.At.Y*sin))
		add(2, w*(m.At.X-g.left.V)*cos)
		add(3, w*(g.right.V-m.At.X)*cos)
	}
	for _, p := range s.pulls {
		for e, name := range edgeNames {
			add(e, p.moment(name, g, trace.Const(sin), trace.Const(cos)).V)
		}
	}
	var out [4]float64
	for e := range out {
		out[e] = nothingHolds
		if holds[e] > 0 {
			out[e] = tips[e] / holds[e]
		}
	}
	return out
}

// used computes what tips over what holds about an edge: 0 where nothing tips,
// 1 where it just falls. It reckons in traced numbers, apart from the solver; a
// test holds the two against each other.
func (s stance) used(edge string) trace.Num {
	g := s.ground
	base := g.front.Sub(g.rear)
	ratio := trace.Const(s.block).Div(base)
	tilt := ratio.Apply(math.Asin(ratio.V), 1/math.Sqrt(1-ratio.V*ratio.V))
	sin, cos := tilt.Sin(), tilt.Cos()
	var holds, tips trace.Num
	add := func(moment trace.Num) {
		if moment.V >= 0 {
			holds = holds.Add(moment)
		} else {
			tips = tips.Sub(moment)
		}
	}
	for _, m := range s.masses() {
		w := m.kg.Scale(stability.Gravity)
		var lever trace.Num // inwards from the edge, at right angles to the true vertical
		switch edge {
		case "front":
			lever = g.front.Sub(m.at[2]).Mul(cos).Sub(m.at[1].Mul(sin))
		case "back":
			lever = m.at[2].Sub(g.rear).Mul(cos).Add(m.at[1].Mul(sin))
		case "left":
			lever = m.at[0].Sub(g.left).Mul(cos)
		default:
			lever = g.right.Sub(m.at[0]).Mul(cos)
		}
		add(w.Mul(lever))
	}
	for _, p := range s.pulls {
		add(p.moment(edge, g, sin, cos))
	}
	if holds.V <= 0 { // nothing holds it: as good as any large number
		return trace.Step(nothingHolds, tips)
	}
	return tips.Div(holds)
}

// moment is what a pull at the front adds about an edge. A level pull on a
// tilted body also lifts a little, as the body sees it.
func (p pull) moment(edge string, g ground, sin, cos trace.Num) trace.Num {
	level, lift := cos.Scale(p.n), sin.Scale(p.n)
	half := g.right.Sub(g.left).Scale(0.5)
	switch edge {
	case "front":
		return p.y.Mul(level).Neg()
	case "back":
		return p.y.Mul(level).Sub(lift.Mul(g.front.Sub(g.rear)))
	}
	return lift.Mul(half).Neg()
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
