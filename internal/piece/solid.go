package piece

import (
	"fmt"
	"math"
	"slices"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// Solid returns the part as a body in its pose, with all its cuts. A bent part
// is returned bent, its kerfs left out: on the outside they do not show, and
// the bend's own figure draws them. Holes smaller than LeastHole are left out.
func Solid(p *Part, leastHole float64) (solid.Body, error) {
	if len(p.Run) > 0 {
		return bentSolid(p)
	}
	var pockets []solid.Pocket
	for _, c := range p.Cuts {
		if c.Kind == Notch {
			continue // in the outline already
		}
		face := solid.B
		if c.Face == FaceA {
			face = solid.A
		}
		if c.Face.Narrow() {
			continue // a dowel's hole: it meets no other part
		}
		for _, r := range cutRegions(c, leastHole) {
			pockets = append(pockets, solid.Pocket{Region: r, Face: face, Depth: c.Depth.V, Through: c.Through})
		}
	}
	outline := p.Outline
	if len(p.Bevels) > 0 {
		outline = p.Rough
	}
	body, err := solid.Panel(p.Pose, outline, p.Thick.V, pockets)
	if err != nil {
		return solid.Body{}, fmt.Errorf("part %q: %w", p.ID, err)
	}
	return sawn(body, p), nil
}

// cutRegions returns what a cut takes, as flat regions on the part's face.
func cutRegions(c Cut, leastHole float64) []planar.Region {
	if len(c.Region) > 0 {
		return []planar.Region{c.Region}
	}
	if c.Kind != Hole && c.Kind != HoleRow {
		return []planar.Region{planar.Rect(c.X0.V, c.Y0.V, c.X1.V, c.Y1.V)}
	}
	if c.Diameter.V < leastHole {
		return nil
	}
	var out []planar.Region
	for i := range c.Count {
		at := r2.Vec{X: c.X0.V + float64(i)*c.StepX.V, Y: c.Y0.V + float64(i)*c.StepY.V}
		out = append(out, planar.Disc(at, c.Diameter.V/2))
	}
	return out
}

// Edge is the height, in the frame of a bent part's section, of the edge from
// which its y is measured.
func (p *Part) Edge() float64 {
	return p.Pose.Local(r3.Vec{X: p.Origin[0].V, Y: p.Origin[1].V, Z: p.Origin[2].V}).Z
}

// Place returns where a point of a flat strip lies in the piece once the strip
// is bent: x along it, y across it, h over its inner face.
func Place(p *Part, x, y, h float64) r3.Vec {
	v := Fold(p, x, h)
	return p.Pose.At(r3.Vec{X: v.X, Y: v.Y, Z: p.Edge() - y})
}

// bentSolid extrudes the strip's section across the strip, in as many slabs as
// the cuts change it. A window's rounded corners are left square.
func bentSolid(p *Part) (solid.Body, error) {
	edge := p.Edge()
	ys := []float64{0, p.Width.V}
	for _, c := range p.Cuts {
		if c.Kind != Hole && c.Kind != HoleRow {
			ys = append(ys, clamp(c.Y0.V, 0, p.Width.V), clamp(c.Y1.V, 0, p.Width.V))
		}
	}
	slices.Sort(ys)
	ys = slices.CompactFunc(ys, func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
	var slabs []solid.Slab
	for i := len(ys) - 1; i > 0; i-- { // from the rear (y large) to the front: z rises
		mid := (ys[i] + ys[i-1]) / 2
		slabs = append(slabs, solid.Slab{Region: Section(p, mid), Z0: edge - ys[i], Z1: edge - ys[i-1]})
	}
	return solid.Extrude(p.Pose, slabs...)
}

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(v, hi)) }

// Section returns a bent part's section at the place y across the strip,
// without its kerfs: between the outer face and what the cuts leave of the
// inner one, in as many shapes as windows leave.
func Section(p *Part, y float64) planar.Region {
	var out planar.Region
	var group []step
	for _, s := range depths(p, y) {
		if s.h < p.Thick.V-planar.Near {
			group = append(group, s)
			continue
		}
		out = appendSection(out, p, y, group)
		group = nil
	}
	return appendSection(out, p, y, group)
}

