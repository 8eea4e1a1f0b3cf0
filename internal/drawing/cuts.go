package drawing

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/work"
)

// maxPlaces bounds the places that are tried for one flag: more than any sheet's
// length on paper has.
const maxPlaces = 120

// sawRun is how far a saw line runs past the sheet's edge, paper mm.
const sawRun = 1.6

// kerfs clears the way of the saw of the waste's hatch, and draws the sheet's
// edge over it.
func (d *sheetDrawing) kerfs() {
	half := max(d.s.Kerf*d.K/2, drawnIn)
	for _, c := range d.s.Cuts {
		a, b := d.xy(c.X0, c.Y0), d.xy(c.X1, c.Y1)
		n := b.Sub(a).Unit().Left().Mul(half)
		d.add(leaf.Path{Fill: leaf.Paper, Segs: ring(a.Add(n), b.Add(n), b.Sub(n), a.Sub(n))})
	}
	d.rect(leaf.Dimension, d.box(0, 0, d.s.Length, d.s.Width))
}

// cuts draws the saw lines and their flags. Lines come first, so that no line
// crosses a flag.
func (d *sheetDrawing) cuts() {
	edge := d.box(0, 0, d.s.Length, d.s.Width)
	for _, c := range d.s.Cuts {
		a, b := d.xy(c.X0, c.Y0), d.xy(c.X1, c.Y1)
		d.accent(leaf.Saw, pastEdge(a, b, edge), pastEdge(b, a, edge))
	}
	for _, c := range d.byNeed(edge) {
		tip, dir := d.flagPlace(c, edge)
		d.flag(tip, dir, c.Number)
		d.taken = append(d.taken, inset(flagBox(tip, dir), -0.3))
	}
	d.datum(d.datumCorner(), 1, -1)
}

// pastEdge returns the end a of the line from b, run past the sheet where it
// ends at the sheet's edge.
func pastEdge(a, b r2.Vec, edge r2.Box) r2.Vec {
	u := a.Sub(b).Unit()
	if math.Abs(a.X-edge.Min.X) < 0.3 || math.Abs(a.X-edge.Max.X) < 0.3 {
		if math.Abs(u.X) > 0.5 {
			return a.Add(u.Mul(sawRun))
		}
	}
	if math.Abs(a.Y-edge.Min.Y) < 0.3 || math.Abs(a.Y-edge.Max.Y) < 0.3 {
		if math.Abs(u.Y) > 0.5 {
			return a.Add(u.Mul(sawRun))
		}
	}
	return a
}

// byNeed sorts the cuts so that those with the least choice get their flags
// first: what ends at the sheet's edge, then short before long.
func (d *sheetDrawing) byNeed(edge r2.Box) []work.SheetCut {
	cuts := slices.Clone(d.s.Cuts)
	need := func(c work.SheetCut) float64 {
		a, b := d.xy(c.X0, c.Y0), d.xy(c.X1, c.Y1)
		if pastEdge(b, a, edge) != b || pastEdge(a, b, edge) != a {
			return 0
		}
		return b.Sub(a).Len()
	}
	slices.SortStableFunc(cuts, func(a, b work.SheetCut) int { return cmp.Compare(need(a), need(b)) })
	return cuts
}

// flagPlace finds where a cut's flag stands clear of words and other flags:
// outside the sheet at a line's end, else at an end inside, else along it.
func (d *sheetDrawing) flagPlace(c work.SheetCut, edge r2.Box) (tip, dir r2.Vec) {
	a, b := d.xy(c.X0, c.Y0), d.xy(c.X1, c.Y1)
	if math.Abs(a.X-b.X) > math.Abs(a.Y-b.Y) {
		if a.X > b.X {
			a, b = b, a // b is the right end
		}
	} else if b.Y > a.Y {
		a, b = b, a // b is the upper end
	}
	u := b.Sub(a).Unit()
	type option struct {
		tip, dir r2.Vec
		unclear  float64 // how much it could be taken for another line's flag, as mm² of clash
	}
	var options []option
	if pastEdge(b, a, edge) != b { // outside, beyond the right or upper end
		options = append(options, option{b.Add(u.Mul(flagReach)), u.Mul(-1), 0})
	}
	if pastEdge(a, b, edge) != a && u.Y == 0 {
		options = append(options, option{a.Sub(u.Mul(flagReach)), u, 0})
	}
	reach := flagBody + flagPoint
	length := b.Sub(a).Len()
	for t := 0.4; (t+reach < length || t == 0.4) && len(options) < maxPlaces; t += 2 {
		options = append(options, option{b.Sub(u.Mul(t + reach)), u.Mul(-1), 0})
	}
	options = append(options, option{b, u.Mul(-1), 3}, option{a, u, 3}) // beyond an end
	best, least := options[0], math.Inf(1)
	for _, o := range options {
		if clash := d.clash(flagBox(o.tip, o.dir)) + o.unclear; clash < least-1e-9 {
			best, least = o, clash
		}
		if least == 0 {
			break
		}
	}
	return best.tip, best.dir
}

