package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// coverSpaces notes which front stands before which space.
func (b *builder) coverSpaces() {
	for i := range b.d.Fronts {
		f := &b.d.Fronts[i]
		if f.As == "lid" {
			continue
		}
		for _, name := range f.Covers {
			found := false
			for _, s := range b.spaces {
				if s.name == name || b.d.Bays[s.bay].Name == name {
					found = true
					if s.covered != nil && s.covered != f {
						b.errorAt(f.Path, "covered-twice", fmt.Sprintf("%q already has a front before it", name), "A space can have one front.")
					}
					s.covered = f
				}
			}
			if !found {
				b.noSpace(f.Path, name)
			}
		}
	}
}

// behind returns the z of the front edge of what stands between two spaces:
// flush with the body's front, or behind the front that covers both.
func (b *builder) behind(a, c *space) trace.Num {
	if a.covered == nil || a.covered != c.covered {
		return b.face()
	}
	if a.covered.Overlays() {
		return b.face()
	}
	return b.doorBack(a.covered).Sub(b.d.Shop.Habits.SetBackDoor)
}

// face is the z of the front edges of what stands inside: that of the members,
// or the rear of the panel that closes the front.
func (b *builder) face() trace.Num { return b.front.Sub(b.frontThick) }

// doorBack is the z of the inner face of a front.
func (b *builder) doorBack(f *design.Front) trace.Num {
	if f.Overlays() {
		return b.front.Add(b.constant("rule.overlay stand-off", 2, "an overlay front stands 2 mm before the body's edges, on buffers: common practice, no source"))
	}
	return b.front.Sub(b.thick(b.pick(f.Role, "doors", "panels")))
}

// behindFront is the z before which nothing inside may reach where a front
// covers it; without one, that of the body's face.
func (b *builder) behindFront(f *design.Front) trace.Num {
	if f == nil || f.Overlays() {
		return b.face()
	}
	return b.doorBack(f)
}

// stopShort is how far a housing ends before a front edge that shows.
func (b *builder) stopShort() trace.Num {
	return b.constant("rule.housing stops short", 12, "a stopped housing ends 12 mm behind the edge that shows: common practice, no source")
}

// housings gives dividers and boards their depth, cuts the housings that hold
// them, and notches their front corners where the housing stops.
func (b *builder) housings() {
	role := b.role("dividers", "panels")
	for i := 1; i < len(b.uprights)-1; i++ {
		b.divider(i, role)
	}
	for _, bd := range b.boards {
		b.board2(bd)
	}
}

// neighbours returns the spaces to the left and right of upright i that are to
// be compared for its depth: any pair that one front covers together.
func (b *builder) dividerFront(i int) trace.Num {
	z := b.face()
	for _, l := range b.spaces {
		for _, r := range b.spaces {
			if l.bay == i-1 && r.bay == i {
				if n := b.behind(l, r); n.V < z.V {
					z = n
				}
			}
		}
	}
	return z
}

func (b *builder) divider(i int, role design.Role) {
	u := b.uprights[i]
	shell := b.role("shell").Stock
	dTop, dBottom := b.housingDepth(shell, "divider", "top"), b.housingDepth(shell, "divider", "bottom")
	if b.absent(top) {
		dTop = trace.Num{}
	}
	z := b.dividerFront(i)
	l, r := b.d.Bays[i-1].Name, b.d.Bays[i].Name
	p := &piece.Part{ID: fmt.Sprintf("divider %d", i), Role: piece.Divider, Name: "divider between " + l + " and " + r,
		Stock: role.Stock, Length: b.ceilY().Sub(b.floorY()).Add(dTop).Add(dBottom), Width: z.Sub(b.backThick),
		Thick: b.thick(role), Grain: piece.AlongLength, Pose: upright3, Path: b.d.Bays[i-1].Path,
		NameA: "left face, to " + l, NameB: "right face, to " + r, Show: piece.FaceA}
	if len(b.uprights) == 3 {
		p.ID = "divider"
	}
	p.Origin = [3]trace.Num{u.x1, b.floorY().Sub(dBottom), z}
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	along := func(c trace.Num) trace.Num { return c.Sub(p.Origin[1]) }
	u.part, u.leftward, u.rightward = p, surface{part: p, face: piece.FaceA, along: along}, surface{part: p, face: piece.FaceB, along: along}
	stop := b.stopShort()
	ns := b.dividerNotches(z, dBottom, dTop, stop)
	p.Outline = notched(p.Length, p.Width, ns)
	b.add(p)
	noteNotches(p, ns)
	b.clearOfSeams("bottom", u.x0, u.x1, p.Path)
	b.clearOfSeams("top", u.x0, u.x1, p.Path)
	b.housed(b.surfaceAt(bottom, u.x0), p, u.x0, u.x1, b.backThick.Add(ns[rearFoot].rail), z.Sub(ns[frontFoot].rail), dBottom, r3.Vec{Y: -1}, ns[frontFoot].stop(stop), "divider", "bottom")
	if !b.absent(top) {
		b.housed(b.surfaceAt(top, u.x0), p, u.x0, u.x1, b.backThick.Add(ns[rearHead].rail), z.Sub(ns[frontHead].rail), dTop, r3.Vec{Y: 1}, ns[frontHead].stop(stop), "divider", "top")
	}
}

func (b *builder) board2(bd board) {
	p := bd.part
	z := b.face()
	for _, s := range b.spaces {
		if s.bay == bd.bay && s.level == bd.under.level+1 {
			z = b.behind(bd.under, s)
		}
	}
	p.Origin[2], p.Width = z, z.Sub(b.backThick)
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	stop := b.stopShort()
	ns := notches{}
	ends := [2]boardEnd{{deep: bd.deep[0]}, {deep: bd.deep[1]}}
	if bd.follow {
		ends = bd.ends
	}
	if ends[0].deep.V > 0 {
		ns[frontFoot] = notch{high: ends[0].deep, deep: stop}
	}
	if ends[1].deep.V > 0 {
		ns[frontHead] = notch{high: ends[1].deep, deep: stop}
	}
	p.Outline = notched(p.Length, p.Width, ns)
	b.add(p)
	noteNotches(p, ns)
	b.boardEnds(p, bd.bay, ends, z, stop, "board", [2]string{b.boardPartner(bd.bay), b.boardPartner(bd.bay + 1)})
}

// housed cuts the housing for a panel's end into a surface and books the joint.
// The panel lies between c0 and c1 along the surface and between z0 and z1; the
// housing stops short of its front edge.
func (b *builder) housed(s surface, p *piece.Part, c0, c1, z0, z1, depth trace.Num, enter r3.Vec, stop trace.Num, fitOf ...string) {
	if depth.V == 0 {
		b.join(piece.Joint{Kind: "butt", A: s.part.ID, B: p.ID, Enter: enter, Glued: true, Area: c1.Sub(c0).Mul(z1.Sub(z0)), Path: p.Path})
		return
	}
	fit, clear := b.fit(fitOf...)
	half := clear.Scale(0.5)
	s.pocket(piece.Housing, c0.Sub(half), c1.Add(half), z0, z1.Sub(stop), depth, p.ID)
	area := c1.Sub(c0).Add(depth.Scale(2)).Mul(z1.Sub(z0).Sub(stop))
	b.join(piece.Joint{Kind: "housing", A: s.part.ID, B: p.ID, Enter: enter, Depth: depth, Fit: fit, Clearance: clear,
		Glued: true, Area: area, Path: p.Path})
}
