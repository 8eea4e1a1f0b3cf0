package drawing

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// Thickness on paper, mm, from which the layers of plywood are drawn: three
// lines, the plies with end grain, every glue line with dots.
const (
	layersFrom = 3.0
	pliesFrom  = 8.0
	gluesFrom  = 20.0
	ringStep   = 0.75
)

// cutFaces draws cut faces over what was drawn before: paper, layers, outline.
func (p *pen) cutFaces(f frame, v view.View, faces []face) {
	for _, c := range faces {
		p.add(leaf.Path{Fill: leaf.Paper, Segs: f.region(c.region)})
		p.layers(f, v, c)
	}
	for _, c := range faces {
		p.add(leaf.Path{Line: leaf.Cut, Segs: f.region(c.region)})
	}
}

// layers draws what a cut face shows of its stock.
func (p *pen) layers(f frame, v view.View, c face) {
	through := c.way
	if through.Len() == 0 {
		through = thickWay(c.q, v)
	}
	if through.Len() < 0.9 { // cut along its face, or a bent part seen on edge
		return
	}
	through = through.Unit()
	endGrain := grainAcross(c.q, v)
	if c.q.Stock != nil && c.q.Stock.Layers < 3 {
		if endGrain {
			p.rings(f, c.region, through)
		}
		return
	}
	lo, hi := c.region.Extent(through)
	t := hi - lo
	if t > 1.5*c.q.Thick.V { // a bent part on its way round
		return
	}
	plies := plies(c.q, !endGrain)
	line := func(at float64, kind leaf.Line) {
		// Nearest to the show face is ply 0: which of the two is drawn up does
		// not show, for plywood is the same from both sides.
		p.level(f, c.region, through, lo+at*t/c.q.Thick.V, kind)
	}
	switch drawn := t * f.K; {
	case drawn < layersFrom:
	case drawn < pliesFrom || plies == nil:
		for i := 1; i < 4; i++ {
			line(c.q.Thick.V*float64(i)/4, leaf.Hatch)
		}
	case drawn < gluesFrom:
		for _, y := range plies {
			if !y.along && y.from > 0 && y.to < c.q.Thick.V-planar.Near {
				line((y.from+y.to)/2, leaf.Hatch)
			}
		}
	default:
		for i, y := range plies {
			if i > 0 {
				line(y.from, leaf.Hatch)
			}
			if !y.along {
				line((y.from+y.to)/2, leaf.Dots)
			}
		}
	}
}

// level draws the stretches of the line in a region that is square to the
// direction through, at the height at along it.
func (p *pen) level(f frame, r planar.Region, through r2.Vec, at float64, kind leaf.Line) {
	u := through.Left()
	o := through.Mul(at)
	for _, s := range r.Along(o, u) {
		a, b := f.at(o.Add(u.Mul(s.T0))), f.at(o.Add(u.Mul(s.T1)))
		if b.Sub(a).Len() < 1.2 {
			continue
		}
		if kind == leaf.Dots {
			p.dots(a, b)
		} else {
			p.line(kind, a, b)
		}
	}
}

// rings draws the end grain of solid wood: arcs about a pith below the face.
func (p *pen) rings(f frame, r planar.Region, through r2.Vec) {
	box := r.Box()
	size := box.Size().Mul(f.K)
	if min(size.X, size.Y) < 1.2 || max(size.X, size.Y) > 60 {
		return
	}
	half := (size.X + size.Y) / 2
	pith := box.Min.Lerp(box.Max, 0.5).Sub(through.Mul(half / f.K)).Sub(through.Left().Mul(0.3 * half / f.K))
	for d := ringStep; d < 3*half; d += ringStep {
		p.arcsIn(f, r, pith, d/f.K)
	}
}

// arcsIn draws the stretches of a circle that lie in a region.
func (p *pen) arcsIn(f frame, r planar.Region, c r2.Vec, radius float64) {
	const steps = 72
	at := func(i int) r2.Vec {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / steps)
		return c.Add(pt(cos, sin).Mul(radius))
	}
	from := -1
	for i := range steps + 1 {
		in := r.Contains(at(i))
		if in && from < 0 {
			from = i
		}
		if (!in || i == steps) && from >= 0 {
			to := i
			if !in {
				to--
			}
			if to > from {
				p.add(leaf.Path{Line: leaf.Hatch, Segs: []leaf.Seg{{Op: leaf.Move, P: f.at(at(from))}, {Op: leaf.Arc, P: f.at(at(to)), R: radius * f.K, Left: true}}})
			}
			from = -1
		}
	}
}

// thickWay is the way through a part's thickness on paper: of length 1 where
// the cut is square to its face. A bent part's is found from its section, so
// it has none here unless the plane is square to the strip.
func thickWay(q *piece.Part, v view.View) r2.Vec {
	if len(q.Run) > 0 {
		return r2.Vec{}
	}
	return onPaper(q.Pose.Z, v)
}

func onPaper(d r3.Vec, v view.View) r2.Vec { return r2.Vec{X: d.Dot(v.Right), Y: d.Dot(v.Up)} }

// grainAcross tells whether the face grain of a part runs towards the reader.
func grainAcross(q *piece.Part, v view.View) bool {
	var g r3.Vec
	switch q.Grain {
	case piece.AlongWidth:
		g = q.Pose.Y
		if len(q.Run) > 0 {
			g = q.Pose.Z
		}
	case piece.AlongLength:
		g = q.Pose.X
		if len(q.Run) > 0 { // along the strip, which turns about its section's z
			return math.Abs(q.Pose.Z.Dot(v.Eye)) < 0.5
		}
	}
	return math.Abs(g.Dot(v.Eye)) > 0.5
}
