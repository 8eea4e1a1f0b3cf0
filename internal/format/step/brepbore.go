package step

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// clear is how far a bore stays from what bounds its face, mm.
const clear = 1e-3

// flat returns a place in the frame of a flat face, as seen from outside.
func (p patch) flat(v r3.Vec) r2.Vec {
	y := p.normal.Cross(p.x)
	d := v.Sub(p.at)
	return r2.Vec{X: d.Dot(p.x), Y: d.Dot(y)}
}

// region returns a flat face as a region in its frame.
func (b *brep) region(p patch) planar.Region {
	var loops []planar.Loop
	for _, l := range p.loops {
		var loop planar.Loop
		for _, u := range l {
			from, _ := b.ends(u)
			v := planar.Vertex{P: p.flat(b.corners[from])}
			if k := b.links[u.edge]; k.circle != nil {
				v.Bulge = math.Tan(b.sweep(k) / 4)
				if (k.circle.axis.Dot(p.normal) > 0) != u.forward {
					v.Bulge = -v.Bulge
				}
			}
			loop = append(loop, v)
		}
		loops = append(loops, loop)
	}
	return planar.Of(loops[0], loops[1:]...)
}

// face finds the flat face in which a mouth lies: at a place, looking out.
func (b *brep) face(at, out r3.Vec, radius float64) (int, bool) {
	for i, p := range b.patches {
		if p.radius > 0 || p.normal.Dot(out) < 1-1e-9 || math.Abs(p.normal.Dot(at.Sub(p.at))) > 1e-4 {
			continue
		}
		r, c := b.region(p), p.flat(at)
		if r.Contains(c) && !r.OnEdge(c, radius+clear) {
			return i, true
		}
	}
	return 0, false
}

// bore bores a hole. What lies in its way is the caller's to have looked at.
func (b *brep) bore(h solid.Bore) error {
	mouth, ok := b.face(h.At, h.Into.Mul(-1), h.Radius)
	if !ok {
		return ErrBore
	}
	deep := h.Depth
	far := -1
	if h.Through {
		deep, far = math.Inf(1), -1
		for i, p := range b.patches {
			if p.radius > 0 || p.normal.Dot(h.Into) < 1-1e-9 {
				continue
			}
			d := p.normal.Dot(p.at.Sub(h.At))
			if d < 1e-3 || d >= deep {
				continue
			}
			if k, ok := b.face(h.At.Add(h.Into.Mul(d)), h.Into, h.Radius); ok && k == i {
				deep, far = d, i
			}
		}
		if far < 0 {
			return ErrBore
		}
	}
	b.drill(h, deep, mouth, far)
	return nil
}

// drill makes the faces of a hole between two faces, or from one to a floor.
func (b *brep) drill(h solid.Bore, deep float64, mouth, far int) {
	x := b.patches[mouth].x
	ring := func(c r3.Vec) (first, e0, e1 int) {
		k := &circle{c, h.Into, x, h.Radius}
		first = len(b.corners)
		b.corners = append(b.corners, c.Add(x.Mul(h.Radius)), c.Sub(x.Mul(h.Radius)))
		b.links = append(b.links, link{first, first + 1, k}, link{first + 1, first, k})
		return first, len(b.links) - 2, len(b.links) - 1
	}
	bottom := h.At.Add(h.Into.Mul(deep))
	m, e0, e1 := ring(h.At)
	g, f0, f1 := ring(bottom)
	b.links = append(b.links, link{a: m, b: g}, link{a: m + 1, b: g + 1})
	s0, s1 := len(b.links)-2, len(b.links)-1
	hole := []use{{e0, true}, {e1, true}}
	end := []use{{f1, false}, {f0, false}}
	b.patches[mouth].loops = append(b.patches[mouth].loops[:len(b.patches[mouth].loops):len(b.patches[mouth].loops)], hole)
	wall := patch{at: h.At, normal: h.Into, x: x, radius: h.Radius, hollow: true}
	w0, w1 := wall, wall
	w0.loops = [][]use{{{e0, false}, {s0, true}, {f0, true}, {s1, false}}}
	w1.loops = [][]use{{{e1, false}, {s1, true}, {f1, true}, {s0, false}}}
	b.patches = append(b.patches, w0, w1)
	if far >= 0 {
		b.patches[far].loops = append(b.patches[far].loops[:len(b.patches[far].loops):len(b.patches[far].loops)], end)
		return
	}
	b.patches = append(b.patches, patch{at: bottom, normal: h.Into.Mul(-1), x: x, loops: [][]use{end}})
}
