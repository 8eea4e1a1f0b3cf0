package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// bar is the room that a rail takes, from side to side.
type bar struct {
	name           string
	y0, y1, z0, z1 trace.Num
}

// clearOfBars says so where a part would stand in a rail, and reports whether it
// does not.
func (b *builder) clearOfBars(what, path string, x0, x1, y0, y1, z0, z1 trace.Num) bool {
	for _, r := range b.bars {
		if y0.V < r.y1.V-0.01 && y1.V > r.y0.V+0.01 && z0.V < r.z1.V-0.01 && z1.V > r.z0.V+0.01 && x1.V > x0.V {
			b.errorAt(path, "rail-in-way", fmt.Sprintf("%s would stand in the %s", what, r.name),
				fmt.Sprintf("The rail lies between %.1f and %.1f mm over the floor.", r.y0.V, r.y1.V))
			return false
		}
	}
	return true
}

func (b *builder) railRole(w *design.Rail) design.Role { return b.pick(w.Role, "rails", "panels") }

// hasRail reports whether the piece file asks for a rail there.
func (b *builder) hasRail(where string) bool {
	for i := range b.d.Rails {
		if b.d.Rails[i].Where == where {
			return true
		}
	}
	return false
}

// railZ is the z of a rail's rear face: against the back, or behind what covers
// the front.
func (b *builder) railZ(w *design.Rail) trace.Num {
	if w.Where != "top front" {
		return b.backThick
	}
	z := b.face()
	for _, s := range b.spaces {
		if s.covered == nil || s.covered.Overlays() || s.y1.V != b.ceilY().V {
			continue
		}
		if d := b.doorBack(s.covered).Sub(b.d.Shop.Habits.SetBackDoor); d.V < z.V {
			z = d
		}
	}
	return z.Sub(b.thick(b.railRole(w)))
}

// rails makes the boards from side to side: under the top, at the back or the
// front, and on the bottom; where the shell bends their ends follow the bend. A
// piece that hangs has one at the top back in any case.
func (b *builder) rails() {
	seen := map[string]bool{}
	for i := range b.d.Rails {
		w := &b.d.Rails[i]
		if seen[w.Where] {
			b.errorAt(w.Path, "rail-twice", "there is a rail at the "+w.Where+" already", "One rail can lie there.")
			continue
		}
		seen[w.Where] = true
		id := "rail"
		if w.Where != "top back" {
			id = "rail, " + w.Where
		}
		b.rail(w, id)
	}
	if b.d.Base.Kind == "wall" && !seen["top back"] {
		b.rail(&design.Rail{Where: "top back", Height: b.d.Base.Height, Role: b.d.Base.Role, Follow: true, Path: b.d.Base.Path}, "hanging rail")
	}
}

