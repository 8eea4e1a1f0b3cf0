package drawing

import (
	"fmt"
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/geom/view"
	"rodwork/internal/piece"
)

// jointCut is a joint in section: part A with its recess, and B in it. Places
// are told along two axes of paper: a through A's thickness, b through B's.
type jointCut struct {
	j        piece.Joint
	a, b     *piece.Part
	view     view.View
	upright  bool // a runs up the paper, b across it; else the other way round
	inA, inB planar.Region
	// outer and inner are A's faces along a; inner is the one that B comes
	// from. Mid is the middle of B along b.
	outer, inner, mid float64
	window            r2.Box // in the view's frame
	// gaps are what stands open between B and the recess, below and above it
	// along b; 0 where the recess is open.
	gaps [2]float64
	// plain is set for a joint whose faces just meet.
	plain *plainCut
}

// of splits a place on paper into its measures along a and b.
func (c *jointCut) of(v r2.Vec) (a, b float64) {
	if c.upright {
		return v.Y, v.X
	}
	return v.X, v.Y
}

// to is the inverse of of.
func (c *jointCut) to(a, b float64) r2.Vec {
	if c.upright {
		return r2.Vec{X: b, Y: a}
	}
	return r2.Vec{X: a, Y: b}
}

// side is the way along a from A to B's free end.
func (c *jointCut) side() float64 { return sign(c.inner - c.outer) }

// floor is where the recess ends along a.
func (c *jointCut) floor() float64 { return c.inner - c.side()*c.j.Depth.V }

// cutJoint cuts a joint square to both parts; false where they don't stand
// square to each other, or B is bent.
func cutJoint(pc *piece.Piece, j piece.Joint, fromLeft bool) (jointCut, bool) {
	c := jointCut{j: j, a: pc.Part(j.A), b: pc.Part(j.B)}
	if c.a == nil || c.b == nil || len(c.b.Run) > 0 {
		return c, false
	}
	zA, zB := c.a.Pose.Z, c.b.Pose.Z
	if len(c.a.Run) > 0 {
		if c.b.Role == piece.BackPanel {
			return c, false
		}
		zA = j.Enter.Unit()
	}
	v, ok := squareTo(zA.Cross(zB), fromLeft)
	if !ok {
		return c, false
	}
	c.view = v
	c.upright = math.Abs(onPaper(zA, v).Y) > 0.99
	at, towards := c.meeting(zA)
	bodies := [2]solid.Body{}
	for i, q := range []*piece.Part{c.a, c.b} {
		var err error
		if bodies[i], err = piece.Solid(seen(q), leastHole); err != nil {
			return c, false
		}
	}
	lo, hi := along(extentOf(c.b), v.Eye)
	for _, share := range []float64{0.5, 0.4, 0.6, 0.25, 0.75, 0.1, 0.9} { // clear of other recesses
		if c.cut(knife{lo + (hi-lo)*share, v}, bodies, at, towards) {
			return c, true
		}
	}
	return c, false
}

// squareTo returns the usual view along an axis of the piece.
func squareTo(u r3.Vec, fromLeft bool) (view.View, bool) {
	switch {
	case math.Abs(u.Z) > 0.999:
		return view.Front(), true
	case math.Abs(u.Y) > 0.999:
		return view.Plan(), true
	case math.Abs(u.X) > 0.999 && fromLeft:
		return view.EndLeft(), true
	case math.Abs(u.X) > 0.999:
		return view.EndRight(), true
	}
	return view.View{}, false
}

// meeting is the place in the joint where B ends: in the middle along the
// joint's length, and the way from B to A's outer face.
func (c *jointCut) meeting(zA r3.Vec) (at, towards r3.Vec) {
	eA, eB := extentOf(c.a), extentOf(c.b)
	at = eB.min.Add(eB.max).Mul(0.5)
	towards = zA
	if len(c.a.Run) == 0 && eA.min.Add(eA.max).Mul(0.5).Sub(at).Dot(zA) < 0 {
		towards = zA.Mul(-1)
	}
	_, far := along(eB, towards)
	return at.Add(towards.Mul(far - at.Dot(towards))), towards
}

