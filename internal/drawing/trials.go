package drawing

import (
	"fmt"
	"strconv"

	fits "rodwork/internal/fit"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// Trials are the figures of all test pieces: of a fit the step test piece, of a
// bend the strip that is bent and the piece that tells its hinge.
func Trials(p *plan.Plan, opt Options) []leaf.Leaf {
	var out []leaf.Leaf
	for i := range p.Tests {
		out = append(out, Trial(p, i, opt)...)
	}
	return out
}

// Trial is the figures of one test piece, none where it has nothing to show.
func Trial(p *plan.Plan, i int, opt Options) []leaf.Leaf {
	in := p.FitInput()
	t := &in.Tests[i]
	if t.Kind == "fit" {
		if steps := in.Steps(t); len(steps) > 0 {
			return []leaf.Leaf{stepPiece(p, i, steps, opt)}
		}
		return nil
	}
	for _, q := range p.Piece.Parts {
		for _, b := range q.Bends {
			if q.ID+"/bend "+b.Corner == t.Bend && b.Plan.Count > 1 {
				out := []leaf.Leaf{bendStrip(q, b, i, t, opt)}
				if !b.Plan.Spec.Outside {
					out = append(out, hingePiece(q, b, i, opt))
				}
				return out
			}
		}
	}
	return nil
}

// trialDrawing is a test piece seen from its edge, with its cuts up.
type trialDrawing struct {
	pen
	ink
	k         float64
	left, top float64
}

func (d *trialDrawing) x(v float64) float64 { return d.left + v*d.k }

// slots draws the edge view: the upper face with its slots, each as deep as told.
func (d *trialDrawing) slots(length, thick float64, cuts [][3]float64) (low float64) {
	low = d.top + thick*d.k
	ps := []r2.Vec{pt(d.x(0), d.top)}
	for _, c := range cuts {
		a, b, floor := d.x(c[0]), d.x(c[1]), d.top+c[2]*d.k
		ps = append(ps, pt(a, d.top), pt(a, floor), pt(b, floor), pt(b, d.top))
	}
	ps = append(ps, pt(d.x(length), d.top))
	d.line(leaf.Cut, ps...)
	d.line(leaf.Cut, pt(d.x(length), d.top), pt(d.x(length), low), pt(d.x(0), low), pt(d.x(0), d.top))
	return low
}

// stepPiece draws a step test piece with a scrap standing in its middle slot.
func stepPiece(p *plan.Plan, i int, steps []fits.Step, opt Options) leaf.Leaf {
	t := p.Tests[i]
	var u work.SetUp
	for _, s := range p.SetUps {
		if s.Number == t.SetUp {
			u = s
		}
	}
	thick := stockThick(p, t.Stock)
	d := &trialDrawing{ink: ink{systemOf(opt)}, k: 164 / t.Length.V, left: 23, top: 44}
	var cuts [][3]float64
	for _, s := range steps {
		cuts = append(cuts, [3]float64{s.From, s.From + s.Width, t.Deep.V})
	}
	low := d.slots(t.Length.V, thick, cuts)
	mid := steps[len(steps)/2]
	d.scrap(mid, t)
	for k, s := range steps {
		c := d.x(s.From + s.Width/2)
		y := d.top - 2.2
		if k == len(steps)/2 {
			y = d.top - 32
		}
		d.add(leaf.Text{At: pt(c, y), S: d.fine(s.Width, 2), Size: leaf.Name, Anchor: leaf.Middle, Halo: true})
		d.add(leaf.Text{At: pt(c, y-4.4), S: "play " + d.fine(s.Clearance, 2), Anchor: leaf.Middle, Strong: k == len(steps)/2, Halo: true})
	}
	places := []place{{at: d.x(0), text: "0", origin: true}, {at: d.x(t.Length.V), text: d.size(t.Length.V, 1)}}
	for _, s := range steps {
		places = append(places, place{at: d.x(s.From), text: d.fine(s.From, 2)})
	}
	d.running(axis{Line: low + lineOutside, Edge: low, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, places)
	y := low + 24
	if steps[0].Move > 0 {
		y = d.moves(y, steps)
	}
	d.scaleBar(pt(leaf.Margin+2, y), d.k, 45, d.sys, "")
	return leaf.Leaf{
		Key: fmt.Sprintf("test-%d-steps", i+1), Title: fmt.Sprintf("Step test piece: %s, %s fit", u.Kind, t.Fit), Right: t.Stock + " · set-up " + strconv.Itoa(u.Number) + " · " + u.With,
		Caption: fmt.Sprintf("Five slots, %s deep, in one offcut %s wide, each a little wider than the last; the middle one is what the joint is planned with. "+
			"A scrap of %s goes from one to the next: the one that feels as a %s fit should tells the clearance.", d.fine(t.Deep.V, 2), d.size(t.Width.V, 1), t.Other, t.Fit),
		Alt: fmt.Sprintf("A test piece of %s in edge view with five slots of rising width, their clearances from %s to %s, and a scrap of %s standing in the middle one.",
			t.Stock, d.fine(steps[0].Clearance, 2), d.fine(steps[len(steps)-1].Clearance, 2), t.Other),
		W: 210, H: y + 3, Items: d.items,
	}
}

// scrap is the panel that is tried, broken off above the middle slot.
func (d *trialDrawing) scrap(s fits.Step, t work.TestPiece) {
	panel := t.Want.V - t.Clearance.V
	c := d.x(s.From + s.Width/2)
	a, b := c-panel*d.k/2, c+panel*d.k/2
	foot, head := d.top+t.Deep.V*d.k, d.top-26.0
	d.add(leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: run(pt(a, head), pt(a, foot), pt(b, foot), pt(b, head))})
	d.zigzag(pt(a-1.5, head), pt(b+1.5, head))
	d.add(leaf.Text{At: pt(c+1, d.top-6), S: t.Other, Italic: true, Up: true, Halo: true})
}

// moves tells how far the fence is moved for the last run of each slot.
func (d *trialDrawing) moves(y float64, steps []fits.Step) float64 {
	d.add(leaf.Text{At: pt(leaf.Margin+2, y), S: "last run moved by", Italic: true})
	for _, s := range steps {
		d.add(leaf.Text{At: pt(d.x(s.From+s.Width/2)+8, y), S: d.fine(s.Move, 2), Size: leaf.Name, Anchor: leaf.Middle})
	}
	return y + 10
}

// hingePiece draws the piece that tells how long the hinge under a kerf is.
func hingePiece(q *piece.Part, b piece.Bend, i int, opt Options) leaf.Leaf {
	h := fits.Hinge(b)
	t := q.Thick.V
	d := &trialDrawing{ink: ink{systemOf(opt)}, k: 168 / h.Length, left: 24, top: 24}
	var cuts [][3]float64
	for _, c := range h.Kerfs {
		cuts = append(cuts, [3]float64{c.At - c.Width/2, c.At + c.Width/2, b.Plan.Depth})
	}
	low := d.slots(h.Length, t, cuts)
	d.bench(h, low)
	places := []place{{at: d.x(0), text: "0", origin: true}, {at: d.x(h.Length), text: d.size(h.Length, 1)}, {at: d.x(h.Weight), text: d.size(h.Weight, 1)}}
	for _, c := range h.Kerfs {
		places = append(places, place{at: d.x(c.At), text: d.fine(c.At, 1)})
		word := "1"
		if c.Double {
			word = "2"
		}
		d.add(leaf.Text{At: pt(d.x(c.At), d.top-1.6), S: word, Anchor: leaf.Middle, Strong: c.Double})
	}
	d.add(leaf.Text{At: pt(d.x(h.Kerfs[0].At)-4, d.top-1.6), S: "passes", Italic: true, Anchor: leaf.End})
	d.running(axis{Line: low + 15, Edge: low + 1, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, places)
	y := low + 36
	d.scaleBar(pt(leaf.Margin+2, y), d.k, 45, d.sys, "")
	return leaf.Leaf{
		Key: fmt.Sprintf("test-%d-hinge", i+1), Title: "Test piece for the hinge, " + b.Corner, Right: fmt.Sprintf("%s · kerfs %s deep", q.Stock.Name, d.fine(b.Plan.Depth, 2)),
		Caption: fmt.Sprintf("Kerfed face up, %s wide, the grain as in the part. Single kerfs and doubled ones in the order 1 2 2 1, so that both are as far from the pull; "+
			"a doubled one's second pass is moved by %s. Each mouth is measured before and under the pull.", d.size(h.Width, 1), d.fine(h.Move, 2)),
		Alt: fmt.Sprintf("A strip %s long in edge view with twelve kerfs, half of them doubled, clamped at the datum end and pulled up at the other, so that the kerfs close.", d.size(h.Length, 1)),
		W:   210, H: y + 3, Items: d.items,
	}
}

// bench draws the clamped end and the pull at the other: upwards, so that the
// kerfs on the upper face close.
func (d *trialDrawing) bench(h fits.HingePiece, low float64) {
	end := d.x(h.Grip)
	field := []r2.Vec{pt(d.x(0)-3, low), pt(end, low), pt(end, low+6), pt(d.x(0)-3, low+6)}
	d.hatch(leaf.Hatch, false, -0.785, 1.7, field)
	d.line(leaf.Visible, pt(d.x(0)-3, low), pt(end, low), pt(end, low+6))
	d.add(leaf.Text{At: pt((d.x(0)+end)/2, low+4), S: "bench", Italic: true, Anchor: leaf.Middle, Halo: true})
	mid := (d.x(0) + end) / 2
	d.line(leaf.Centre, pt(mid, d.top-12), pt(mid, d.top))
	d.arrow(pt(mid, d.top), pt(mid, d.top-12))
	d.add(leaf.Text{At: pt(mid+1.6, d.top-9.6), S: "clamp"})
	x := d.x(h.Weight)
	d.line(leaf.Centre, pt(x, d.top), pt(x, d.top-14))
	d.arrow(pt(x, d.top-14), pt(x, d.top))
	d.add(leaf.Text{At: pt(x-1.6, d.top-10.6), S: "pull, by a weight over a roller", Anchor: leaf.End})
}

// stockThick is a stock's thickness as measured.
func stockThick(p *plan.Plan, name string) float64 {
	if p.Design == nil || p.Design.Shop == nil {
		return 18
	}
	for _, s := range p.Design.Shop.Stocks {
		if s.Name == name {
			return s.Thickness.Mean.V
		}
	}
	return 18
}
