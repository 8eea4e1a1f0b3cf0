package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// finish hands over the spaces, sums up the outside, and books every size in
// the ledger.
func (b *builder) finish() {
	for _, s := range b.spaces {
		b.out.Spaces = append(b.out.Spaces, b.spaceOut(s))
	}
	b.out.Width, b.out.Height, b.out.Depth = b.width, b.foot.Add(b.height), b.front
	b.record("piece/width", "the piece, width", units.Length, b.out.Width, "")
	b.record("piece/height", "the piece, height", units.Length, b.out.Height, "body's height + base")
	b.record("piece/depth", "the piece, depth", units.Length, b.out.Depth, "")
	for i := range b.out.Spaces {
		b.recordSpace(&b.out.Spaces[i])
	}
	for _, p := range b.out.Parts {
		b.recordPart(p)
	}
	for _, j := range b.out.Joints {
		if j.Clearance.V != 0 {
			b.record("joint "+j.ID+"/clearance", "joint "+j.ID+", clearance", units.Length, j.Clearance, "")
		}
	}
}

func (b *builder) spaceOut(s *space) piece.Space {
	z1 := b.front
	if s.covered != nil {
		z1 = b.doorBack(s.covered)
	}
	out := piece.Space{Name: s.name, Min: [3]trace.Num{s.x0, s.y0, b.backThick},
		Size:    [3]trace.Num{s.x1.Sub(s.x0), s.y1.Sub(s.y0), z1.Sub(b.backThick)},
		Inside:  b.d.Bays[s.bay].Name,
		Shelves: s.shelves, Holes: s.holes, Drawer: s.drawer, Path: s.path, Round: map[string]trace.Num{},
		Floor: s.floor.part.ID, Ceiling: s.ceiling.part.ID}
	if s.level < 0 {
		out.Inside = ""
	}
	sides := [4]bool{b.uprights[s.bay].side, b.uprights[s.bay].side, b.uprights[s.bay+1].side, b.uprights[s.bay+1].side}
	for c, name := range design.CornerNames {
		k := b.corner(c)
		upper := c == 1 || c == 2
		if k.Bent && sides[c] && (upper && s.last || !upper && s.level <= 0) {
			out.Round[name] = k.Radius.Sub(b.inner[0])
		}
	}
	return out
}

func (b *builder) record(id, title string, dim units.Dim, n trace.Num, formula string) {
	b.d.Ledger.Record(trace.Value{ID: id, Title: title, Dim: dim, Num: n, Formula: formula})
}

func (b *builder) recordSpace(s *piece.Space) {
	for i, what := range []string{"width", "height", "depth"} {
		b.record("space "+s.Name+"/"+what, s.Name+", clear "+what, units.Length, s.Size[i], "between what bounds it")
	}
}

func (b *builder) recordPart(p *piece.Part) {
	l := func(key, what string, n trace.Num) { b.record(p.ID+"/"+key, p.Name+", "+what, units.Length, n, "") }
	l("length", "length", p.Length)
	l("width", "width", p.Width)
	l("thickness", "thickness as measured", p.Thick)
	l("blank length", "blank, length", p.BlankLength)
	l("blank width", "blank, width", p.BlankWidth)
	for i, axis := range []string{"x", "y", "z"} {
		l(axis, "place of its datum corner, "+axis, p.Origin[i])
	}
	for _, c := range p.Cuts {
		b.recordCut(p, c)
	}
	for i := range p.Bends {
		b.recordBend(p, &p.Bends[i])
	}
}

func (b *builder) recordCut(p *piece.Part, c piece.Cut) {
	title := fmt.Sprintf("%s, %s for %s", p.Name, c.Kind, c.For)
	l := func(key, what string, n trace.Num) { b.record(c.ID+"/"+key, title+", "+what, units.Length, n, "") }
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

func (b *builder) recordBend(p *piece.Part, d *piece.Bend) {
	pre, title := p.ID+"/bend "+d.Corner+"/", "bend at the "+d.Corner+", "
	rec := func(key, what string, dim units.Dim, n trace.Num) { b.record(pre+key, title+what, dim, n, "") }
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