// appendSection adds the section over some steps on end. The inner face
// backwards and the outer face forwards make the loop run clockwise; it is
// reversed at the end.
func appendSection(out planar.Region, p *Part, y float64, steps []step) planar.Region {
	if len(steps) == 0 {
		return out
	}
	x0, x1 := steps[0].x0, steps[len(steps)-1].x1
	var loop planar.Loop
	for _, s := range p.Run {
		a, b := math.Max(s.X0, x0), math.Min(s.X1, x1)
		if b-a < planar.Near {
			continue
		}
		v := planar.Vertex{P: Fold(p, a, p.Thick.V)}
		if s.Radius != 0 {
			v.Bulge = -math.Tan(s.Angle * (b - a) / (s.X1 - s.X0) / 4) // forwards: to the right
		}
		loop = append(loop, v)
	}
	loop = append(loop, planar.Vertex{P: Fold(p, x1, p.Thick.V)})
	if x1 > p.Length.V-planar.Near {
		loop = append(loop, endGroove(p, y, true)...)
	}
	for i := len(steps) - 1; i >= 0; i-- {
		loop = append(loop, innerBack(p, steps[i])...)
	}
	if x0 < planar.Near {
		loop = append(loop, endGroove(p, y, false)...)
	}
	return append(out, planar.Shape{Outer: loop.Reverse()})
}

// endGroove returns the vertices of a groove in the strip's far end, from the
// outer face to the inner one, or in its datum end, the other way.
func endGroove(p *Part, y float64, far bool) []planar.Vertex {
	for _, c := range p.Cuts {
		if c.Kind != EndGroove || y <= c.Y0.V || y >= c.Y1.V || (c.X1.V > p.Length.V-1e-6) != far {
			continue
		}
		at, in := c.X0.V, c.X1.V
		hs := []float64{c.Z0.V, c.Z1.V}
		if far {
			at, in = c.X1.V, c.X0.V
			hs = []float64{c.Z1.V, c.Z0.V}
		}
		return []planar.Vertex{{P: Fold(p, at, hs[0])}, {P: Fold(p, in, hs[0])}, {P: Fold(p, in, hs[1])}, {P: Fold(p, at, hs[1])}}
	}
	return nil
}

// step is a stretch of the strip over which cuts leave the same inner height.
type step struct{ x0, x1, h float64 }

// depths returns the inner height (0 where nothing is cut) along the strip at y.
func depths(p *Part, y float64) []step {
	xs := []float64{0, p.Length.V}
	for _, s := range p.Run {
		xs = append(xs, s.X0, s.X1)
	}
	var cuts []Cut
	for _, c := range p.Cuts {
		if c.Kind != Hole && c.Kind != HoleRow && c.Kind != EndGroove && c.Y0.V < y && y < c.Y1.V {
			cuts = append(cuts, c)
			xs = append(xs, clamp(c.X0.V, 0, p.Length.V), clamp(c.X1.V, 0, p.Length.V))
		}
	}
	slices.Sort(xs)
	xs = slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
	var out []step
	for i := 1; i < len(xs); i++ {
		s := step{x0: xs[i-1], x1: xs[i]}
		mid := (s.x0 + s.x1) / 2
		for _, c := range cuts {
			if c.X0.V < mid && mid < c.X1.V {
				s.h = math.Max(s.h, c.Depth.V)
			}
		}
		out = append(out, s)
	}
	return out
}

// innerBack returns the vertices of the inner face of one step, from its end to
// its start.
func innerBack(p *Part, s step) []planar.Vertex {
	st := p.stretch((s.x0 + s.x1) / 2)
	from := planar.Vertex{P: Fold(p, s.x1, s.h)}
	if st.Radius != 0 {
		share := (s.x1 - s.x0) / (st.X1 - st.X0)
		from.Bulge = math.Tan(st.Angle * share / 4) // backwards: to the left
	}
	return []planar.Vertex{from, {P: Fold(p, s.x0, s.h)}}
}

func (p *Part) stretch(x float64) Stretch {
	for _, s := range p.Run {
		if x <= s.X1 {
			return s
		}
	}
	return p.Run[len(p.Run)-1]
}

// Fold returns where a point of a flat strip lies in the frame of its section
// once the strip is bent: x along the strip, h its height over the inner face.
// In a bend the section is taken as smooth: every place turns by its share.
func Fold(p *Part, x, h float64) r2.Vec {
	s := p.stretch(x)
	in := p.Thick.V - h
	if s.Radius == 0 {
		return s.From.Add(s.Dir.Mul(x - s.X0)).Sub(s.Dir.Left().Mul(in))
	}
	centre := s.From.Sub(s.Dir.Left().Mul(s.Radius))
	arm := s.Dir.Left().Mul(s.Radius - in) // a bend to the left has a negative radius
	return centre.Add(arm.Turn(-s.Angle * (x - s.X0) / (s.X1 - s.X0)))
}

// InPlan reports whether a bent part's section is seen from above: its y then
// counts from its upper edge, else from its front edge.
func (p *Part) InPlan() bool { return len(p.Run) > 0 && math.Abs(p.Pose.Z.Y) > 0.5 }

// YEdge names the edge of a bent part from which its y counts.
func YEdge(p *Part) string {
	if p.InPlan() {
		return "upper edge"
	}
	return "front edge"
}
