// Package making turns a piece into what the maker must have at hand: what
// each part weighs and where its centre lies, what is to be bought, and how the
// tools are set.
//
// # Mass
//
// A part's volume is its outline times its thickness, less what its cuts take;
// a bent strip's kerfs are cuts too. Its mass is that volume times the density
// of its stock, as the shop file has it. Centres are first moments of the same
// bodies, so that the whole piece's centre is right to the millimetre wherever
// two cuts do not cross (a crossing is taken off twice, some cubic millimetres).
//
// # Buying
//
// What the layouts use of a stock, less what is in hand, is to be bought in
// whole sheets and sticks. Fittings are added up by their name in the shop.
// Glue is the glued area times the shop's spread. What has no price in the shop
// file is listed without one and adds nothing to the sum, which is then said
// to be too low.
//
// # What is bent on
//
// A strip is pulled round a former: boards that stand across it, each with the
// curve of the bend's inside and two straight legs, with blocks between them and
// two cauls for the clamps. A stack of plies springs back, so its former is
// tighter and turns further. They are no parts of the piece: Aids lists them,
// WithAids puts those with a stock of their own on the layouts, PlaceAids finds
// an offcut for the rest. Ways compares the ways to make each bend.
//
// # Set-ups
//
// A joiner sets a tool once and makes all that this setting makes. So every cut
// of every part gets a cutter, and cuts that share tool, cutter, depth and the
// distance of stop or fence are one set-up. A slot is cut by the fattest router
// bit that goes in and reaches its floor; an open rabbet by the leanest that
// takes it in one run, since a bit may hang over the edge. The slot's width over
// the bit's diameter gives the runs side by side, its depth over 3.2 mm the
// passes. A saw makes a slot where the piece file names it for the joint and the
// slot runs from edge to edge. Rabbets are set from the edge that they open to,
// if that edge is finished already, all else from the part's datum.
//
// Set-ups come in this order: the datum end of an overlong part is squared; the
// router's slots, lean bits first; notches; holes; shaped outlines; kerfs, after
// all that needs a stiff strip; ends that are trimmed last; and, after the glue,
// parts that wait for their opening. Before each fit and each bend goes a test
// piece from a kept offcut.
package making

