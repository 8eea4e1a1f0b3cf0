package compile

import (
	"fmt"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// runsOn reports whether member i runs on to the floor past corner c.
func (b *builder) runsOn(i, c int) bool {
	return b.d.Base.Kind == "sides" && (i == left || i == right) && (c == 0 || c == 3)
}

// bottomHousing lets the bottom into a side that runs on below it.
func (b *builder) bottomHousing(side, in *member, c int, depth trace.Num) {
	enter, _ := cornerMoves(in.index, side.index)
	p := in.part
	y0 := b.foot
	fit, clear := b.fit("side", "bottom")
	half := clear.Scale(0.5)
	b.surface(side.index).pocket(piece.Housing, y0.Sub(half), y0.Add(b.inner[bottom]).Add(half), b.rear, b.front, depth, p.ID)
	b.join(piece.Joint{Kind: "housing", A: side.part.ID, B: p.ID, Enter: enter, Depth: depth, Fit: fit, Clearance: clear, Glued: true,
		Area: b.inner[bottom].Add(depth.Scale(2)).Mul(b.front.Sub(b.rear)), Path: b.corner(c).Path})
}

// kickBoard sets a board between sides that run on to the floor, behind the
// room for toes.
func (b *builder) kickBoard() {
	w := b.d.Base
	if !w.Kick {
		return
	}
	role := b.pick(w.Role, "plinth", "panels")
	p := &piece.Part{ID: "kick board", Name: "kick board", Role: piece.Plinth, Stock: role.Stock, Thick: b.thick(role),
		Length: b.width.Sub(b.inner[left]).Sub(b.inner[right]), Width: w.Height, Grain: piece.AlongLength, Pose: facing3,
		NameA: "front face", NameB: "rear face", Show: piece.FaceA, Path: w.Path}
	p.Origin = [3]trace.Num{b.inner[left], {}, b.front.Sub(w.SetBack).Sub(p.Thick)}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	if p.Origin[2].V < b.backThick.V {
		b.errorAt(w.Path, "no-room", "the kick board is set back too far", fmt.Sprintf("The body is %.0f mm deep.", b.front.V))
		return
	}
	b.add(p)
	for k, i := range []int{left, right} {
		b.join(piece.Joint{Kind: "butt", A: b.members[i].part.ID, B: p.ID, Enter: r3.Vec{X: []float64{-1, 1}[k]},
			Also: []r3.Vec{{Y: 1}, {Z: 1}, {Z: -1}}, Glued: true, Area: p.Thick.Mul(p.Width), Path: w.Path})
	}
	for _, q := range b.memberParts(bottom) {
		b.join(piece.Joint{Kind: "butt", A: q.ID, B: p.ID, Enter: r3.Vec{Y: 1}, Also: []r3.Vec{{Z: 1}, {Z: -1}}, Glued: true,
			Area: p.Thick.Mul(p.Length), Path: w.Path})
	}
}

// feet places bought feet in two rows under the bottom.
func (b *builder) feet() {
	w := b.d.Base
	if w.Use == nil {
		return
	}
	n := w.Count / 2
	x0, x1 := w.SetBack, b.width.Sub(w.SetBack)
	z0, z1 := b.rear.Add(w.SetBack), b.front.Sub(w.SetBack)
	if x1.V <= x0.V || z1.V <= z0.V || n < 2 {
		b.errorAt(w.Path, "no-room", "the feet are set back too far", fmt.Sprintf("The body is %.0f × %.0f mm.", b.width.V, b.front.V))
		return
	}
	var at [][3]trace.Num
	for _, z := range []trace.Num{z1, z0} {
		for k := range n {
			at = append(at, [3]trace.Num{x0.Add(x1.Sub(x0).Scale(float64(k) / float64(n-1))), {}, z})
		}
	}
	b.fitting(w.Use, w.Count, b.memberParts(bottom)[0].ID, w.Path, at)
}

// hangOnWall tells how the rail at the top back is fixed to the wall: screws through
// rail and back, half way up the rail. In masonry they are spread evenly, and
// their holes are bored; a stud wall has its own places, which nobody knows
// before they are found, so that there the holes are bored on the spot.
func (b *builder) hangOnWall() {
	w := b.d.Base
	rail := b.out.Part("hanging rail")
	if rail == nil {
		rail = b.out.Part("rail")
	}
	if rail == nil || w.Use == nil {
		return
	}
	if need := w.Use.Length.V - b.backThick.V - rail.Thick.V; need < 30 {
		b.errorAt(w.Path, "screw-short", "the screws do not reach into the wall",
			fmt.Sprintf("Rail and back take %.1f of %.1f mm.", b.backThick.V+rail.Thick.V, w.Use.Length.V))
	}
	switch b.d.Brief.Place.Wall {
	case "brick", "block", "concrete", "stone":
	default:
		rail.Notes = append(rail.Notes, say.F("It is screwed through the back into the wall with {} screws. Their holes are bored on the spot, where the studs are found; "+
			"what holds in this wall is for local rules, or for who is licensed to say.", w.Count))
		b.fitting(w.Use, w.Count, rail.ID, w.Path, nil)
		return
	}
	from := b.constant("rule.wall screw from end", 60, "a wall screw sits 60 mm from the rail's end: common practice, no source")
	y := rail.Origin[1].Add(rail.Width.Scale(0.5))
	span := b.width.Sub(b.inner[left]).Sub(b.inner[right]).Sub(from.Scale(2))
	x0 := b.inner[left].Add(from)
	dia := w.Use.Diameter.Add(b.constant("rule.screw clearance", 0.5, "a clearance hole is 0.5 mm wider than the screw's shank: common practice, no source"))
	var at [][3]trace.Num
	for k := range w.Count {
		x := x0.Add(span.Scale(float64(k) / float64(w.Count-1)))
		x = b.clearOfDividers(x, dia)
		at = append(at, [3]trace.Num{x, y, {}})
		for _, q := range []*piece.Part{rail, b.out.Part("back")} {
			if q != nil {
				cut(q, piece.Cut{Kind: piece.Hole, Face: piece.FaceA, X0: x.Sub(q.Origin[0]), Y0: y.Sub(q.Origin[1]), Diameter: dia, Depth: q.Thick, Through: true, For: "wall screw"})
			}
		}
	}
	rail.Notes = append(rail.Notes, say.F("It is screwed through the back into the wall with {} screws, plugged as the wall asks; "+
		"what holds in this wall is for local rules, or for who is licensed to say.", w.Count))
	b.fitting(w.Use, w.Count, rail.ID, w.Path, at)
}

// clearOfDividers moves a screw beside a divider that would hide it from the
// screwdriver.
func (b *builder) clearOfDividers(x, dia trace.Num) trace.Num {
	room := b.constant("rule.screw beside divider", 20, "a wall screw sits 20 mm or more beside a divider, for the hand: common practice, no source")
	for _, u := range b.uprights[1 : len(b.uprights)-1] {
		if x.V > u.x0.V-room.V && x.V < u.x1.V+room.V {
			return u.x1.Add(room).Add(dia)
		}
	}
	return x
}
