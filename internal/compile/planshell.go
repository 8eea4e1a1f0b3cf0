package compile

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// round is a shell that bends in plan. Seen from above, its strip starts at the
// right, at the back, runs forward, bends round the front and comes back along
// the left; level plates close it above and below.
type round struct {
	strip       *piece.Part
	top, bottom *piece.Part
	back        *piece.Part
	panel       trace.Num    // thickness of the plates
	high        trace.Num    // of the strip
	head        trace.Num    // y of the strip's upper edge
	rear        trace.Num    // z of the strip's two ends
	radius      [2]trace.Num // outside, left and right
	leftX       trace.Num    // on the flat strip, where the left run begins
}

// plan3 is the frame of a strip's section that is seen from above, with the
// front of the piece at the foot.
var plan3 = r3.Pose{X: r3.Vec{X: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{Y: 1}}

// planShell builds a body that bends in plan.
func (b *builder) planShell() {
	b.notWith("a shell that bends in plan")
	w := b.d.Body.Plan
	o := &round{panel: b.thick(b.role("panels")), high: b.height, rear: b.rear, radius: w.Radius}
	if w.Top == "on" {
		o.high = b.height.Sub(o.panel)
	}
	o.head = b.foot.Add(o.high)
	if o.high.V < 3*o.panel.V || b.front.V-o.rear.V < w.Radius[0].V || b.front.V-o.rear.V < w.Radius[1].V {
		b.errorAt("body.depth", "no-room", "the bends do not fit into the body",
			fmt.Sprintf("Before the back it is %.1f mm deep.", b.front.V-o.rear.V))
	}
	if b.diags.HasErrors() {
		return
	}
	b.roundStrip(o)
	b.plates(o)
	b.window(o)
	b.roundBack(o)
	b.roundSpace(o)
	for i := range b.d.Shelves {
		b.roundShelf(o, &b.d.Shelves[i])
	}
	b.under = o.bottom
}

// notWith says what a kind of body cannot have yet.
func (b *builder) notWith(kind string) {
	not := func(path, what string) {
		b.errorAt(path, "not-yet", fmt.Sprintf("%s is not built yet in %s", what, kind), "Leave it away.")
	}
	for i, y := range b.d.Bays {
		if i > 0 || len(y.Levels) > 0 {
			not(y.Path, "more than one bay or level")
			break
		}
	}
	for _, f := range b.d.Fronts {
		not(f.Path, "a front")
	}
	for _, r := range b.d.Rails {
		not(r.Path, "a rail")
	}
	for _, r := range b.d.Drawers {
		not(r.Path, "a drawer")
	}
	switch b.d.Base.Kind {
	case "none", "legs", "":
	default:
		not(b.d.Base.Path, "a base of this kind")
	}
}

// roundStrip makes the strip.
func (b *builder) roundStrip(o *round) {
	role := b.role("shell")
	over := b.d.Shop.Habits.Oversize
	p := &piece.Part{ID: "shell", Role: piece.Strip, Stock: role.Stock, Thick: b.thick(role), Name: "shell round the front",
		Width: o.high, Grain: b.stripGrain(), NameA: "show face, outside", NameB: b.insideFace(), Show: piece.FaceA, Path: "body"}
	rl, rr := o.radius[0], o.radius[1]
	w := stripWalk{p: p, at: r2.Vec{X: b.width.V, Y: -o.rear.V}, dir: r2.Vec{Y: -1}}
	w.straight(b.front.Sub(o.rear).Sub(rr))
	flat := b.width.Sub(rl).Sub(rr)
	if flat.V < 1e-6 && math.Abs(rl.V-rr.V) < 1e-6 {
		w.bend(b.bendAs("front", rr, 2*quarter, b.d.Body.Plan.Paths[1], o.high, w.x))
	} else {
		w.bend(b.bendAs(design.FrontRight, rr, quarter, b.d.Body.Plan.Paths[1], o.high, w.x))
		w.straight(flat)
		w.bend(b.bendAs(design.FrontLeft, rl, quarter, b.d.Body.Plan.Paths[0], o.high, w.x))
	}
	o.leftX = w.x
	w.straight(b.front.Sub(o.rear).Sub(rl))
	p.Length = w.x
	p.BlankLength, p.BlankWidth = p.Length.Add(over.Scale(2)), p.Width
	p.Origin = [3]trace.Num{{}, o.head, {}}
	p.Outline = planar.Rect(0, 0, p.Length.V, p.Width.V)
	o.strip = b.add(p)
	p.Pose = plan3
}

// stripWalk lays the stretches of a strip one after the other.
type stripWalk struct {
	p       *piece.Part
	x       trace.Num
	at, dir r2.Vec
}

func (w *stripWalk) straight(flat trace.Num) {
	if flat.V < 1e-6 {
		w.x = w.x.Add(flat)
		return
	}
	end := w.x.Add(flat)
	w.p.Run = append(w.p.Run, piece.Stretch{X0: w.x.V, X1: end.V, From: w.at, Dir: w.dir})
	w.at, w.x = w.at.Add(w.dir.Mul(flat.V)), end
}

func (w *stripWalk) bend(b piece.Bend) {
	w.p.Bends = append(w.p.Bends, b)
	end := w.x.Add(b.Length)
	radius, angle := b.Radius.V, b.Angle.V
	if b.Left { // face A is the inside
		radius, angle = w.p.Thick.V-radius, -angle
	}
	w.p.Run = append(w.p.Run, piece.Stretch{X0: w.x.V, X1: end.V, From: w.at, Dir: w.dir, Radius: radius, Angle: angle})
	out := w.dir.Left().Mul(radius)
	w.at, w.dir = w.at.Sub(out).Add(out.Turn(-angle)), w.dir.Turn(-angle)
	w.x = end
}

// sides are the inner faces of the strip's two straight runs.
func (o *round) sides(b *builder) (l, r surface) {
	down := func(y trace.Num) trace.Num { return o.head.Sub(y) }
	tangent := b.front.Sub(o.radius[0])
	r = surface{part: o.strip, face: piece.FaceB, along: down, across: func(z trace.Num) trace.Num { return z.Sub(o.rear) }}
	l = surface{part: o.strip, face: piece.FaceB, along: down, across: func(z trace.Num) trace.Num { return o.leftX.Add(tangent).Sub(z) }}
	return l, r
}

// plates makes the bottom in the strip, and the top on it or in it.
func (b *builder) plates(o *round) {
	t := b.inner[0]
	o.bottom = b.plate(o, "bottom", piece.Bottom, t, b.foot, b.backThick)
	o.bottom.NameA, o.bottom.NameB = "upper face, inside", "underside"
	b.inRound(o, o.bottom, "bottom")
	if b.d.Body.Plan.Top == "on" {
		rear := trace.Num{}
		if b.rear.V > 0 {
			rear = b.backThick
		}
		o.top = b.plate(o, "top", piece.Top, trace.Num{}, o.head, rear)
		b.join(piece.Joint{Kind: "butt", A: o.strip.ID, B: o.top.ID, Enter: r3.Vec{Y: -1}, Glued: true, Area: t.Mul(o.strip.Length), Path: "body"})
	} else {
		o.top = b.plate(o, "top", piece.Top, t, o.head.Sub(o.panel), b.backThick)
		b.inRound(o, o.top, "top")
	}
	o.top.NameA, o.top.NameB = "upper face", "underside, inside"
}

// plate makes a level plate that lies inset from the body's outside by in, its
// underside at y, from z = rear on.
func (b *builder) plate(o *round, id string, role piece.Role, in, y, rear trace.Num) *piece.Part {
	of := b.role("panels")
	p := &piece.Part{ID: id, Name: id, Role: role, Stock: of.Stock, Thick: o.panel, Length: b.width.Sub(in.Scale(2)),
		Width: b.front.Sub(in).Sub(rear), Grain: piece.AlongLength, Pose: horizontal3, Show: piece.FaceA, Path: "body",
		NameA: "upper face", NameB: "underside"}
	p.Origin = [3]trace.Num{in, y, b.front.Sub(in)}
	over := b.d.Shop.Habits.Oversize.Scale(2)
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width.Add(over)
	p.Outline = b.roundFront(p, 0, o.radius[0].V-in.V, o.radius[1].V-in.V, notchEnds{})
	return b.add(p)
}

// notchEnds narrow a plate before its bends: at both ends by By, from the front
// to Y.
type notchEnds struct{ by, y float64 }

// roundFront is a plate's outline: its front corners rounded, the rear square.
func (b *builder) roundFront(p *piece.Part, front, rl, rr float64, n notchEnds) planar.Region {
	l, w := p.Length.V, p.Width.V
	at := func(x, y, r float64) planar.Corner { return planar.Corner{P: r2.Vec{X: x, Y: y}, Round: max(0, r)} }
	cs := []planar.Corner{at(n.by, front, rl), at(l-n.by, front, rr)}
	if n.by > 0 {
		cs = append(cs, at(l-n.by, n.y, 0), at(l, n.y, 0))
	}
	cs = append(cs, at(l, w, 0), at(0, w, 0))
	if n.by > 0 {
		cs = append(cs, at(0, n.y, 0), at(n.by, n.y, 0))
	}
	loop, err := planar.Rounded(cs...)
	if err != nil {
		b.errorAt(p.Path, "no-room", fmt.Sprintf("%s has no shape", p.ID), fmt.Sprintf("%v.", err))
		return planar.Rect(0, 0, l, w)
	}
	return planar.Of(loop)
}

// inRound books that a plate is glued into the strip all along its edge.
func (b *builder) inRound(o *round, p *piece.Part, what string) {
	inside := o.strip.Length.Sub(b.inner[0].Scale(math.Pi)) // a bend's inside is shorter by t times its angle
	b.join(piece.Joint{Kind: "butt", A: o.strip.ID, B: p.ID, Enter: r3.Vec{X: 1}, Also: []r3.Vec{{X: -1}, {Z: 1}, {Y: 1}, {Y: -1}},
		Glued: true, Area: inside.Mul(p.Thick), Path: "body"})
}

// window cuts the opening in the strip's front.
func (b *builder) window(o *round) {
	w := b.d.Body.Plan.Window
	if w == nil {
		return
	}
	p := o.strip
	x0, x1, y0, y1 := w.Sides, p.Length.Sub(w.Sides), w.Above, p.Width.Sub(w.Below)
	if x1.V-x0.V < 40 || y1.V-y0.V < 40 || w.Below.V < o.panel.V {
		b.errorAt(w.Path, "no-room", "the window does not fit into the strip",
			fmt.Sprintf("It would be %.0f × %.0f mm, and the bottom stands %.1f mm high in the strip.", x1.V-x0.V, y1.V-y0.V, o.panel.V))
		return
	}
	r := math.Min(w.Round.V, math.Min(x1.V-x0.V, y1.V-y0.V)/2)
	at := func(x, y trace.Num) planar.Corner { return planar.Corner{P: r2.Vec{X: x.V, Y: y.V}, Round: r} }
	c := piece.Cut{Kind: piece.Window, Face: piece.FaceA, X0: x0, X1: x1, Y0: y0, Y1: y1, Depth: p.Thick, Through: true, For: "window"}
	if loop, err := planar.Rounded(at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)); err == nil {
		c.Region = planar.Of(loop)
	}
	cut(p, c)
}

