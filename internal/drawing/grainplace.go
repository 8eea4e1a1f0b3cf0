package drawing

import "rodwork/internal/geom/r2"

// grainPlace finds where a face's grain is marked: left of its middle, or, on
// a part that is no rectangle, the first place of a grid at which the mark lies
// on the wood and in no shaped cut.
func (d *partDrawing) grainPlace(f frame, b r2.Box, rows []cutRow, long float64, up bool) r2.Vec {
	first := pt(b.Min.X+b.Size().X*0.42, b.Min.Y+b.Size().Y*0.56)
	if q := d.q; q.Outline.Area() > 0.9*q.Length.V*q.Width.V {
		return first
	}
	o, ex, ey := f.xy(0, 0), f.xy(1, 0), f.xy(0, 1)
	onPart := func(p r2.Vec) r2.Vec {
		v, x, y := p.Sub(o), ex.Sub(o), ey.Sub(o)
		return pt(v.Dot(x)/x.Dot(x), v.Dot(y)/y.Dot(y))
	}
	half := pt(long/2+1.5, 4)
	if up {
		half = pt(half.Y, half.X)
	}
	free := func(c r2.Vec) bool {
		for _, k := range [...][2]float64{{0, 0}, {-1, -1}, {1, -1}, {1, 1}, {-1, 1}, {0, 1}, {0, -1}, {1, 0}, {-1, 0}} {
			p := onPart(pt(c.X+k[0]*half.X, c.Y+k[1]*half.Y))
			if !d.q.Outline.Contains(p) || inShaped(rows, p) {
				return false
			}
		}
		return true
	}
	if free(first) {
		return first
	}
	shares := [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88}
	for _, y := range shares {
		for _, x := range shares {
			if c := pt(b.Min.X+b.Size().X*x, b.Min.Y+b.Size().Y*y); free(c) {
				return c
			}
		}
	}
	return first
}

// inShaped tells whether a place of the part lies in a cut that is no
// rectangle.
func inShaped(rows []cutRow, p r2.Vec) bool {
	for _, r := range rows {
		if len(r.c.Region) > 0 && r.c.Region.Contains(p) {
			return true
		}
	}
	return false
}
