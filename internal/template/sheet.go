package template

import (
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/work"
)

// Layer says in whole words what a line is for.
type Layer string

// The layers.
const (
	Outline Layer = "outline of part"
	Outside Layer = "cut outside"  // the edge of a template or block, waste outside
	Inside  Layer = "cut inside"   // an opening of a template, waste inside
	Saw     Layer = "saw line"     // what the jigsaw follows
	Hole    Layer = "hole"         // a hole to drill, with its centre
	Kerf    Layer = "kerf"         // the middle of a kerf
	Edge    Layer = "edge of kerf" // its two sides
	Recess  Layer = "recess"       // a housing, rabbet or groove, its edge
	Tangent Layer = "tangent line" // where a bend starts or ends
	Mark    Layer = "mark"         // datum, centre
	Words   Layer = "words"
	Square  Layer = "square of 100 mm" // to measure the print or the import
)

// layers is their order in files.
var layers = []Layer{Outline, Outside, Inside, Saw, Hole, Kerf, Edge, Recess, Tangent, Mark, Words, Square}

// look is how the lines of a layer are drawn on paper.
func (l Layer) look() (line leaf.Line, accent bool) {
	switch l {
	case Outline:
		return leaf.Cut, false
	case Saw:
		return leaf.Saw, true
	case Tangent:
		return leaf.Centre, false
	case Kerf, Recess:
		return leaf.Hatch, false
	case Hole:
		return leaf.Visible, false
	}
	return leaf.Dimension, false
}

// Line is a run of lines and arcs, closed or open, mm. The bulge of an open
// run's last vertex means nothing.
type Line struct {
	Layer  Layer
	Loop   planar.Loop
	Closed bool
}

// Word is a line of words at a place, mm.
type Word struct {
	At     r2.Vec
	S      string
	Size   leaf.Size
	Anchor leaf.Anchor
	Up     bool
	Italic bool
}

// Sheet is one full-size drawing: x to the right, y up, mm, the datum corner at
// (0, 0).
type Sheet struct {
	Key   string // "shape-15": unique among the sheets, fit for a file name
	Part  int    // the part's number, 0 where the sheet serves several
	Title string
	Right string // stock, or what it is for
	Alt   string
	Lines []Line
	Words []Word
	// Datum tells that (0, 0) is a datum corner and which way its edges run: DX and
	// DY are 1 or −1; 0 for an edge that does not run straight from it. Without DX
	// there is no mark.
	DX, DY float64
	// Legend says what each layer means on this sheet, in the order given.
	Legend []Meaning
	// Facts are sentences below the drawing.
	Facts []string
	// Rules are the ids of the rules that the sheet stands on.
	Rules    []string
	Findings []work.Finding
}

// Meaning is a row of a legend.
type Meaning struct {
	Layer Layer
	S     string
}

// Name is what the sheet's files are called, the part's number aside.
func (s Sheet) Name() string {
	kind, _, _ := strings.Cut(s.Key, "-")
	_, what, _ := strings.Cut(s.Title, ", ")
	return kind + " " + strings.TrimPrefix(what, strconv.Itoa(s.Part)+" ")
}

func (s *Sheet) closed(l Layer, loops ...planar.Loop) {
	for _, p := range loops {
		s.Lines = append(s.Lines, Line{Layer: l, Loop: p, Closed: true})
	}
}

func (s *Sheet) open(l Layer, ps ...r2.Vec) {
	s.Lines = append(s.Lines, Line{Layer: l, Loop: planar.Polygon(ps...)})
}

func (s *Sheet) rect(l Layer, x0, y0, x1, y1 float64) {
	s.closed(l, planar.Rect(x0, y0, x1, y1).Loops()...)
}

// hole draws a round hole with its centre, which a punch or a drill looks for.
func (s *Sheet) hole(c r2.Vec, dia float64) {
	s.closed(Hole, planar.Circle(c, dia/2))
	h := max(dia/2+1.5, 2.5)
	s.open(Mark, pt(c.X-h, c.Y), pt(c.X+h, c.Y))
	s.open(Mark, pt(c.X, c.Y-h), pt(c.X, c.Y+h))
}

func (s *Sheet) word(w Word) { s.Words = append(s.Words, w) }

func (s *Sheet) mean(l Layer, words string) { s.Legend = append(s.Legend, Meaning{l, words}) }

// prune takes meanings out of the legend of which nothing is drawn, as of holes
// in a strip that has none.
func (s *Sheet) prune() {
	s.Legend = slices.DeleteFunc(s.Legend, func(m Meaning) bool { return !s.has(m.Layer) })
}

func (s *Sheet) fact(words string) { s.Facts = append(s.Facts, words) }

func (s *Sheet) rule(ids ...string) { s.Rules = append(s.Rules, ids...) }

// box is what the lines cover, exact for arcs.
func (s *Sheet) box() r2.Box {
	b := r2.EmptyBox()
	for _, l := range s.Lines {
		b = b.Union(lineBox(l))
	}
	return b
}

func lineBox(l Line) r2.Box {
	if l.Closed {
		return planar.Region{{Outer: l.Loop}}.Box()
	}
	b := r2.EmptyBox()
	for _, v := range l.Loop {
		b = b.With(v.P)
	}
	return b
}

// pt is short for a place.
func pt(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }
