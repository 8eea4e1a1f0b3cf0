package making

import (
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// screws lists the screws of every joint that has some, in the order of the
// joints: their holes are cuts of both parts.
func screws(p *piece.Piece) []work.ScrewLine {
	var out []work.ScrewLine
	for i := range p.Joints {
		j := &p.Joints[i]
		g := j.Pegs
		if g == nil || g.Kind != "screw" {
			continue
		}
		l := work.ScrewLine{Joint: j.ID, Through: j.A, In: j.B, Count: g.Count, Size: g.Diameter, Length: g.Length, Clear: g.Clear, Pilot: g.Pilot}
		if g.Head == j.B {
			l.Through, l.In = j.B, j.A
		}
		if g.Count > 1 {
			l.Every = g.Every
		}
		out = append(out, l)
	}
	return out
}
