package piece

import (
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/trace"
)

// Pegs are what holds a joint across the face where its parts meet: dowels,
// loose tenons or screws, all of one size. Their holes are cuts of both parts,
// for "dowels of " and the joint's id.
type Pegs struct {
	Kind  string // "dowel", "loose tenon", "screw"
	Name  string // what is bought or made: "dowel 8 × 40"
	Count int
	// Diameter of a dowel or of a screw's shank, thickness of a tenon; Length of
	// all, along the way in; Wide of a tenon, across it.
	Diameter, Length, Wide trace.Num
	// InA and InB are the depths of the holes in the joint's parts; a screw's
	// clearance hole is as deep as the part that its head lies in.
	InA, InB trace.Num
	Head     string    // of screws: the id of the part that the head lies in
	Clear    trace.Num // a screw's clearance hole
	Pilot    trace.Num // its pilot hole
	Every    trace.Num // from one to the next, where they are evenly spread
}

// Normal is the direction in which a face of the part looks, in the part's own
// frame.
func (f Face) Normal() r3.Vec {
	switch f {
	case FaceB:
		return r3.Vec{Z: -1}
	case EdgeLow:
		return r3.Vec{Y: -1}
	case EdgeHigh:
		return r3.Vec{Y: 1}
	case EndLow:
		return r3.Vec{X: -1}
	case EndHigh:
		return r3.Vec{X: 1}
	}
	return r3.Vec{Z: 1}
}

// FaceTo is the face of a flat part that looks in a direction of its own frame;
// ok is false where none does.
func FaceTo(d r3.Vec) (f Face, ok bool) {
	for _, f := range []Face{FaceA, FaceB, EdgeLow, EdgeHigh, EndLow, EndHigh} {
		if f.Normal().Dot(d) > 1-1e-9 {
			return f, true
		}
	}
	return "", false
}

// OnFace is the place on a face, in the part's own frame, that a cut's x and y
// there mean.
func (p *Part) OnFace(f Face, x, y float64) r3.Vec {
	switch f {
	case FaceA:
		return r3.Vec{X: x, Y: y, Z: p.Thick.V}
	case EdgeLow:
		return r3.Vec{X: x, Z: y}
	case EdgeHigh:
		return r3.Vec{X: x, Y: p.Width.V, Z: y}
	case EndLow:
		return r3.Vec{Y: x, Z: y}
	case EndHigh:
		return r3.Vec{X: p.Length.V, Y: x, Z: y}
	}
	return r3.Vec{X: x, Y: y}
}

// core is a box with a roundness: a round hole is its axis, which runs along one
// of the part's own, a slot its room.
type core struct {
	lo, hi r3.Vec
	r      float64
	axis   int
}

// mostHoles bounds how many holes of one row are looked at.
const mostHoles = 1000

// cores are the rooms that a cut takes, in the part's own frame.
func (p *Part) cores(c *Cut) []core {
	depth := c.Depth.V
	if c.Through && !c.Face.Narrow() {
		depth = p.Thick.V
	}
	in := c.Face.Normal().Mul(-depth)
	if c.Kind == EndGroove {
		return []core{{r3.Vec{X: c.X0.V, Y: c.Y0.V, Z: c.Z0.V}, r3.Vec{X: c.X1.V, Y: c.Y1.V, Z: c.Z1.V}, 0, -1}}
	}
	if c.Kind != Hole && c.Kind != HoleRow {
		a, b := p.OnFace(c.Face, c.X0.V, c.Y0.V), p.OnFace(c.Face, c.X1.V, c.Y1.V)
		return []core{spanning(a, b.Add(in), 0, -1)}
	}
	axis := 2
	if n := c.Face.Normal(); n.X != 0 {
		axis = 0
	} else if n.Y != 0 {
		axis = 1
	}
	var out []core
	for i := range min(max(1, c.Count), mostHoles) {
		at := p.OnFace(c.Face, c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V)
		out = append(out, spanning(at, at.Add(in), c.Diameter.V/2, axis))
	}
	return out
}

func spanning(a, b r3.Vec, r float64, axis int) core {
	return core{r3.Vec{X: math.Min(a.X, b.X), Y: math.Min(a.Y, b.Y), Z: math.Min(a.Z, b.Z)},
		r3.Vec{X: math.Max(a.X, b.X), Y: math.Max(a.Y, b.Y), Z: math.Max(a.Z, b.Z)}, r, axis}
}

// Between is the least wood, mm, that two cuts of a part leave between them in
// space, from whatever faces they are made: nought or less where they meet. Where
// a hole's flat end lies askew to the other cut it may be told a little too small,
// never too large.
func Between(p *Part, a, b *Cut) float64 {
	least := math.Inf(1)
	for _, x := range p.cores(a) {
		for _, y := range p.cores(b) {
			least = math.Min(least, x.from(y))
		}
	}
	return least
}

// from is the distance between two rooms, by two bounds that it is never less
// than: as if the ends of holes were round, and along each axis by itself.
func (c core) from(o core) float64 {
	var gap [3]float64
	square, most := 0.0, math.Inf(-1)
	round := 0.0
	for k := range gap {
		d := math.Max(c.at(k, false)-o.at(k, true), o.at(k, false)-c.at(k, true))
		gap[k] = math.Max(0, d)
		square += gap[k] * gap[k]
		most = math.Max(most, d-c.wide(k)-o.wide(k))
		if c.r > 0 && k != c.axis || c.r == 0 && o.r > 0 && k != o.axis {
			round += gap[k] * gap[k]
		}
	}
	if c.r == 0 || o.r == 0 || c.axis == o.axis { // exact across the axis that they share
		most = math.Max(most, math.Sqrt(round)-c.r-o.r)
	}
	return math.Max(most, math.Sqrt(square)-c.r-o.r)
}

func (c core) at(k int, high bool) float64 {
	v := c.lo
	if high {
		v = c.hi
	}
	return [3]float64{v.X, v.Y, v.Z}[k]
}

// wide is how far the room reaches beyond its axis along k.
func (c core) wide(k int) float64 {
	if k == c.axis {
		return 0
	}
	return c.r
}
