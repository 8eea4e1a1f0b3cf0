package check

import (
	"math"
	"slices"

	"rodwork/internal/mech/child"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// climbs tells whether the shelves make a ladder.
func climbs(in Input) (work.Finding, bool) {
	ledges, ns := ledgesOf(in)
	high, steps := child.Climb(ledges)
	top := in.Piece.Height.V
	f := work.Finding{ID: "climb", Rule: "CHILD-06", Verdict: work.Fine, Title: "ledges to climb by", Value: trace.Step(high, ns...), Limit: trace.Const(child.FirstStep), Unit: "mm",
		Path: "inside", Chapter: "check"}
	if len(ledges) == 0 {
		return f, false
	}
	f.Text = say.F("Its open ledges lead a child no higher than {}.", say.Len(high, 0))
	if steps >= 2 && high > child.FirstStep && top > child.FirstStep {
		f.Verdict = work.Look
		f.Text = say.F("Its open shelves make a ladder: {} ledges lead a child up to {}.", steps, say.Len(high, 0))
		f.Mends = []work.Mend{{Text: say.F("anchor it to the wall")}, {Text: say.F("doors over its lower shelves")}}
	}
	return f, true
}

// ledgesOf are the heights, rising, of what a toe finds in front: floors and
// shelves of spaces that no door or drawer closes, and the top.
func ledgesOf(in Input) ([]float64, []trace.Num) {
	closed := map[string]bool{}
	for i := range in.Design.Fronts {
		for _, c := range in.Design.Fronts[i].Covers {
			closed[c] = in.Design.Fronts[i].As != "lid"
		}
	}
	var ys []float64
	var ns []trace.Num
	add := func(q *piece.Part) {
		if q == nil || len(q.Run) > 0 {
			return
		}
		_, hi := reachOf(q)
		ys = append(ys, hi[1])
		ns = append(ns, q.Origin[1], q.Thick)
	}
	for i := range in.Piece.Spaces {
		s := &in.Piece.Spaces[i]
		if s.Drawer || closed[s.Name] || closed[s.Inside] {
			continue
		}
		add(in.Piece.Part(s.Floor))
		for _, id := range s.Shelves {
			add(in.Piece.Part(id))
		}
	}
	slices.Sort(ys)
	return slices.Compact(ys), ns
}

// chests judges lids: what holds them, and air for who climbs in.
func chests(in Input) []work.Finding {
	var out []work.Finding
	for i := range in.Design.Fronts {
		fr := &in.Design.Fronts[i]
		if fr.As != "lid" {
			continue
		}
		volume, ns := 0.0, []trace.Num{}
		for k := range in.Piece.Spaces {
			s := &in.Piece.Spaces[k]
			for _, c := range fr.Covers {
				if s.Name == c {
					volume += s.Size[0].V * s.Size[1].V * s.Size[2].V * 1e-6
					ns = append(ns, s.Size[0], s.Size[1], s.Size[2])
				}
			}
		}
		f := work.Finding{ID: "chest/" + fr.Name, Rule: "CHILD-05", Verdict: work.Fine, Title: "a child and the " + fr.Name, Value: trace.Step(volume, ns...), Limit: trace.Const(child.LidVolume), Unit: "1",
			Path: fr.Path, Chapter: "fronts"}
		f.Text = say.F("Inside are {} dm³.", say.Num(volume, 0))
		if volume >= child.LidVolume {
			f.Text = append(f.Text, say.F(" From {} dm³ on rules for chests ask for a lid that stays where it is let go.", say.Num(child.LidVolume, 0))...)
			if fr.Lid.Stay == nil {
				f.Verdict = work.Stop
				f.Text = append(f.Text, say.F(" Nothing holds this one: it falls on whoever looks in.")...)
				f.Mends = append(f.Mends, work.Mend{Text: say.F("a stay that holds it at any angle, not by friction")}, work.Mend{Text: say.F("a lid without hinges, that lifts off")})
			} else {
				f.Text = append(f.Text, say.F(" {} must do that; try it with the lid’s own weight.", say.Name(fr.Lid.Stay.Name))...)
			}
		}
		if volume > child.AirVolume {
			air(&f, fr.Lid.Vents != nil, ventsOf(in, i))
		}
		out = append(out, f)
	}
	return out
}

// vents are the openings for air of a lid's body: their number, the area of
// one, mm², and how far they are apart, mm.
type vents struct {
	count       int
	area, apart float64
}

func ventsOf(in Input, front int) vents {
	v := in.Design.Fronts[front].Lid.Vents
	if v == nil {
		return vents{}
	}
	out := vents{count: v.Count, area: math.Pi / 4 * v.Diameter.V * v.Diameter.V, apart: in.Piece.Width.V}
	if v.In == "front" && v.Count > 1 {
		out.apart = in.Piece.Width.V / float64(v.Count)
	}
	return out
}

func air(f *work.Finding, given bool, v vents) {
	need := int(math.Ceil(2 * child.VentArea / math.Max(v.area, 1)))
	if v.area >= child.VentArea {
		need = 2
	}
	switch {
	case !given || v.count == 0:
		f.Verdict = work.Stop
		f.Text = append(f.Text, say.F(" It has no openings for air: a child that climbs in may not get enough.")...)
	case v.area < child.VentArea && v.count < need, v.count < 2, v.apart < child.VentApart:
		f.Verdict = work.Stop
		f.Text = append(f.Text, say.F(" Its {} openings for air are too small or too near each other.", v.count)...)
	default:
		f.Text = append(f.Text, say.F(" It has {} openings for air.", v.count)...)
		return
	}
	f.Mends = append(f.Mends, work.Mend{Text: say.F("two openings of {} or more, {} apart, that neither wall nor floor closes", say.Len(math.Ceil(child.VentDia(child.VentArea)*10)/10, 1), say.Len(child.VentApart, 0)),
		Path: f.Path + ".vents", New: "{in: sides, count: 2, diameter: 30 mm, below: 60 mm}"})
}
