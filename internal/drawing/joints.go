package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// Measures of the leaf of joints, paper mm.
const (
	jointWide  = 93.0 // of a cell; there are two beside each other
	jointField = 48.0 // most that a section takes across
	jointTall  = 42.0 // and upright
	jointHead  = 24.0 // name and notes over it
	jointFoot  = 21.0 // its lowest dimension and the scale bar
	gapDrawn   = 1.0  // a clearance, each side
	glueBand   = 0.95
	mostJoints = 6 // on one leaf
)

// Joints returns sections of the joints of a piece, each kind and size once,
// enlarged.
func Joints(p *plan.Plan, opt Options) []leaf.Leaf {
	if p.Piece == nil {
		return nil
	}
	kinds, counts := jointKinds(p.Piece)
	var leaves []leaf.Leaf
	for len(kinds) > 0 {
		n := min(len(kinds), mostJoints)
		d := &jointDrawing{ink: ink{systemOf(opt)}, pc: p.Piece}
		key, title := "joints", "Joints in section"
		if len(leaves) > 0 {
			key = "joints-" + strconv.Itoa(len(leaves)+1)
			title = "More joints in section"
		}
		leaves = append(leaves, d.leaf(key, title, kinds[:n], counts))
		kinds = kinds[n:]
	}
	return leaves
}

// jointKinds finds a joint of each kind and size, one with two flat parts where
// there is one, and how many are like it.
func jointKinds(pc *piece.Piece) (kinds []jointCut, counts map[string]int) {
	fromLeft := viewDrawing{pc: pc}.fromLeft()
	counts = map[string]int{}
	at := map[string]int{}
	for _, j := range pc.Joints {
		plain := isPlainKind(&j)
		if !plain && (j.Kind != "housing" && j.Kind != "rabbet" && j.Kind != "groove" || !(j.Depth.V > 0)) {
			continue
		}
		c := jointCut{j: j, a: pc.Part(j.A), b: pc.Part(j.B)}
		if c.a == nil || c.b == nil {
			continue
		}
		key := c.likeness()
		counts[key]++
		i, have := at[key]
		if have && (len(kinds[i].a.Run) == 0 || len(c.a.Run) > 0) {
			continue
		}
		cutter := cutJoint
		if plain {
			cutter = cutPlain
		}
		c, ok := cutter(pc, j, fromLeft)
		switch {
		case ok && have:
			kinds[i] = c
		case ok:
			at[key] = len(kinds)
			kinds = append(kinds, c)
		}
	}
	return kinds, counts
}

type jointDrawing struct {
	pen
	ink
	pc *piece.Piece
}

func (d *jointDrawing) leaf(key, title string, kinds []jointCut, counts map[string]int) leaf.Leaf {
	y, row := 4.0, 0.0
	var names []string
	glued, open := false, false
	for i := range kinds {
		c := &kinds[i]
		left := leaf.Margin + jointWide*float64(i%2)
		if i%2 == 0 {
			y, row = y+row, 0
		}
		row = max(row, d.cell(c, left, y, counts[c.likeness()]))
		names = append(names, c.b.Name+" in "+c.a.Name)
		glued, open = glued || c.j.Glued, open || c.gaps != [2]float64{}
	}
	caption := "Each kind and size of joint once, cut square to both parts. Thicknesses are those measured."
	if glued {
		caption += " Crossed hatch: glue."
	}
	if open {
		caption += " Only gaps are stretched, as often as stands there."
	}
	return leaf.Leaf{
		Key: key, Title: title, Right: d.pc.Name, Caption: caption,
		Alt: fmt.Sprintf("Enlarged sections of joints: %s.", strings.Join(names, "; ")),
		W:   210, H: y + row + 1, Items: d.items,
	}
}

// cell draws one joint with its words; it returns the height taken.
func (d *jointDrawing) cell(c *jointCut, left, top float64, count int) float64 {
	if c.plain != nil {
		return d.plainCell(c, left, top, count)
	}
	held := c.held()
	size := held.Size()
	k := min(jointField/max(size.X, 0.1), jointTall/max(size.Y, 0.1))
	x := left + (jointWide-size.X*k)/2 - 1
	y := top + jointHead
	f := frame{At: pt(x, y+size.Y*k), O: held.Min, K: k}
	d.words(c, left, top, k, count)
	d.parts(c, f, k)
	paper := f.box(held.Min.X, held.Min.Y, held.Max.X, held.Max.Y)
	d.measures(c, f, paper)
	foot := paper.Max.Y + jointFoot - 4
	d.scaleBar(pt(left+4, foot), k, 28, d.sys, "")
	return foot + 6 - top
}

