package compile

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// turned are the ways in which a free part lies, by their words.
var turned = map[string]r3.Pose{
	"facing":  facing3,
	"upright": {X: r3.Vec{Z: -1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{X: 1}},
	"level":   horizontal3,
}

// freeParts places the parts that the piece file places by themselves, and
// joins each to what it touches.
func (b *builder) freeParts() {
	var placed []*piece.Part
	for i := range b.d.Free {
		if p := b.freePart(&b.d.Free[i]); p != nil {
			placed = append(placed, p)
			b.carries(p)
		}
	}
	placed = append(placed, b.freeStrips()...)
	if b.d.Body.Kind == design.Loose {
		for _, p := range placed {
			b.keepsIn(p)
		}
	}
	if len(placed) > 0 && !b.diags.HasErrors() {
		b.touching(placed)
	}
}

// keepsIn says where a part reaches out of the piece's outside, which the body
// of a piece of free parts states.
func (b *builder) keepsIn(p *piece.Part) {
	body, err := piece.Solid(p, 0)
	if err != nil {
		return
	}
	const play = 0.5
	box, high := body.Box(), b.foot.V+b.height.V
	if lo, hi := box.Min, box.Max; lo.X < -play || lo.Y < -play || lo.Z < -play || hi.X > b.width.V+play || hi.Y > high+play || hi.Z > b.front.V+play {
		b.errorAt(p.Path, "sticks-out", fmt.Sprintf("%s reaches out of the piece", p.ID),
			fmt.Sprintf("It lies from %.1f, %.1f, %.1f to %.1f, %.1f, %.1f; the body says %.1f × %.1f × %.1f mm.",
				lo.X, lo.Y, lo.Z, hi.X, hi.Y, hi.Z, b.width.V, high, b.front.V))
	}
}

func (b *builder) freePart(f *design.FreePart) *piece.Part {
	s, ok := b.shapeOf(f.Shape)
	if !ok {
		return nil
	}
	role := b.pick(f.Role, "panels")
	if role.Stock == nil {
		b.errorAt(f.Path, "no-stock", fmt.Sprintf("no stock for %q", f.Name), "Name one under 'stock', or give the role 'panels' one.")
		return nil
	}
	p := &piece.Part{ID: f.Name, Name: f.Name, Role: piece.Free, Stock: role.Stock, Thick: b.thick(role), Length: s.width(), Width: s.height(),
		Grain: piece.AlongLength, Path: f.Path, Show: piece.FaceA, Loose: f.Fix == "loose", Outline: s.atOrigin()}
	if f.Grain == "across" {
		p.Grain = piece.AlongWidth
	}
	flat := turned[f.Turn]
	sin, cos := math.Sincos(f.Angle.V)
	p.Pose = r3.Pose{X: flat.X.Mul(cos).Add(flat.Y.Mul(sin)), Y: flat.Y.Mul(cos).Sub(flat.X.Mul(sin)), Z: flat.Z}
	p.Origin = b.cornerOf(f, s, p, flat)
	p.NameA, p.NameB = faceNames(p.Pose)
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	return b.add(p)
}

// cornerOf finds the part's origin from the corner of its box at the left,
// bottom and back.
func (b *builder) cornerOf(f *design.FreePart, s shape, p *piece.Part, flat r3.Pose) [3]trace.Num {
	box := p.Outline.Turned(r2.Vec{}, f.Angle.V).Box()
	low := func(x, y float64) float64 { // the least of x·u + y·v in the box
		return math.Min(x*box.Min.X, x*box.Max.X) + math.Min(y*box.Min.Y, y*box.Max.Y)
	}
	size := [3]float64{low(flat.X.X, flat.Y.X), low(flat.X.Y, flat.Y.Y), low(flat.X.Z, flat.Y.Z)}
	out := f.Place
	for k, v := range size {
		switch {
		case v == 0:
		case f.Angle.V == 0 && math.Abs(v+s.width().V) < 1e-9 && flat.X.Z < 0:
			out[k] = out[k].Add(s.width())
		case f.Angle.V == 0 && math.Abs(v+s.height().V) < 1e-9 && flat.Y.Z < 0:
			out[k] = out[k].Add(s.height())
		default:
			out[k] = out[k].Plus(-v)
		}
	}
	return out
}

// carries notes a level part that legs can be fixed to: one that lies on the
// height of the base.
func (b *builder) carries(p *piece.Part) {
	if b.under == nil && p.Pose.Z.Y > 1-1e-9 && math.Abs(p.Origin[1].V-b.foot.V) < 0.05 && b.foot.V > 0 {
		b.under = p
	}
}

// touch is how far apart faces may be and still be said to touch, mm; overlap
// how far two parts may reach into each other: no more than a cut is exact.
const (
	touch   = 0.05
	overlap = 0.05
)

// touching joins free parts to what they touch, and says where they share wood
// with another part.
func (b *builder) touching(placed []*piece.Part) {
	free := map[string]bool{}
	for _, p := range placed {
		free[p.ID] = true
	}
	ready := make([]*solid.Ready, len(b.out.Parts))
	for i, p := range b.out.Parts {
		if body, err := piece.Solid(p, 0); err == nil {
			ready[i] = solid.Prepare(body)
		}
	}
	for k, p := range b.out.Parts {
		for i, a := range b.out.Parts {
			if !free[p.ID] || i == k || free[a.ID] && i > k || ready[i] == nil || ready[k] == nil {
				continue
			}
			b.meets(a, p, ready[i], ready[k])
		}
	}
}

// meets joins free part p to part a where they touch.
func (b *builder) meets(a, p *piece.Part, ra, rp *solid.Ready) {
	if s, err := rp.Overlap(ra); err == nil && s.Reach > overlap {
		b.errorAt(p.Path, "shares-wood", fmt.Sprintf("%s would stand in %s", p.ID, a.ID),
			fmt.Sprintf("They reach %.1f mm into each other at %.0f, %.0f, %.0f.", s.Reach, s.Center.X, s.Center.Y, s.Center.Z))
		return
	}
	patches, err := rp.Contact(ra, touch)
	if err != nil || len(patches) == 0 {
		return
	}
	area, best := 0.0, 0
	for i, q := range patches {
		area += q.Area
		if q.Area > patches[best].Area+1e-6 {
			best = i
		}
	}
	f := b.freeNamed(p.ID)
	if area < leastArea || f == nil {
		return
	}
	enter := patches[best].Normal
	j := piece.Joint{Kind: "butt", A: a.ID, B: p.ID, Enter: enter, Also: beside(enter), Glued: f.Fix == "glued", Path: p.Path}
	switch f.Fix {
	case "screwed":
		j.Kind, j.Also = "screwed", nil
	case "loose":
		j.Kind = "rests"
	default:
		j.Area = trace.Step(area, p.Thick)
	}
	b.join(j)
}

func (b *builder) freeNamed(name string) *design.FreePart {
	for i := range b.d.Free {
		if b.d.Free[i].Name == name {
			return &b.d.Free[i]
		}
	}
	for i := range b.d.Strips {
		if s := &b.d.Strips[i]; s.Name == name {
			return &design.FreePart{Name: s.Name, Fix: s.Fix, Path: s.Path}
		}
	}
	return nil
}

// beside are the directions of the piece's axes square to v: ways in which a
// butt slides home.
func beside(v r3.Vec) []r3.Vec {
	var out []r3.Vec
	for _, d := range []r3.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}} {
		if math.Abs(d.Dot(v)) < 1e-9 {
			out = append(out, d)
		}
	}
	return out
}

// open builds a body that is no carcase.
func (b *builder) open() {
	kind := "a body of free parts"
	if b.d.Body.Kind == design.Frame {
		kind = "a frame"
	}
	b.notWith(kind)
	if b.d.Body.Kind == design.Loose {
		for _, s := range b.d.Shelves {
			b.errorAt(s.Path, "not-yet", "a shelf is not built yet in "+kind, "Place it under 'parts'.")
		}
		if b.d.Back != nil {
			b.errorAt(b.d.Back.Path, "not-yet", "a back is not built yet in "+kind, "Place it under 'parts'.")
		}
	}
	if b.d.Body.Frames != nil && !b.diags.HasErrors() {
		b.frames(b.d.Body.Frames)
	}
	if b.d.Body.Kind == design.Loose && len(b.d.Free)+len(b.d.Strips) == 0 {
		b.errorAt("body", "no-parts", "a body of kind 'none' has free parts only, and there are none", "Place some under 'parts'.")
	}
}
