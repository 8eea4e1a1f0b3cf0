package solid

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// convex is a convex body told by its faces, each a flat polygon that runs
// anticlockwise as seen from outside.
type convex struct{ faces [][]r3.Vec }

// plane bounds a half-space: what has N·p ≤ D. N has length 1 and looks out.
type plane struct {
	n r3.Vec
	d float64
}

func (p plane) over(v r3.Vec) float64 { return p.n.Dot(v) - p.d }

// thin is how near a corner is to lie to a plane to count as lying on it, mm.
const thin = 1e-9

// prism stands a convex cell up between two heights of a frame.
func prism(pose r3.Pose, cell []r2.Vec, z0, z1 float64) convex {
	n := len(cell)
	all := make([]r3.Vec, 2*n+4*n)
	foot, head, rest := all[:n], all[n:2*n], all[2*n:]
	for i, p := range cell {
		foot[n-1-i] = pose.At(r3.Vec{X: p.X, Y: p.Y, Z: z0})
		head[i] = pose.At(r3.Vec{X: p.X, Y: p.Y, Z: z1})
	}
	c := convex{faces: make([][]r3.Vec, 0, n+2)}
	c.faces = append(c.faces, foot, head)
	for i := range n {
		j := (i + 1) % n
		w := rest[4*i : 4*i+4 : 4*i+4]
		w[0], w[1], w[2], w[3] = foot[n-1-i], foot[n-1-j], head[j], head[i]
		c.faces = append(c.faces, w)
	}
	return c
}

// bounds returns the planes of a prism over a cell.
func bounds(pose r3.Pose, cell []r2.Vec, z0, z1 float64) []plane {
	base := pose.O.Dot(pose.Z)
	out := make([]plane, 0, len(cell)+2)
	out = append(out, plane{pose.Z, base + z1}, plane{pose.Z.Mul(-1), -base - z0})
	for i, p := range cell {
		t := cell[(i+1)%len(cell)].Sub(p).Unit()
		n := pose.X.Mul(t.Y).Add(pose.Y.Mul(-t.X))
		out = append(out, plane{n, n.Dot(pose.At(r3.Vec{X: p.X, Y: p.Y}))})
	}
	return out
}

// clip returns what of the body lies within the half-space; a body without
// faces where that has no volume.
func (c convex) clip(p plane) convex {
	lo, hi := c.width(p.n)
	switch {
	case hi-p.d <= thin:
		return c
	case lo-p.d >= -thin:
		return convex{}
	}
	out := convex{faces: make([][]r3.Vec, 0, len(c.faces)+1)}
	var rim []r3.Vec
	for _, f := range c.faces {
		g := make([]r3.Vec, 0, len(f)+1)
		for i, a := range f {
			b := f[(i+1)%len(f)]
			da, db := p.over(a), p.over(b)
			if da <= thin {
				g = append(g, a)
				if da >= -thin {
					rim = append(rim, a)
				}
			}
			if da > thin && db < -thin || da < -thin && db > thin {
				x := a.Add(b.Sub(a).Mul(da / (da - db)))
				g, rim = append(g, x), append(rim, x)
			}
		}
		if len(g) >= 3 {
			out.faces = append(out.faces, g)
		}
	}
	if lid := around(rim, p.n); len(lid) >= 3 {
		out.faces = append(out.faces, lid)
	}
	return out
}

// around puts the corners of a convex polygon in order, anticlockwise about n,
// each once.
func around(ps []r3.Vec, n r3.Vec) []r3.Vec {
	if len(ps) < 3 {
		return nil
	}
	mid := r3.Vec{}
	for _, p := range ps {
		mid = mid.Add(p)
	}
	mid = mid.Mul(1 / float64(len(ps)))
	u, v := across(n)
	type spoke struct {
		p     r3.Vec
		angle float64
	}
	spokes := make([]spoke, len(ps))
	for i, p := range ps {
		d := p.Sub(mid)
		spokes[i] = spoke{p, math.Atan2(d.Dot(v), d.Dot(u))}
	}
	slices.SortFunc(spokes, func(a, b spoke) int { return cmp.Compare(a.angle, b.angle) })
	out := make([]r3.Vec, 0, len(ps))
	for _, s := range spokes {
		if k := len(out); k == 0 || s.p.Sub(out[k-1]).Len() > 10*thin {
			out = append(out, s.p)
		}
	}
	if k := len(out); k > 1 && out[0].Sub(out[k-1]).Len() <= 10*thin {
		out = out[:k-1]
	}
	return out
}

// across returns two directions square to n and to each other, so that u, v, n
// are right-handed.
func across(n r3.Vec) (u, v r3.Vec) {
	least := r3.Vec{X: 1}
	if math.Abs(n.Y) < math.Abs(n.X) {
		least = r3.Vec{Y: 1}
	}
	if math.Abs(n.Z) < min(math.Abs(n.X), math.Abs(n.Y)) {
		least = r3.Vec{Z: 1}
	}
	u = least.Cross(n).Unit()
	return u, n.Cross(u)
}

// width returns the least and the greatest p·d over the body.
func (c convex) width(d r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, f := range c.faces {
		for _, p := range f {
			w := p.Dot(d)
			lo, hi = min(lo, w), max(hi, w)
		}
	}
	return lo, hi
}

// measure returns the volume of the body and its first moment.
func (c convex) measure() (volume float64, first r3.Vec) {
	if len(c.faces) == 0 {
		return 0, r3.Vec{}
	}
	o := c.faces[0][0]
	for _, f := range c.faces {
		a := f[0].Sub(o)
		for i := 2; i < len(f); i++ {
			p, q := f[i-1].Sub(o), f[i].Sub(o)
			v := a.Dot(p.Cross(q)) / 6
			volume += v
			first = first.Add(a.Add(p).Add(q).Mul(v / 4))
		}
	}
	return volume, first.Add(o.Mul(volume))
}

// thickness returns the least width of the body square to one of its faces.
func (c convex) thickness() float64 {
	least := math.Inf(1)
	for _, f := range c.faces {
		n := r3.Vec{}
		for i := 2; i < len(f); i++ {
			n = n.Add(f[i-1].Sub(f[0]).Cross(f[i].Sub(f[0])))
		}
		if n.Len() < thin {
			continue
		}
		lo, hi := c.width(n.Unit())
		least = min(least, hi-lo)
	}
	return least
}

func (c convex) box() r3.Box {
	b := r3.EmptyBox()
	for _, f := range c.faces {
		for _, p := range f {
			b = b.Union(r3.Box{Min: p, Max: p})
		}
	}
	return b
}