// stretch is by how much a gap is drawn too wide, a round factor.
func stretch(gap, k float64) float64 {
	if !(gap > 0) {
		return 1
	}
	last := 1.0
	for _, n := range []float64{1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30, 40, 50, 75, 100} {
		if last = n; gap*k*n >= 0.95*gapDrawn {
			break
		}
	}
	return last
}

func (d *jointDrawing) words(c *jointCut, left, top, k float64, count int) {
	room := jointWide - 6
	d.add(leaf.Text{At: pt(left, top+3), S: leaf.Shorten(c.b.Name+" in "+c.a.Name, leaf.Name, true, false, room), Size: leaf.Name, Italic: true})
	tB := c.b.Thick.V
	first := fmt.Sprintf("%s %s deep for %s", c.j.Kind, d.fine(c.j.Depth.V, 2), d.fine(tB, 2))
	if gap := max(c.gaps[0], c.gaps[1]); gap > 0 {
		where := "on one side"
		if math.Abs(c.gaps[0]-c.gaps[1]) < 0.005 {
			where = "each side"
		}
		first = fmt.Sprintf("%s %s wide for %s, %s: %s %s", c.j.Kind, d.fine(tB+c.j.Clearance.V, 2), d.fine(tB, 2), c.j.Fit, d.fine(gap, 2), where)
		if n := stretch(gap, k); n > 1 {
			first += ", drawn × " + strconv.FormatFloat(n, 'f', -1, 64)
		}
	}
	var rest []string
	if short, deep := c.stop(); short > 0 && c.j.Kind == "housing" {
		rest = append(rest, fmt.Sprintf("stopped %s from the front, %d notched %s there", d.size(short, 1), c.b.Number, d.size(deep, 1)))
	}
	if count > 1 {
		rest = append(rest, fmt.Sprintf("%d such joints", count))
	}
	d.note(pt(left, top+7.4), leaf.Start, leaf.Shorten(first, leaf.Note, false, false, room))
	d.note(pt(left, top+11), leaf.Start, leaf.Shorten(strings.Join(rest, "; "), leaf.Note, false, false, room))
}

// parts draws both sections, the glue, and the numbers of the parts.
func (d *jointDrawing) parts(c *jointCut, f frame, k float64) {
	gap := max(c.gaps[0], c.gaps[1])
	times := stretch(gap, k)
	a, b := face{q: c.a, region: c.spreadApart(times), way: c.to(1, 0)}, face{q: c.b, region: c.inB}
	for _, one := range []face{a, b} {
		d.add(leaf.Path{Fill: leaf.Paper, Segs: f.region(one.region)})
		d.layers(f, c.view, one)
	}
	if c.j.Glued {
		d.glueOf(c, f, gap, times)
	}
	d.outline(c, f, c.inA, times)
	d.outline(c, f, c.inB, 1)
	aMid := (c.outer+c.inner)/2 - c.side()*0.18*c.a.Thick.V
	for _, t := range []float64{0.12, 0.88} { // where A is whole
		lo, hi := c.inA.Extent(c.to(0, 1))
		at := c.to(aMid, lo+(hi-lo)*t)
		if c.inA.Contains(at) && c.inA.Contains(c.to(c.inner-c.side()*0.2, lo+(hi-lo)*t)) {
			d.number(f.at(c.apart(at, times)), c.a.Number)
			break
		}
	}
	d.number(f.at(c.to(c.inner+c.side()*0.55*max(c.a.Thick.V, c.b.Thick.V), c.mid)), c.b.Number)
}

func (d *jointDrawing) number(at r2.Vec, n int) {
	d.add(leaf.Text{At: pt(at.X, at.Y+leaf.Name.Cap()/2), S: strconv.Itoa(n), Size: leaf.Name, Strong: true, Anchor: leaf.Middle, Halo: true})
}

