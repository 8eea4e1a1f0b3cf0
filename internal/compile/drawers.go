package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// drawerFront makes the inset front of a drawer, its length across the piece so
// that its grain lies level.
func (b *builder) drawerFront(f *design.Front, o opening) {
	role := b.pick(f.Role, "doors", "panels")
	e := b.field(f, o)
	p := &piece.Part{ID: f.Name, Name: f.Name, Role: piece.DrawerFront, Stock: role.Stock, Thick: b.thick(role),
		Length: e.x1.Sub(e.x0), Width: e.y1.Sub(e.y0), Grain: piece.AlongLength,
		Pose: facing3, NameA: "outer face", NameB: "inner face", Show: piece.FaceA, Path: f.Path, Loose: true, Late: f.Late}
	p.Origin = [3]trace.Num{e.x0, e.y0, b.doorBack(f)}
	over := b.d.Shop.Habits.Oversize.Scale(2)
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width.Add(over)
	if !b.clearOf("the drawer's front", f.Path, e.x0, e.x1, e.y0, e.y1) {
		return
	}
	b.add(p)
	b.pull(f, p, false)
}

// drawers makes the boxes: two sides that run through, two ends between them,
// a floor in grooves.
func (b *builder) drawers() {
	for i := range b.d.Drawers {
		w := &b.d.Drawers[i]
		s := b.spaceNamed(w.In)
		if s == nil {
			b.noSpace(w.Path, w.In)
			continue
		}
		if w.Slide == nil {
			b.errorAt(w.Path, "no-slide", "the drawer has no slide", "Name a slide of the shop file under 'run'.")
			continue
		}
		s.drawer = true
		b.drawerBox(w, s)
	}
}

// box has the outside of a drawer's box in the piece.
type box struct{ x0, x1, y0, y1, z0, z1 trace.Num }

