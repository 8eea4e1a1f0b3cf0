package frame

import (
	"math"

	"rodwork/internal/geom/r3"
)

// square is a bar's stiffness, 12 × 12: three moves and three turns at each end.
type square [12][12]float64

// axes are the bar's own directions in the frame's, and its length.
func (f *Frame) axes(b *Bar) (x, y, z r3.Vec, length float64) {
	d := f.Nodes[b.B].At.Sub(f.Nodes[b.A].At)
	length = d.Len()
	x = d.Mul(1 / length)
	up := b.Up
	if up.Cross(x).Len() < 1e-6 {
		if up = (r3.Vec{Y: 1}); math.Abs(x.Y) > 0.999 {
			up = r3.Vec{X: -1} // an upright bar's own y looks to the left: its z to the viewer
		}
	}
	z = x.Cross(up)
	z = z.Mul(1 / z.Len())
	return x, z.Cross(x), z, length
}

// fixity is r = 1/(1 + 3·E·I/(k·L)): 0 for a hinge, 1 for a rigid joint.
func fixity(k, ei, length float64) float64 {
	switch {
	case math.IsInf(k, 1):
		return 1
	case k <= 0:
		return 0
	}
	return 1 / (1 + 3*ei/(k*length))
}

// bending are the coefficients of a bar with ends of the fixities r and s that
// bends in one plane: of its sideways moves and turns (v1, t1, v2, t2).
type bending struct{ vv, vt1, vt2, t11, t12, t22 float64 }

func bend(ei, l, r, s float64) bending {
	d := 4 - r*s
	return bending{
		vv:  12 * ei / (l * l * l) * (r + s + r*s) / d,
		vt1: 6 * ei / (l * l) * r * (2 + s) / d,
		vt2: 6 * ei / (l * l) * s * (2 + r) / d,
		t11: 12 * ei / l * r / d, t12: 6 * ei / l * r * s / d, t22: 12 * ei / l * s / d,
	}
}

// stiffness returns the bar's own matrix.
func (b *Bar) stiffness(l float64) square {
	var k square
	put := func(i, j int, v float64) {
		k[i][j] = v
		k[j][i] = v
	}
	a, t := b.E*b.Section.A/l, b.G*b.J/l
	put(0, 0, a)
	put(6, 6, a)
	put(0, 6, -a)
	put(3, 3, t)
	put(9, 9, t)
	put(3, 9, -t)
	// About z: moves along y, turns about z. About y: moves along z, with the
	// turns' signs the other way round.
	for _, p := range []struct {
		v1, t1, v2, t2 int
		sign, i, k1    float64
		k2             float64
	}{{1, 5, 7, 11, 1, b.Iz, b.Ends[0].Z, b.Ends[1].Z}, {2, 4, 8, 10, -1, b.Iy, b.Ends[0].Y, b.Ends[1].Y}} {
		ei := b.E * p.i
		c := bend(ei, l, fixity(p.k1, ei, l), fixity(p.k2, ei, l))
		put(p.v1, p.v1, c.vv)
		put(p.v2, p.v2, c.vv)
		put(p.v1, p.v2, -c.vv)
		put(p.v1, p.t1, p.sign*c.vt1)
		put(p.v1, p.t2, p.sign*c.vt2)
		put(p.v2, p.t1, -p.sign*c.vt1)
		put(p.v2, p.t2, -p.sign*c.vt2)
		put(p.t1, p.t1, c.t11)
		put(p.t1, p.t2, c.t12)
		put(p.t2, p.t2, c.t22)
	}
	return k
}

// spread returns what the bar's ends must be held with while a load w (N/mm, in
// the bar's own directions) lies on it: the fixed-end forces, which act on the
// bar.
func (b *Bar) spread(l float64, w r3.Vec) [12]float64 {
	var out [12]float64
	out[0], out[6] = -w.X*l/2, -w.X*l/2
	one := func(w, i, k1, k2 float64) (v1, m1, v2, m2 float64) {
		ei := b.E * i
		r, s := fixity(k1, ei, l), fixity(k2, ei, l)
		m1 = -w * l * l / 4 * r * (2 - s) / (4 - r*s)
		m2 = w * l * l / 4 * s * (2 - r) / (4 - r*s)
		turn := (m1 + m2) / l
		return -w*l/2 + turn, m1, -w*l/2 - turn, m2
	}
	out[1], out[5], out[7], out[11] = one(w.Y, b.Iz, b.Ends[0].Z, b.Ends[1].Z)
	var a, c float64
	out[2], a, out[8], c = one(w.Z, b.Iy, b.Ends[0].Y, b.Ends[1].Y)
	out[4], out[10] = -a, -c
	return out
}
