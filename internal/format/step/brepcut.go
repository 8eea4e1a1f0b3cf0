package step

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r3"
)

// cutter is the work of one plane: what has n·p ≤ d is kept.
type cutter struct {
	*brep
	n    r3.Vec
	d    float64
	over []float64 // of each corner
	made map[int]int
	lid  []use // the new edges, as the lid walks them
}

// cut returns what of a brep lies within a half-space.
func (b *brep) cut(n r3.Vec, d float64) (*brep, error) {
	c := &cutter{brep: &brep{corners: slices.Clone(b.corners)}, n: n, d: d, made: map[int]int{}}
	for _, p := range b.corners {
		h := n.Dot(p) - d
		if math.Abs(h) < near {
			return nil, errCorner
		}
		c.over = append(c.over, h)
	}
	if err := c.edges(b); err != nil {
		return nil, err
	}
	for _, p := range b.patches {
		if err := c.patch(b, p); err != nil {
			return nil, err
		}
	}
	if err := c.close(); err != nil {
		return nil, err
	}
	return c.brep, nil
}

// edges keeps what of each edge lies within; their numbers stay.
func (c *cutter) edges(b *brep) error {
	for i, l := range b.links {
		if l.circle != nil {
			lo, hi := math.Inf(1), math.Inf(-1)
			for k := range 65 {
				h := c.n.Dot(b.along(l, float64(k)/64)) - c.d
				lo, hi = min(lo, h), max(hi, h)
			}
			if more := l.circle.radius * 0.002; lo < more && hi > -more {
				return errCurve
			}
		}
		if x, y := c.over[l.a], c.over[l.b]; l.circle == nil && x*y < 0 {
			p, q := b.corners[l.a], b.corners[l.b]
			c.made[i] = len(c.corners)
			c.corners = append(c.corners, p.Add(q.Sub(p).Mul(x/(x-y))))
			if x > 0 {
				l.a = c.made[i]
			} else {
				l.b = c.made[i]
			}
		}
		c.links = append(c.links, l)
	}
	return nil
}

// patch keeps what of a face lies within.
func (c *cutter) patch(b *brep, p patch) error {
	var whole [][]use
	runs := map[int][]use{} // by the corner where they come in
	var outs []int
	for _, l := range p.loops {
		in, crossed := c.runs(b, l)
		if !crossed {
			if from, _ := b.ends(l[0]); c.over[from] < 0 {
				whole = append(whole, l)
			}
			continue
		}
		for _, r := range in {
			start, _ := c.ends(r[0])
			_, end := c.ends(r[len(r)-1])
			runs[start] = r
			outs = append(outs, start, end)
		}
	}
	if len(runs) == 0 {
		if len(whole) > 0 {
			p.loops = whole
			c.patches = append(c.patches, p)
		}
		return nil
	}
	if p.radius > 0 {
		return errCurve
	}
	return c.parted(p, whole, c.joined(p.normal.Cross(c.n), runs, outs))
}

// runs returns the stretches of a loop that lie within, each from where it comes
// in to where it goes out; crossed is false where it lies on one side.
func (c *cutter) runs(b *brep, l []use) (in [][]use, crossed bool) {
	start := -1
	for k, u := range l {
		if from, to := b.ends(u); c.over[from] > 0 && c.over[to] < 0 {
			start = k
			break
		}
	}
	if start < 0 {
		return nil, false
	}
	var run []use
	for k := range l {
		u := l[(start+k)%len(l)]
		from, to := b.ends(u)
		if c.over[from] > 0 && c.over[to] > 0 {
			continue
		}
		run = append(run, u)
		if c.over[to] > 0 {
			in, run = append(in, run), nil
		}
	}
	return in, true
}

// joined joins runs along the plane, whose line in the face has the direction d:
// from where one goes out to where the next comes in.
func (c *cutter) joined(d r3.Vec, runs map[int][]use, at []int) [][]use {
	slices.SortFunc(at, func(i, j int) int { return cmp.Compare(d.Dot(c.corners[i]), d.Dot(c.corners[j])) })
	next := map[int]int{} // from a corner where a run goes out to the one where it comes in
	for k := 0; k+1 < len(at); k += 2 {
		out, in := at[k], at[k+1]
		if _, ok := runs[out]; ok {
			out, in = in, out
		}
		next[out] = in
	}
	var loops [][]use
	for _, start := range at {
		var loop []use
		for from := start; len(runs[from]) > 0; {
			r := runs[from]
			delete(runs, from)
			loop = append(loop, r...)
			_, end := c.ends(r[len(r)-1])
			c.links = append(c.links, link{a: end, b: next[end]})
			loop = append(loop, use{len(c.links) - 1, true})
			c.lid = append(c.lid, use{len(c.links) - 1, false})
			from = next[end]
		}
		if len(loop) > 0 {
			loops = append(loops, loop)
		}
	}
	return loops
}

// parted adds a face for each outer loop, with the holes that lie within it.
func (c *cutter) parted(p patch, holes, outers [][]use) error {
	for _, o := range outers {
		q := p
		q.loops = [][]use{o}
		for _, h := range holes {
			from, _ := c.ends(h[0])
			if len(outers) == 1 || c.region(q).Contains(q.flat(c.corners[from])) {
				q.loops = append(q.loops, h)
			}
		}
		c.patches = append(c.patches, q)
	}
	return nil
}

// close adds the lids: loops of the new edges, those that run anticlockwise about
// the plane's normal outside, the others as their holes.
func (c *cutter) close() error {
	from := map[int]use{}
	for _, u := range c.lid {
		a, _ := c.ends(u)
		if _, ok := from[a]; ok {
			return errTouch
		}
		from[a] = u
	}
	var outers, holes [][]use
	lid := patch{normal: c.n}
	for _, u := range c.lid {
		var loop []use
		a, _ := c.ends(u)
		for {
			v, ok := from[a]
			if !ok {
				break
			}
			delete(from, a)
			loop = append(loop, v)
			_, a = c.ends(v)
		}
		if len(loop) == 0 {
			continue
		}
		turn := r3.Vec{}
		o, _ := c.ends(loop[0])
		for _, v := range loop {
			p, q := c.ends(v)
			turn = turn.Add(c.corners[p].Sub(c.corners[o]).Cross(c.corners[q].Sub(c.corners[o])))
		}
		if turn.Dot(c.n) > 0 {
			outers = append(outers, loop)
		} else {
			holes = append(holes, loop)
		}
	}
	if len(outers) == 0 {
		return nil
	}
	first, last := c.ends(outers[0][0])
	lid.at = c.corners[first]
	lid.x = c.corners[last].Sub(lid.at).Unit()
	return c.parted(lid, holes, outers)
}
