// Package dxf writes flat drawings as ASCII DXF files of the release that is
// called R2000 (its $ACADVER is AC1015), which carries lines, arcs, circles,
// polylines with arcs in them, and words.
//
// # What a drawing is
//
// A Drawing has layers, named by whole words, and entities on them. Nothing is
// packed into a name or a colour: every layer has the colour 7, which is black
// on white and white on black, and the line type CONTINUOUS. Who opens the file
// chooses by the names what to cut and what only to look at.
//
// # Arcs
//
// A closed or open run of lines and arcs is one LWPOLYLINE. Its arcs are told
// by bulges, the tangent of a quarter of the angle, as package planar tells
// them, so that nothing is converted and nothing is lost. A loop of two arcs
// that is a full circle is written as CIRCLE.
//
// # Numbers
//
// Lengths are millimetres ($INSUNITS 4, $MEASUREMENT 1) with nine decimals,
// bulges have twelve: an outline read back lies within 1e-6 mm of the one that
// was written. Handles are given out in order; the same drawing gives the same
// bytes.
//
// # Words
//
// Letters beyond ASCII are written as \U+XXXX; what a reader would take for a
// control code is written so that it stands as it is. Line breaks become
// spaces: TEXT has one line.
package dxf

import (
	"fmt"
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// Drawing is a flat drawing, mm, x to the right and y up.
type Drawing struct {
	// Layers in the order of the layer table. A layer that an entity names and
	// that is not here is added after them.
	Layers   []string
	Entities []Entity
	// Note is written as a comment at the head of the file, one line.
	Note string
}

// Entity is a Line, Arc, Circle, Polyline or Text.
type Entity interface {
	layer() string
	box() r2.Box
	finite() bool
	write(w *writer, owner int)
}

// Line is a straight line.
type Line struct {
	Layer string
	A, B  r2.Vec
}

// Arc is an arc of a circle, anticlockwise from the angle From to the angle
// To, rad.
type Arc struct {
	Layer    string
	Center   r2.Vec
	Radius   float64
	From, To float64
}

// Circle is a full circle.
type Circle struct {
	Layer  string
	Center r2.Vec
	Radius float64
}

// Polyline is a run of lines and arcs. Where it is open the bulge of its last
// vertex means nothing.
type Polyline struct {
	Layer  string
	Loop   planar.Loop
	Closed bool
}

// Text is one line of words. Height is that of capitals, mm; Turn is the
// direction of the base line, rad anticlockwise from x.
type Text struct {
	Layer  string
	At     r2.Vec
	S      string
	Height float64
	Turn   float64
	Align  Align
}

// Align is the end of a text that stands at its place.
type Align byte

// The ends.
const (
	Left Align = iota
	Middle
	Right
)

// Loop returns a closed loop as the entity that tells it best: a full circle
// as Circle, all else as Polyline.
func Loop(layer string, l planar.Loop) Entity {
	if c, ok := asCircle(layer, l); ok {
		return c
	}
	return Polyline{Layer: layer, Loop: l, Closed: true}
}

// Region returns the loops of a region, each outer one before its holes.
func Region(outer, holes string, r planar.Region) []Entity {
	var out []Entity
	for _, s := range r {
		out = append(out, Loop(outer, s.Outer))
		for _, h := range s.Holes {
			out = append(out, Loop(holes, h))
		}
	}
	return out
}

// round is how far, mm, centres and radii of the arcs of a loop may differ for
// the loop to be one circle.
const round = 1e-7

// asCircle recognises a loop whose arcs all turn the same way round one centre
// once.
func asCircle(layer string, l planar.Loop) (Circle, bool) {
	if len(l) < 2 {
		return Circle{}, false
	}
	first, turn := l.Edge(0), 0.0
	for _, e := range l.Edges() {
		if !e.IsArc() || e.Center().Sub(first.Center()).Len() > round || math.Abs(e.Radius()-first.Radius()) > round {
			return Circle{}, false
		}
		turn += e.Sweep()
	}
	if math.Abs(math.Abs(turn)-2*math.Pi) > 1e-9 {
		return Circle{}, false
	}
	return Circle{Layer: layer, Center: first.Center(), Radius: first.Radius()}, true
}

// check says what in the drawing cannot be written.
func (d *Drawing) check() error {
	for i, e := range d.Entities {
		if !e.finite() {
			return fmt.Errorf("dxf: entity %d on the layer %q has a number that is not finite, or no size", i+1, e.layer())
		}
	}
	return nil
}

func fin(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.Abs(v) > 1e12 {
			return false
		}
	}
	return true
}

func (e Line) layer() string     { return e.Layer }
func (e Arc) layer() string      { return e.Layer }
func (e Circle) layer() string   { return e.Layer }
func (e Polyline) layer() string { return e.Layer }
func (e Text) layer() string     { return e.Layer }

func (e Line) finite() bool { return fin(e.A.X, e.A.Y, e.B.X, e.B.Y) }
func (e Arc) finite() bool {
	return fin(e.Center.X, e.Center.Y, e.Radius, e.From, e.To) && e.Radius > 0
}
func (e Circle) finite() bool { return fin(e.Center.X, e.Center.Y, e.Radius) && e.Radius > 0 }
func (e Text) finite() bool   { return fin(e.At.X, e.At.Y, e.Height, e.Turn) && e.Height > 0 }
func (e Polyline) finite() bool {
	for _, v := range e.Loop {
		if !fin(v.P.X, v.P.Y, v.Bulge) {
			return false
		}
	}
	return len(e.Loop) > 1
}

func (e Line) box() r2.Box { return r2.EmptyBox().With(e.A).With(e.B) }
func (e Arc) box() r2.Box {
	return r2.Box{Min: e.Center, Max: e.Center}.Grown(e.Radius)
}
func (e Circle) box() r2.Box { return r2.Box{Min: e.Center, Max: e.Center}.Grown(e.Radius) }
func (e Text) box() r2.Box   { return r2.EmptyBox().With(e.At) }
func (e Polyline) box() r2.Box {
	b := r2.EmptyBox()
	for i, v := range e.Loop {
		b = b.With(v.P)
		edge := e.Loop.Edge(i)
		if (i < len(e.Loop)-1 || e.Closed) && edge.IsArc() {
			b = b.Union(planar.Region{{Outer: planar.Loop{v, {P: edge.B}}}}.Box())
		}
	}
	return b
}
