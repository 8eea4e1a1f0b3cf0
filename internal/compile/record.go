package compile

import (
	"fmt"

	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// recorder books named values in a ledger.
type recorder struct{ *trace.Ledger }

// Record books every size of a piece in the ledger, once for a plan.
func Record(p *piece.Piece, led *trace.Ledger) {
	r := recorder{led}
	r.record("piece/width", "the piece, width", units.Length, p.Width, "")
	r.record("piece/height", "the piece, height", units.Length, p.Height, "body's height + base")
	r.record("piece/depth", "the piece, depth", units.Length, p.Depth, "")
	for i := range p.Spaces {
		r.recordSpace(&p.Spaces[i])
	}
	for _, q := range p.Parts {
		r.recordPart(q)
	}
	for _, j := range p.Joints {
		if j.Clearance.V != 0 {
			r.record("joint "+j.ID+"/clearance", "joint "+j.ID+", clearance", units.Length, j.Clearance, "")
		}
	}
}

func (r recorder) record(id, title string, dim units.Dim, n trace.Num, formula string) {
	r.Record(trace.Value{ID: id, Title: title, Dim: dim, Num: n, Formula: formula})
}

func (r recorder) recordSpace(s *piece.Space) {
	for i, what := range []string{"width", "height", "depth"} {
		r.record("space "+s.Name+"/"+what, s.Name+", clear "+what, units.Length, s.Size[i], "between what bounds it")
	}
}

func (r recorder) recordPart(p *piece.Part) {
	l := func(key, what string, n trace.Num) { r.record(p.ID+"/"+key, p.Name+", "+what, units.Length, n, "") }
	l("length", "length", p.Length)
	l("width", "width", p.Width)
	l("thickness", "thickness as measured", p.Thick)
	l("blank length", "blank, length", p.BlankLength)
	l("blank width", "blank, width", p.BlankWidth)
	for i, axis := range []string{"x", "y", "z"} {
		l(axis, "place of its datum corner, "+axis, p.Origin[i])
	}
	for _, c := range p.Cuts {
		r.recordCut(p, c)
	}
	for i := range p.Bends {
		r.recordBend(p, &p.Bends[i])
	}
}

func (r recorder) recordCut(p *piece.Part, c piece.Cut) {
	title := fmt.Sprintf("%s, %s for %s", p.Name, c.Kind, c.For)
	l := func(key, what string, n trace.Num) { r.record(c.ID+"/"+key, title+", "+what, units.Length, n, "") }
	l("x", "from the datum along the length", c.X0)
	l("y", "from the datum along the width", c.Y0)
	l("depth", "depth", c.Depth)
	switch c.Kind {
	case piece.Hole, piece.HoleRow:
		l("diameter", "diameter", c.Diameter)
	default:
		l("x end", "to, along the length", c.X1)
		l("y end", "to, along the width", c.Y1)
	}
}

func (r recorder) recordBend(p *piece.Part, d *piece.Bend) {
	pre, title := p.ID+"/bend "+d.Corner+"/", "bend at the "+d.Corner+", "
	rec := func(key, what string, dim units.Dim, n trace.Num) { r.record(pre+key, title+what, dim, n, "") }
	rec("start", "starts on the strip at", units.Length, d.Start)
	rec("flat", "flat length", units.Length, d.Length)
	rec("radius", "outside radius", units.Length, d.Radius)
	rec("kerfs", "kerfs", units.Count, d.Count)
	rec("pitch", "pitch", units.Length, d.Pitch)
	rec("depth", "depth of a kerf", units.Length, d.Depth)
	rec("mouth", "mouth left open", units.Length, d.Mouth)
	rec("rib", "rib", units.Length, d.Rib)
	rec("facet", "facet on the show face", units.Length, d.Facet)
	rec("strain low", "strain of the skin, long hinge", units.None, d.StrainLow)
	rec("strain high", "strain of the skin, hinge as wide as the kerf", units.None, d.StrainHigh)
	rec("rail radius", "radius of a rail that meets it", units.Length, d.RailRadius)
	rec("rail gap", "gap at the edges of a rib on that rail", units.Length, d.RailGap)
	for i, k := range d.Kerfs {
		rec(fmt.Sprintf("kerf %d", i+1), fmt.Sprintf("kerf %d from the datum", i+1), units.Length, k)
	}
}
