package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// lids lays the lids on the rim of a body that is open at the top, each over
// the bays that it covers, and hangs them on the rail at its back.
func (b *builder) lids() {
	for i := range b.d.Fronts {
		if f := &b.d.Fronts[i]; f.As == "lid" {
			b.lid(f)
		}
	}
}

func (b *builder) lid(f *design.Front) {
	l, r := b.underLid(f)
	if l == nil {
		return
	}
	if !b.absent(top) {
		b.errorAt(f.Path, "no-opening", "the body has a top under the lid", "Write 'open: [top]' in the body.")
		return
	}
	over, half := f.Lid.Overhang, f.Gap.Scale(0.5)
	x0, x1 := over.Neg(), b.width.Add(over)
	if !l.side { // two lids meet over the middle of a divider
		x0 = l.x0.Add(l.x1).Scale(0.5).Add(half)
	}
	if !r.side {
		x1 = r.x0.Add(r.x1).Scale(0.5).Sub(half)
	}
	role := b.pick(f.Role, "lids", "panels")
	z := b.front.Add(over)
	p := &piece.Part{ID: f.Name, Name: f.Name, Role: piece.Lid, Stock: role.Stock, Thick: b.thick(role), Length: x1.Sub(x0),
		Width: z, Grain: piece.AlongLength, Pose: horizontal3, NameA: "upper face", NameB: "underside", Show: piece.FaceA,
		Path: f.Path, Loose: true, Late: f.Late}
	p.Origin = [3]trace.Num{x0, b.foot.Add(b.height), z}
	over2 := b.d.Shop.Habits.Oversize.Scale(2)
	p.BlankLength, p.BlankWidth = p.Length.Add(over2), p.Width.Add(over2)
	b.add(p)
	b.lidPull(f, p)
	b.hangLid(f, p)
	b.vents(f, p)
}

// underLid finds the uprights between which a lid lies.
func (b *builder) underLid(f *design.Front) (l, r *upright) {
	for _, name := range f.Covers {
		found := false
		for _, s := range b.spaces {
			if s.name != name && b.d.Bays[s.bay].Name != name {
				continue
			}
			found = true
			if u := b.uprights[s.bay]; l == nil || u.x0.V < l.x0.V {
				l = u
			}
			if u := b.uprights[s.bay+1]; r == nil || u.x0.V > r.x0.V {
				r = u
			}
		}
		if !found {
			b.noSpace(f.Path, name)
			return nil, nil
		}
	}
	return l, r
}

// hangLid screws the hinges to the rail at the top back.
func (b *builder) hangLid(f *design.Front, p *piece.Part) {
	h := f.Lid.Hinge
	if h == nil {
		b.errorAt(f.Path, "no-hinge", fmt.Sprintf("the lid %q has no hinge", f.Name), "Name one of kind 'lid hinge' of the shop's hardware.")
		return
	}
	rail := b.out.Part("rail")
	if rail == nil {
		b.errorAt(f.Path, "no-rail", "the lid's hinges have nothing to be screwed to", "Write a rail at the top back: its upper edge lies on the rim.")
		return
	}
	at := f.HingeAt
	if len(at) == 0 {
		e := b.d.Shop.Habits.HingeFromEnd
		at = []trace.Num{e, e.Neg()}
	}
	var places [][3]trace.Num
	for _, a := range at {
		x := p.Origin[0].Add(a)
		if a.V < 0 {
			x = p.Origin[0].Add(p.Length).Add(a)
		}
		if x.V <= p.Origin[0].V || x.V >= p.Origin[0].V+p.Length.V {
			b.errorAt(f.Path, "hinge-off-door", "a hinge lies off the lid", fmt.Sprintf("The lid is %.1f mm long.", p.Length.V))
		}
		places = append(places, [3]trace.Num{x, p.Origin[1], {}})
	}
	b.join(piece.Joint{Kind: "hinges", A: rail.ID, B: p.ID, Enter: r3.Vec{Y: -1}, Path: f.Path})
	b.fitting(h, len(places), p.ID, f.Path, places)
	if s := f.Lid.Stay; s != nil {
		wide := b.constant("rule.one stay", 700, "a lid up to 700 mm long has one stay, a longer one two: common practice, no source")
		n := 1
		if p.Length.V > wide.V {
			n = 2
		}
		b.fitting(s, n, p.ID, f.Path, nil)
	}
}

