package check

import (
	"math"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// clothing is what drawers are tried full of, kg/mm³: 8.5 lb/ft³, 136 kg/m³, the
// load of drawers in United States rules for clothing storage (87 FR 72598,
// quoted; that ASTM F2057-23 keeps it, from memory).
const clothing = 136.2e-9

// door is a leaf or a drawer with the way that it opens: a leaf to an angle, a drawer
// straight out by the length of its slides, as if they let it out whole, which
// is cautious for those that stop it earlier.
type door struct {
	id        string
	parts     []string  // ids of what moves with it
	width     trace.Num // of a leaf
	head      trace.Num // y of its upper edge
	edgeX     trace.Num // of the hinge line; the middle of a drawer
	face      trace.Num // z of its outer face
	thick     trace.Num
	rightHung bool
	drawer    bool
	travel    trace.Num    // of a drawer
	angle     float64      // to which a leaf stands open, rad
	clear     trace.Num    // mm³ that a drawer holds
	middle    [3]trace.Num // of that room
}

// edge is where a child hangs: the outer edge of an open leaf, the middle of a
// drawer's front.
func (d door) edge() (x, z trace.Num) {
	if d.drawer {
		return d.edgeX, d.face.Add(d.travel)
	}
	return d.leaf(1)
}

// leaf is a place of an open leaf, a share of its width from its hinges.
func (d door) leaf(share float64) (x, z trace.Num) {
	sin, cos := math.Sincos(d.angle)
	if d.rightHung {
		cos = -cos
	}
	return d.edgeX.Add(d.width.Scale(share * cos)), d.face.Add(d.width.Scale(share * sin))
}

// doorsOf lists the doors that are hung, by the part that they hang on.
func doorsOf(p *piece.Piece) []door {
	var out []door
	for _, j := range p.Joints {
		q := p.Part(j.B)
		if j.Kind != "hinges" || q == nil || q.Role != piece.Door {
			continue
		}
		d := door{id: q.ID, parts: []string{q.ID}, width: q.Width, thick: q.Thick, rightHung: j.Enter.X > 0}
		// Doors stand with their length upright and their width to the left of
		// the datum.
		right := q.Origin[0]
		d.edgeX = right.Sub(q.Width)
		if d.rightHung {
			d.edgeX = right
		}
		d.head, d.face = q.Origin[1].Add(q.Length), q.Origin[2].Add(q.Thick)
		out = append(out, d)
	}
	return out
}

// drawersOf lists the drawers, by their boxes' floors. A box's parts share its
// path; its front is screwed on.
func drawersOf(in Input) []door {
	var out []door
	for _, q := range in.Piece.Parts {
		if q.Role != piece.DrawerFloor {
			continue
		}
		d := door{id: "drawer with " + q.Name, drawer: true, edgeX: q.Origin[0].Add(q.Length.Scale(0.5)), width: q.Length, face: q.Origin[2]}
		for i := range in.Design.Drawers {
			if w := &in.Design.Drawers[i]; w.Path == q.Path && w.Slide != nil {
				d.travel = w.Slide.Length
			}
		}
		if d.travel.V <= 0 {
			continue
		}
		d.box(in.Piece, q)
		out = append(out, d)
	}
	return out
}

// box gathers what moves with a drawer's floor. Its room is taken over the floor
// from edge to edge, some millimetres more than is clear, which is cautious.
func (d *door) box(p *piece.Piece, floor *piece.Part) {
	rise := trace.Num{}
	for _, q := range p.Parts {
		if q.Path != floor.Path {
			continue
		}
		d.parts = append(d.parts, q.ID)
		if q.Role == piece.DrawerSide {
			d.head, rise = q.Origin[1].Add(q.Width), q.Origin[1].Add(q.Width).Sub(floor.Origin[1]).Sub(floor.Thick)
		}
	}
	for _, j := range p.Joints {
		a, b := p.Part(j.A), p.Part(j.B)
		if j.Kind == "screwed" && a != nil && b != nil && a.Path == floor.Path && b.Role == piece.DrawerFront {
			d.id, d.parts = b.ID, append(d.parts, b.ID)
			d.head, d.face, d.width = b.Origin[1].Add(b.Width), b.Origin[2].Add(b.Thick), b.Length
		}
	}
	d.clear = floor.Length.Mul(floor.Width).Mul(rise)
	d.middle = [3]trace.Num{d.edgeX, floor.Origin[1].Add(floor.Thick).Add(rise.Scale(0.5)), floor.Origin[2].Sub(floor.Width.Scale(0.5))}
}

// clothes is what a drawer holds when it is full of clothes.
func (d door) clothes() mass {
	return mass{name: "in " + d.id, kg: d.clear.Scale(clothing), at: d.middle, content: true, door: d.id}
}

// drawerNote says how drawers were tried.
func drawerNote(in Input) say.Sentence {
	ds := drawersOf(in)
	if len(ds) == 0 {
		return nil
	}
	return say.F(" Drawers are taken to come out by the whole length of their slides, and are tried empty, and full of {}, the load that rules for clothing storage take.",
		say.KgPerM3(clothing*1e9, 1))
}

// opened turns the masses of a door to its angle, or pulls those of a drawer
// out.
func (d door) opened(ms []mass) []mass {
	out := make([]mass, len(ms))
	for i, m := range ms {
		switch {
		case m.door != d.id:
		case d.drawer:
			m.at[2] = m.at[2].Add(d.travel)
		default:
			m.at[0], m.at[2] = d.leaf(0.5)
		}
		out[i] = m
	}
	return out
}