func (b *builder) rail(w *design.Rail, id string) {
	role := b.railRole(w)
	p := &piece.Part{ID: id, Name: "rail, " + w.Where, Role: piece.Rail, Stock: role.Stock, Thick: b.thick(role),
		Width: w.Height, Grain: piece.AlongLength, Pose: facing3, Path: w.Path,
		NameA: "front face", NameB: "rear face, to the back", Show: piece.FaceA}
	if id == "hanging rail" {
		p.Name = id
	}
	low := w.Where == "bottom back"
	y0, corners := b.ceilY().Sub(w.Height), []int{1, 2}
	if low {
		y0, corners = b.floorY(), []int{0, 3}
	}
	x0, x1 := b.inner[left], b.width.Sub(b.inner[right])
	ends := [2]*railEnd{}
	for e, c := range corners {
		if !b.corner(c).Bent {
			continue
		}
		if !w.Follow {
			b.errorAt(w.Path, "rail-must-follow", "the rail runs into the bend", "Write 'follow: shell', and its end is cut to the bend's inside.")
			return
		}
		edge := y0 // the rail's edge away from the top or bottom
		if low {
			edge = y0.Add(w.Height)
		}
		ends[e] = b.railEnd(c, edge, low)
		if e == 0 {
			x0 = ends[e].x
		} else {
			x1 = ends[e].x
		}
	}
	p.Length = x1.Sub(x0)
	z := b.railZ(w)
	p.Origin = [3]trace.Num{x0, y0, z}
	if w.Where == "top front" {
		p.NameB = "rear face, inside"
	}
	over := trace.Num{}
	if ends[0] != nil || ends[1] != nil {
		over = b.d.Shop.Habits.Oversize.Scale(2)
	}
	p.BlankLength, p.BlankWidth = p.Length.Add(over), p.Width
	if low { // upside down, so that the datum corner lies on wood
		p.Pose.X, p.Pose.Y = r3.Vec{X: -1}, r3.Vec{Y: -1}
		p.Origin = [3]trace.Num{x1, y0.Add(w.Height), z}
		p.Outline = railOutline(p.Length.V, p.Width.V, x0.V, 2*b.foot.V+b.height.V-y0.V-w.Height.V, ends).MirroredX(p.Length.V / 2)
	} else {
		p.Outline = railOutline(p.Length.V, p.Width.V, x0.V, y0.V, ends)
	}
	b.add(p)
	b.bars = append(b.bars, bar{p.Name, y0, y0.Add(w.Height), z, z.Add(p.Thick)})
	b.railJoints(p, w, ends)
}

// railTouch is how long the rail lies along each part that its ends and its head
// meet.
func (b *builder) railTouch(p *piece.Part, w *design.Rail, curves [2]*railEnd, over []*piece.Part) map[*piece.Part]trace.Num {
	out := map[*piece.Part]trace.Num{}
	head := p.Length
	for k, q := range []*piece.Part{b.members[left].part, b.members[right].part} {
		end := w.Height
		if e := curves[k]; e != nil {
			end, head = e.touch, head.Sub(e.in)
		}
		out[q] = out[q].Add(end)
	}
	for _, q := range over { // more than one where a seam parts them: their shares are not known here
		out[q] = out[q].Add(head.Scale(1 / float64(len(over))))
	}
	return out
}

// railJoints books what the rail meets: the shell or sides at its ends, the top
// over it or the bottom under it, and the dividers that are cut round it.
// A strip that is both side and top is met by the rail's end and by its head.
func (b *builder) railJoints(p *piece.Part, w *design.Rail, curves [2]*railEnd) {
	t := p.Thick
	front, low := w.Where == "top front", w.Where == "bottom back"
	in, against := r3.Vec{Z: 1}, r3.Vec{Y: 1} // from behind, up to the top
	if front {
		in = r3.Vec{Z: -1}
	}
	if low {
		against = r3.Vec{Y: -1}
	}
	level := top
	if low {
		level = bottom
	}
	l, r := b.members[left].part, b.members[right].part
	ends := []*piece.Part{l}
	if r != l {
		ends = append(ends, r)
	}
	touch := b.railTouch(p, w, curves, b.memberParts(level))
	for k, q := range ends {
		enter := r3.Vec{X: -1}
		if k == 1 {
			enter = r3.Vec{X: 1}
		}
		b.join(piece.Joint{Kind: "butt", A: q.ID, B: p.ID, Enter: enter, Also: []r3.Vec{against, in}, Glued: true,
			Area: t.Mul(touch[q]), Path: w.Path})
	}
	for _, q := range b.memberParts(level) {
		if q != l && q != r {
			b.join(piece.Joint{Kind: "butt", A: q.ID, B: p.ID, Enter: against, Also: []r3.Vec{in}, Glued: true,
				Area: t.Mul(touch[q]), Path: w.Path})
		}
	}
	for i := 1; i < len(b.uprights)-1; i++ {
		id := b.uprights[i].part.ID
		b.join(piece.Joint{Kind: "notch", A: id, B: p.ID, Enter: in, Also: []r3.Vec{against.Mul(-1)}, Glued: true,
			Area: t.Add(w.Height).Mul(b.uprights[i].part.Thick), Path: w.Path})
	}
}
