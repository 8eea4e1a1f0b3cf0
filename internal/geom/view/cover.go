package view

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// touch is how much deeper than a face a line must lie to be hidden by it, mm.
// Parts that touch are together to a nanometre; gaps that are meant are wider.
const touch = 1e-3

// rim is how far past its outline a face still hides, mm.
const rim = 1e-6

// short is the least length of a line or of a gap in one that is drawn, mm.
const short = 1e-3

// screen is a face that looks towards the eye, on paper.
type screen struct {
	box  r2.Box
	near float64 // the depth of its nearest corner
	// Depth at (x, y) is d + a·x + b·y; it hides what is deeper by margin.
	a, b, d, margin float64
	convex          bool // the outline; holes are apart
	outline         ring
	holes0, holes1  int // of drawing.rings
}

// ring is a loop of a screen: a stretch of drawing.sides. Screens and rings hold
// places in lists and no pointers, so they are cheap to sort and to keep.
type ring struct {
	box          r2.Box
	first, after int
}

// side is one side of a screen's outline, from p by l·(c, s), with the inside
// at the left.
type side struct {
	p       r2.Vec
	c, s, l float64
	box     r2.Box // widened by rim
}

// off returns how far q lies to the left of the side, mm.
func (s *side) off(q r2.Vec) float64 { return s.c*(q.Y-s.p.Y) - s.s*(q.X-s.p.X) }

// group is the screens of one body, the nearest first.
type group struct {
	box     r2.Box
	near    float64
	screens []screen
}

// project makes the screens, those of the nearest body first.
func (d *drawing) project() {
	n := 0
	for _, k := range d.scene.skins {
		n += len(k.Faces)
	}
	d.screens = slices.Grow(d.screens, n)
	d.sides = slices.Grow(d.sides, 5*n)
	for _, k := range d.scene.skins {
		first := len(d.screens)
		g := group{box: r2.EmptyBox(), near: math.Inf(-1)}
		for i := range k.Faces {
			d.screen(&k.Faces[i])
		}
		g.screens = d.screens[first:]
		for i := range g.screens {
			g.box = g.box.Union(g.screens[i].box)
			g.near = max(g.near, g.screens[i].near)
		}
		slices.SortStableFunc(g.screens, func(a, b screen) int { return cmp.Compare(b.near, a.near) })
		d.groups = append(d.groups, g)
	}
	slices.SortStableFunc(d.groups, func(a, b group) int { return cmp.Compare(b.near, a.near) })
}

func (d *drawing) screen(f *solid.Face) {
	towards := f.Normal.Dot(d.view.Eye)
	if towards < 1e-6 {
		return
	}
	s := screen{margin: touch}
	if f.Curved {
		s.margin += 2 * d.scene.chord / towards
	}
	s.a = -f.Normal.Dot(d.view.Right) / towards
	s.b = -f.Normal.Dot(d.view.Up) / towards
	at, near := d.view.Project(f.Loops[0][0])
	s.d = near - s.a*at.X - s.b*at.Y
	s.outline, s.near = d.outline(f.Loops[0])
	s.box = s.outline.box
	s.convex = convex(d.sides[s.outline.first:s.outline.after])
	s.holes0 = len(d.rings)
	for _, l := range f.Loops[1:] {
		r, _ := d.outline(l)
		r.box = r.box.Grown(rim)
		d.rings = append(d.rings, r)
	}
	s.holes1 = len(d.rings)
	d.screens = append(d.screens, s)
}

// outline projects a loop; near is the depth of its nearest corner.
func (d *drawing) outline(l []r3.Vec) (r ring, near float64) {
	r = ring{box: r2.EmptyBox(), first: len(d.sides)}
	near = math.Inf(-1)
	p, depth := d.view.Project(l[len(l)-1])
	for _, v := range l {
		near = max(near, depth)
		r.box = r.box.With(p)
		var q r2.Vec
		q, depth = d.view.Project(v)
		if u := q.Sub(p); u.X != 0 || u.Y != 0 {
			n := u.Len()
			d.sides = append(d.sides, side{p: p, c: u.X / n, s: u.Y / n, l: n, box: r2.EmptyBox().With(p).With(q).Grown(rim)})
		}
		p = q
	}
	r.after = len(d.sides)
	return r, near
}

func convex(sides []side) bool {
	turned := 0.0
	for i := range sides {
		a, b := &sides[i], &sides[(i+1)%len(sides)]
		cross := a.c*b.s - a.s*b.c
		if cross < -1e-9 {
			return false
		}
		turned += math.Atan2(cross, a.c*b.c+a.s*b.s)
	}
	return turned < 2*math.Pi+1
}

// span is a stretch between two shares of a line.
type span struct{ lo, hi float64 }

// see finds what of a stroke is hidden, and sends its stretches on as marks.
func (d *drawing) see(s *stroke) {
	if s.unseen {
		d.mark(s, 0, 1, true)
		return
	}
	box := r2.EmptyBox().With(s.a).With(s.b)
	deep := min(s.na, s.nb) + touch
	d.spans = d.spans[:0]
	for i := range d.groups {
		g := &d.groups[i]
		if g.near <= deep {
			break // all that follow are deeper still
		}
		if g.box.Touches(box) && d.behind(g, s, box, deep) {
			d.mark(s, 0, 1, true)
			return
		}
	}
	d.split(s)
}

