package template

import (
	"math"
	"strings"

	"rodwork/internal/format/dxf"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// Measures of the paper, mm.
const (
	margin    = 14.0 // round the drawing: datum marks and words stand in it
	sample    = 14.0 // length of a line in the legend
	lineStep  = 5.2
	leastWide = 150.0
	mostWide  = 300.0 // of a line of words
)

// Leaf draws the sheet on paper, 1 : 1.
func (s Sheet) Leaf() leaf.Leaf {
	box := s.reach()
	at := func(v r2.Vec) r2.Vec { return pt(v.X-box.Min.X+margin, box.Max.Y-v.Y+margin) }
	l := leaf.Leaf{Key: s.Key, Title: s.Title, Right: s.Right, Alt: s.Alt, FullSize: true,
		W: max(box.Size().X, leastWide) + 2*margin}
	for _, q := range s.Lines {
		line, accent := q.Layer.look()
		l.Items = append(l.Items, leaf.Path{Line: line, Accent: accent, Segs: segs(q, at)})
	}
	l.Items = append(l.Items, s.datumMark(at(r2.Vec{}))...)
	for _, w := range s.Words {
		l.Items = append(l.Items, leaf.Text{At: at(w.At), S: w.S, Size: w.Size, Anchor: w.Anchor, Up: w.Up, Italic: w.Italic, Halo: true})
	}
	y := s.legend(&l, box.Size().Y+2*margin)
	l.H = s.facts(&l, y) + 2
	return l
}

// reach is the box of lines and words: a word may stand beside the drawing.
func (s *Sheet) reach() r2.Box {
	b := s.box()
	for _, w := range s.Words {
		t := leaf.Text{At: pt(w.At.X, -w.At.Y), S: w.S, Size: w.Size, Anchor: w.Anchor, Up: w.Up, Italic: w.Italic}.Box()
		b = b.With(pt(t.Min.X, -t.Min.Y)).With(pt(t.Max.X, -t.Max.Y))
	}
	return b
}

// segs returns a line's segments on paper, arcs kept. Paper's y runs down, so
// that what turns left in the sheet turns left as seen, too.
func segs(q Line, at func(r2.Vec) r2.Vec) []leaf.Seg {
	out := []leaf.Seg{{Op: leaf.Move, P: at(q.Loop[0].P)}}
	for i := range q.Loop {
		e := q.Loop.Edge(i)
		last := i == len(q.Loop)-1
		switch {
		case last && !q.Closed:
		case e.IsArc():
			out = append(out, leaf.Seg{Op: leaf.Arc, P: at(e.B), R: e.Radius(), Left: e.Bulge > 0, Large: math.Abs(e.Bulge) > 1})
		case !last:
			out = append(out, leaf.Seg{Op: leaf.To, P: at(e.B)})
		}
	}
	if q.Closed {
		out = append(out, leaf.Seg{Op: leaf.Close})
	}
	return out
}

// datumMark is a ring with a dot at the corner, its two edges thickened.
func (s *Sheet) datumMark(c r2.Vec) []leaf.Item {
	if s.DX == 0 {
		return nil
	}
	ring := func(r float64) []leaf.Seg {
		return segs(Line{Loop: planar.Circle(c, r), Closed: true}, func(v r2.Vec) r2.Vec { return v })
	}
	edges := []leaf.Seg{{Op: leaf.Move, P: pt(c.X+6*s.DX, c.Y)}, {Op: leaf.To, P: pt(c.X+1.15*s.DX, c.Y)}}
	if s.DY != 0 {
		edges = append(edges, leaf.Seg{Op: leaf.Move, P: pt(c.X, c.Y-6*s.DY)}, leaf.Seg{Op: leaf.To, P: pt(c.X, c.Y-1.15*s.DY)})
	}
	return []leaf.Item{
		leaf.Path{Line: leaf.Datum, Segs: edges},
		leaf.Path{Line: leaf.Visible, Segs: ring(1.15)},
		leaf.Path{Fill: leaf.Solid, Segs: ring(0.3)},
	}
}

// legend draws a sample of each kind of line with what it means.
func (s *Sheet) legend(l *leaf.Leaf, y float64) float64 {
	for _, m := range s.Legend {
		line, accent := m.Layer.look()
		for i, words := range wrap(m.S, min(mostWide, l.W-2*margin)-sample-4) {
			if i == 0 {
				l.Items = append(l.Items, leaf.Path{Line: line, Accent: accent, Segs: []leaf.Seg{
					{Op: leaf.Move, P: pt(margin, y-1.2)}, {Op: leaf.To, P: pt(margin+sample, y-1.2)}}})
			}
			l.Items = append(l.Items, leaf.Text{At: pt(margin+sample+4, y), S: words, Size: leaf.Name})
			y += lineStep
		}
	}
	return y
}

// facts writes the sentences, and returns where they end.
func (s *Sheet) facts(l *leaf.Leaf, y float64) float64 {
	y += 2
	for _, f := range s.Facts {
		for _, words := range wrap(f, min(mostWide, l.W-2*margin)) {
			l.Items = append(l.Items, leaf.Text{At: pt(margin, y), S: words, Size: leaf.Name})
			y += lineStep
		}
		y += 1
	}
	return y
}

// wrap breaks words into lines that are no longer than room.
func wrap(s string, room float64) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(s) {
		next := strings.TrimSpace(line + " " + word)
		if line != "" && leaf.Width(next, leaf.Name, false, false) > room {
			lines = append(lines, line)
			next = word
		}
		line = next
	}
	return append(lines, line)
}

// Drawing returns the sheet for a machine: the lines on their layers, the words
// that stand at places, the sentences below as comments one reads, and a square
// of 100 mm.
func (s Sheet) Drawing() dxf.Drawing {
	d := dxf.Drawing{Note: s.Title}
	for _, l := range layers {
		if l == Words || l == Square || s.has(l) {
			d.Layers = append(d.Layers, string(l))
		}
	}
	for _, q := range s.Lines {
		d.Entities = append(d.Entities, entity(q))
	}
	for _, w := range s.Words {
		t := dxf.Text{Layer: string(Words), At: w.At, S: w.S, Height: w.Size.Cap(), Align: dxf.Align(w.Anchor)}
		if w.Up {
			t.Turn = math.Pi / 2
		}
		d.Entities = append(d.Entities, t)
	}
	box := s.reach()
	y := box.Min.Y - 12
	for _, line := range append([]string{s.Title + " · " + s.Right, "Units: mm."}, s.Facts...) {
		d.Entities = append(d.Entities, dxf.Text{Layer: string(Words), At: pt(box.Min.X, y), S: line, Height: leaf.Name.Cap()})
		y -= lineStep
	}
	x, y := box.Min.X, y-100
	d.Entities = append(d.Entities, dxf.Loop(string(Square), planar.Rect(x, y, x+100, y+100)[0].Outer))
	return d
}

func (s *Sheet) has(l Layer) bool {
	for _, q := range s.Lines {
		if q.Layer == l {
			return true
		}
	}
	return false
}

// entity returns a line as what a machine reads it as.
func entity(q Line) dxf.Entity {
	switch {
	case q.Closed:
		return dxf.Loop(string(q.Layer), q.Loop)
	case len(q.Loop) == 2 && q.Loop[0].Bulge == 0:
		return dxf.Line{Layer: string(q.Layer), A: q.Loop[0].P, B: q.Loop[1].P}
	}
	return dxf.Polyline{Layer: string(q.Layer), Loop: q.Loop}
}
