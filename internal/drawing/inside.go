package drawing

import (
	"fmt"
	"slices"

	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// inside is the piece without its fronts and drawers, its bays named, and the
// plan from above.
func (d viewDrawing) inside(open []view.Line, all *view.Scene) leaf.Leaf {
	d.items = nil
	w, h, deep := d.pc.Width.V, d.pc.Height.V, d.pc.Depth.V
	d.k, d.n = fit(w, h+deep, 164, 150)
	left := max(viewLeft, (210-w*d.k)/2)
	floor := viewTop + h*d.k
	front := frame{At: pt(left, floor), K: d.k}
	d.draft(front, open, nil)
	d.title(front.xy(w/2, h), "front, open")
	if d.stands() {
		d.floor(left-6, left+w*d.k+6, floor)
	}
	for _, s := range d.pc.Spaces {
		d.space(front, s)
	}
	// The plan stands below the front, its rear edge on top.
	top := floor + 13
	planFrame := frame{At: pt(left, top), K: d.k}
	d.draft(planFrame, all.Draw(view.Plan(), view.Options{HiddenToo: true}), behind(d.pc, piece.Divider, piece.Side, piece.Shelf, piece.Board))
	d.name(pt(left+w*d.k/2, top-2.2), leaf.Middle, "plan")
	low := top + deep*d.k
	d.upright(top, low, left-6, left, d.size(deep, 1))
	low = d.planWidths(planFrame, low)
	y := low + 7
	d.scaleBar(pt(left, y), d.k, 50, d.sys, "")
	return leaf.Leaf{
		Key: insideKey, Title: "Inside, and from above", Right: d.right(),
		Caption: d.insideCaption(),
		Alt:     fmt.Sprintf("Front view of the %s without its fronts, with %s, and a plan from above.", d.pc.Name, d.spaceWords()),
		W:       210, H: y + 3, Items: d.items,
	}
}

// spaceWords count the spaces that the figure names.
func (d *viewDrawing) spaceWords() string {
	switch n := len(d.pc.Spaces); n {
	case 0:
		return "its inside open"
	case 1:
		return "its one space and that one’s clear size"
	default:
		return fmt.Sprintf("its %d spaces by name and their clear sizes", n)
	}
}

func (d *viewDrawing) insideCaption() string {
	fronts, pinned := false, false
	for _, q := range d.pc.Parts {
		fronts = fronts || isFront(q)
		pinned = pinned || q.Role == piece.Shelf && q.Loose
	}
	s := "Sizes in the bays are clear width × clear height. "
	if fronts {
		s = "Doors and drawers are taken out. " + s
	}
	if pinned {
		s += "Shelves on pins are drawn at the holes where the things of the brief want them. "
	}
	return s + "The plan has the rear edge on top."
}

// planWidths runs the places of what stands at the plan's front: the fronts'
// edges, from the left side.
func (d *viewDrawing) planWidths(f frame, edge float64) float64 {
	all := []place{{at: f.x(0), text: "0", origin: true}}
	for _, q := range d.pc.Parts {
		if q.Role != piece.Door && q.Role != piece.DrawerFront {
			continue
		}
		e := extentOf(q)
		for _, x := range []float64{e.min.X, e.max.X} {
			all = append(all, place{at: f.x(x), text: d.size(x, 1)})
		}
	}
	all = append(all, place{at: f.x(d.pc.Width.V), text: d.size(d.pc.Width.V, 1)})
	d.running(axis{Line: edge + lineOutside, Edge: edge, Lo: leaf.Margin, Hi: f.x(d.pc.Width.V) + 6}, all)
	return edge + lineOutside + levelKneed + longest(all)
}

func clamp(v, lo, hi float64) float64 { return max(lo, min(v, hi)) }

// space writes a space's name and clear size where it has most room.
func (d *viewDrawing) space(f frame, s piece.Space) {
	x0, y0 := s.Min[0].V, s.Min[1].V
	w, h := s.Size[0].V, s.Size[1].V
	levels := []float64{y0, y0 + h}
	for _, id := range s.Shelves {
		if q := d.pc.Part(id); q != nil {
			e := extentOf(q)
			levels = append(levels, e.min.Y, e.max.Y)
		}
	}
	// A shelf's edging hangs below it; a rail crosses the space behind.
	for _, q := range d.pc.Parts {
		if q.Of != "" && slices.Contains(s.Shelves, q.Of) || q.Role == piece.Rail {
			e := extentOf(q)
			levels = append(levels, clamp(e.min.Y, y0, y0+h), clamp(e.max.Y, y0, y0+h))
		}
	}
	a, b := widestGap(levels, func(float64) bool { return false })
	room := w*f.K - 2
	c := f.xy(x0+w/2, (a+b)/2)
	size := d.by(w, h)
	if leaf.Width(size, leaf.Note, false, false) > room {
		return
	}
	font := leaf.Name
	if leaf.Width(s.Name, font, true, false) > room || (b-a)*f.K < 9 {
		font = leaf.Note
	}
	d.add(leaf.Text{At: pt(c.X, c.Y-0.6), S: leaf.Shorten(s.Name, font, true, false, room), Size: font, Italic: true, Anchor: leaf.Middle, Halo: true})
	d.add(leaf.Text{At: pt(c.X, c.Y+3.2), S: size, Anchor: leaf.Middle, Halo: true})
}

// picture is the whole piece from before, above and one side: dimetric, so
// that widths and heights keep one scale and depths half of it.
func (d viewDrawing) picture(all *view.Scene) leaf.Leaf {
	d.items = nil
	lines := all.Draw(view.Dimetric(!d.fromLeft()), view.Options{HiddenToo: true})
	box := boundsOf(lines)
	size := box.Size()
	k := min(150/max(size.X, 1), 110/max(size.Y, 1))
	f := frame{At: pt((210-size.X*k)/2, 6+size.Y*k), O: box.Min, K: k}
	d.draft(f, lines, behind(d.pc, piece.Divider, piece.Shelf, piece.Board))
	low := 6 + size.Y*k
	d.scaleBar(pt(viewLeft, low+9), k*0.9428, 45, d.sys, "along width and height; depth is drawn half as long")
	return leaf.Leaf{
		Key: pictureKey, Title: "The whole piece", Right: d.pc.Name + " · dimetric",
		Caption: "Seen from before, above and the " + map[bool]string{true: "left", false: "right"}[d.fromLeft()] + ". Dashed: dividers, boards and shelves behind what is seen.",
		Alt:     fmt.Sprintf("A dimetric picture of the %s with hidden edges dashed.", d.pc.Name),
		W:       210, H: low + 12, Items: d.items,
	}
}