// behind gathers the stretches of a stroke that the faces of one body hide, and
// reports whether one of them hides it all.
func (d *drawing) behind(g *group, s *stroke, box r2.Box, deep float64) bool {
	for i := range g.screens {
		f := &g.screens[i]
		if f.near <= deep {
			return false
		}
		if !f.box.Touches(box) {
			continue
		}
		had := len(d.spans)
		d.cover(f, s, box)
		if len(d.spans) > had && d.spans[had].lo <= 0 && d.spans[had].hi >= 1 {
			return true
		}
	}
	return false
}

// split sends on the hidden and the seen stretches of a stroke.
func (d *drawing) split(s *stroke) {
	if len(d.spans) == 0 {
		d.mark(s, 0, 1, false)
		return
	}
	slices.SortFunc(d.spans, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	least := short / s.long
	at := 0.0
	for i := 0; i < len(d.spans); {
		lo, hi := d.spans[i].lo, d.spans[i].hi
		for i++; i < len(d.spans) && d.spans[i].lo <= hi+least; i++ {
			hi = max(hi, d.spans[i].hi)
		}
		if hi-lo < least {
			continue
		}
		if lo <= at+least {
			lo = at
		} else {
			d.mark(s, at, lo, false)
		}
		if hi >= 1-least {
			hi = 1
		}
		d.mark(s, lo, hi, true)
		at = hi
	}
	if at < 1 {
		d.mark(s, at, 1, false)
	}
}

// cover adds the stretches of a stroke that the screen hides. Box is the
// stroke's.
func (d *drawing) cover(f *screen, s *stroke, box r2.Box) {
	// Deeper than the screen: g > 0, linear along the stroke.
	lo, hi := clip(0, 1,
		f.d+f.a*s.a.X+f.b*s.a.Y-s.na-f.margin,
		f.d+f.a*s.b.X+f.b*s.b.Y-s.nb-f.margin)
	if !(hi > lo) {
		return
	}
	d.near = append(d.near[:0], f.outline)
	for _, r := range d.rings[f.holes0:f.holes1] {
		if r.box.Touches(box) {
			d.near = append(d.near, r)
		}
	}
	if !f.convex || len(d.near) > 1 {
		d.coverAny(s, box, lo, hi)
		return
	}
	sides := d.sides[f.outline.first:f.outline.after]
	for i := range sides {
		e := &sides[i]
		if lo, hi = clip(lo, hi, e.off(s.a)+rim, e.off(s.b)+rim); !(hi > lo) {
			return
		}
	}
	d.spans = append(d.spans, span{lo, hi})
}

// clip narrows lo..hi to where a value that is g0 at 0 and g1 at 1 is positive.
func clip(lo, hi, g0, g1 float64) (float64, float64) {
	switch {
	case g0 > 0 && g1 > 0:
		return lo, hi
	case g0 <= 0 && g1 <= 0:
		return 1, 0
	case g0 <= 0:
		return max(lo, g0/(g0-g1)), hi
	}
	return lo, min(hi, g0/(g0-g1))
}

// coverAny is cover for outlines with hollows and holes (d.near): it finds
// where the stroke crosses them, and asks the middle of each stretch between.
func (d *drawing) coverAny(s *stroke, box r2.Box, lo, hi float64) {
	d.cuts = append(d.cuts[:0], lo, hi)
	for _, r := range d.near {
		sides := d.sides[r.first:r.after]
		for i := range sides {
			if sides[i].box.Touches(box) {
				d.crossing(&sides[i], s, lo, hi)
			}
		}
	}
	slices.Sort(d.cuts)
	for i := 1; i < len(d.cuts); i++ {
		t0, t1 := d.cuts[i-1], d.cuts[i]
		if t1-t0 > 1e-9 && d.within(s.a.Lerp(s.b, (t0+t1)/2)) {
			d.spans = append(d.spans, span{t0, t1})
		}
	}
}

// crossing adds where the stroke crosses a side; where they run along each
// other, both ends of the side.
func (d *drawing) crossing(e *side, s *stroke, lo, hi float64) {
	g0, g1 := e.off(s.a), e.off(s.b)
	switch {
	case math.Abs(g0) <= rim && math.Abs(g1) <= rim:
		u := s.b.Sub(s.a)
		for _, q := range [2]r2.Vec{e.p, {X: e.p.X + e.l*e.c, Y: e.p.Y + e.l*e.s}} {
			d.cut(q.Sub(s.a).Dot(u)/u.Dot(u), lo, hi)
		}
	case g0 > rim != (g1 > rim), g0 < -rim != (g1 < -rim):
		d.cut(g0/(g0-g1), lo, hi)
	}
}

func (d *drawing) cut(t, lo, hi float64) {
	if t > lo && t < hi {
		d.cuts = append(d.cuts, t)
	}
}

// within reports whether q lies within the rings or on them.
func (d *drawing) within(q r2.Vec) bool {
	in := false
	for _, r := range d.near {
		sides := d.sides[r.first:r.after]
		for i := range sides {
			e := &sides[i]
			if q.Y < e.box.Min.Y || q.Y > e.box.Max.Y || q.X > e.box.Max.X {
				continue // q is not level with it, or past it
			}
			y0, y1 := e.p.Y, e.p.Y+e.l*e.s
			g := e.off(q)
			if math.Abs(g) <= rim && e.box.Holds(q) {
				return true
			}
			if (y0 > q.Y) != (y1 > q.Y) && (g > 0) == (y1 > y0) {
				in = !in
			}
		}
	}
	return in
}
