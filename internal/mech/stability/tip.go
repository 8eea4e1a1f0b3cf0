package stability

import (
	"fmt"
	"math"
	"slices"

	"rodwork/internal/geom/r3"
)

// Gravity is the standard acceleration of free fall, m/s².
const Gravity = 9.80665

// Foot is a point where the body stands on the floor (y = 0), mm.
type Foot struct{ X, Z float64 }

// Mass is a mass in space.
type Mass struct {
	Name string
	Kg   float64
	At   r3.Vec // mm
	// Content is set for what the piece holds, as against its own parts.
	Content bool
}

// Pull is a level pull outwards over an edge, at a point.
type Pull struct {
	Name string
	N    float64
	At   r3.Vec // mm
	// Dir is its direction in the piece's plan (y is left out); its length does
	// not matter. The zero direction is to the front.
	Dir r3.Vec
}

// State is one state of the piece to be tried.
type State struct {
	Name   string
	Feet   []Foot // at least three, not in one line
	Masses []Mass
	Pulls  []Pull
	// Block is put under the rear feet, mm: 10.9 for the carpet of a test; or
	// under those of another side, so that the body leans Toward the opposite one:
	// "front" (or ""), "back", "left", "right".
	Block  float64
	Toward string
	// Gravity in m/s²; 0: the standard one.
	Gravity float64
}

// Edge is one edge of the hull of the feet.
type Edge struct {
	A, B r3.Vec
	Name string // "front", "back", "left", "right" by where it looks
}

// Share is what one mass or pull adds to a moment, N·mm.
type Share struct {
	Name   string
	Moment float64 // positive: holds
}

// Outcome is how one state comes out about one edge.
type Outcome struct {
	State string
	Edge  Edge
	// Holds and Tips are the sums of what holds and what tips, both positive,
	// N·mm; Net = Holds − Tips.
	Holds, Tips, Net float64
	// Margin is Holds/Tips: over 1 it stands; +Inf where nothing tips it.
	Margin float64
	Stands bool
	Shares []Share // in the order of the state
	Tilt   float64 // by the block, rad
}

// StateError says why a state cannot be computed.
type StateError struct{ State, Why string }

// Error names the state and the reason.
func (e *StateError) Error() string { return fmt.Sprintf("stability: %s: %s", e.State, e.Why) }

// Tilt returns the angle, rad, by which a block of the height t (mm) under feet
// at the distance d (mm) turns the body: asin(t/d). (STAND-02)
func Tilt(block, spacing float64) float64 { return math.Asin(block / spacing) }

// Tip tries every state about every edge and returns the worst outcome (the
// least Margin, the first of equals) and all of them, in the order of the
// states and of the edges.
func Tip(states []State) (worst Outcome, all []Outcome, err error) {
	for _, s := range states {
		out, err := s.Outcomes()
		if err != nil {
			return Outcome{}, nil, err
		}
		all = append(all, out...)
	}
	if len(all) == 0 {
		return Outcome{}, nil, &StateError{"", "no states"}
	}
	worst = all[0]
	for _, o := range all[1:] {
		if o.Margin < worst.Margin {
			worst = o
		}
	}
	return worst, all, nil
}

// Outcomes tries the state about each edge of the hull of its feet.
func (s State) Outcomes() ([]Outcome, error) {
	edges, tilt, err := s.ground()
	if err != nil {
		return nil, err
	}
	out := make([]Outcome, len(edges))
	for i, e := range edges {
		out[i] = s.about(e, tilt)
	}
	return out, nil
}

// About tries the state about the edge that looks the given way ("front").
func (s State) About(edge string) (Outcome, error) {
	all, err := s.Outcomes()
	if err != nil {
		return Outcome{}, err
	}
	for _, o := range all {
		if o.Edge.Name == edge {
			return o, nil
		}
	}
	return Outcome{}, &StateError{s.Name, "no edge looks to the " + edge}
}

func (s State) ground() ([]Edge, float64, error) {
	if err := s.check(); err != nil {
		return nil, 0, err
	}
	hull := hullOf(s.Feet)
	if len(hull) < 3 {
		return nil, 0, &StateError{s.Name, "the feet stand in one line"}
	}
	edges := make([]Edge, len(hull))
	front, back := math.Inf(-1), math.Inf(1)
	d := lean(s.Toward)
	for i, a := range hull {
		b := hull[(i+1)%len(hull)]
		edges[i] = Edge{A: r3.Vec{X: a.X, Z: a.Z}, B: r3.Vec{X: b.X, Z: b.Z}}
		edges[i].Name = looks(edges[i])
		at := a.X*d.X + a.Z*d.Z
		front, back = math.Max(front, at), math.Min(back, at)
	}
	if s.Block >= front-back {
		return nil, 0, &StateError{s.Name, "the block is higher than the feet are apart"}
	}
	return edges, Tilt(s.Block, front-back), nil
}

