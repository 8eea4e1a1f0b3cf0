package compile

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// The kinds of pegs, as the piece file calls them.
const (
	dowel = "dowel"
	tenon = "loose tenon"
	screw = "screw"
)

// plainFaces reports whether a joint so called has plain faces: nothing of the
// one part lies in the other but what holds them.
func plainFaces(kind string) bool {
	return kind == "butt" || kind == dowel || kind == tenon || kind == screw
}

// pegger drills the holes of one joint.
type pegger struct {
	*builder
	j      *piece.Joint
	kind   string
	w      *design.JointWish // nil: none
	a, p   *piece.Part       // p is the joint's B
	s      seat
	bodies [2]solid.Body
	from   [2]int // how many cuts a and p had before
}

// pegs drills both parts of every joint that is dowelled, tenoned or screwed,
// when all else is cut: so that they keep clear of it.
func (b *builder) pegs() {
	bodies := map[string]solid.Body{}
	for i := range b.out.Joints {
		j := &b.out.Joints[i]
		w := b.wishFor(j)
		kind := pegKind(j, w)
		if kind == "" {
			continue
		}
		g := &pegger{builder: b, j: j, kind: kind, w: w, a: b.out.Part(j.A), p: b.out.Part(j.B)}
		if g.a == nil || g.p == nil {
			continue
		}
		if !square(g.a.Pose) && len(g.a.Bevels) > 0 || !square(g.p.Pose) && len(g.p.Bevels) > 0 {
			b.countPegs(j, kind, g.p)
			continue
		}
		for k, q := range []*piece.Part{g.a, g.p} {
			if _, ok := bodies[q.ID]; !ok {
				body, err := piece.Solid(q, leastSeen)
				if err != nil {
					b.errorAt(q.Path, "no-solid", q.ID+" has no solid", err.Error())
					return
				}
				bodies[q.ID] = body
			}
			g.bodies[k], g.from[k] = bodies[q.ID], len(q.Cuts)
		}
		g.make()
	}
}

// leastSeen is the diameter, mm, under which a hole is no hollow for a peg: what
// is bored is looked at as cuts.
const leastSeen = 12

// pegKind is what holds a joint: "" for nothing that is drilled for.
func pegKind(j *piece.Joint, w *design.JointWish) string {
	wished := ""
	if w != nil && (w.Kind == dowel || w.Kind == tenon || w.Kind == screw) {
		wished = w.Kind
	}
	if wished == "" && j.Pegs != nil {
		wished = j.Pegs.Kind
	}
	j.Pegs = nil
	switch j.Kind {
	case dowel, tenon:
		if wished != "" {
			return wished
		}
		return j.Kind
	case "screwed":
		if wished != "" {
			return wished
		}
		return screw
	case "butt":
		return wished
	}
	return ""
}

// wishFor finds what the piece file says of a joint by its partners: part ids,
// or the words for what they do.
func (b *builder) wishFor(j *piece.Joint) *design.JointWish {
	if len(b.d.Joints) == 0 {
		return nil
	}
	a, p := b.out.Part(j.A), b.out.Part(j.B)
	if a == nil || p == nil {
		return nil
	}
	for i := range b.d.Joints {
		w := &b.d.Joints[i]
		if called(a, w.A, j.Enter) && called(p, w.B, j.Enter.Mul(-1)) || called(a, w.B, j.Enter) && called(p, w.A, j.Enter.Mul(-1)) {
			return w
		}
	}
	return nil
}

// called reports whether a word of the piece file means a part: its id or its
// role. Of a strip it means the side of the body that lies in the direction to.
func called(q *piece.Part, word string, to r3.Vec) bool {
	if word == q.ID || word == string(q.Role) || word == q.Name {
		return true
	}
	shell := q.Role == piece.Strip || q.Role == piece.Side || q.Role == piece.Top || q.Role == piece.Bottom
	switch word {
	case "shell":
		return shell
	case "side":
		return q.Role == piece.Strip && math.Abs(to.X) > 0.9
	case "top":
		return q.Role == piece.Strip && to.Y > 0.9
	case "bottom":
		return q.Role == piece.Strip && to.Y < -0.9
	}
	return false
}

// make finds where the parts meet, sizes the pegs, and drills.
func (g *pegger) make() {
	var ok bool
	if g.s, ok = g.seat(); !ok {
		g.unable("The one's end or edge must lie flat on a face of the other, square to both.")
		return
	}
	pegs, ok := g.size()
	if !ok {
		return
	}
	at := g.places(pegs)
	if len(at) == 0 {
		g.unable("No place was found where both parts have wood enough and nothing else is cut.")
		return
	}
	pegs.Count = len(at)
	g.drill(pegs, at)
	g.j.Pegs = pegs
	switch {
	case g.kind != screw:
		g.j.Kind, g.j.Also, g.j.Glued = g.kind, nil, true
		if g.j.Area.V == 0 {
			g.j.Area = g.s.size(g.s.long).Mul(g.s.size(g.s.short))
		}
		g.buy(pegs)
	case g.j.Kind != "butt":
		g.j.Kind = "screwed"
	}
}