// outline draws a section's edges wide, and breaks it where the window ends.
func (d *jointDrawing) outline(c *jointCut, f frame, r planar.Region, times float64) {
	for _, l := range r.Loops() {
		var chain []r2.Vec
		flush := func() {
			if len(chain) > 1 {
				d.line(leaf.Cut, chain...)
			}
			chain = nil
		}
		// Start after a break, so that runs are whole.
		start := 0
		for i, e := range l.Edges() {
			if c.atRim(e) {
				start = i + 1
			}
		}
		for i := range l {
			e := l.Edge((start + i) % len(l))
			p, q := f.at(c.apart(e.A, times)), f.at(c.apart(e.B, times))
			if c.atRim(e) {
				flush()
				u := q.Sub(p).Unit().Mul(1.5)
				d.zigzag(p.Sub(u), q.Add(u))
				continue
			}
			if len(chain) == 0 {
				chain = append(chain, p)
			}
			chain = append(chain, q)
		}
		if start == 0 && len(chain) > 1 {
			d.add(leaf.Path{Line: leaf.Cut, Segs: ring(chain[:len(chain)-1]...)})
			continue
		}
		flush()
	}
}

// atRim tells whether an edge comes from the window and not from the part.
func (c *jointCut) atRim(e planar.Edge) bool {
	const near = 1e-4
	w := c.window
	on := func(a, b, rim float64) bool { return math.Abs(a-rim) < near && math.Abs(b-rim) < near }
	return on(e.A.X, e.B.X, w.Min.X) || on(e.A.X, e.B.X, w.Max.X) || on(e.A.Y, e.B.Y, w.Min.Y) || on(e.A.Y, e.B.Y, w.Max.Y)
}

// glueOf hatches where the two parts meet: the gaps, and a band over the faces
// that touch.
func (d *jointDrawing) glueOf(c *jointCut, f frame, gap, times float64) {
	for _, l := range c.inA.Loops() {
		for _, e := range l.Edges() {
			if c.atRim(e) || !c.inB.OnEdge(e.At(0.5), gap+0.05) {
				continue
			}
			p, q := f.at(c.apart(e.A, times)), f.at(c.apart(e.B, times))
			n := q.Sub(p).Unit().Left().Mul(glueBand / 2)
			field := []r2.Vec{p.Add(n), q.Add(n), q.Sub(n), p.Sub(n)}
			if a0, b0 := c.of(e.A); gap > 0 {
				a1, b1 := c.of(e.B)
				if math.Abs(b1-b0) < math.Abs(a1-a0) { // a wall of the recess
					wall := c.mid + sign(b0-c.mid)*c.b.Thick.V/2
					field = []r2.Vec{p, q, f.at(c.to(a1, wall)), f.at(c.to(a0, wall))}
				} else { // its floor, as wide as B
					half := c.b.Thick.V / 2
					p, q = f.at(c.to(a0, c.mid-half)), f.at(c.to(a0, c.mid+half))
					n = q.Sub(p).Unit().Left().Mul(glueBand / 2)
					field = []r2.Vec{p.Add(n), q.Add(n), q.Sub(n), p.Sub(n)}
				}
			}
			d.hatch(leaf.Hatch, true, math.Pi/4, 0.6, field)
			d.hatch(leaf.Hatch, true, -math.Pi/4, 0.6, field)
		}
	}
}

// measures draws A's thickness, the depth of the recess, and B's thickness.
func (d *jointDrawing) measures(c *jointCut, f frame, paper r2.Box) {
	tA, tB := d.fine(c.a.Thick.V, 2), d.fine(c.b.Thick.V, 2)
	deep := d.fine(c.j.Depth.V, 2) + " deep"
	at := func(a, b float64) r2.Vec { return f.at(c.to(a, b)) }
	outer, inner, floor := at(c.outer, c.mid), at(c.inner, c.mid), at(c.floor(), c.mid)
	b0, b1 := at(c.inner, c.mid-c.b.Thick.V/2), at(c.inner, c.mid+c.b.Thick.V/2)
	end := at(c.inner+c.side()*0.9*max(c.a.Thick.V, c.b.Thick.V), c.mid)
	if c.upright {
		d.upright(outer.Y, inner.Y, paper.Min.X-6, paper.Min.X, tA)
		d.upright(floor.Y, inner.Y, paper.Max.X+6, paper.Max.X, deep)
		d.across(min(b0.X, b1.X), max(b0.X, b1.X), end.Y+6*sign(end.Y-inner.Y), end.Y, tB, false)
		return
	}
	d.across(min(outer.X, inner.X), max(outer.X, inner.X), paper.Min.Y-5, paper.Min.Y, tA, false)
	d.across(min(floor.X, inner.X), max(floor.X, inner.X), paper.Max.Y+7, paper.Max.Y, deep, floor.X < inner.X)
	d.upright(b0.Y, b1.Y, end.X+6*sign(end.X-inner.X), end.X, tB)
}
