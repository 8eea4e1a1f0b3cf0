// Package view draws bodies as lines: what a draughtsman puts on paper.
//
// A view is an orthographic projection: all rays of sight are parallel and
// stand square on the paper. Three kinds of line are drawn (ISO 128-2):
//
//   - an edge, where two faces of a body meet at a corner;
//   - a silhouette, where a cylinder turns away from the eye: the line along
//     which the ray of sight touches it, computed and not taken from its chords;
//   - a tangent edge, where a flat face runs on into a cylinder without a
//     corner; it is drawn narrow, or left out.
//
// # Hidden lines
//
// Each line is compared with each face that looks towards the eye and overlaps
// it on paper. A face is flat, so the depth between the two is linear along the
// line; the stretch of the line that lies within the face's outline and deeper
// than it by more than touch is hidden. The stretches of all faces are joined,
// and what is left is seen. No line is ever cut at a crossing with another, and
// no point is sampled but in faces with holes or hollows, whose crossings with
// the line are found first and the middles between them asked.
//
// Parts that touch share planes. So a face hides only what is behind it by more
// than touch, and its outline counts as part of it: a line that runs exactly
// behind the rim of a face is hidden, and the rim is drawn instead.
//
// Last, what lies on one line of paper is sorted out: seen wins over hidden,
// edge over silhouette over tangent, and runs of one body that touch are one.
//
// A chord stands for an arc within Options.Chord, so a strip of a cylinder lies
// that far from the true surface: it hides what is deeper by twice that, along
// the ray of sight.
package view

import (
	"math"
	"sync"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// View is a way of looking: right and up on the paper, and towards the eye,
// each of length 1 and square to the others.
type View struct {
	Name           string
	Right, Up, Eye r3.Vec
}

// Project returns the place on paper of a point of space, mm, and how far it is
// towards the eye.
func (v View) Project(p r3.Vec) (at r2.Vec, near float64) {
	return r2.Vec{X: p.Dot(v.Right), Y: p.Dot(v.Up)}, p.Dot(v.Eye)
}

// Front looks at the piece from before it.
func Front() View {
	return View{"front", r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}}
}

// Back looks at it from behind.
func Back() View {
	return View{"back", r3.Vec{X: -1}, r3.Vec{Y: 1}, r3.Vec{Z: -1}}
}

// Plan looks down on it, its front towards the foot of the paper.
func Plan() View {
	return View{"plan", r3.Vec{X: 1}, r3.Vec{Z: -1}, r3.Vec{Y: 1}}
}

// EndRight looks at its right end; its front is at the left of the paper.
func EndRight() View {
	return View{"end from the right", r3.Vec{Z: -1}, r3.Vec{Y: 1}, r3.Vec{X: 1}}
}

// EndLeft looks at its left end; its front is at the right of the paper.
func EndLeft() View {
	return View{"end from the left", r3.Vec{Z: 1}, r3.Vec{Y: 1}, r3.Vec{X: -1}}
}

// From returns the view from the direction of eye, with the height upright on
// the paper. Straight up or down there is no such view, and Plan is returned.
func From(name string, eye r3.Vec) View {
	e := eye.Unit()
	right := r3.Vec{Y: 1}.Cross(e)
	if right.Len() < 1e-9 {
		return Plan()
	}
	right = right.Unit()
	return View{name, right, e.Cross(right), e}
}

// Isometric looks from before, above and the left (or the right), so that
// width, height and depth are shortened alike, by √(2/3).
func Isometric(fromRight bool) View {
	return From("isometric", r3.Vec{X: sideOf(fromRight), Y: 1, Z: 1})
}

// Dimetric looks from before, above and the left (or the right), so that width
// and height keep one scale, (2√2)/3 of the true one, and depth has half of
// that: the eye is towards (±1, 1, √7)/3. Width then rises by 7.2° on paper and
// depth by 41.4°; ISO 5456-3 rounds to 7° and 42°. It shows a front nearly as
// it is, and still its end and its top.
func Dimetric(fromRight bool) View {
	return From("dimetric", r3.Vec{X: sideOf(fromRight), Y: 1, Z: math.Sqrt(7)})
}