// unable says that a joint can't be drilled. Screws that were not asked for by
// name are left to the bench, and a check says so; a frame's top is then glued to
// the heads of its posts, and pegged to the rails.
func (g *pegger) unable(why string) {
	if g.kind == screw && (g.w == nil || g.w.Kind != screw) {
		return
	}
	if g.a.Role == piece.Post && g.p.Role == piece.Top && g.w == nil { // the rails hold it
		g.j.Kind, g.j.Glued, g.j.Area = "butt", true, g.a.Thick.Mul(g.a.Width)
		return
	}
	path := g.j.Path
	if g.w != nil {
		path = g.w.Path
	}
	if g.j.Kind == "butt" { // it stays a glued butt
		g.diags = append(g.diags, diag.Diagnostic{Code: "no-pegs", Severity: diag.Warning, At: g.d.At(path), Path: path,
			Summary: fmt.Sprintf("%s is glued to %s without a %s", g.p.ID, g.a.ID, g.kind), Detail: why})
		return
	}
	g.errorAt(path, "no-pegs", fmt.Sprintf("%s cannot be joined to %s by a %s", g.p.ID, g.a.ID, g.kind), why)
}

// buy books dowels and tenons as what is to be had.
func (g *pegger) buy(pegs *piece.Pegs) {
	f := piece.Fitting{What: pegs.Name, Kind: g.kind, Count: pegs.Count, On: g.p.ID, Path: g.j.Path}
	if h := g.shopDowel(pegs.Diameter.V); h != nil && g.kind == dowel {
		f.Price, f.InHand = h.Price, h.InHand
	}
	g.out.Fittings = append(g.out.Fittings, f)
}

// seat is the rectangle in which the faces of a joint meet, in the piece: square
// to axis k, where it lies at 'at'; sign is the way along k from B into A.
type seat struct {
	k, long, short int
	sign           float64
	at             trace.Num
	lo, hi         [3]trace.Num
}

func (s seat) size(k int) trace.Num { return s.hi[k].Sub(s.lo[k]) }

// enter is the way from B into A.
func (s seat) enter() r3.Vec { return axisVec(s.k).Mul(s.sign) }

func axisVec(k int) r3.Vec {
	return [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}[k]
}

func component(v r3.Vec, k int) float64 { return [3]float64{v.X, v.Y, v.Z}[k] }

// seat finds the rectangle common to both parts.
func (g *pegger) seat() (seat, bool) {
	s := seat{k: -1}
	for k := range 3 {
		if v := component(g.j.Enter, k); math.Abs(v) > 1-1e-9 {
			s.k, s.sign = k, math.Copysign(1, v)
		}
	}
	if s.k < 0 {
		return s, false
	}
	la, ha := g.reach(g.a)
	lb, hb := g.reach(g.p)
	plane, other := hb[s.k], la[s.k]
	if s.sign < 0 {
		plane, other = lb[s.k], ha[s.k]
	}
	switch {
	case len(g.a.Run) > 0: // a strip's faces are asked of its body
	case len(g.p.Run) > 0:
		plane = other
	case math.Abs(plane.V-other.V) > touch:
		return s, false
	}
	s.at = plane
	for k := range 3 {
		s.lo[k], s.hi[k] = trace.Max(la[k], lb[k]), trace.Min(ha[k], hb[k])
	}
	s.long, s.short = (s.k+1)%3, (s.k+2)%3
	if s.size(s.short).V > s.size(s.long).V {
		s.long, s.short = s.short, s.long
	}
	return s, s.size(s.short).V > 3
}

// reach is the box round a part in the piece.
func (b *builder) reach(q *piece.Part) (lo, hi [3]trace.Num) {
	if len(q.Run) > 0 || !square(q.Pose) {
		return b.boxOf(q)
	}
	for k := range 3 {
		lo[k], hi[k] = q.Origin[k], q.Origin[k]
		for i, n := range []trace.Num{q.Length, q.Width, q.Thick} {
			switch v := component([]r3.Vec{q.Pose.X, q.Pose.Y, q.Pose.Z}[i], k); {
			case v > 0.5:
				hi[k] = hi[k].Add(n)
			case v < -0.5:
				lo[k] = lo[k].Sub(n)
			}
		}
	}
	return lo, hi
}

// square reports whether a pose lies along the axes of the piece.
func square(p r3.Pose) bool {
	for _, v := range []r3.Vec{p.X, p.Y, p.Z} {
		if math.Max(math.Abs(v.X), math.Max(math.Abs(v.Y), math.Abs(v.Z))) < 1-1e-9 {
			return false
		}
	}
	return true
}

// boxOf is the box of a part that is bent or lies askew: of a shell the body's
// own outside, of others as it is.
func (b *builder) boxOf(q *piece.Part) (lo, hi [3]trace.Num) {
	body, err := piece.Solid(q, leastSeen)
	if err != nil {
		return lo, hi
	}
	box := body.Box()
	for k := range 3 {
		lo[k], hi[k] = trace.Const(component(box.Min, k)), trace.Const(component(box.Max, k))
	}
	if len(q.Run) > 0 && !q.InPlan() {
		outside := [3][2]trace.Num{{{}, b.width}, {b.foot, b.foot.Add(b.height)}, {b.rear, b.front}}
		for k := range 3 {
			lo[k], hi[k] = like(lo[k], outside[k][0]), like(hi[k], outside[k][1])
		}
	}
	return lo, hi
}

// like is the traced number in place of a plain one that is as large.
func like(n, traced trace.Num) trace.Num {
	if math.Abs(n.V-traced.V) < 1e-6 {
		return traced
	}
	return n
}
