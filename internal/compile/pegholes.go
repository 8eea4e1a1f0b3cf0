package compile

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// pegPlace is where one peg crosses the joint, in the piece. Row counts from 0;
// a peg that was moved aside stands by itself.
type pegPlace struct {
	at    [3]trace.Num
	row   int
	moved bool
}

// apartFrom is the wood that is left between a hole and what else is cut from
// its part, mm: three millimetres, as the check of holes side by side wants.
const apartFrom = 3.0

// aside is how far a peg is moved at most to find clear wood, mm.
const aside = 60.0

// places finds where the pegs go: where they should be, or as little aside as
// keeps them in whole wood and clear of every other cut of both parts.
func (g *pegger) places(p *piece.Pegs) []pegPlace {
	at, every := g.rows(p)
	p.Every = every
	n := len(at)
	if n > 1 && at[0][1].V != at[n-1][1].V {
		n /= 2
	}
	var out []pegPlace
	var own [2][]piece.Cut
	for i, uv := range at {
		x := pegPlace{row: i / n}
		for step := 0.0; step <= 2*aside; step++ {
			off := math.Ceil(step/2) * 2
			if int(step)%2 == 0 {
				off = -off
			}
			if every.V > 0 && math.Abs(off) > 0.6*every.V {
				continue
			}
			x.at[g.s.k], x.at[g.s.long], x.at[g.s.short] = g.s.at, uv[0].Plus(off), uv[1]
			x.moved = off != 0
			cuts, ok := g.clear(p, x.at, own)
			if !ok {
				continue
			}
			for k := range own {
				own[k] = append(own[k], cuts[k])
			}
			out = append(out, x)
			break
		}
	}
	if len(out) == 1 && n > 1 {
		if two := g.spread(p, at[0][1]); len(two) > 1 {
			return two
		}
	}
	return out
}

// spread places pegs where only a stretch of the joint is clear: one near each of
// its ends, or one alone where it is short.
func (g *pegger) spread(p *piece.Pegs, across trace.Num) []pegPlace {
	lo, l := g.s.lo[g.s.long], g.s.size(g.s.long)
	var free []pegPlace
	for off := 0.0; off < l.V; off++ {
		x := pegPlace{moved: true}
		x.at[g.s.k], x.at[g.s.long], x.at[g.s.short] = g.s.at, lo.Plus(off), across
		if _, ok := g.clear(p, x.at, [2][]piece.Cut{}); ok {
			free = append(free, x)
		}
	}
	if len(free) < 2 {
		return free
	}
	first, last := free[0], free[len(free)-1]
	if last.at[g.s.long].V-first.at[g.s.long].V < 6*p.Diameter.V {
		return free[len(free)/2 : len(free)/2+1]
	}
	return []pegPlace{first, last}
}

// clear returns the holes of a peg at a place in both parts, and whether both
// have wood for them.
func (g *pegger) clear(p *piece.Pegs, at [3]trace.Num, own [2][]piece.Cut) (cuts [2]piece.Cut, ok bool) {
	end := math.Max(1.5*p.Diameter.V, p.Wide.V/2+5)
	if v := at[g.s.long].V; v < g.s.lo[g.s.long].V+end || v > g.s.hi[g.s.long].V-end {
		if g.s.size(g.s.long).V > 2*end+1 {
			return cuts, false
		}
	}
	for k, q := range []*piece.Part{g.a, g.p} {
		if cuts[k], ok = g.hole(k, p, at); !ok || !g.wood(k, p, at) {
			return cuts, false
		}
		for i := range q.Cuts {
			if c := &q.Cuts[i]; c.Kind != piece.Notch && piece.Between(q, &cuts[k], c) < least(c, &cuts[k]) {
				return cuts, false
			}
		}
		for i := range own[k] {
			if piece.Between(q, &cuts[k], &own[k][i]) < apartFrom {
				return cuts, false
			}
		}
	}
	return cuts, true
}

// least is the wood that must stay between a hole and another cut. A lap is
// filled again by the part that lies in it.
func least(c, hole *piece.Cut) float64 {
	switch {
	case c.Kind == piece.Lap && c.Face != hole.Face:
		return 0.4
	case c.Face != hole.Face:
		return 2.5
	}
	return apartFrom
}