func sideOf(right bool) float64 {
	if right {
		return 1
	}
	return -1
}

// Item is a body with the name that its lines carry.
type Item struct {
	ID   string
	Body solid.Body
}

// Kind says what a line is.
type Kind string

const (
	Edge       Kind = "edge"
	Silhouette Kind = "silhouette"
	Tangent    Kind = "tangent"
)

// Line is one line on the paper, mm at full size.
type Line struct {
	A, B   r2.Vec
	Hidden bool
	Kind   Kind
	Body   string // the Item's ID
	// Radius is 0 for a straight line. An arc, which is one in space and seen
	// square on, runs anticlockwise round Center from A to B by Sweep rad; a
	// full circle has A = B and Sweep = 2π.
	Center        r2.Vec
	Radius, Sweep float64
}

// Options say what is drawn.
type Options struct {
	// HiddenToo asks for the hidden lines as well.
	HiddenToo bool
	// Chord is how far chords may lie from an arc, mm; 0 means 0.1. It is set
	// when the scene is made.
	Chord float64
}

// Scene is a set of bodies made ready to be drawn, from any side.
type Scene struct {
	ids   []string
	skins []solid.Skin
	chord float64
}

// NewScene returns the scene of the items; chord as in Options. It fails where
// a body's regions can't be put together.
func NewScene(items []Item, chord float64) (*Scene, error) {
	if !(chord > 0) {
		chord = 0.1
	}
	s := &Scene{chord: chord}
	for _, it := range items {
		skin, err := it.Body.Skin(chord)
		if err != nil {
			return nil, err
		}
		s.ids = append(s.ids, it.ID)
		s.skins = append(s.skins, skin)
	}
	return s, nil
}

// Only returns the scene of those items whose ids keep accepts, in their order.
// It shares what was prepared.
func (s *Scene) Only(keep func(id string) bool) *Scene {
	out := &Scene{chord: s.chord}
	for i, id := range s.ids {
		if keep(id) {
			out.ids, out.skins = append(out.ids, id), append(out.skins, s.skins[i])
		}
	}
	return out
}

// Draw returns the lines of a scene in one view. Where several views are
// wanted, NewScene and Scene.Draw prepare the bodies only once.
func Draw(items []Item, v View, o Options) ([]Line, error) {
	s, err := NewScene(items, o.Chord)
	if err != nil {
		return nil, err
	}
	return s.Draw(v, o), nil
}

// Draw returns the lines in one view: by body in the order of the items, seen
// before hidden. Options.Chord is the scene's.
func (s *Scene) Draw(v View, o Options) []Line {
	d := tables.Get().(*drawing)
	defer tables.Put(d)
	d.clear(s, v, o.HiddenToo)
	d.project()
	d.strokes()
	for i := range d.lines {
		d.see(&d.lines[i])
	}
	return d.sorted()
}

// tables are drawings whose slices are used again: a view of a sideboard fills
// a megabyte of them. No line that is returned points into one.
var tables = sync.Pool{New: func() any { return new(drawing) }}

// clear readies a drawing for a view, and keeps its slices.
func (d *drawing) clear(s *Scene, v View, hidden bool) {
	*d = drawing{view: v, scene: s, hidden: hidden, screens: d.screens[:0], groups: d.groups[:0], rings: d.rings[:0],
		sides: d.sides[:0], lines: d.lines[:0], marks: d.marks[:0], done: d.done[:0],
		taken: d.taken[:0], spans: d.spans[:0], cuts: d.cuts[:0], near: d.near[:0]}
}

// Bounds returns the smallest box round the lines.
func Bounds(lines []Line) r2.Box {
	b := r2.EmptyBox()
	for _, l := range lines {
		b = b.With(l.A).With(l.B)
		if l.Radius == 0 {
			continue
		}
		n := 1 + int(l.Sweep*16)
		for k := 1; k < n; k++ {
			b = b.With(l.Center.Add(l.A.Sub(l.Center).Turn(l.Sweep * float64(k) / float64(n))))
		}
	}
	return b
}
