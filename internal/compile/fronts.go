package compile

import (
	"fmt"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// opening is the hole in the body that a front closes.
type opening struct {
	x0, x1, y0, y1 trace.Num
	left, right    *upright
	spaces         []*space
}

// fronts hangs the doors and sets the drawers' fronts.
func (b *builder) fronts() {
	for i := range b.d.Fronts {
		f := &b.d.Fronts[i]
		if f.As == "lid" {
			continue // lids are made with the body's head
		}
		o, ok := b.opening(f)
		if !ok {
			continue
		}
		switch f.As {
		case "pair":
			b.pair(f, o)
		case "door":
			e := b.field(f, o)
			b.leaf(f, o, f.Name, e.x0, e.x1, hangsRight(f, 0))
		case "drawer":
			b.drawerFront(f, o)
		}
	}
}

// hangsRight reports whether a single leaf hangs on the upright at its right.
func hangsRight(f *design.Front, leaf int) bool {
	return leaf < len(f.HangOn) && f.HangOn[leaf] == "right"
}

// opening finds the room that a front covers: its spaces must make a rectangle.
func (b *builder) opening(f *design.Front) (opening, bool) {
	var o opening
	for _, s := range b.spaces {
		if s.covered != f {
			continue
		}
		if len(o.spaces) == 0 {
			o.x0, o.x1, o.y0, o.y1 = s.x0, s.x1, s.y0, s.y1
			o.left, o.right = b.uprights[s.bay], b.uprights[s.bay+1]
		}
		if s.x0.V < o.x0.V {
			o.x0, o.left = s.x0, b.uprights[s.bay]
		}
		if s.x1.V > o.x1.V {
			o.x1, o.right = s.x1, b.uprights[s.bay+1]
		}
		if s.y0.V < o.y0.V {
			o.y0 = s.y0
		}
		if s.y1.V > o.y1.V {
			o.y1 = s.y1
		}
		o.spaces = append(o.spaces, s)
	}
	if len(o.spaces) == 0 {
		return o, false
	}
	for _, s := range b.spaces {
		inside := s.x0.V >= o.x0.V-0.01 && s.x1.V <= o.x1.V+0.01 && s.y0.V >= o.y0.V-0.01 && s.y1.V <= o.y1.V+0.01
		if inside && s.covered != f {
			b.errorAt(f.Path, "front-not-whole", fmt.Sprintf("the front %q does not cover one whole rectangle", f.Name),
				fmt.Sprintf("The space %q lies between those that it covers.", s.name))
			return o, false
		}
	}
	return o, true
}

// pair hangs two leaves that meet in the middle.
func (b *builder) pair(f *design.Front, o opening) {
	e := b.field(f, o)
	w := e.x1.Sub(e.x0).Sub(f.Gap).Scale(0.5)
	b.leaf(f, o, f.Name+", left", e.x0, e.x0.Add(w), false)
	x1 := e.x0.Add(w).Add(f.Gap)
	b.leaf(f, o, f.Name+", right", x1, x1.Add(w), true)
}

// leaf makes one door between x0 and x1 and hangs it.
func (b *builder) leaf(f *design.Front, o opening, name string, x0, x1 trace.Num, onRight bool) {
	e := b.field(f, o)
	role := b.pick(f.Role, "doors", "panels")
	p := &piece.Part{ID: name, Name: doorName(name), Role: piece.Door, Stock: role.Stock, Thick: b.thick(role),
		Length: e.y1.Sub(e.y0), Width: x1.Sub(x0), Grain: piece.AlongLength, Pose: standing3,
		NameA: "outer face", NameB: "inner face", Show: piece.FaceA, Path: f.Path, Loose: true, Late: f.Late}
	p.Origin = [3]trace.Num{x1, e.y0, b.doorBack(f)}
	over := b.d.Shop.Habits.Oversize.Scale(2)
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width.Add(over)
	if !b.shapeLeaf(f, o, p, x0, x1) {
		return
	}
	b.add(p)
	b.hang(f, o, p, onRight)
	b.pull(f, p, onRight)
}

// doorName says 'door' where the front's own name does not.
func doorName(name string) string {
	if strings.Contains(name, "door") {
		return name
	}
	return "door " + name
}

// shapeLeaf rounds the leaf's corners where it lies in a bent corner of the body.
func (b *builder) shapeLeaf(f *design.Front, o opening, p *piece.Part, x0, x1 trace.Num) bool {
	e := b.field(f, o)
	in := b.inner[0].Add(f.Gap)
	if f.Overlays() && o.left.side {
		in = e.x0
	} else if f.Overlays() {
		in = b.width.Sub(e.x1)
	}
	all := b.rounds(in)
	var r [4]float64
	atLeft, atRight := o.left.side && x0.V < e.x0.V+0.01, o.right.side && x1.V > e.x1.V-0.01
	low, high := o.y0.V < b.floorY().V+0.01, o.y1.V > b.ceilY().V-0.01
	for c, at := range []bool{atLeft && low, atLeft && high, atRight && high, atRight && low} {
		if !at || all[c] == 0 {
			continue
		}
		if !f.Follow {
			b.errorAt(f.Path, "front-must-follow", fmt.Sprintf("%q runs into the bend at the %s", f.Name, design.CornerNames[c]),
				"Write 'follow: shell', and its corner is rounded to the bend's inside less the gap.")
			return false
		}
		r[c] = all[c]
	}
	if r == [4]float64{} {
		return true
	}
	// The leaf's frame has x up and y to the left: the front view turned a
	// quarter to the left. Corners in its own order are those of the view one on.
	p.Outline = corners4{0, 0, p.Length.V, p.Width.V, [4]float64{r[3], r[0], r[1], r[2]}}.outline()
	return true
}

// hang drills the cups in the door and the plates' holes in the upright.
func (b *builder) hang(f *design.Front, o opening, p *piece.Part, onRight bool) {
	h := f.Hinge
	if h == nil {
		b.errorAt(f.Path, "no-hinge", fmt.Sprintf("the door %q has no hinge", f.Name), "Name a hinge of the shop file.")
		return
	}
	on := o.left.rightward
	enter := r3.Vec{X: -1}
	if onRight {
		on, enter = o.right.leftward, r3.Vec{X: 1}
	}
	lap := o.x0.Sub(p.Origin[0].Sub(p.Width)) // how far the door laps over what it hangs on
	if onRight {
		lap = p.Origin[0].Sub(o.x1)
	}
	y := b.cupEdge(f, lap).Add(h.CupDia.Scale(0.5)) // from the hanging edge
	if !onRight {
		y = p.Width.Sub(y) // the frame's y runs from the right edge to the left
	}
	z := b.doorBack(f).Sub(h.PlateLine)
	if f.Overlays() {
		z = b.front.Sub(h.PlateLine)
	}
	pilot := b.constant("rule.plate hole", 5, "a hinge plate's fixing hole is 5 mm: common practice, no source")
	deep := b.constant("rule.plate hole depth", 12, "a hinge plate's fixing hole is 12 mm deep: common practice, no source")
	for _, at := range b.hingePlaces(f, p) {
		cut(p, piece.Cut{Kind: piece.Hole, Face: piece.FaceB, X0: at, Y0: y, Diameter: h.CupDia, Depth: h.CupDepth, Count: 1, For: "hinge cup"})
		at0 := p.Origin[1].Add(at).Sub(h.PlatePitch.Scale(0.5))
		on.hole(at0, z, pilot, deep, h.PlatePitch, 2, plateFor+p.ID)
	}
	b.join(piece.Joint{Kind: "hinges", A: on.part.ID, B: p.ID, Enter: enter, Also: []r3.Vec{{Z: -1}}, Path: f.Path})
	b.out.Fittings = append(b.out.Fittings, piece.Fitting{What: h.Name, Kind: "hinge", Count: len(b.hingePlaces(f, p)), On: p.ID,
		InHand: h.InHand, Price: h.Price, Path: f.Path})
}

// hingePlaces returns the heights of the hinges over the door's foot: as they
// are written (negative ones from the head), or one near each end.
func (b *builder) hingePlaces(f *design.Front, p *piece.Part) []trace.Num {
	at := f.HingeAt
	if len(at) == 0 {
		e := b.d.Shop.Habits.HingeFromEnd
		at = []trace.Num{e, e.Neg()}
	}
	out := make([]trace.Num, len(at))
	for i, a := range at {
		out[i] = a
		if a.V < 0 {
			out[i] = p.Length.Add(a)
		}
		if out[i].V <= 0 || out[i].V >= p.Length.V {
			b.errorAt(f.Path, "hinge-off-door", "a hinge lies off the door", fmt.Sprintf("The door is %.1f mm high.", p.Length.V))
		}
	}
	return out
}

// pull bores the finger hole: half way up, near the edge away from the hinges.
func (b *builder) pull(f *design.Front, p *piece.Part, onRight bool) {
	if f.PullDia.V <= 0 {
		return
	}
	from := b.constant("rule.pull from edge", 45, "a finger hole is centred 45 mm from the closing edge: common practice, no source")
	y := from // from the right edge, where a left-hung leaf closes
	if onRight {
		y = p.Width.Sub(from)
	}
	x := p.Length.Scale(0.5)
	if f.As == "drawer" {
		x, y = p.Length.Scale(0.5), p.Width.Scale(0.5)
	}
	cut(p, piece.Cut{Kind: piece.Hole, Face: piece.FaceA, X0: x, Y0: y, Diameter: f.PullDia, Depth: p.Thick, Through: true, Count: 1, For: "finger hole"})
}