// wood reports whether part A (0) or B (1) has wood round a peg, as deep as its
// hole is.
func (g *pegger) wood(k int, p *piece.Pegs, at [3]trace.Num) bool {
	deep, way := p.InA.V, g.s.enter()
	if k == 1 {
		deep, way = p.InB.V, way.Mul(-1)
	}
	along, across := p.Diameter.V/2+1.5, p.Diameter.V/2+0.9
	if p.Wide.V > 0 {
		along = p.Wide.V/2 + 1.5
	}
	o := r3.Vec{X: at[0].V, Y: at[1].V, Z: at[2].V}.Add(way.Mul(0.02))
	u, v := axisVec(g.s.long), axisVec(g.s.short)
	for _, d := range []r3.Vec{{}, u.Mul(along), u.Mul(-along), v.Mul(across), v.Mul(-across)} {
		if !filled(g.bodies[k].Ray(o.Add(d), way), deep-0.1) {
			return false
		}
	}
	return true
}

// filled reports whether a line is in wood from its start on, so far.
func filled(spans []planar.Span, deep float64) bool {
	for _, s := range spans {
		if s.T0 <= 0.05 && s.T1 >= deep {
			return true
		}
	}
	return false
}

// hole is the cut of one peg in part A (0) or B (1). A screw's clearance hole is
// bored from the face that its head lies on.
func (g *pegger) hole(k int, p *piece.Pegs, at [3]trace.Num) (piece.Cut, bool) {
	q, out, deep := g.a, g.s.enter().Mul(-1), p.InA
	if k == 1 {
		q, out, deep = g.p, g.s.enter(), p.InB
	}
	c := piece.Cut{Kind: piece.Hole, Diameter: p.Diameter, Depth: deep, Count: 1, For: g.kind + "s of " + g.j.ID}
	if g.kind == screw {
		c.Diameter = p.Pilot
		if p.Head == q.ID {
			out = out.Mul(-1)
			c.Diameter, c.Through, c.Sink = p.Clear, true, trace.Const(screwHead)
		}
	}
	x, y, face, ok := g.onFace(q, out, at)
	if !ok {
		return c, false
	}
	c.Face, c.X0, c.Y0 = face, x, y
	if g.kind == tenon {
		g.mortise(&c, q, p)
	}
	return c, true
}

// mortise turns a hole into the slot of a tenon: long where the joint is long,
// with room there for the glue and for the eye.
func (g *pegger) mortise(c *piece.Cut, q *piece.Part, p *piece.Pegs) {
	play := g.constant("rule.mortise long", 1, "a mortise is 1 mm longer than its loose tenon at each end: common practice, no source")
	_, clear := g.fit("tenon", "mortise")
	half := [2]trace.Num{p.Wide.Scale(0.5).Add(play), p.Diameter.Add(clear).Scale(0.5)}
	c.Kind, c.Count, c.Diameter = piece.Mortise, 0, trace.Num{}
	x, y := c.X0, c.Y0
	if math.Abs(alongX(q, c.Face).Dot(g.s.toward())) < 0.5 {
		half[0], half[1] = half[1], half[0]
	}
	c.X0, c.X1, c.Y0, c.Y1 = x.Sub(half[0]), x.Add(half[0]), y.Sub(half[1]), y.Add(half[1])
}

// alongX is the way in the piece in which a cut's x runs on a face of a part.
func alongX(q *piece.Part, f piece.Face) r3.Vec {
	if f == piece.EndLow || f == piece.EndHigh {
		return q.Pose.Y
	}
	if q.InPlan() || len(q.Run) == 0 {
		return q.Pose.X
	}
	return r3.Vec{} // of a strip: asked of the member, see steps
}

// onFace is where a place of the piece lies on the face of a part that looks in
// the direction out.
func (g *pegger) onFace(q *piece.Part, out r3.Vec, at [3]trace.Num) (x, y trace.Num, face piece.Face, ok bool) {
	if len(q.Run) > 0 {
		return g.onStrip(q, out, at)
	}
	l := q.Pose
	face, ok = piece.FaceTo(r3.Vec{X: out.Dot(l.X), Y: out.Dot(l.Y), Z: out.Dot(l.Z)})
	if !ok {
		return x, y, face, false
	}
	lx, ly, lz := local(q, l.X, at), local(q, l.Y, at), local(q, l.Z, at)
	switch face {
	case piece.EndLow, piece.EndHigh:
		return ly, lz, face, true
	case piece.EdgeLow, piece.EdgeHigh:
		return lx, lz, face, true
	}
	return lx, ly, face, true
}

// local is the coordinate of a place along one of the part's own axes.
func local(q *piece.Part, axis r3.Vec, at [3]trace.Num) trace.Num {
	var n trace.Num
	for k := range 3 {
		if v := component(axis, k); math.Abs(v) > 1e-12 {
			n = n.Add(at[k].Sub(q.Origin[k]).Scale(v))
		}
	}
	return n
}

