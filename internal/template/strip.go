package template

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// rodWide is how much of a strip's width its rod shows, mm.
const rodWide = 40.0

// strip is a bent part laid flat, seen from its inside: the front edge, from
// which y counts, is on top, so y runs down.
func (m *maker) strip(q *piece.Part) Sheet {
	s := m.stripSheet(q, "strip", q.Width.V)
	s.Title = fmt.Sprintf("The strip at full size, %d %s", q.Number, q.Name)
	s.rect(Outline, 0, 0, q.Length.V, -q.Width.V)
	s.mean(Outline, "edges of the strip, cut to size")
	m.bends(&s, q, q.Width.V)
	m.recesses(&s, q)
	m.stripHoles(&s, q)
	s.fact("Seen from the inside, kerfed face up. The ring is the datum corner, at the " + piece.YEdge(q) + "; every place runs from the datum end, never from the last kerf.")
	m.stripCautions(&s)
	return s
}

// rod is the narrow band along the strip's front edge with all its marks.
func (m *maker) rod(q *piece.Part) Sheet {
	wide := min(rodWide, q.Width.V)
	s := m.stripSheet(q, "rod", wide)
	s.Title = fmt.Sprintf("The rod of the strip, %d %s", q.Number, q.Name)
	s.open(Outline, pt(0, -wide), pt(0, 0), pt(q.Length.V, 0), pt(q.Length.V, -wide))
	s.mean(Outline, "ends and "+piece.YEdge(q)+" of the strip: lay the rod on this edge, its ring on the datum corner")
	m.bends(&s, q, wide)
	told := map[string]bool{}
	for _, c := range byPlace(q.Cuts) {
		if c.Kind == piece.Hole || c.Kind == piece.HoleRow {
			for i := range max(c.Count, 1) {
				x := c.X0.V + float64(i)*c.StepX.V
				s.open(Mark, pt(x, 0), pt(x, -wide/4))
			}
			words := fmt.Sprintf("%s %s", purpose(c), m.bare(c.X0.V, 1))
			if !told[words] { // rows that lie behind each other are told once
				s.word(Word{At: pt(c.X0.V+leaf.Note.Cap()/2, -wide+1), S: words, Up: true})
			}
			told[words] = true
			continue
		}
		if c.X1.V-c.X0.V > q.Length.V/2 {
			continue // runs along the strip: it has no place on the rod
		}
		for _, x := range []float64{c.X0.V, c.X1.V} {
			s.open(Recess, pt(x, 0), pt(x, -wide))
		}
		s.word(Word{At: pt((c.X0.V+c.X1.V)/2+leaf.Note.Cap()/2, -wide+1), S: fmt.Sprintf("%s %s", c.Kind, m.bare(c.X0.V, 1)), Up: true})
	}
	s.mean(Recess, "edges of housings and rabbets, for which the place nearer the datum end is told")
	s.mean(Mark, "centres of holes, along the strip only")
	s.fact("Tape the rod to the board and carry each mark over with a knife; it shrinks with dry paper, so measure its whole length first: " + m.mm(q.Length.V, 1) + ".")
	m.stripCautions(&s)
	return s
}

func (m *maker) stripSheet(q *piece.Part, kind string, wide float64) Sheet {
	return Sheet{
		Key: kind + "-" + strconv.Itoa(q.Number), Part: q.Number, DX: 1, DY: -1,
		Right: fmt.Sprintf("%s · %s", m.stock(q), m.by(q.Length.V, q.Width.V)),
		Alt: fmt.Sprintf("Part %d, %s, laid flat at full size, %s of its width, with every kerf and tangent point from the datum end.",
			q.Number, q.Name, m.mm(wide, 0)),
	}
}

func byPlace(cuts []piece.Cut) []piece.Cut {
	out := slices.Clone(cuts)
	slices.SortStableFunc(out, func(a, b piece.Cut) int { return cmp.Compare(a.X0.V, b.X0.V) })
	return out
}

// bends draws each kerf with its number and place, and the tangent points.
func (m *maker) bends(s *Sheet, q *piece.Part, wide float64) {
	for _, b := range q.Bends {
		half := b.Plan.Spec.Kerf / 2
		for _, k := range b.Kerfs {
			for _, x := range []float64{k.V - half, k.V + half} {
				s.open(Edge, pt(x, 0), pt(x, -wide))
			}
			s.open(Kerf, pt(k.V, 0), pt(k.V, -wide))
		}
		m.kerfWords(s, b)
		for i, x := range []float64{b.Start.V, b.Start.V + b.Length.V} {
			s.open(Tangent, pt(x, 12), pt(x, -wide-4))
			words := fmt.Sprintf("%s: bend %s at %s", b.Corner, [...]string{"starts", "ends"}[i], m.bare(x, 1))
			w := Word{At: pt(x+1.2, -wide-4), S: words, Italic: true}
			if i == 1 {
				w.At.X, w.Anchor = x-1.2, leaf.End
				w.At.Y -= 4
			}
			s.word(w)
		}
		if len(b.Kerfs) == 0 {
			s.fact(b.Corner + ": bent without kerfs.")
			continue
		}
		into := ""
		if b.Face == piece.FaceA {
			into = ", in the outer face A: turn the board over and carry the marks round its edge"
		}
		s.fact(fmt.Sprintf("%s: %d kerfs of %s, %s deep%s, from %s to %s; the first and each next are set from the datum end.", b.Corner, len(b.Kerfs),
			m.mm(b.Plan.Spec.Kerf, 2), m.mm(b.Plan.Depth, 2), into, m.bare(first(b), 1), m.mm(last(b), 1)))
	}
	if len(q.Bends) > 0 {
		s.mean(Edge, "sides of each kerf; the number and the place of its middle stand over it")
		s.mean(Tangent, "tangent points: where a bend starts and ends")
	}
}