// fitting books a thing of the shop's hardware.
func (b *builder) fitting(h *design.Hardware, n int, on, path string, at [][3]trace.Num) {
	b.out.Fittings = append(b.out.Fittings, piece.Fitting{What: h.Name, Kind: h.Kind, Count: n, On: on, At: at, Height: h.Height, Width: h.Width,
		InHand: h.InHand, Price: h.Price, Path: path})
}

// lidPull bores a finger hole in the middle of the lid, near its front edge.
func (b *builder) lidPull(f *design.Front, p *piece.Part) {
	if f.PullDia.V <= 0 {
		return
	}
	from := b.constant("rule.pull from edge", 45, "a finger hole is centred 45 mm from the closing edge: common practice, no source")
	cut(p, piece.Cut{Kind: piece.Hole, Face: piece.FaceA, X0: p.Length.Scale(0.5), Y0: from.Add(f.Lid.Overhang), Diameter: f.PullDia,
		Depth: p.Thick, Through: true, For: "finger hole"})
}

// vents bores the openings for air, evenly spread along the front panel or
// along the inside of both sides.
func (b *builder) vents(f *design.Front, lid *piece.Part) {
	v := f.Lid.Vents
	if v == nil {
		return
	}
	y := lid.Origin[1].Sub(v.Below)
	spread := func(n int, from, to trace.Num, put func(at trace.Num)) {
		step := to.Sub(from).Scale(1 / float64(n))
		if step.V < v.Diameter.V+10 {
			b.errorAt(v.Path, "no-room", "the vents have no room beside each other", fmt.Sprintf("There are %.1f mm for each.", step.V))
			return
		}
		for k := range n {
			put(from.Add(step.Scale(float64(k) + 0.5)))
		}
	}
	bore := func(p *piece.Part, face piece.Face, x, y trace.Num) {
		cut(p, piece.Cut{Kind: piece.Hole, Face: face, X0: x, Y0: y, Diameter: v.Diameter, Depth: p.Thick, Through: true, For: "vent"})
	}
	if y.V-v.Diameter.V/2 < b.floorY().V {
		b.errorAt(v.Path, "no-room", "the vents lie in the bottom", "Put them nearer to the rim.")
		return
	}
	if v.In == "front" {
		p := b.out.Part("front panel")
		if p == nil {
			b.errorAt(v.Path, "no-opening", "the body has no panel at its front", "Write 'in: sides'.")
			return
		}
		spread(v.Count, b.inner[left], b.width.Sub(b.inner[right]), func(x trace.Num) { bore(p, piece.FaceA, x.Sub(p.Origin[0]), y.Sub(p.Origin[1])) })
		return
	}
	for _, i := range []int{left, right} {
		s := b.surface(i)
		spread(max(1, v.Count/2), b.backThick, b.face(), func(z trace.Num) { bore(s.part, s.face, s.along(y), s.y(z)) })
	}
}

// outside sums up what stands out over the body: fronts before it, lids over it.
func (b *builder) outside() {
	for _, p := range b.out.Parts {
		switch p.Role {
		case piece.Door, piece.DrawerFront:
			if z := p.Origin[2].Add(p.Thick); z.V > b.out.Depth.V {
				b.out.Depth = z
			}
		case piece.Lid:
			if p.Width.V > b.out.Depth.V {
				b.out.Depth = p.Width
			}
			if y := p.Origin[1].Add(p.Thick); y.V > b.out.Height.V {
				b.out.Height = y
			}
			if p.Origin[0].V < 0 && p.Length.V > b.out.Width.V {
				b.out.Width = p.Length
			}
		}
	}
}
