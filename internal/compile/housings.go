package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// coverSpaces notes which front stands before which space.
func (b *builder) coverSpaces() {
	for i := range b.d.Fronts {
		f := &b.d.Fronts[i]
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
				b.errorAt(f.Path, "no-space", fmt.Sprintf("no bay or level is called %q", name), "")
			}
		}
	}
}

// behind returns the z of the front edge of what stands between two spaces:
// flush with the body's front, or behind the front that covers both.
func (b *builder) behind(a, c *space) trace.Num {
	if a.covered == nil || a.covered != c.covered {
		return b.front
	}
	return b.doorBack(a.covered).Sub(b.d.Shop.Habits.SetBackDoor)
}

// doorBack is the z of the inner face of an inset front.
func (b *builder) doorBack(f *design.Front) trace.Num {
	return b.front.Sub(b.thick(b.pick(f.Role, "doors", "panels")))
}

// stopShort is how far a housing ends before a front edge that shows.
func (b *builder) stopShort() trace.Num {
	return b.constant("rule.housing stops short", 12, "a stopped housing ends 12 mm behind the edge that shows: common practice, no source")
}

// housings gives dividers and boards their depth, cuts the housings that hold
// them, and notches their front corners where the housing stops.
func (b *builder) housings() {
	role := b.role("dividers", "panels")
	rail := b.railThick()
	for i := 1; i < len(b.uprights)-1; i++ {
		b.divider(i, role, rail)
	}
	for _, bd := range b.boards {
		b.board2(bd)
	}
}

// neighbours returns the spaces to the left and right of upright i that are to
// be compared for its depth: any pair that one front covers together.
func (b *builder) dividerFront(i int) trace.Num {
	z := b.front
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

func (b *builder) divider(i int, role design.Role, rail trace.Num) {
	u := b.uprights[i]
	shell := b.role("shell").Stock
	dTop, dBottom := b.housingDepth(shell, "divider", "top"), b.housingDepth(shell, "divider", "bottom")
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
	u.part, u.leftward, u.rightward = p, surface{p, piece.FaceA, along}, surface{p, piece.FaceB, along}
	stop := b.stopShort()
	head := railNotch{}
	if rail.V > 0 {
		head = railNotch{high: b.d.Rails[0].Height.Add(dTop), deep: rail}
	}
	p.Outline = notched(p.Length, p.Width, dBottom, dTop, stop, head)
	b.add(p)
	noteNotches(p, dBottom, dTop, stop, head)
	b.housed(b.surface(bottom), p, u.x0, u.x1, b.backThick, z, dBottom, r3.Vec{Y: -1}, stop, "divider", "bottom")
	b.housed(b.surface(top), p, u.x0, u.x1, b.backThick.Add(rail), z, dTop, r3.Vec{Y: 1}, stop, "divider", "top")
}

// railNotch is what a divider loses at its upper rear corner to a rail.
type railNotch struct{ high, deep trace.Num }

// notched is a panel's outline with its front corners (y = 0) taken off as far
// as the housings stop short, and its upper rear corner taken off for a rail.
func notched(l, w, foot, head, stop trace.Num, rail railNotch) planar.Region {
	v := func(x, y trace.Num) r2.Vec { return r2.Vec{X: x.V, Y: y.V} }
	zero := trace.Num{}
	var pts []r2.Vec
	if foot.V > 0 && stop.V > 0 {
		pts = append(pts, v(zero, stop), v(foot, stop), v(foot, zero))
	} else {
		pts = append(pts, v(zero, zero))
	}
	if head.V > 0 && stop.V > 0 {
		pts = append(pts, v(l.Sub(head), zero), v(l.Sub(head), stop), v(l, stop))
	} else {
		pts = append(pts, v(l, zero))
	}
	if rail.deep.V > 0 {
		pts = append(pts, v(l, w.Sub(rail.deep)), v(l.Sub(rail.high), w.Sub(rail.deep)), v(l.Sub(rail.high), w))
	} else {
		pts = append(pts, v(l, w))
	}
	pts = append(pts, v(zero, w))
	return planar.Region{{Outer: planar.Polygon(pts...)}}
}

// noteNotches books as cuts what notched has taken from the outline.
func noteNotches(p *piece.Part, foot, head, stop trace.Num, rail railNotch) {
	notch := func(x0, x1, y0, y1 trace.Num, why string) {
		cut(p, piece.Cut{Kind: piece.Notch, Face: piece.FaceA, X0: x0, X1: x1, Y0: y0, Y1: y1, Depth: p.Thick, Through: true, For: why})
	}
	zero := trace.Num{}
	if foot.V > 0 && stop.V > 0 {
		notch(zero, foot, zero, stop, "stopped housing")
	}
	if head.V > 0 && stop.V > 0 {
		notch(p.Length.Sub(head), p.Length, zero, stop, "stopped housing")
	}
	if rail.deep.V > 0 {
		notch(p.Length.Sub(rail.high), p.Length, p.Width.Sub(rail.deep), p.Width, "rail")
	}
}

func (b *builder) board2(bd board) {
	p := bd.part
	z := b.front
	for _, s := range b.spaces {
		if s.bay == bd.bay && s.level == bd.under.level+1 {
			z = b.behind(bd.under, s)
		}
	}
	p.Origin[2], p.Width = z, z.Sub(b.backThick)
	p.BlankLength, p.BlankWidth = p.Length, p.Width
	stop := b.stopShort()
	p.Outline = notched(p.Length, p.Width, bd.deep, bd.deep, stop, railNotch{})
	b.add(p)
	noteNotches(p, bd.deep, bd.deep, stop, railNotch{})
	l, r := b.uprights[bd.bay], b.uprights[bd.bay+1]
	y0, y1 := bd.under.y1, bd.under.y1.Add(p.Thick)
	b.housed(l.rightward, p, y0, y1, b.backThick, z, bd.deep, r3.Vec{X: -1}, stop, "board", "divider")
	b.housed(r.leftward, p, y0, y1, b.backThick, z, bd.deep, r3.Vec{X: 1}, stop, "board", "divider")
}

// housed cuts the housing for a panel's end into a surface and books the joint.
// The panel lies between c0 and c1 along the surface and between z0 and z1; the
// housing stops short of its front edge.
func (b *builder) housed(s surface, p *piece.Part, c0, c1, z0, z1, depth trace.Num, enter r3.Vec, stop trace.Num, fitOf ...string) {
	fit, clear := b.fit(fitOf...)
	half := clear.Scale(0.5)
	s.pocket(piece.Housing, c0.Sub(half), c1.Add(half), z0, z1.Sub(stop), depth, p.ID)
	area := c1.Sub(c0).Add(depth.Scale(2)).Mul(z1.Sub(z0).Sub(stop))
	b.join(piece.Joint{Kind: "housing", A: s.part.ID, B: p.ID, Enter: enter, Depth: depth, Fit: fit, Clearance: clear,
		Glued: true, Area: area, Path: p.Path})
}
