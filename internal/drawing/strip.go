package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// Part returns the figures of one part: for a strip the strip laid flat, and
// for each of its bends the kerfs and the bend on its rail; for a flat part
// its faces with their cuts.
func Part(p *plan.Plan, q *piece.Part, opt Options) []leaf.Leaf {
	if len(q.Bends) == 0 {
		return flatPart(q, opt)
	}
	out := []leaf.Leaf{Strip(p, q, opt)}
	for i, b := range q.Bends {
		if b.Plan.Count > 0 {
			out = append(out, Kerfs(p, q, i, opt), Bend(p, q, i, opt))
		} else if b.Stack != nil {
			out = append(out, Stack(q, i, opt))
		}
	}
	return out
}

const (
	stripLeft = 22.0
	stripWide = 164.0
	stripTop  = 11.0
)

// stripDrawing is a strip laid flat, seen from the inside: x from the datum
// end to the right. The edge from which y counts, its front or upper one, is on top.
type stripDrawing struct {
	pen
	ink
	frame
	q    *piece.Part
	free float64 // on paper: the middle of the longest stretch without cuts
}

// Strip draws the whole strip laid flat, seen from its inside, with its bends,
// its cuts and their places from the datum end.
func Strip(p *plan.Plan, q *piece.Part, opt Options) leaf.Leaf {
	d := &stripDrawing{ink: ink{systemOf(opt)}, q: q}
	k := min(stripWide/max(q.Length.V, 1), 70/max(q.Width.V, 1))
	d.frame = frame{At: pt(stripLeft, stripTop), K: k, Down: true}
	d.outline()
	d.zones()
	rows := d.cutMarks()
	bottom := d.places()
	bottom = d.cutTable(d.ink, pt(stripLeft, bottom+6), rows)
	d.scaleBar(pt(stripLeft, bottom+6), k, 60, d.sys, "")
	return leaf.Leaf{
		Key:   "strip-" + strconv.Itoa(q.Number),
		Title: "The strip, laid flat",
		Right: d.right(p),
		Caption: "Seen from the inside, kerfed face up; the ring is the datum corner, at the " + piece.YEdge(q) + ". Every place along the strip runs from its datum end. " +
			"Hatched: cuts into the inside, by letter. The kerfs of each bend have a figure of their own.",
		Alt: d.alt(),
		W:   210, H: bottom + 9,
		Items: d.items,
	}
}

func (d *stripDrawing) right(p *plan.Plan) string {
	stock := ""
	if d.q.Stock != nil {
		stock = d.q.Stock.Name + ", "
	}
	s := fmt.Sprintf("%s%s measured · cut to %s", stock, d.fine(d.q.Thick.V, 2), d.by(d.q.Length.V, d.q.Width.V))
	if p.Piece != nil && p.Piece.Name != "" {
		s = p.Piece.Name + " · " + s
	}
	return s
}

func (d *stripDrawing) outline() {
	q := d.q
	b := d.box(0, 0, q.Length.V, q.Width.V)
	d.rect(leaf.Visible, b)
	d.datum(d.xy(0, 0), 1, 1)
	d.add(leaf.Text{At: pt(b.Min.X-1.6, (b.Min.Y+b.Max.Y)/2), S: "datum end", Italic: true, Up: true, Anchor: leaf.Middle})
	d.add(leaf.Text{At: pt(b.Min.X+2, b.Min.Y-1.6), S: piece.YEdge(q), Italic: true})
	d.upright(b.Max.Y, b.Min.Y, b.Max.X+5.5, b.Max.X, d.size(q.Width.V, 1))
}

// zones draws each bend's kerfs and tangent points.
func (d *stripDrawing) zones() {
	w := d.q.Width.V
	end, up := math.Inf(-1), 0.0 // of the last name, and how far it was raised
	for _, b := range d.q.Bends {
		var segs []leaf.Seg
		for _, x := range b.Kerfs {
			segs = append(segs, run(d.xy(x.V, 0), d.xy(x.V, w))...)
		}
		d.add(leaf.Path{Line: leaf.Hatch, Segs: segs})
		for _, x := range []float64{b.Start.V, b.Start.V + b.Length.V} {
			d.line(leaf.Centre, pt(d.x(x), d.y(0)-3), pt(d.x(x), d.y(w)+2))
		}
		mid := d.x(b.Start.V + b.Length.V/2)
		name := fmt.Sprintf("%s: %d kerfs, %s", b.Corner, len(b.Kerfs), deg(b.Angle.V, 2))
		switch {
		case b.Stack != nil:
			name = fmt.Sprintf("%s: %s", b.Corner, deg(b.Angle.V, 2))
		case b.Face == piece.FaceA:
			name = fmt.Sprintf("%s: %d kerfs in the outer face, %s", b.Corner, len(b.Kerfs), deg(b.Angle.V, 2))
		}
		half := 0.6 * leaf.Width(name, leaf.Note, true, false) // a fifth wider, for a face that stands in for the planned one
		if up = 0; mid-half < end+2 {
			up = 3.6
		}
		end = mid + half
		d.add(leaf.Text{At: pt(mid, d.y(0)-4.2-up), S: name, Italic: true, Anchor: leaf.Middle, Halo: true})
	}
	d.grainMark()
}