// roundBack closes the body behind: on the rear edges, or between the strip's
// ends in a rabbet.
func (b *builder) roundBack(o *round) {
	w := b.d.Back
	if w == nil {
		return
	}
	in, high, kind := trace.Num{}, b.height, "on"
	if w.Set == "rabbet" {
		play := b.constant("rule.back play", 0.5, "a back is cut 0.5 mm smaller than its rabbet on each side: common practice, no source")
		in, high, kind = b.inner[0].Sub(w.Depth).Add(play), o.high, "rabbet"
		if w.Depth.V >= b.inner[0].V {
			b.errorAt(w.Path, "rabbet-deep", "the back's rabbet is as deep as the shell is thick", fmt.Sprintf("It takes %.1f mm of %.1f mm.", w.Depth.V, b.inner[0].V))
			return
		}
		l, r := o.sides(b)
		for _, s := range []surface{l, r} {
			s.pocket(piece.Rabbet, b.foot, o.head, trace.Num{}, b.backThick, w.Depth, "back")
		}
	}
	role := b.pick(w.Role, "back")
	p := &piece.Part{ID: "back", Name: "back", Role: piece.BackPanel, Stock: role.Stock, Thick: b.backThick, Length: b.width.Sub(in.Scale(2)), Width: high,
		Grain: piece.AlongLength, Pose: facing3, NameA: "front face, inside", NameB: "rear face, to the wall", Show: piece.FaceA, Path: w.Path}
	p.Origin = [3]trace.Num{in, b.foot, {}}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	o.back = b.add(p)
	j := piece.Joint{Kind: kind, A: o.strip.ID, B: p.ID, Enter: r3.Vec{Z: 1}, Glued: true, Area: b.inner[0].Mul(high).Scale(2), Path: w.Path}
	if kind == "rabbet" {
		j.Depth, j.Area = w.Depth, w.Depth.Mul(high).Scale(2)
	}
	b.join(j)
	b.behind2(o, o.bottom)
	if w.Set == "on" || b.d.Body.Plan.Top == "in" {
		b.behind2(o, o.top)
	} else {
		b.join(piece.Joint{Kind: "butt", A: p.ID, B: o.top.ID, Enter: r3.Vec{Y: -1}, Glued: true, Area: p.Thick.Mul(p.Length), Path: w.Path})
	}
}

