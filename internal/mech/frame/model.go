package frame

import (
	"fmt"
	"math"

	"rodwork/internal/geom/r3"
)

// Rigid is the spring of a joint that does not give.
var Rigid = math.Inf(1)

// Node is a place where bars meet, mm. Fix tells which of its six moves the
// ground holds: along x, y, z, and about x, y, z.
type Node struct {
	At  r3.Vec
	Fix [6]bool
}

// Section is a bar's: area mm², second moments about its own y and z axes and
// torsion constant mm⁴, moduli MPa.
type Section struct {
	A, Iy, Iz, J float64
	E, G         float64
}

// Rect is the section of a bar b wide along its own z and h high along its own
// y, mm. The torsion constant is b³·h/3 less what the short side takes (the
// usual approximation, within 0.5 %).
func Rect(b, h, e, g float64) Section {
	short, long := math.Min(b, h), math.Max(b, h)
	q := short / long
	j := long * short * short * short * (1.0/3 - 0.21*q*(1-q*q*q*q/12))
	return Section{A: b * h, Iy: h * b * b * b / 12, Iz: b * h * h * h / 12, J: j, E: e, G: g}
}

// Spring is how stiff the end of a bar is held by its node, N·mm/rad, about the
// bar's own y and z axes: Rigid, 0 for a hinge, or between.
type Spring struct{ Y, Z float64 }

// Welded is the end that turns with its node.
var Welded = Spring{Rigid, Rigid}

// Bar runs from node A to node B. Its own x axis is that way; Up is a direction
// with which its own y axis lies in one plane (the zero vector: the most upright
// one).
type Bar struct {
	Name string
	A, B int
	Section
	Up   r3.Vec
	Ends [2]Spring
}

// Panel is a thin sheet between four nodes, which lie in the order of its
// outline and make a rectangle. Shear is G·t, N/mm, or less where its fastening
// gives.
type Panel struct {
	Nodes [4]int
	Shear float64
}

// Load pulls (N) and turns (N·mm) at a node.
type Load struct {
	Node          int
	Force, Moment r3.Vec
}

// Spread is a load along the whole of a bar, N/mm, in the frame's directions.
type Spread struct {
	Bar int
	Per r3.Vec
}

// Frame is what is to be computed. In a Plane frame nothing moves along z or
// turns about x or y.
type Frame struct {
	Nodes   []Node
	Bars    []Bar
	Panels  []Panel
	Loads   []Load
	Spreads []Spread
	Plane   bool
}

// Bounds of what is taken: more is refused, since the equations are solved whole.
const mostNodes = 400

// Error says what keeps a frame from being computed.
type Error struct{ Why string }

// Error tells it.
func (e *Error) Error() string { return "frame: " + e.Why }

func (f *Frame) check() error {
	if len(f.Nodes) < 2 || len(f.Nodes) > mostNodes || len(f.Bars) > 4*mostNodes || len(f.Panels) > mostNodes {
		return &Error{fmt.Sprintf("%d nodes, %d bars and %d panels", len(f.Nodes), len(f.Bars), len(f.Panels))}
	}
	known := func(n int) bool { return n >= 0 && n < len(f.Nodes) }
	for _, n := range f.Nodes {
		if !finite(n.At) {
			return &Error{"a node at no place"}
		}
	}
	for i := range f.Bars {
		b := &f.Bars[i]
		if !known(b.A) || !known(b.B) {
			return &Error{"bar " + b.Name + " ends at no node"}
		}
		if l := f.Nodes[b.B].At.Sub(f.Nodes[b.A].At).Len(); !(l > 1e-6 && l < 1e6) {
			return &Error{"bar " + b.Name + " has no length"}
		}
		if !b.sound() {
			return &Error{"bar " + b.Name + " has no section, or a joint of no stiffness that is known"}
		}
	}
	for _, p := range f.Panels {
		for _, n := range p.Nodes {
			if !known(n) {
				return &Error{"a panel ends at no node"}
			}
		}
		if !(p.Shear >= 0 && p.Shear < 1e9) {
			return &Error{"a panel of no stiffness"}
		}
	}
	return f.checkLoads(known)
}

func (b *Bar) sound() bool {
	for _, v := range []float64{b.Section.A, b.Iy, b.Iz, b.E} {
		if !(v > 0 && v < 1e12) {
			return false
		}
	}
	for _, e := range b.Ends {
		if !(e.Y >= 0 && e.Z >= 0) { // +Inf is rigid
			return false
		}
	}
	return b.J >= 0 && b.J < 1e12 && b.G >= 0 && b.G < 1e7
}

func (f *Frame) checkLoads(known func(int) bool) error {
	for _, l := range f.Loads {
		if !known(l.Node) || !finite(l.Force) || !finite(l.Moment) {
			return &Error{"a load at no node, or of no size"}
		}
	}
	for _, s := range f.Spreads {
		if s.Bar < 0 || s.Bar >= len(f.Bars) || !finite(s.Per) {
			return &Error{"a load on no bar, or of no size"}
		}
	}
	return nil
}

func finite(v r3.Vec) bool { return math.Abs(v.X)+math.Abs(v.Y)+math.Abs(v.Z) < 1e12 }