// grainMark sets the grain where the longest stretch without cuts is.
func (d *stripDrawing) grainMark() {
	busy := []float64{0, d.q.Length.V}
	for _, b := range d.q.Bends {
		busy = append(busy, b.Start.V, b.Start.V+b.Length.V)
	}
	for _, c := range d.q.Cuts {
		if c.X1.V-c.X0.V < d.q.Length.V/2 {
			busy = append(busy, c.X0.V, c.X1.V)
		}
	}
	a, b := widestGap(busy, func(x float64) bool {
		for _, z := range d.q.Bends {
			if x > z.Start.V && x < z.Start.V+z.Length.V {
				return true
			}
		}
		return false
	})
	d.free = d.x((a + b) / 2)
	length := min(26, (b-a)*d.K*0.6)
	if d.q.Grain == piece.NoGrain {
		return
	}
	d.grain(d.xy((a+b)/2, d.clearAcross((a+b)/2)), length, d.q.Grain == piece.AlongWidth, "grain")
}

// clearAcross finds a place across the strip, in the middle if it can be, where
// the grain's mark meets no cut.
func (d *stripDrawing) clearAcross(x float64) float64 {
	room, w := 6/d.K, d.q.Width.V
	for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		y, taken := w*share, false
		for _, c := range d.q.Cuts {
			if c.X1.V-c.X0.V < d.q.Length.V/2 && c.X0.V < x && x < c.X1.V && y > c.Y0.V-room && y < c.Y1.V+room {
				taken = true
			}
		}
		if !taken {
			return y
		}
	}
	return w / 2
}

// cutMarks draws the cuts with their letters and returns the table's rows.
func (d *stripDrawing) cutMarks() []cutRow {
	var rows []cutRow
	for i, c := range d.q.Cuts {
		r := cutRow{letterOf(i), c}
		rows = append(rows, r)
		if c.Kind == piece.Hole || c.Kind == piece.HoleRow {
			d.holes(d.frame, r, d.q.Cuts)
			continue
		}
		b := d.box(c.X0.V, c.Y0.V, c.X1.V, c.Y1.V)
		b = atLeast(b, 0.7)
		if c.Kind == piece.Window {
			d.windowMark(c, r.letter)
			continue
		}
		d.rect(leaf.Dimension, b)
		angle := math.Pi / 4
		if c.Kind == piece.Notch {
			angle = -angle
		}
		d.hatch(leaf.Hatch, false, angle, 0.9, corners(b))
		d.add(leaf.Text{At: d.letterPlace(c, b), S: r.letter, Strong: true, Anchor: leaf.Middle, Halo: true})
	}
	return rows
}

// windowMark draws an opening through the strip: nothing of the kerfs is left
// in it.
func (d *stripDrawing) windowMark(c piece.Cut, letter string) {
	d.add(leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: d.region(c.Region)})
	b := d.box(c.X0.V, c.Y0.V, c.X1.V, c.Y1.V)
	d.add(leaf.Text{At: pt((b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2), S: letter, Strong: true, Anchor: leaf.Middle})
}

// letterPlace puts a cut's letter beside it, inside the strip.
func (d *stripDrawing) letterPlace(c piece.Cut, b r2.Box) r2.Vec {
	mid := (b.Min.Y + b.Max.Y) / 2
	if b.Size().X > b.Size().Y*3 { // runs along the strip: above it, near the datum end
		x := max(b.Min.X, min(d.free, b.Max.X))
		if x != d.free {
			x = (b.Min.X + b.Max.X) / 2
		}
		if b.Min.Y-1 > d.y(0)+3 {
			return pt(x, b.Min.Y-1)
		}
		return pt(x, b.Max.Y+2.8)
	}
	if d.x(d.q.Length.V)-b.Max.X > 6 {
		return pt(b.Max.X+2, mid-3)
	}
	return pt(b.Min.X-2, mid-3)
}

// places draws the running dimensions along the strip, and returns how far
// down they reach.
func (d *stripDrawing) places() float64 {
	q := d.q
	all := []place{{at: d.x(0), text: "0", origin: true}, {at: d.x(q.Length.V), text: d.size(q.Length.V, 1)}}
	put := func(x float64) { all = append(all, place{at: d.x(x), text: d.size(x, 1)}) }
	for _, b := range q.Bends {
		put(b.Start.V)
		put(b.Start.V + b.Length.V)
	}
	for _, c := range q.Cuts {
		put(c.X0.V)
		if c.Kind == piece.Hole || c.Kind == piece.HoleRow {
			continue
		}
		put(c.X1.V)
	}
	longest := 0.0
	for _, a := range all {
		longest = max(longest, leaf.Width(a.text, leaf.Name, false, false))
	}
	edge := d.y(q.Width.V)
	d.running(axis{Line: edge + lineOutside, Edge: edge, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, all)
	return edge + lineOutside + levelKneed + longest
}

func (d *stripDrawing) alt() string {
	var words []string
	for _, b := range d.q.Bends {
		words = append(words, fmt.Sprintf("a bend of %s with %d kerfs at the corner %s, from %s to %s",
			deg(b.Angle.V, 2), len(b.Kerfs), b.Corner, d.size(b.Start.V, 1), d.size(b.Start.V+b.Length.V, 1)))
	}
	return fmt.Sprintf("The strip %s laid flat, %s, with %s and %d other cuts, measured from the datum end.",
		d.q.Name, d.by(d.q.Length.V, d.q.Width.V), strings.Join(words, ", "), len(d.q.Cuts))
}

// atLeast widens a box to a least size on paper, about its middle.
func atLeast(b r2.Box, least float64) r2.Box {
	if g := least - b.Size().X; g > 0 {
		b.Min.X, b.Max.X = b.Min.X-g/2, b.Max.X+g/2
	}
	if g := least - b.Size().Y; g > 0 {
		b.Min.Y, b.Max.Y = b.Min.Y-g/2, b.Max.Y+g/2
	}
	return b
}