// behind2 books that the back lies against a plate's rear edge.
func (b *builder) behind2(o *round, p *piece.Part) {
	if o.back != nil {
		b.join(piece.Joint{Kind: "on", A: p.ID, B: o.back.ID, Enter: r3.Vec{Z: 1}, Glued: true, Area: p.Thick.Mul(p.Length), Path: b.d.Back.Path})
	}
}

// roundSpace is the room in the shell. What is put into it is reckoned with the
// part of its depth that is straight at both sides: a safe under-estimate.
func (b *builder) roundSpace(o *round) {
	l, r := o.sides(b)
	t := b.inner[0]
	b.uprights = []*upright{{x1: t, part: o.strip, rightward: l, side: true}, {x0: b.width.Sub(t), x1: b.width, part: o.strip, leftward: r, side: true}}
	ceiling := o.head
	if b.d.Body.Plan.Top == "in" {
		ceiling = o.head.Sub(o.panel)
	}
	bay := b.d.Bays[0]
	b.spaces = []*space{{name: bay.Name, x0: t, x1: b.width.Sub(t), y0: b.foot.Add(o.panel), y1: ceiling, level: -1, last: true, path: bay.Path,
		floor: surface{part: o.bottom, face: piece.FaceA}, ceiling: surface{part: o.top, face: piece.FaceB}}}
}

