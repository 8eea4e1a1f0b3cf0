package drawing

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// Measures of the views of edges and ends, paper mm.
const (
	narrowRun  = 16.0 // room beside a view for its heights
	narrowHead = 9.0  // over it, for its name
	narrowTall = 16.0 // of the tallest
)

// narrowFaces are a part's edges and ends, in the order in which they are drawn.
var narrowFaces = []piece.Face{piece.EndLow, piece.EndHigh, piece.EdgeLow, piece.EdgeHigh}

// narrowViews draws each edge and end that is bored or mortised, as it is looked
// at, face B below: places along it from the datum, heights over face B. It
// returns the lowest place.
func (d *partDrawing) narrowViews(low float64) float64 {
	const wide = 210 - 2*leaf.Margin
	x, y, bottom := leaf.Margin, low+4, low
	for _, side := range narrowFaces {
		rows := d.cutsOn(side)
		if len(rows) == 0 {
			continue
		}
		long := d.q.Width.V
		if side == piece.EdgeLow || side == piece.EdgeHigh {
			long = d.q.Length.V
		}
		room := wide/2 - narrowRun - 4
		k := min(room/long, narrowTall/d.q.Thick.V, 1)
		if k*d.q.Thick.V < 3.2 { // across the whole leaf
			room = wide - narrowRun - 4
			k = min(room/long, narrowTall/d.q.Thick.V, 1)
			if x > leaf.Margin {
				x, y = leaf.Margin, bottom+3
			}
		}
		bottom = max(bottom, d.narrow(side, rows, pt(x, y), long, k))
		if x += narrowRun + room + 4; x > leaf.Margin+wide-40 {
			x, y = leaf.Margin, bottom+3
		}
	}
	return bottom
}

// narrow draws one edge or end with its upper left corner at a place.
func (d *partDrawing) narrow(side piece.Face, rows []cutRow, at r2.Vec, long, k float64) float64 {
	left, top := at.X+narrowRun, at.Y+narrowHead
	foot := top + d.q.Thick.V*k
	f := frame{At: pt(left, foot), K: k}
	if side == piece.EndLow || side == piece.EdgeHigh { // as it is looked at, x runs to the left
		f.At.X, f.Mirror = left+long*k, true
	}
	box := boxOf(left, top, left+long*k, foot)
	d.name(pt(left, top-3.4), leaf.Start, string(side)+", face B below")
	d.rect(leaf.Visible, box)
	var holes, xs, ys = []piece.Cut{}, []float64{}, []float64{d.q.Thick.V}
	for _, r := range rows {
		c := r.c
		xs, ys = append(xs, c.X0.V), append(ys, c.Y0.V)
		if isHole(c) {
			holes = append(holes, c)
			last := holeAt(c, max(c.Count, 1)-1)
			xs, ys = append(xs, last.X), append(ys, last.Y)
			continue
		}
		xs, ys = append(xs, c.X1.V), append(ys, c.Y1.V)
		slot := f.box(c.X0.V, c.Y0.V, c.X1.V, c.Y1.V)
		d.rect(leaf.Dimension, slot)
		d.hatch(leaf.Hatch, false, math.Pi/4, 0.9, corners(slot))
		d.add(leaf.Text{At: pt(slot.Max.X+1.6, slot.Min.Y+slot.Size().Y/2+0.9), S: r.letter, Strong: true, Halo: true})
	}
	for _, r := range rows {
		if isHole(r.c) {
			d.holes(f, r, holes)
		}
	}
	along := d.axisPlaces(xs, func(v float64) r2.Vec { return f.xy(v, 0) }, false)
	heights := d.axisPlaces(ys, func(v float64) r2.Vec { return f.xy(0, v) }, true)
	d.running(axis{Line: foot + 4.5, Edge: foot, Lo: left - 6, Hi: box.Max.X + 8}, along)
	d.running(axis{Upright: true, Line: left - 4, Edge: left, Lo: top - 6, Hi: foot + 6}, heights)
	return foot + 4.5 + levelKneed + longest(along)
}
