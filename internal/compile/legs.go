package compile

import (
	"fmt"
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// legPlane is a plane in which a pair of legs stands: flat parts of one
// thickness, with the leg rail in the same plane. In it, s runs inwards from
// the edge at which the first leg stands, and up is up.
type legPlane struct {
	name   string
	lo, hi trace.Num // of the plane's thickness: x where it runs from front to back, else z
	deep   trace.Num // of the body along s
	end    bool      // the plane runs from front to back
}

// frame is the frame of a part in the plane whose y runs inwards from the first
// edge (or, turned, from the other one), with its x up and its origin at s from
// that edge.
func (l legPlane) frame(b *builder, s trace.Num, turned bool) (r3.Pose, [3]trace.Num) {
	switch {
	case l.end && !turned: // from the front backwards; z to the left
		return upright3, [3]trace.Num{l.hi, {}, b.front.Sub(s)}
	case l.end:
		return r3.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{Z: 1}, Z: r3.Vec{X: 1}}, [3]trace.Num{l.lo, {}, s}
	case !turned: // from the left to the right; z to the rear
		return r3.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{X: 1}, Z: r3.Vec{Z: -1}}, [3]trace.Num{s, {}, l.hi}
	}
	return standing3, [3]trace.Num{b.width.Sub(s), {}, l.lo}
}

// legs stands pairs of legs under the body.
func (b *builder) legs() {
	w := b.d.Base
	l := w.Legs
	if w.Kind != "legs" || l == nil {
		return
	}
	out, in := l.Along, l.Across // in the plane, and out of it
	if l.Plane == "front" {
		out, in = in, out
	}
	if in.V != 0 && l.Joint == "lap" {
		b.errorAt(w.Path+".joint", "not-yet", "legs that lean out of the plane they stand in are not lapped yet",
			"Pairs in the plane 'end' lean out of it as seen from the front (across), pairs in the plane 'front' as seen from the end (along). Write joint: screwed.")
		return
	}
	if b.under == nil {
		b.errorAt(w.Path, "no-room", "the legs have nothing to stand under", "Give the body a bottom, or place a top under 'parts' with its underside at the legs' height.")
		return
	}
	role := b.pick(w.Role, "legs", "panels")
	if role.Stock == nil {
		b.errorAt(w.Path, "no-stock", "no stock for the legs", "Name one under the role 'legs'.")
		return
	}
	var leg shape
	if in.V == 0 {
		var ok bool
		if leg, ok = b.legShape(out.V); !ok {
			return
		}
	}
	for i, at := range l.Where {
		pl, ok := b.legPlane(i, at, b.thick(role))
		if !ok {
			return
		}
		if in.V != 0 {
			b.splayedPair(pl, in, out)
			continue
		}
		b.legPair(pl, leg)
	}
}

// legPlane finds plane i.
func (b *builder) legPlane(i int, at, thick trace.Num) (legPlane, bool) {
	l := b.d.Base.Legs
	across, deep := b.width, b.front
	pl := legPlane{end: l.Plane == "end", deep: deep}
	if !pl.end {
		across, deep = b.front, b.width
		pl.deep = deep
	}
	pl.lo = at
	if at.V < 0 {
		pl.lo = across.Add(at).Sub(thick)
	}
	if !pl.end { // places are from the front
		pl.lo = across.Sub(pl.lo).Sub(thick)
	}
	pl.hi = pl.lo.Add(thick)
	pl.name = pl.called(b, i, len(l.Where), across)
	if pl.lo.V < -1e-6 || pl.hi.V > across.V+1e-6 {
		b.errorAt(b.d.Base.Path+".at", "no-room", "a pair of legs does not stand under the body",
			fmt.Sprintf("It would reach from %.1f to %.1f of %.1f mm.", pl.lo.V, pl.hi.V, across.V))
		return pl, false
	}
	return pl, true
}

// called names plane i of n by where it stands, if there are two, or else by
// its number.
func (l legPlane) called(b *builder, i, n int, across trace.Num) string {
	low := l.lo.V+l.hi.V < across.V
	switch {
	case n == 1:
		return ""
	case n != 2:
		return fmt.Sprint(i + 1)
	case l.end && low:
		return "left"
	case l.end:
		return "right"
	case low:
		return "rear"
	}
	return "front"
}

