package piece

import (
	"fmt"
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// Bores returns the round holes of a part that its Solid leaves out, in the
// body's frame: those into edges and ends, and those across a bent strip as far
// as they lie in its straight runs. left says how many more there are.
func Bores(p *Part) (bores []solid.Bore, left int) {
	for _, c := range p.Cuts {
		if c.Kind == Mortise && c.Face.Narrow() {
			left++
		}
		if c.Kind != Hole && c.Kind != HoleRow || len(p.Run) == 0 && !c.Face.Narrow() {
			continue
		}
		for i := range max(1, c.Count) {
			x, y := c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V
			at, into, ok := mouth(p, c.Face, x, y)
			if !ok {
				left++
				continue
			}
			h := solid.Bore{At: at, Into: into, Radius: c.Diameter.V / 2, Depth: c.Depth.V, Through: c.Through}
			if c.Through && len(p.Run) > 0 {
				h.Depth = p.Thick.V
			}
			bores = append(bores, h)
		}
	}
	return bores, left
}

// mouth is where a hole begins and which way it goes.
func mouth(p *Part, f Face, x, y float64) (at, into r3.Vec, ok bool) {
	switch {
	case len(p.Run) > 0 && f.Narrow():
		return at, into, false
	case len(p.Run) > 0:
		s := p.stretch(x)
		h, out := 0.0, s.Dir.Left()
		if f == FaceA {
			h, out = p.Thick.V, out.Mul(-1)
		}
		v := Fold(p, x, h)
		return r3.Vec{X: v.X, Y: v.Y, Z: p.Edge() - y}, r3.Vec{X: out.X, Y: out.Y}, s.Radius == 0
	case f == EdgeLow:
		return r3.Vec{X: x, Z: y}, r3.Vec{Y: 1}, true
	case f == EdgeHigh:
		return r3.Vec{X: x, Y: p.Width.V, Z: y}, r3.Vec{Y: -1}, true
	case f == EndLow:
		return r3.Vec{Y: x, Z: y}, r3.Vec{X: 1}, true
	}
	return r3.Vec{X: p.Length.V, Y: x, Z: y}, r3.Vec{X: -1}, true
}

// Flat returns a bent part as it lies on the bench before it is bent, in the
// frame of its strip: with all its cuts and its kerfs.
func Flat(p *Part) (solid.Body, error) {
	var pockets []solid.Pocket
	for _, c := range p.Cuts {
		q := solid.Pocket{Face: solid.B, Depth: c.Depth.V, Through: c.Through || c.Kind == Window}
		switch {
		case c.Kind == EndGroove:
			q.Z0, q.Z1 = c.Z0.V, c.Z1.V
		case c.Face.Narrow():
			continue
		case c.Face == FaceA:
			q.Face = solid.A
		}
		for _, r := range cutRegions(c, 0) {
			q.Region = r
			pockets = append(pockets, q)
		}
	}
	for _, b := range p.Bends {
		half := b.Plan.Spec.Kerf / 2
		for _, k := range b.Kerfs {
			pockets = append(pockets, solid.Pocket{Region: planar.Rect(k.V-half, -1, k.V+half, p.Width.V+1), Face: solid.B, Depth: b.Depth.V})
		}
	}
	outline := p.Outline
	if len(outline) == 0 || math.Abs(outline.Area()) < 1 {
		outline = planar.Rect(0, 0, p.Length.V, p.Width.V)
	}
	body, err := solid.Panel(r3.Identity(), outline, p.Thick.V, pockets)
	if err != nil {
		return solid.Body{}, fmt.Errorf("part %q: %w", p.ID, err)
	}
	return body, nil
}