func (s State) check() error {
	bad := func(vs ...float64) bool {
		return slices.ContainsFunc(vs, func(v float64) bool { return !(math.Abs(v) <= 1e9) })
	}
	if len(s.Feet) > 1000 || len(s.Masses) > 100000 || len(s.Pulls) > 1000 {
		return &StateError{s.Name, "too many feet, masses or pulls"}
	}
	for _, f := range s.Feet {
		if bad(f.X, f.Z) {
			return &StateError{s.Name, "a foot is at no place"}
		}
	}
	for _, m := range s.Masses {
		if bad(m.Kg, m.At.X, m.At.Y, m.At.Z) || m.Kg < 0 {
			return &StateError{s.Name, "mass " + m.Name + " is negative or at no place"}
		}
	}
	for _, p := range s.Pulls {
		if bad(p.N, p.At.X, p.At.Y, p.At.Z, p.Dir.X, p.Dir.Z) {
			return &StateError{s.Name, "pull " + p.Name + " is no number or at no place"}
		}
	}
	if bad(s.Block, s.Gravity) || s.Block < 0 || s.Gravity < 0 {
		return &StateError{s.Name, "the block or gravity is negative or no number"}
	}
	return nil
}

// outward is the level unit vector that looks out over the edge. The hull runs
// anticlockwise as seen from above with x to the right and z towards the
// viewer's feet, so out is to the right of A to B.
func (e Edge) outward() r3.Vec {
	d := e.B.Sub(e.A)
	l := math.Hypot(d.X, d.Z)
	return r3.Vec{X: -d.Z / l, Z: d.X / l}
}

func looks(e Edge) string {
	o := e.outward()
	switch {
	case o.Z >= math.Abs(o.X):
		return "front"
	case -o.Z >= math.Abs(o.X):
		return "back"
	case o.X > 0:
		return "right"
	}
	return "left"
}

// about sums the moments about the edge. The true vertical, as the body sees
// it, leans by the tilt; a level pull leans with it.
func (s State) about(e Edge, tilt float64) Outcome {
	g := s.Gravity
	if g == 0 {
		g = Gravity
	}
	sin, cos := math.Sincos(tilt)
	d := lean(s.Toward)
	down := r3.Vec{X: sin * d.X, Y: -cos, Z: sin * d.Z}
	o := Outcome{State: s.Name, Edge: e, Tilt: tilt}
	out := e.outward()
	add := func(name string, at, force r3.Vec) {
		// The lever is from the edge's line; only its part across the edge and
		// its height count.
		across := at.Sub(e.A).Dot(out)
		o.add(Share{name, -(force.Dot(out)*at.Y - force.Y*across)})
	}
	for _, m := range s.Masses {
		add(m.Name, m.At, down.Mul(m.Kg*g))
	}
	for _, p := range s.Pulls {
		add(p.Name, p.At, level(p.Dir, d, tilt).Mul(p.N))
	}
	o.Net = o.Holds - o.Tips
	o.Margin = math.Inf(1)
	if o.Tips > 0 {
		o.Margin = o.Holds / o.Tips
	}
	o.Stands = o.Net > 0
	return o
}

func (o *Outcome) add(s Share) {
	o.Shares = append(o.Shares, s)
	if s.Moment >= 0 {
		o.Holds += s.Moment
	} else {
		o.Tips -= s.Moment
	}
}

// lean is the level direction that a side looks to.
func lean(toward string) r3.Vec {
	switch toward {
	case "back":
		return r3.Vec{Z: -1}
	case "left":
		return r3.Vec{X: -1}
	case "right":
		return r3.Vec{X: 1}
	}
	return r3.Vec{Z: 1}
}

// level returns the unit vector of a level direction as the body sees it that
// leans to d.
func level(dir, d r3.Vec, tilt float64) r3.Vec {
	l := math.Hypot(dir.X, dir.Z)
	if l == 0 {
		dir, l = r3.Vec{Z: 1}, 1
	}
	dir = r3.Vec{X: dir.X / l, Z: dir.Z / l}
	sin, cos := math.Sincos(tilt)
	along := dir.Dot(d)
	return dir.Add(d.Mul(along * (cos - 1))).Add(r3.Vec{Y: along * sin})
}