// legShape is the outline of a leg, x inwards and y up, turned about its foot by
// its splay and cut off level at the floor and under the body.
func (b *builder) legShape(splay float64) (shape, bool) {
	w := b.d.Base
	l := w.Legs
	s := shape{x1: l.Wide, y1: w.Height}
	if l.Shape.Given() {
		var ok bool
		if s, ok = b.shapeOf(l.Shape); !ok {
			return s, false
		}
	} else {
		// A post is cut longer, so that it reaches from the floor to the body
		// however it leans.
		more := l.Wide.V*math.Tan(splay) + w.Height.V*(1/math.Cos(splay)-1)
		s.region = planar.Rect(0, -more, l.Wide.V, w.Height.V+more)
	}
	if splay != 0 {
		s.region = s.region.Turned(r2.Vec{}, -splay)
	}
	all := s.region.Box()
	if all.Min.Y > 1e-6 || all.Max.Y < w.Height.V-1e-6 {
		b.errorAt(w.Path+".outline", "leg-short", "the legs do not reach from the floor to the body",
			fmt.Sprintf("As they stand their outline reaches from %.1f to %.1f of %.1f mm.", all.Min.Y, all.Max.Y, w.Height.V))
		return s, false
	}
	cut, err := planar.Intersection(s.region, planar.Rect(all.Min.X-1, 0, all.Max.X+1, w.Height.V))
	if err != nil || len(cut) != 1 {
		b.errorAt(w.Path+".outline", "bad-outline", "the legs' outline falls apart", "Between the floor and the body it must be one shape.")
		return s, false
	}
	s.region = cut
	box := cut.Box()
	s.x0, s.x1 = s.x0.Plus(box.Min.X-s.x0.V), s.x1.Plus(box.Max.X-s.x1.V)
	s.y0, s.y1 = trace.Num{}, w.Height
	return s, true
}

// legPair stands the legs of one plane, with their rail, and joins them.
func (b *builder) legPair(pl legPlane, s shape) {
	w := b.d.Base
	l := w.Legs
	first := b.leg(pl, s, false)
	parts := []*piece.Part{first}
	if l.Mirrored {
		parts = append(parts, b.leg(pl, s, true))
	}
	if l.Joint == "lap" && !b.lapped(pl, parts) {
		return
	}
	for _, p := range parts {
		if l.Joint == "lap" && l.Rail != nil { // half of it is the rail's: the screws go into that
			b.restsUnder(p)
			continue
		}
		b.standsUnder(p)
	}
}

// legPart names a leg of a plane and says what it is made of.
func (b *builder) legPart(pl legPlane, turned bool) *piece.Part {
	w := b.d.Base
	role := b.pick(w.Role, "legs", "panels")
	where := [2]string{"front", "rear"}
	if !pl.end {
		where = [2]string{"left", "right"}
	}
	side := where[0]
	if turned {
		side = where[1]
	}
	id := "leg, " + side
	if pl.name != "" {
		id = "leg, " + pl.name + " " + side
	}
	return &piece.Part{ID: id, Name: id, Role: piece.Leg, Stock: role.Stock, Thick: b.thick(role), Grain: piece.AlongLength, Path: w.Path, Show: piece.FaceA}
}

// leg makes one leg. In its frame x is up and y inwards.
func (b *builder) leg(pl legPlane, s shape, turned bool) *piece.Part {
	w := b.d.Base
	p := b.legPart(pl, turned)
	p.Length, p.Width = s.height(), s.width()
	p.Pose, p.Origin = pl.frame(b, w.Legs.Inset.Add(s.x0), turned)
	p.NameA, p.NameB = faceNames(p.Pose)
	over := b.d.Shop.Habits.Oversize.Scale(2)
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width.Add(over)
	// From x inwards and y up to x up and y inwards: turned over.
	p.Outline = s.region.Placed(r2.Vec{Y: -s.x0.V}, r2.Vec{Y: 1}, r2.Vec{X: 1})
	return b.add(p)
}

// faceNames say where a part's A and B faces look.
func faceNames(p r3.Pose) (a, bb string) {
	for _, d := range []struct {
		v    r3.Vec
		a, b string
	}{
		{r3.Vec{X: 1}, "right face", "left face"}, {r3.Vec{X: -1}, "left face", "right face"},
		{r3.Vec{Y: 1}, "upper face", "underside"}, {r3.Vec{Y: -1}, "underside", "upper face"},
		{r3.Vec{Z: 1}, "front face", "rear face"}, {r3.Vec{Z: -1}, "rear face", "front face"},
	} {
		if p.Z.Dot(d.v) > 1-1e-9 {
			return d.a, d.b
		}
	}
	return "face A", "face B"
}

// lapped joins the legs of a pair to their rail, or to each other where they
// cross, each part giving half of its thickness.
func (b *builder) lapped(pl legPlane, legs []*piece.Part) bool {
	w := b.d.Base
	if w.Legs.Rail == nil {
		if len(legs) < 2 {
			b.errorAt(w.Path+".joint", "no-lap", "a single leg has nothing to be lapped to", "Give it a rail, or a second leg.")
			return false
		}
		return b.lap(legs[0], legs[1], w.Path+".joint")
	}
	rail, ok := b.legRail(pl)
	if !ok {
		return false
	}
	for _, p := range legs {
		if !b.lap(rail, p, w.Legs.Rail.Path) {
			return false
		}
	}
	b.standsUnder(rail)
	return true
}

