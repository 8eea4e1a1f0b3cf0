package drawing

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// pt is short for a place on paper.
func pt(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

// pen gathers the items of one leaf, in paper millimetres (y down).
type pen struct{ items []leaf.Item }

func (p *pen) add(it leaf.Item) { p.items = append(p.items, it) }

// run returns the segments of an open polyline.
func run(ps ...r2.Vec) []leaf.Seg {
	segs := make([]leaf.Seg, len(ps))
	for i, q := range ps {
		segs[i] = leaf.Seg{Op: leaf.To, P: q}
	}
	if len(segs) > 0 {
		segs[0].Op = leaf.Move
	}
	return segs
}

// ring returns the segments of a closed polyline.
func ring(ps ...r2.Vec) []leaf.Seg { return append(run(ps...), leaf.Seg{Op: leaf.Close}) }

func rectOf(b r2.Box) []leaf.Seg {
	return ring(b.Min, pt(b.Max.X, b.Min.Y), b.Max, pt(b.Min.X, b.Max.Y))
}

func boxOf(x0, y0, x1, y1 float64) r2.Box {
	return r2.Box{Min: pt(min(x0, x1), min(y0, y1)), Max: pt(max(x0, x1), max(y0, y1))}
}

// circleOf returns a full circle as two arcs.
func circleOf(c r2.Vec, r float64) []leaf.Seg {
	a, b := pt(c.X-r, c.Y), pt(c.X+r, c.Y)
	return []leaf.Seg{{Op: leaf.Move, P: a}, {Op: leaf.Arc, P: b, R: r}, {Op: leaf.Arc, P: a, R: r}, {Op: leaf.Close}}
}

func (p *pen) line(kind leaf.Line, ps ...r2.Vec) { p.add(leaf.Path{Line: kind, Segs: run(ps...)}) }
func (p *pen) rect(kind leaf.Line, b r2.Box)     { p.add(leaf.Path{Line: kind, Segs: rectOf(b)}) }
func (p *pen) accent(kind leaf.Line, ps ...r2.Vec) {
	p.add(leaf.Path{Line: kind, Accent: true, Segs: run(ps...)})
}
func (p *pen) circle(kind leaf.Line, c r2.Vec, r float64) {
	p.add(leaf.Path{Line: kind, Segs: circleOf(c, r)})
}
func (p *pen) solid(ps ...r2.Vec) { p.add(leaf.Path{Fill: leaf.Solid, Segs: ring(ps...)}) }

// note, name write small and middle-sized words.
func (p *pen) note(at r2.Vec, a leaf.Anchor, s string) { p.add(leaf.Text{At: at, S: s, Anchor: a}) }
func (p *pen) name(at r2.Vec, a leaf.Anchor, s string) {
	p.add(leaf.Text{At: at, S: s, Anchor: a, Size: leaf.Name, Italic: true})
}
func (p *pen) value(at r2.Vec, a leaf.Anchor, s string) {
	p.add(leaf.Text{At: at, S: s, Anchor: a, Size: leaf.Name})
}

// frame places a flat drawing, mm with y up, on paper: the point O lies at At,
// and K paper millimetres stand for one of the thing. Mirror turns x round, Down lets
// y run down the paper.
type frame struct {
	At, O        r2.Vec
	K            float64
	Turn         bool
	Mirror, Down bool
}

func (f frame) at(v r2.Vec) r2.Vec {
	d := v.Sub(f.O).Mul(f.K)
	if f.Turn {
		d = d.Left()
	}
	if f.Mirror {
		d.X = -d.X
	}
	if f.Down {
		d.Y = -d.Y
	}
	return pt(f.At.X+d.X, f.At.Y-d.Y)
}

func (f frame) xy(x, y float64) r2.Vec { return f.at(pt(x, y)) }
func (f frame) x(x float64) float64    { return f.xy(x, 0).X }
func (f frame) y(y float64) float64    { return f.xy(0, y).Y }

// loop returns a loop's edges on paper, arcs kept.
func (f frame) loop(l planar.Loop) []leaf.Seg {
	if len(l) == 0 {
		return nil
	}
	segs := []leaf.Seg{{Op: leaf.Move, P: f.at(l[0].P)}}
	for i, v := range l {
		segs = append(segs, f.edge(v.P, l[(i+1)%len(l)].P, v.Bulge))
	}
	if l[len(l)-1].Bulge == 0 {
		segs = segs[:len(segs)-1]
	}
	return append(segs, leaf.Seg{Op: leaf.Close})
}

// edge returns one edge from a to b with a bulge, its start left out.
func (f frame) edge(a, b r2.Vec, bulge float64) leaf.Seg {
	if bulge == 0 {
		return leaf.Seg{Op: leaf.To, P: f.at(b)}
	}
	r := b.Sub(a).Len() / 2 * (1 + bulge*bulge) / (2 * math.Abs(bulge)) * f.K
	return leaf.Seg{Op: leaf.Arc, P: f.at(b), R: r, Left: (bulge > 0) != (f.Mirror != f.Down), Large: math.Abs(bulge) > 1}
}

// region returns all loops of a region on paper.
func (f frame) region(r planar.Region) []leaf.Seg {
	var segs []leaf.Seg
	for _, s := range r {
		segs = append(segs, f.loop(s.Outer)...)
		for _, h := range s.Holes {
			segs = append(segs, f.loop(h)...)
		}
	}
	return segs
}

// box returns the paper rectangle of a flat rectangle.
func (f frame) box(x0, y0, x1, y1 float64) r2.Box {
	a, b := f.xy(x0, y0), f.xy(x1, y1)
	return boxOf(a.X, a.Y, b.X, b.Y)
}