// clash is the taken area that a box would cover.
func (d *sheetDrawing) clash(b r2.Box) float64 {
	var sum float64
	for _, t := range d.taken {
		w := min(b.Max.X, t.Max.X) - max(b.Min.X, t.Min.X)
		h := min(b.Max.Y, t.Max.Y) - max(b.Min.Y, t.Min.Y)
		if w > 0 && h > 0 {
			sum += w * h
		}
	}
	return sum
}

// datumCorner is where the trimmed edges meet: the lower left of what is left
// of the sheet after its trim cuts.
func (d *sheetDrawing) datumCorner() r2.Vec {
	x, y := d.origin()
	return d.xy(x, y)
}

// origin returns the sheet's datum in sheet coordinates: the least corner of
// anything that is kept.
func (d *sheetDrawing) origin() (x, y float64) {
	x, y = math.Inf(1), math.Inf(1)
	for _, q := range d.s.Placements {
		x, y = min(x, q.X), min(y, q.Y)
	}
	for _, o := range d.s.Offcuts {
		x, y = min(x, o.X), min(y, o.Y)
	}
	if math.IsInf(x, 1) {
		return 0, 0
	}
	return x, y
}

// rows draws the running dimensions up the left side: where the cuts that pass
// there part the sheet, from its datum to the near side of each kerf, as the
// table of the cuts has it.
func (d *sheetDrawing) rows() {
	_, oy := d.origin()
	edge := d.box(0, 0, d.s.Length, d.s.Width)
	places := []place{{at: d.y(oy), text: "0", origin: true}}
	for _, y := range d.rowEnds() {
		places = append(places, place{at: d.y(y), text: d.size(y-oy, 1)})
	}
	d.running(axis{Upright: true, Line: edge.Min.X - 6, Edge: edge.Min.X, Lo: edge.Min.Y - 4, Hi: edge.Max.Y + 4}, places)
}

// rowEnds are the near sides of the cuts along the length that pass the left
// end, in sheet coordinates, the trim left out.
func (d *sheetDrawing) rowEnds() []float64 {
	var out []float64
	ox, oy := d.origin()
	for _, c := range d.s.Cuts {
		if c.Y0 == c.Y1 && min(c.X0, c.X1) <= ox+0.5 && c.Y0 > oy+0.5 {
			out = append(out, c.Y0)
		}
	}
	return out
}

// foot draws what stands below the sheet: the scale bar, the key of the lines,
// and the fence setting of each cut. It returns the height of the figure.
func (d *sheetDrawing) foot(y float64) float64 {
	d.scaleBar(pt(sheetLeft, y), d.K, 70, d.sys, "")
	key := boxOf(sheetLeft+85, y-2.4, sheetLeft+91, y+0.4)
	d.rect(leaf.Hatch, key)
	d.hatch(leaf.Hatch, false, math.Pi/4, 1.0, corners(key))
	d.note(pt(key.Max.X+1.5, y), leaf.Start, "waste")
	d.accent(leaf.Saw, pt(sheetLeft+110, y-0.9), pt(sheetLeft+118, y-0.9))
	d.note(pt(sheetLeft+119.5, y), leaf.Start, "cut, in the order of its flag")
	if len(d.s.Cuts) == 0 {
		return y + 3
	}
	return d.fences(y + 6.5)
}

// fences lists what is set for each cut, in columns read downwards.
func (d *sheetDrawing) fences(y float64) float64 {
	const columns, step = 6, 4.0
	wide := (210 - 2*leaf.Margin) / float64(columns)
	n := len(d.s.Cuts)
	rows := (n + columns - 1) / columns
	d.add(leaf.Text{At: pt(leaf.Margin, y), S: "cut and fence, measured from the datum edge of the piece in hand", Italic: true})
	y += step + 0.6
	for i, c := range d.s.Cuts {
		x := leaf.Margin + wide*float64(i/rows)
		line := y + step*float64(i%rows)
		d.add(leaf.Text{At: pt(x+4, line), S: strconv.Itoa(c.Number), Strong: true, Anchor: leaf.End})
		d.note(pt(x+18, line), leaf.End, d.size(c.Fence, 1))
	}
	return y + step*float64(rows-1) + 2
}