import (
	"math"

	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Masses returns a line for each part, in the order of the parts, and the mass
// of all of them, kg.
func Masses(p *piece.Piece) ([]work.MassLine, trace.Num) {
	out := make([]work.MassLine, 0, len(p.Parts))
	var sum trace.Num
	for _, q := range p.Parts {
		l := massOf(p, q)
		out = append(out, l)
		sum = sum.Add(l.Mass)
	}
	return out, sum
}

func massOf(p *piece.Piece, q *piece.Part) work.MassLine {
	b := bodyOf(p, q)
	m := q.Mass
	if m.V <= 0 && q.Stock != nil {
		m = b.volume.Mul(q.Stock.Density)
	}
	if len(q.Bends) > 0 {
		x, y, z := stripCentre(p, q, b.centre())
		return work.MassLine{Part: q.ID, Mass: m, X: x, Y: y, Z: z}
	}
	c := b.centre()
	at := [3]trace.Num{}
	for k := range at {
		at[k] = origin(q, k)
		for i, d := range []float64{axis(q, 0, k), axis(q, 1, k), axis(q, 2, k)} {
			if d != 0 {
				at[k] = at[k].Add(c[i].Scale(d))
			}
		}
	}
	return work.MassLine{Part: q.ID, Mass: m, X: at[0], Y: at[1], Z: at[2]}
}

// origin is the part's datum in the piece, traced where the compiler traced it.
func origin(q *piece.Part, k int) trace.Num {
	v := [3]float64{q.Pose.O.X, q.Pose.O.Y, q.Pose.O.Z}[k]
	if q.Origin[k].V == 0 && v != 0 {
		return trace.Const(v)
	}
	return q.Origin[k]
}

// axis is component k of the part's i-th unit vector.
func axis(q *piece.Part, i, k int) float64 {
	d := [3][3]float64{
		{q.Pose.X.X, q.Pose.X.Y, q.Pose.X.Z},
		{q.Pose.Y.X, q.Pose.Y.Y, q.Pose.Y.Z},
		{q.Pose.Z.X, q.Pose.Z.Y, q.Pose.Z.Z},
	}[i][k]
	if math.Abs(d) < 1e-12 {
		return 0
	}
	return d
}

// body is a volume with its first moments, in a part's own frame.
type body struct {
	volume trace.Num
	moment [3]trace.Num
}

func (b *body) add(sign float64, volume trace.Num, centre [3]trace.Num) {
	b.volume = b.volume.Add(volume.Scale(sign))
	for k := range b.moment {
		b.moment[k] = b.moment[k].Add(volume.Mul(centre[k]).Scale(sign))
	}
}

func (b *body) centre() [3]trace.Num {
	var c [3]trace.Num
	if b.volume.V <= 0 {
		return c
	}
	for k := range c {
		c[k] = b.moment[k].Div(b.volume)
	}
	return c
}

// bodyOf is the outline through the thickness, less the cuts.
func bodyOf(p *piece.Piece, q *piece.Part) body {
	var b body
	mid := [3]trace.Num{q.Length.Scale(0.5), q.Width.Scale(0.5), q.Thick.Scale(0.5)}
	if len(q.Bevels) > 0 {
		b = sawnBody(q)
	} else {
		b.add(1, q.Length.Mul(q.Width).Mul(q.Thick), mid)
		for _, c := range corners(p, q) {
			b.add(-1, c.area.Mul(q.Thick), [3]trace.Num{c.x, c.y, mid[2]})
		}
	}
	for _, c := range q.Cuts {
		cutAway(&b, q, c)
	}
	for _, bend := range q.Bends {
		if bend.Plan.Count == 0 {
			continue
		}
		slot := bend.Count.Mul(bend.Depth).Scale(bend.Plan.Spec.Kerf)
		mid := [3]trace.Num{bend.Start.Add(bend.Length.Scale(0.5)), q.Width.Scale(0.5), bend.Depth.Scale(0.5)}
		b.add(-1, slot.Mul(q.Width), mid)
		for _, c := range q.Cuts { // a window has taken its share of the slots already
			if c.Kind == piece.Window && c.X0.V <= bend.Start.V && c.X1.V >= bend.Start.V+bend.Length.V {
				mid[1] = c.Y0.Add(c.Y1).Scale(0.5)
				b.add(1, slot.Mul(c.Y1.Sub(c.Y0)), mid)
			}
		}
	}
	return b
}

// cutAway takes a cut out of the body.
func cutAway(b *body, q *piece.Part, c piece.Cut) {
	depth := c.Depth
	if c.Through || depth.V > q.Thick.V {
		depth = q.Thick
	}
	if c.Face.Narrow() && c.Kind != piece.EndGroove {
		narrowAway(b, q, c)
		return
	}
	z := depth.Scale(0.5)
	if c.Face == piece.FaceA {
		z = q.Thick.Sub(z)
	}
	if c.Kind == piece.Hole || c.Kind == piece.HoleRow {
		round := c.Diameter.Mul(c.Diameter).Scale(math.Pi / 4).Mul(depth)
		n := float64(max(c.Count, 1))
		mid := (n - 1) / 2
		b.add(-1, round.Scale(n), [3]trace.Num{c.X0.Add(c.StepX.Scale(mid)), c.Y0.Add(c.StepY.Scale(mid)), z})
		return
	}
	x0, x1 := within(c.X0, c.X1, q.Length)
	y0, y1 := within(c.Y0, c.Y1, q.Width)
	w, h := x1.Sub(x0), y1.Sub(y0)
	if w.V <= 0 || h.V <= 0 {
		return
	}
	mid := [3]trace.Num{x0.Add(x1).Scale(0.5), y0.Add(y1).Scale(0.5), z}
	area := w.Mul(h)
	if len(c.Region) > 0 && c.Kind != piece.Window { // a lap is as its partner; a window's rounded corners are left square
		area = area.Scale(c.Region.Area() / area.V)
		at := c.Region.Centroid()
		mid[0], mid[1] = mid[0].Plus(at.X-mid[0].V), mid[1].Plus(at.Y-mid[1].V)
	}
	b.add(-1, area.Mul(depth), mid)
}

// narrowAway takes out what is cut from an edge or an end.
func narrowAway(b *body, q *piece.Part, c piece.Cut) {
	n := float64(max(c.Count, 1))
	mid := (n - 1) / 2
	x, y := c.X0.Add(c.StepX.Scale(mid)), c.Y0.Add(c.StepY.Scale(mid))
	volume := c.Diameter.Mul(c.Diameter).Scale(math.Pi / 4 * n).Mul(c.Depth)
	if c.Kind != piece.Hole && c.Kind != piece.HoleRow {
		x, y = c.X0.Add(c.X1).Scale(0.5), c.Y0.Add(c.Y1).Scale(0.5)
		volume = c.X1.Sub(c.X0).Mul(c.Y1.Sub(c.Y0)).Mul(c.Depth)
	}
	half := c.Depth.Scale(0.5)
	switch c.Face {
	case piece.EndLow:
		b.add(-1, volume, [3]trace.Num{half, x, y})
	case piece.EndHigh:
		b.add(-1, volume, [3]trace.Num{q.Length.Sub(half), x, y})
	case piece.EdgeLow:
		b.add(-1, volume, [3]trace.Num{x, half, y})
	case piece.EdgeHigh:
		b.add(-1, volume, [3]trace.Num{x, q.Width.Sub(half), y})
	}
}

// within cuts a stretch to what lies on the part.
func within(a, b, size trace.Num) (trace.Num, trace.Num) {
	if b.V < a.V {
		a, b = b, a
	}
	if a.V < 0 {
		a = trace.Num{}
	}
	if b.V > size.V {
		b = size
	}
	return a, b
}