// roundDepth is the depth of the room in a shell that bends in plan, up to
// where its sides begin to bend.
func (b *builder) roundDepth() trace.Num {
	r := trace.Max(b.d.Body.Plan.Radius[0], b.d.Body.Plan.Radius[1])
	return b.front.Sub(r).Sub(b.backThick)
}

// hold is the z up to which the strip's runs can hold a shelf: clear of the
// bends' first kerfs, and behind the window.
func (b *builder) hold(o *round) trace.Num {
	r := trace.Max(o.radius[0], o.radius[1])
	z := b.front.Sub(r)
	for _, k := range o.strip.Bends {
		z = trace.Min(z, b.front.Sub(r).Sub(k.Clear))
	}
	if w := b.d.Body.Plan.Window; w != nil {
		z = trace.Min(z, o.rear.Add(w.Sides).Sub(b.stopShort()))
	}
	return z
}

// roundShelf lays fixed shelves: housed in the two straight runs, round in
// front like the shell.
func (b *builder) roundShelf(o *round, w *design.Shelf) {
	s := b.spaceNamed(w.In)
	switch {
	case s == nil:
		b.noSpace(w.Path, w.In)
		return
	case w.Pins:
		b.errorAt(w.Path, "not-yet", "a shelf on pins is not built yet in a shell that bends in plan", "Write 'fixed at' and a height, or 'evenly'.")
		return
	case w.EdgingRole != nil:
		b.errorAt(w.Path, "not-yet", "an edging round a bend is not built yet", "Leave the edging away.")
		return
	}
	z := b.hold(o)
	if z.V-b.backThick.V < 40 {
		b.errorAt(w.Path, "no-room", "the shell's straight runs are too short to hold a shelf",
			fmt.Sprintf("Clear of the bends and of the window they are %.1f mm long.", z.V-b.backThick.V))
		return
	}
	role := b.pick(w.Role, "shelves", "panels")
	t := b.thick(role)
	gap := s.y1.Sub(s.y0).Sub(t.Scale(float64(w.Count))).Scale(1 / float64(w.Count+1))
	for n := range w.Count {
		y := s.y0.Add(w.FixedAt)
		if w.Count > 1 || w.FixedAt.V == 0 {
			y = s.y0.Add(gap.Add(t).Scale(float64(n)).Add(gap))
		}
		if y.V < s.y0.V || y.V+t.V > s.y1.V {
			b.errorAt(w.Path, "shelf-outside", "the shelf does not lie in "+s.name, fmt.Sprintf("%s is %.1f mm high inside.", s.name, s.y1.V-s.y0.V))
			return
		}
		b.oneRoundShelf(o, w, s, role, shelfID(w, s, n), y, z)
	}
}

