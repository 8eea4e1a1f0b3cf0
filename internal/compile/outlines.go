package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/format/path"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/trace"
)

// shape is an outline that a part asks for, as it is written: x to the right
// and y up, with the box round it as traced numbers.
type shape struct {
	region         planar.Region
	x0, y0, x1, y1 trace.Num
}

// placed moves the shape so that the box round it begins at the origin.
func (s shape) atOrigin() planar.Region { return s.region.Moved(r2.Vec{X: -s.x0.V, Y: -s.y0.V}) }

func (s shape) width() trace.Num  { return s.x1.Sub(s.x0) }
func (s shape) height() trace.Num { return s.y1.Sub(s.y0) }

// shapeOf finds the shape that a part asks for. What is wrong with it is said.
func (b *builder) shapeOf(w design.Shape) (shape, bool) {
	if w.Name == "" {
		return shape{region: planar.Rect(0, 0, w.A.V, w.B.V), x1: w.A, y1: w.B}, w.A.V > 0 && w.B.V > 0
	}
	if s, known := b.shapes[w.Name]; known {
		return s, len(s.region) > 0
	}
	for i := range b.d.Outlines {
		if o := &b.d.Outlines[i]; o.Name == w.Name {
			s, ok := b.outline(o)
			b.shapes[w.Name] = s // what is wrong with it is said once
			return s, ok
		}
	}
	b.errorAt(w.Path, "no-outline", fmt.Sprintf("no outline is called %q", w.Name), "Outlines are named under 'outlines'.")
	return shape{}, false
}

// outline makes the region of an outline of the piece file.
func (b *builder) outline(o *design.Outline) (shape, bool) {
	if o.File != "" {
		return b.drawing(o)
	}
	loop, ok := b.loop(o.Corners, o.Path)
	if !ok {
		return shape{}, false
	}
	region := planar.Of(loop)
	for i := range o.CutOuts {
		hole, ok := b.cutOut(&o.CutOuts[i])
		if !ok {
			return shape{}, false
		}
		left, err := planar.Difference(region, hole)
		if err != nil || len(left) != 1 {
			b.errorAt(o.CutOuts[i].Path, "bad-outline", "the cut-out does not leave one whole shape", "It must leave the outline in one piece.")
			return shape{}, false
		}
		region = left
	}
	s := shape{region: region}
	s.box(o.Corners)
	return s, true
}

// box finds the box round a shape: what its corners say, moved to where a
// rounding has taken the outermost corner away.
func (s *shape) box(cs []design.OutlineCorner) {
	s.x0, s.y0, s.x1, s.y1 = cs[0].X, cs[0].Y, cs[0].X, cs[0].Y
	for _, c := range cs[1:] {
		s.x0, s.x1 = trace.Min(s.x0, c.X), trace.Max(s.x1, c.X)
		s.y0, s.y1 = trace.Min(s.y0, c.Y), trace.Max(s.y1, c.Y)
	}
	real := s.region.Box()
	s.x0, s.y0 = s.x0.Plus(real.Min.X-s.x0.V), s.y0.Plus(real.Min.Y-s.y0.V)
	s.x1, s.y1 = s.x1.Plus(real.Max.X-s.x1.V), s.y1.Plus(real.Max.Y-s.y1.V)
}

// loop rounds the corners.
func (b *builder) loop(cs []design.OutlineCorner, at string) (planar.Loop, bool) {
	var ps []planar.Corner
	for _, c := range cs {
		ps = append(ps, planar.Corner{P: r2.Vec{X: c.X.V, Y: c.Y.V}, Round: c.Round.V})
	}
	loop, err := planar.Rounded(ps...)
	if err == nil {
		err = sound(planar.Of(loop))
	}
	if err != nil {
		b.errorAt(at, "bad-outline", "the outline makes no shape", fmt.Sprintf("%v.", err))
		return nil, false
	}
	return loop, true
}

// leastArea is the least area of a shape that is worth a name, mm².
const leastArea = 25

// sound reports what makes a region no single shape: it crosses itself, or is
// nothing.
func sound(r planar.Region) error {
	all := r.Box()
	size := all.Size()
	again, err := planar.Intersection(r, planar.Rect(all.Min.X-1, all.Min.Y-1, all.Max.X+1, all.Max.Y+1))
	switch {
	case err != nil:
		return fmt.Errorf("it crosses itself")
	case r.Area() < leastArea || size.X < 1 || size.Y < 1:
		return fmt.Errorf("it encloses %.1f mm²", r.Area())
	case len(again) != 1 || again.Area() < r.Area()-1e-3 || again.Area() > r.Area()+1e-3:
		return fmt.Errorf("it crosses itself")
	case size.X > 6000 || size.Y > 6000:
		return fmt.Errorf("it is %.0f × %.0f mm large", size.X, size.Y)
	}
	return nil
}

func (b *builder) cutOut(c *design.CutOut) (planar.Region, bool) {
	if c.Diameter.V > 0 {
		return planar.Disc(r2.Vec{X: c.X.V, Y: c.Y.V}, c.Diameter.V/2), true
	}
	loop, ok := b.loop(c.Corners, c.Path)
	return planar.Of(loop), ok
}

// drawing reads an outline from an SVG drawing that lies beside the piece file.
// Its sizes hang on nothing: another drawing is another input.
func (b *builder) drawing(o *design.Outline) (shape, bool) {
	at := o.Path + ".path"
	src, ok := b.files[o.File]
	if !ok {
		b.errorAt(at, "no-drawing", fmt.Sprintf("the drawing %s is not there", o.File), "It lies beside the piece file, or in a folder below it.")
		return shape{}, false
	}
	region, err := path.Read(src)
	if err == nil {
		err = sound(region)
	}
	if err != nil {
		b.errorAt(at, "bad-drawing", fmt.Sprintf("the drawing %s cannot be used", o.File), fmt.Sprintf("%v.", err))
		return shape{}, false
	}
	box := region.Box()
	num := func(what string, v float64) trace.Num {
		return b.d.Ledger.Constant(at+"."+what, v, "as drawn in "+o.File)
	}
	return shape{region, num("left", box.Min.X), num("foot", box.Min.Y), num("right", box.Max.X), num("head", box.Max.Y)}, true
}
