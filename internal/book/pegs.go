package book

import (
	"rodwork/internal/piece"
	"rodwork/internal/say"
)

// pegActs are the dowels and loose tenons of each joint that has some, those that
// are alike together.
func (w *writer) pegActs() []act {
	type lot struct {
		first *piece.Joint
		where []say.Sentence
	}
	var lots []*lot
next:
	for i := range w.pc.Joints {
		j := &w.pc.Joints[i]
		if j.Pegs == nil || j.Pegs.Kind == "screw" {
			continue
		}
		where := say.F("{} to {}", w.nameOf(j.B), w.nameOf(j.A))
		for _, l := range lots {
			if g := l.first.Pegs; g.Name == j.Pegs.Name && g.Count == j.Pegs.Count && near(g.InA.V, j.Pegs.InA.V) && near(g.InB.V, j.Pegs.InB.V) && near(g.Every.V, j.Pegs.Every.V) {
				l.where = append(l.where, where)
				continue next
			}
		}
		lots = append(lots, &lot{j, []say.Sentence{where}})
	}
	var out []act
	for _, l := range lots {
		g := l.first.Pegs
		a := do("{} × {}, holes {} deep in what receives and {} in what comes.", number(g.Count), g.Name, say.LenN(g.InA, 1).Plain(), say.LenN(g.InB, 1))
		if g.Count > 1 && g.Every.V > 0 {
			a.text = join(a.text, say.F("{} from one to the next.", say.LenN(g.Every, 1)))
		}
		a.notes = append(a.notes, list(l.where))
		out = append(out, a)
	}
	if len(out) > 0 {
		out = append(out, habit("Both holes are measured from one datum. Chamfer the dowels’ ends, brush glue into the holes and not on the dowel, and leave the millimetre at the bottom for it."))
	}
	return out
}

// nameOf is a part's name, to be printed as one.
func (w *writer) nameOf(id string) say.Span { return say.Name(w.partName(id)) }