func first(b piece.Bend) float64 {
	if len(b.Kerfs) == 0 {
		return b.Start.V
	}
	return b.Kerfs[0].V
}

func last(b piece.Bend) float64 {
	if len(b.Kerfs) == 0 {
		return b.Start.V + b.Length.V
	}
	return b.Kerfs[len(b.Kerfs)-1].V
}

// kerfWords writes number and place over each kerf, or over every other one
// where they stand too close for words.
func (m *maker) kerfWords(s *Sheet, b piece.Bend) {
	every := 1
	if n := len(b.Kerfs); n > 1 {
		if pitch := b.Kerfs[1].V - b.Kerfs[0].V; pitch > 0 {
			for float64(every)*pitch < leaf.Note.EM()*1.1 && every < n {
				every++
			}
		}
	}
	for i, k := range b.Kerfs {
		if i%every == 0 {
			s.word(Word{At: pt(k.V+leaf.Note.Cap()/2, 1.5), S: fmt.Sprintf("%d · %s", i+1, m.bare(k.V, 1)), Up: true})
		}
	}
}

// recesses draws the edges of housings, rabbets and grooves.
func (m *maker) recesses(s *Sheet, q *piece.Part) {
	n := 0
	for _, c := range q.Cuts {
		if c.Kind == piece.Hole || c.Kind == piece.HoleRow {
			continue
		}
		if c.Kind == piece.Window {
			m.window(s, q, c)
			continue
		}
		n++
		s.rect(Recess, c.X0.V, -c.Y0.V, c.X1.V, -c.Y1.V)
		words := fmt.Sprintf("%s for %s, %s to %s, %s deep", c.Kind, c.For, m.bare(c.X0.V, 1), m.bare(c.X1.V, 1), m.bare(c.Depth.V, 1))
		if c.X1.V-c.X0.V > q.Length.V/2 {
			words = fmt.Sprintf("%s for %s, %s to %s from the %s, %s deep", c.Kind, c.For, m.bare(c.Y0.V, 1), m.bare(c.Y1.V, 1), piece.YEdge(q), m.bare(c.Depth.V, 1))
			s.word(clearOf(q, Word{At: pt(q.Length.V/4, -c.Y0.V+1.5), S: words}))
			continue
		}
		x, anchor := c.X1.V+1.5+leaf.Note.Cap(), leaf.Middle
		if x > q.Length.V-2 {
			x = c.X0.V - 1.5
		}
		s.word(Word{At: pt(x, -(c.Y0.V+c.Y1.V)/2), S: words, Up: true, Anchor: anchor})
	}
	if n > 0 {
		s.mean(Recess, "edges of housings, rabbets and grooves in the inside face")
	}
}

// window draws an opening through the strip, its corners rounded.
func (m *maker) window(s *Sheet, q *piece.Part, c piece.Cut) {
	s.closed(Outline, c.Region.Placed(r2.Vec{}, r2.Vec{X: 1}, r2.Vec{Y: -1}).Loops()...)
	s.word(Word{At: pt(c.X0.V+3, -c.Y0.V-3-leaf.Note.Cap()), S: fmt.Sprintf("window, right through: %s to %s, and %s to %s from the %s",
		m.bare(c.X0.V, 1), m.bare(c.X1.V, 1), m.bare(c.Y0.V, 1), m.bare(c.Y1.V, 1), piece.YEdge(q))})
}

// stripHoles draws the holes drilled into the inside face.
func (m *maker) stripHoles(s *Sheet, q *piece.Part) {
	n := 0
	for _, c := range q.Cuts {
		if c.Kind != piece.Hole && c.Kind != piece.HoleRow {
			continue
		}
		n++
		for i := range max(c.Count, 1) {
			s.hole(pt(c.X0.V+float64(i)*c.StepX.V, -(c.Y0.V+float64(i)*c.StepY.V)), c.Diameter.V)
		}
		s.word(clearOf(q, Word{At: pt(c.X0.V, -c.Y0.V+c.Diameter.V/2+3), S: fmt.Sprintf("%s: ⌀ %s, %s deep, first at %s; %s from the %s", c.For,
			m.bare(c.Diameter.V, 1), m.bare(c.Depth.V, 1), m.bare(c.X0.V, 1), m.bare(c.Y0.V, 1), piece.YEdge(q))}))
	}
	if n > 0 {
		s.mean(Hole, "holes in the inside face, with their centres")
	}
}

// clearOf moves level words back so that they end before a bend's kerfs.
func clearOf(q *piece.Part, w Word) Word {
	end := w.At.X + leaf.Width(w.S, w.Size, w.Italic, false)
	for _, b := range q.Bends {
		if w.At.X < b.Start.V && end > b.Start.V-2 {
			w.At.X, w.Anchor = b.Start.V-2, leaf.End
		}
	}
	return w
}

func (m *maker) stripCautions(s *Sheet) {
	s.fact("Kerf an offcut of the same sheet first, bend it, and measure the skin. A kerfed strip is limp: two people and a board carry it.")
}