func (b *builder) drawerBox(w *design.Drawer, s *space) {
	z1 := b.face()
	if s.covered != nil {
		z1 = b.doorBack(s.covered)
	}
	air := b.constant("rule.drawer air", 12, "a drawer's box is 12 mm lower than its space at the foot and at the head: common practice, no source")
	o := box{s.x0.Add(w.Slide.Side), s.x1.Sub(w.Slide.Side), s.y0.Add(air), s.y1.Sub(air), z1.Sub(w.Slide.Length), z1}
	if o.x1.V-o.x0.V < 60 || o.y1.V-o.y0.V < 30 || o.z0.V < b.backThick.V {
		b.errorAt(w.Path, "no-room", "the drawer's box does not fit into "+s.name,
			fmt.Sprintf("It would be %.0f wide, %.0f high and end %.0f mm before the back.", o.x1.V-o.x0.V, o.y1.V-o.y0.V, o.z0.V-b.backThick.V))
		return
	}
	if !b.clearOf("the drawer's box", w.Path, o.x0, o.x1, o.y0, o.y1) || !b.clearOfBars("the drawer's box", w.Path, o.x0, o.x1, o.y0, o.y1, o.z0, o.z1) {
		return
	}
	role := b.pick(w.Role, "drawers", "panels")
	t := b.thick(role)
	half := t.Scale(0.5)
	inset := half // of the ends' ends from the box's outside
	if w.Joint == "finger" {
		inset = trace.Num{}
	}
	sides := [2]*piece.Part{}
	for k, at := range []trace.Num{o.x0.Add(t), o.x1} {
		p := &piece.Part{ID: fmt.Sprintf("%s box, %s side", s.name, []string{"left", "right"}[k]), Role: piece.DrawerSide, Stock: role.Stock,
			Thick: t, Length: o.z1.Sub(o.z0), Width: o.y1.Sub(o.y0), Grain: piece.AlongLength,
			Pose: r3.Pose{X: r3.Vec{Z: -1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{X: 1}}, Path: w.Path, Loose: true,
			NameA: "right face", NameB: "left face"}
		p.Name = p.ID
		p.Origin = [3]trace.Num{at.Sub(t), o.y0, o.z1}
		p.BlankLength, p.BlankWidth = p.Length, p.Width
		sides[k] = b.add(p)
	}
	ends := [2]*piece.Part{}
	for k, z := range []trace.Num{o.z1.Sub(t), o.z0} {
		p := &piece.Part{ID: fmt.Sprintf("%s box, %s", s.name, []string{"front", "rear"}[k]), Role: piece.DrawerEnd, Stock: role.Stock,
			Thick: t, Length: o.x1.Sub(o.x0).Sub(inset.Scale(2)), Width: o.y1.Sub(o.y0), Grain: piece.AlongLength,
			Pose: facing3, Path: w.Path, Loose: true, NameA: "front face", NameB: "rear face"}
		p.Name = p.ID
		p.Origin = [3]trace.Num{o.x0.Add(inset), o.y0, z}
		p.BlankLength, p.BlankWidth = p.Length, p.Width
		ends[k] = b.add(p)
	}
	if w.Joint == "finger" {
		tf := b.thick(b.role("drawer floors", "back"))
		b.fingerJoints(w, sides, ends, b.fingersOf(o.y1.Sub(o.y0), t, b.floorUp().Add(tf)))
	} else {
		b.drawerJoints(w, s, sides, ends, half)
	}
	b.drawerFloor(w, s, o, sides, ends, t, half)
	b.drawerRun(w, s, sides, ends[0])
}

// drawerJoints rabbets the sides' ends for the box's front and rear.
func (b *builder) drawerJoints(w *design.Drawer, s *space, sides, ends [2]*piece.Part, half trace.Num) {
	for k, side := range sides {
		face, enter := piece.FaceA, r3.Vec{X: -1} // the left side's inner face looks right
		if k == 1 {
			face, enter = piece.FaceB, r3.Vec{X: 1}
		}
		for e, end := range ends {
			x0 := trace.Num{}
			if e == 1 {
				x0 = side.Length.Sub(end.Thick)
			}
			cut(side, piece.Cut{Kind: piece.Rabbet, Face: face, X0: x0, X1: x0.Add(end.Thick), Y1: side.Width, Depth: half, For: end.ID})
			b.join(piece.Joint{Kind: "rabbet", A: side.ID, B: end.ID, Enter: enter, Also: []r3.Vec{{Z: []float64{-1, 1}[e]}},
				Depth: half, Glued: true, Area: end.Thick.Add(half).Mul(end.Width), Path: w.Path})
		}
	}
}

// drawerFloor lets a thin panel into grooves in all four.
func (b *builder) drawerFloor(w *design.Drawer, s *space, o box, sides, ends [2]*piece.Part, t, half trace.Num) {
	role := b.role("drawer floors", "back")
	up := b.floorUp()
	play := b.constant("rule.drawer floor play", 0.5, "a drawer's floor is cut 0.5 mm smaller than its grooves on each side: common practice, no source")
	tf := b.thick(role)
	in := t.Sub(half).Add(play) // from the box's outside to the floor's edge
	p := &piece.Part{ID: s.name + " box, floor", Name: s.name + " box, floor", Role: piece.DrawerFloor, Stock: role.Stock, Thick: tf,
		Length: o.x1.Sub(o.x0).Sub(in.Scale(2)), Width: o.z1.Sub(o.z0).Sub(in.Scale(2)), Grain: piece.AlongLength, Pose: horizontal3,
		Path: w.Path, Loose: true, NameA: "upper face", NameB: "underside"}
	p.Origin = [3]trace.Num{o.x0.Add(in), o.y0.Add(up), o.z1.Sub(in)}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	b.add(p)
	clear := b.d.Shop.Habits.FitClearance["sliding"]
	groove := func(part *piece.Part, face piece.Face, x0, x1 trace.Num, enter r3.Vec) {
		cut(part, piece.Cut{Kind: piece.Groove, Face: face, X0: x0, X1: x1, Y0: up, Y1: up.Add(tf).Add(clear), Depth: half, For: p.ID})
		b.join(piece.Joint{Kind: "groove", A: part.ID, B: p.ID, Enter: enter, Depth: half, Fit: "sliding", Clearance: clear, Path: w.Path})
	}
	var stop, clearOf trace.Num // of the grooves, in the sides and in the ends
	if w.Joint == "finger" {    // they would show in the fingers
		stop, clearOf = t.Sub(half), t
	}
	groove(sides[0], piece.FaceA, stop, sides[0].Length.Sub(stop), r3.Vec{X: -1})
	groove(sides[1], piece.FaceB, stop, sides[1].Length.Sub(stop), r3.Vec{X: 1})
	groove(ends[0], piece.FaceB, clearOf, ends[0].Length.Sub(clearOf), r3.Vec{Z: 1})
	groove(ends[1], piece.FaceA, clearOf, ends[1].Length.Sub(clearOf), r3.Vec{Z: -1})
}

// floorUp is how far a drawer's floor lies over the lower edge of its box.
func (b *builder) floorUp() trace.Num {
	return b.constant("rule.drawer floor up", 10, "a drawer's floor lies 10 mm over the lower edge of its sides: common practice, no source")
}

// drawerRun books the slides and the front that hides them.
func (b *builder) drawerRun(w *design.Drawer, s *space, sides [2]*piece.Part, end *piece.Part) {
	for k, side := range sides {
		u := b.uprights[s.bay+k]
		b.join(piece.Joint{Kind: "slides", A: u.part.ID, B: side.ID, Enter: r3.Vec{Z: -1}, Path: w.Path})
	}
	b.out.Fittings = append(b.out.Fittings, piece.Fitting{What: w.Slide.Name, Kind: "slide", Count: 1, On: sides[0].ID, InHand: w.Slide.InHand,
		Price: w.Slide.Price, Path: w.Path})
	if s.covered == nil {
		return
	}
	if front := b.out.Part(s.covered.Name); front != nil {
		b.join(piece.Joint{Kind: "screwed", A: end.ID, B: front.ID, Enter: r3.Vec{Z: -1}, Path: w.Path})
	}
}