// legRail makes the rail of a plane, close under the body.
func (b *builder) legRail(pl legPlane) (*piece.Part, bool) {
	w := b.d.Base
	q := w.Legs.Rail
	role := b.pick(w.Role, "legs", "panels")
	long := pl.deep.Sub(q.Inset.Scale(2))
	if long.V < 60 || q.Height.V >= w.Height.V {
		b.errorAt(q.Path, "no-room", "the leg rail has no room", fmt.Sprintf("It would be %.0f mm long and %.0f high under a body at %.0f mm.", long.V, q.Height.V, w.Height.V))
		return nil, false
	}
	id := "leg rail"
	if pl.name != "" {
		id += ", " + pl.name
	}
	p := &piece.Part{ID: id, Name: id, Role: piece.LegRail, Stock: role.Stock, Thick: b.thick(role), Length: long, Width: q.Height,
		Grain: piece.AlongLength, Path: q.Path, Show: piece.FaceA}
	y := w.Height.Sub(q.Height)
	if pl.end {
		p.Pose = r3.Pose{X: r3.Vec{Z: -1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{X: 1}}
		p.Origin = [3]trace.Num{pl.lo, y, b.front.Sub(q.Inset)}
	} else {
		p.Pose = facing3
		p.Origin = [3]trace.Num{q.Inset, y, pl.lo}
	}
	p.NameA, p.NameB = faceNames(p.Pose)
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	return b.add(p), true
}

// lap half-laps two flat parts that lie in one plane: where they cross, each
// loses half of its thickness, from opposite faces.
func (b *builder) lap(a, in *piece.Part, path string) bool {
	// in's outline in a's frame; both frames are square to the plane.
	o := a.Pose.Local(in.Pose.O)
	x := r2.Vec{X: in.Pose.X.Dot(a.Pose.X), Y: in.Pose.X.Dot(a.Pose.Y)}
	y := r2.Vec{X: in.Pose.Y.Dot(a.Pose.X), Y: in.Pose.Y.Dot(a.Pose.Y)}
	both, err := planar.Intersection(a.Outline, in.Outline.Placed(r2.Vec{X: o.X, Y: o.Y}, x, y))
	if err != nil || len(both) != 1 || both.Area() < leastArea {
		b.errorAt(path, "no-lap", fmt.Sprintf("%s and %s do not cross", in.ID, a.ID),
			fmt.Sprintf("They have %d places in common; a lap wants one.", len(both)))
		return false
	}
	half := a.Thick.Scale(0.5)
	lapCut(a, both, piece.FaceA, half, in.ID)
	// The face of 'in' that looks the other way than a's A face.
	face := piece.FaceB
	if in.Pose.Z.Dot(a.Pose.Z) < 0 {
		face = piece.FaceA
	}
	o = in.Pose.Local(a.Pose.O)
	back := both.Placed(r2.Vec{X: o.X, Y: o.Y}, r2.Vec{X: x.X, Y: y.X}, r2.Vec{X: x.Y, Y: y.Y})
	lapCut(in, back, face, half, a.ID)
	enter := a.Pose.Z.Mul(-1)
	b.join(piece.Joint{Kind: "lap", A: a.ID, B: in.ID, Enter: enter, Depth: half, Glued: true,
		Area: trace.Step(both.Area(), half).Add(half.Scale(shoulders(both, a.Outline))), Path: path})
	return true
}

// shoulders is the length of the lap's border along which wood stands against
// wood: what of it does not lie on the outline of the part that is cut.
func shoulders(lap, outline planar.Region) float64 {
	sum := 0.0
	for l := range lap.All {
		for _, e := range l.Edges() {
			if !outline.OnEdge(e.At(0.5), 0.01) {
				sum += e.Len()
			}
		}
	}
	return sum
}

func lapCut(p *piece.Part, r planar.Region, face piece.Face, deep trace.Num, why string) {
	box := r.Box()
	cut(p, piece.Cut{Kind: piece.Lap, Face: face, X0: trace.Const(box.Min.X), X1: trace.Const(box.Max.X), Y0: trace.Const(box.Min.Y), Y1: trace.Const(box.Max.Y),
		Depth: deep, Region: r, For: why})
}

// restsUnder books that what stands over a leg lies on it, where the leg's rail is
// what it is screwed to.
func (b *builder) restsUnder(p *piece.Part) {
	if b.meetsOver(p) {
		b.join(piece.Joint{Kind: "rests", A: p.ID, B: b.under.ID, Enter: r3.Vec{Y: -1}, Path: b.d.Base.Path})
	}
}

// meetsOver reports whether a leg or its rail meets what stands over it, and says
// so where it does not.
func (b *builder) meetsOver(p *piece.Part) bool {
	mine, err := piece.Solid(p, 0)
	above, err2 := piece.Solid(b.under, 0)
	if err != nil || err2 != nil {
		return true
	}
	if area, _, err := solid.Contact(mine, above, touch); err == nil && area < leastArea {
		b.errorAt(b.d.Base.Path, "leg-misses", fmt.Sprintf("%s does not meet %s over it", p.ID, b.under.ID), "Place it further in.")
		return false
	}
	return true
}

// standsUnder books that a leg or its rail is screwed to what stands on it, and
// says so where it stands beside it.
func (b *builder) standsUnder(p *piece.Part) {
	if b.meetsOver(p) {
		b.join(piece.Joint{Kind: "screwed", A: p.ID, B: b.under.ID, Enter: r3.Vec{Y: -1}, Path: b.d.Base.Path})
	}
}
