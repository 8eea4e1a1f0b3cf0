// Package leaf is what a drawn sheet of paper is: lines and words with places
// in millimetres. It knows no trade and no file format; what draws makes a
// Leaf, what writes SVG, PDF or DXF reads one.
//
// The paper's frame has its origin at the upper left, x to the right and y
// down, so that a millimetre here is a millimetre in print. A leaf's W × H is
// the field of the figure alone: the title above it and the caption below are
// data, because a printed plate sets them in the drawing and a page sets them
// in its own type. Plate puts them in.
//
// Lines are called by what they mean, not by how they look: the widths and
// dashes of each kind (ISO 128-2, with two wider and one narrower line for
// sections) are in LookOf, once for all formats. Arcs stay arcs.
package leaf

import (
	"math"

	"rodwork/internal/geom/r2"
)

// Leaf is one figure.
type Leaf struct {
	Key     string // "strip-1": unique in a book, stable, fit for a file name
	Title   string
	Right   string // set at the right of the title: stock, tools or view
	Caption string
	Alt     string // the figure in words, for who cannot see it
	W, H    float64
	Items   []Item
	// FullSize says that a millimetre of the leaf is a millimetre of the thing: no
	// format scales it. A format that writes it on a sheet of its own puts title and
	// caption to it, and a square of 100 mm to measure.
	FullSize bool
}

// Item is a Path or a Text.
type Item interface{ item() }

// Path is one or more runs of lines and arcs that share a line and a fill.
type Path struct {
	Line   Line // "" draws no line
	Accent bool // the accent colour instead of ink
	Fill   Fill
	Segs   []Seg
}

// Op is what a segment does.
type Op byte

// The operations: a run starts with Move, and Close leads back to its start.
const (
	Move  Op = 'M'
	To    Op = 'L'
	Arc   Op = 'A'
	Close Op = 'Z'
)

// Seg is a step of a path to P. An Arc is circular with radius R; Left tells
// that it turns left (anticlockwise as seen on the paper), Large that it is
// the longer of the two arcs.
type Seg struct {
	Op          Op
	P           r2.Vec
	R           float64
	Large, Left bool
}

// Fill is what a closed path is filled with.
type Fill string

// Fills. Paper hides what was drawn before it; Solid is the line's own colour.
const (
	None  Fill = ""
	Paper Fill = "paper"
	Solid Fill = "solid"
)

// Text is one line of words.
type Text struct {
	At     r2.Vec // on the base line, at the anchor
	S      string
	Size   Size
	Anchor Anchor
	// Up turns the text a quarter turn, to be read from the right.
	Up     bool
	Halo   bool // paper round the letters, where it stands over lines
	Italic bool
	Strong bool
	Accent bool
}

// Size is one of three sizes of letters; see EM.
type Size byte

// Sizes: Note for notes, tables and axis values (capitals 1.8 mm high), Name
// for dimension values and names (2.5), Head for titles (3.5, semibold).
const (
	Note Size = iota
	Name
	Head
)

// EM returns the font size in mm.
func (s Size) EM() float64 { return [...]float64{2.7, 3.7, 5.2}[s] }

// Cap returns the height of capitals and digits in mm.
func (s Size) Cap() float64 { return 0.66 * s.EM() }

// Anchor is the end of the text that stands at its place.
type Anchor byte

// Anchors.
const (
	Start Anchor = iota
	Middle
	End
)

func (Path) item() {}
func (Text) item() {}

// Width returns the estimated length of the text, mm.
func (t Text) Width() float64 { return Width(t.S, t.Size, t.Italic, t.Strong) }

// Box returns the paper that the text covers: from the base line to the height
// of capitals, which is where two texts would clash. Descenders hang out by a
// quarter of that.
func (t Text) Box() r2.Box {
	w, h := t.Width(), t.Size.Cap()
	off := [...]float64{0, -w / 2, -w}[t.Anchor]
	if t.Up {
		return r2.Box{Min: r2.Vec{X: t.At.X - h, Y: t.At.Y - off - w}, Max: r2.Vec{X: t.At.X, Y: t.At.Y - off}}
	}
	return r2.Box{Min: r2.Vec{X: t.At.X + off, Y: t.At.Y - h}, Max: r2.Vec{X: t.At.X + off + w, Y: t.At.Y}}
}

// Box returns the paper that the path covers, without its line's width. An arc
// counts with the whole quarter turns that it passes.
func (p Path) Box() r2.Box {
	b := r2.EmptyBox()
	var at r2.Vec
	for _, s := range p.Segs {
		switch s.Op {
		case Arc:
			b = b.Union(arcBox(at, s))
			at = s.P
		case Move, To:
			b = b.With(s.P)
			at = s.P
		}
	}
	return b
}

// ArcCentre returns the centre of the arc that leads from a by the segment.
// On paper y runs down: an arc that turns left as seen has its centre at the
// left of its chord as seen.
func ArcCentre(a r2.Vec, s Seg) r2.Vec {
	chord := s.P.Sub(a)
	half := chord.Len() / 2
	h := math.Sqrt(math.Max(0, s.R*s.R-half*half))
	left := r2.Vec{X: chord.Y, Y: -chord.X}.Unit() // left as seen, y down
	if s.Left == s.Large {
		h = -h
	}
	return a.Lerp(s.P, 0.5).Add(left.Mul(h))
}

func arcBox(a r2.Vec, s Seg) r2.Box {
	b := r2.EmptyBox().With(a).With(s.P)
	c := ArcCentre(a, s)
	from := math.Atan2(-(a.Y - c.Y), a.X-c.X)
	to := math.Atan2(-(s.P.Y - c.Y), s.P.X-c.X)
	if !s.Left {
		from, to = to, from
	}
	for to < from {
		to += 2 * math.Pi
	}
	for k := math.Ceil(from / (math.Pi / 2)); k*math.Pi/2 <= to; k++ {
		sin, cos := math.Sincos(k * math.Pi / 2)
		b = b.With(r2.Vec{X: c.X + s.R*cos, Y: c.Y - s.R*sin})
	}
	return b
}

// Moved returns the item shifted by d.
func Moved(it Item, d r2.Vec) Item {
	switch it := it.(type) {
	case Text:
		it.At = it.At.Add(d)
		return it
	case Path:
		segs := make([]Seg, len(it.Segs))
		for i, s := range it.Segs {
			s.P = s.P.Add(d)
			segs[i] = s
		}
		it.Segs = segs
		return it
	}
	return it
}

// Box returns the paper that all items cover.
func (l Leaf) Box() r2.Box {
	b := r2.EmptyBox()
	for _, it := range l.Items {
		switch it := it.(type) {
		case Text:
			b = b.Union(it.Box())
		case Path:
			b = b.Union(it.Box())
		}
	}
	return b
}