// outwards are the ways in which the body's members look to the outside.
var outwards = [4]r3.Vec{{X: -1}, {Y: 1}, {X: 1}, {Y: -1}}

// onStrip is onFace for a strip that bends in the front view: the place lies on
// the straight stretch that looks out there.
func (g *pegger) onStrip(q *piece.Part, out r3.Vec, at [3]trace.Num) (x, y trace.Num, face piece.Face, ok bool) {
	if f, end := g.stripEnd(q, out); end {
		return g.onStripEnd(q, f, at)
	}
	for i, m := range g.members {
		turn := out.Dot(outwards[i])
		if m == nil || math.Abs(turn) < 0.9 {
			continue
		}
		c := at[1]
		if i == top || i == bottom {
			c = at[0]
		}
		inner := outwards[i].Dot(r3.Vec{X: at[0].V, Y: at[1].V, Z: at[2].V}) - outwards[i].Dot(r3.Vec{X: g.width.V / 2, Y: g.foot.V + g.height.V/2})
		if inner < 0 { // the other side of the body
			continue
		}
		s := g.surfaceAt(i, c)
		if s.part != q {
			continue
		}
		x, y = s.at(c, at[2])
		for _, run := range q.Run {
			if x.V >= run.X0 && x.V <= run.X1 && run.Radius > 0 {
				return x, y, face, false
			}
		}
		face = s.face
		if turn > 0 {
			face = other(s.face)
		}
		return x, y, face, true
	}
	return x, y, face, false
}

// stripEnd tells whether a strip meets the joint with its datum end or its far
// end, where that looks in the direction out.
func (g *pegger) stripEnd(q *piece.Part, out r3.Vec) (piece.Face, bool) {
	first, last := q.Run[0], q.Run[len(q.Run)-1]
	for _, e := range []struct {
		f    piece.Face
		x    float64
		d    r3.Vec
		flat bool
	}{{piece.EndLow, 0, q.Pose.Dir(r3.Vec{X: -first.Dir.X, Y: -first.Dir.Y}), first.Radius == 0},
		{piece.EndHigh, q.Length.V, q.Pose.Dir(r3.Vec{X: last.Dir.X, Y: last.Dir.Y}), last.Radius == 0}} {
		at := piece.Place(q, e.x, 0, 0)
		if e.flat && e.d.Dot(out) > 0.999 && math.Abs(component(at, g.s.k)-g.s.at.V) < touch {
			return e.f, true
		}
	}
	return "", false
}

// onStripEnd is where a place lies on the end of a strip: across it, and over
// its inner face.
func (g *pegger) onStripEnd(q *piece.Part, f piece.Face, at [3]trace.Num) (x, y trace.Num, face piece.Face, ok bool) {
	inner := [4]trace.Num{g.inner[left], g.foot.Add(g.height).Sub(g.inner[top]), g.width.Sub(g.inner[right]), g.foot.Add(g.inner[bottom])}
	for i, m := range g.members {
		k := i % 2 // left and right lie at an x, top and bottom at a y
		over := at[k].Sub(inner[i])
		if i == left || i == bottom {
			over = over.Neg()
		}
		if m == nil || k == g.s.k || over.V < 0 || over.V > q.Thick.V {
			continue
		}
		return q.Origin[2].Sub(at[2]), over, f, true
	}
	return x, y, f, false
}

func other(f piece.Face) piece.Face {
	if f == piece.FaceA {
		return piece.FaceB
	}
	return piece.FaceA
}

// drill books the holes of all pegs: those of a row that stand as they should
// as one row, others one by one.
func (g *pegger) drill(p *piece.Pegs, at []pegPlace) {
	rows := map[int]int{}
	moved := map[int]bool{}
	for _, x := range at {
		rows[x.row]++
		moved[x.row] = moved[x.row] || x.moved
	}
	full, _ := g.rows(p)
	each := len(full)
	if each > 1 && full[0][1].V != full[each-1][1].V {
		each /= 2
	}
	for k, q := range []*piece.Part{g.a, g.p} {
		done := map[int]bool{}
		for _, x := range at {
			c, ok := g.hole(k, p, x.at)
			if !ok || done[x.row] {
				continue
			}
			if whole := rows[x.row] == each && !moved[x.row] && each > 1 && g.kind != tenon; whole {
				next := x.at
				next[g.s.long] = next[g.s.long].Add(p.Every)
				if d, ok := g.hole(k, p, next); ok {
					c.Kind, c.Count, c.StepX, c.StepY = piece.HoleRow, each, d.X0.Sub(c.X0), d.Y0.Sub(c.Y0)
					done[x.row] = true
				}
			}
			cut(q, c)
		}
	}
}