// cut takes both sections round a place and finds A's faces there; false where
// A has not its whole thickness beside the joint.
func (c *jointCut) cut(k knife, bodies [2]solid.Body, at, towards r3.Vec) bool {
	tA, tB := c.a.Thick.V, c.b.Thick.V
	tm := max(tA, tB)
	regions := [2]planar.Region{}
	for i := range bodies {
		var err error
		if regions[i], err = bodies[i].Section(k.pose()); err != nil {
			return false
		}
	}
	a0, b0 := c.of(onPaper(at, c.view))
	c.mid = b0
	near := func(r planar.Region, lo, hi float64) planar.Region {
		p, q := c.to(lo, b0-tB/2-0.7*tm), c.to(hi, b0+tB/2+0.7*tm)
		out, err := planar.Intersection(r, planar.Rect(p.X, p.Y, q.X, q.Y))
		if err != nil {
			return nil
		}
		return out
	}
	dir := c.to(1, 0)
	inA := near(regions[0], a0-1.5*tm, a0+1.5*tm)
	lo, hi := inA.Extent(dir)
	if math.Abs(hi-lo-tA) > 0.01 {
		return false
	}
	if c.outer, c.inner = lo, hi; onPaper(towards, c.view).Dot(dir) > 0 {
		c.outer, c.inner = hi, lo
	}
	end := c.inner + c.side()*0.9*tm
	from := c.outer - c.side()*0.5
	c.inA, c.inB = near(regions[0], min(from, end), max(from, end)), near(regions[1], min(from, end), max(from, end))
	p, q := c.to(min(from, end), b0-tB/2-0.7*tm), c.to(max(from, end), b0+tB/2+0.7*tm)
	c.window = r2.Box{Min: p, Max: q}
	c.open()
	return len(c.inA) > 0 && len(c.inB) > 0
}

// open finds the gaps, half way down the recess.
func (c *jointCut) open() {
	c.gaps = [2]float64{}
	if !(c.j.Clearance.V > 0) {
		return
	}
	half := c.b.Thick.V / 2
	walls := [2]float64{math.Inf(-1), math.Inf(1)}
	for _, s := range c.inA.Along(c.to((c.inner+c.floor())/2, c.mid), c.to(0, 1)) {
		if s.T1 < 0 {
			walls[0] = max(walls[0], s.T1)
		} else {
			walls[1] = min(walls[1], s.T0)
		}
	}
	for i, wall := range walls {
		if gap := math.Abs(wall) - half; gap > 1e-4 && gap < c.j.Clearance.V+0.01 {
			c.gaps[i] = gap
		}
	}
}

// held is the rectangle that both sections fill.
func (c *jointCut) held() r2.Box { return c.inA.Box().Union(c.inB.Box()) }

// spreadApart returns A's section with all on either side of B moved out, so
// that gaps too narrow to be drawn open to so many times their width.
func (c *jointCut) spreadApart(times float64) planar.Region {
	var out planar.Region
	move := func(l planar.Loop) planar.Loop {
		m := make(planar.Loop, len(l))
		for i, v := range l {
			m[i] = planar.Vertex{P: c.apart(v.P, times), Bulge: v.Bulge}
		}
		return m
	}
	for _, s := range c.inA {
		t := planar.Shape{Outer: move(s.Outer)}
		for _, h := range s.Holes {
			t.Holes = append(t.Holes, move(h))
		}
		out = append(out, t)
	}
	return out
}

func (c *jointCut) apart(v r2.Vec, times float64) r2.Vec {
	a, b := c.of(v)
	if b < c.mid {
		return c.to(a, b-c.gaps[0]*(times-1))
	}
	return c.to(a, b+c.gaps[1]*(times-1))
}

// likeness is equal for joints that one figure tells.
func (c *jointCut) likeness() string {
	if isPlainKind(&c.j) {
		return c.plainLikeness()
	}
	return fmt.Sprintf("%s %.2f %.2f %.2f %.3f %v %v", c.j.Kind, c.a.Thick.V, c.b.Thick.V, c.j.Depth.V, c.j.Clearance.V,
		c.j.Glued, c.b.Role == piece.BackPanel)
}

// stop returns how far from its front edge B's housing is stopped, and how deep
// B is notched there; 0 where it runs through.
func (c *jointCut) stop() (short, deep float64) {
	for _, n := range c.b.Cuts {
		if n.Kind == piece.Notch && n.For == "stopped housing" {
			return n.Y1.V - n.Y0.V, n.X1.V - n.X0.V
		}
	}
	return 0, 0
}