func (b *builder) oneRoundShelf(o *round, w *design.Shelf, s *space, role design.Role, id string, y, z trace.Num) {
	d := b.housingDepth(o.strip.Stock, "shelf", "side")
	t, front := b.inner[0], b.front.Sub(b.inner[0]).Sub(w.SetBack)
	p := &piece.Part{ID: id, Name: id, Role: piece.Shelf, Stock: role.Stock, Thick: b.thick(role), Length: s.x1.Sub(s.x0).Add(d.Scale(2)),
		Width: front.Sub(b.backThick), Grain: piece.AlongLength, Pose: horizontal3, Path: w.Path, NameA: "upper face", NameB: "underside", Show: piece.FaceA}
	p.Origin = [3]trace.Num{s.x0.Sub(d), y, front}
	over := b.d.Shop.Habits.Oversize.Scale(2)
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width.Add(over)
	in := t.V + w.SetBack.V
	p.Outline = b.roundFront(p, 0, o.radius[0].V-in, o.radius[1].V-in, notchEnds{by: d.V + w.SetBack.V, y: front.V - z.V})
	b.add(p)
	for _, x0 := range []trace.Num{{}, p.Length.Sub(d).Sub(w.SetBack)} {
		cut(p, piece.Cut{Kind: piece.Notch, Face: piece.FaceA, X0: x0, X1: x0.Add(d).Add(w.SetBack), Y1: front.Sub(z), Depth: p.Thick, Through: true, For: "stopped housing"})
	}
	s.shelves = append(s.shelves, p.ID)
	l, r := b.uprights[0].rightward, b.uprights[1].leftward
	b.housed(l, p, y, y.Add(p.Thick), b.backThick, z, d, r3.Vec{X: -1}, trace.Num{}, "shelf", "side")
	b.housed(r, p, y, y.Add(p.Thick), b.backThick, z, d, r3.Vec{X: 1}, trace.Num{}, "shelf", "side")
	b.behind2(o, p)
}
