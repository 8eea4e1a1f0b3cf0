package pdf

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// halo is how wide the paper round the letters is, mm on the leaf.
const halo = 1.1

// frame puts the places of a leaf on a page.
type frame struct {
	page *Page
	x, y float64
	k    float64
}

func (t frame) at(v r2.Vec) (x, y float64) {
	return t.page.x(t.x + t.k*v.X), t.page.y(t.y + t.k*v.Y)
}

// Leaf draws a leaf with its upper left corner at a place, k times its size:
// lines in their order, words over them. Title and caption are not drawn.
func (p *Page) Leaf(l leaf.Leaf, x, y, k float64) {
	p.begin()
	t := frame{p, x, y, k}
	for i := 0; i < len(l.Items); {
		path, ok := l.Items[i].(leaf.Path)
		if !ok {
			i++
			continue
		}
		// Lines of one look that follow each other become one path; a fill of
		// paper, which hides what came before, never does.
		end := i + 1
		for end < len(l.Items) && path.Fill != leaf.Paper {
			next, ok := l.Items[end].(leaf.Path)
			if !ok || next.Line != path.Line || next.Accent != path.Accent || next.Fill != path.Fill {
				break
			}
			end++
		}
		t.paint(path, l.Items[i:end])
		i = end
	}
	for _, it := range l.Items {
		if w, ok := it.(leaf.Text); ok && w.S != "" {
			t.text(w)
		}
	}
}

// paint draws paths that share the look of the first.
func (t frame) paint(look leaf.Path, items []leaf.Item) {
	p, c := t.page, Ink
	if look.Accent {
		c = Accent
	}
	op := ""
	switch look.Fill {
	case leaf.Paper:
		p.setFill(White)
		op = "f"
	case leaf.Solid:
		p.setFill(c)
		op = "f"
	}
	if look.Line != "" {
		l := leaf.LookOf(look.Line)
		dash := make([]float64, len(l.Dash))
		for i, d := range l.Dash {
			dash[i] = t.k * d
		}
		p.setStroke(c)
		p.setLine(t.k*l.Width, dash, l.Round)
		if op == "f" {
			op = "B"
		} else {
			op = "S"
		}
	}
	if op == "" {
		return
	}
	drawn := false
	for _, it := range items {
		segs := it.(leaf.Path).Segs
		t.path(segs)
		drawn = drawn || len(segs) > 0
	}
	if drawn {
		p.buf.WriteString(op + "\n")
	}
}

// path writes the segments of a path. One that does not begin with a Move is
// begun where it goes first, as no reader would know otherwise.
func (t frame) path(segs []leaf.Seg) {
	var at r2.Vec
	begun := false
	for _, s := range segs {
		if !begun && s.Op != leaf.Close && s.Op != leaf.Move {
			s.Op = leaf.Move
		}
		switch s.Op {
		case leaf.Move, leaf.To:
			x, y := t.at(s.P)
			if s.Op == leaf.Move {
				t.page.put("m", x, y)
			} else {
				t.page.put("l", x, y)
			}
		case leaf.Arc:
			t.arc(at, s)
		case leaf.Close:
			if begun {
				t.page.buf.WriteString("h\n")
			}
			continue
		}
		at, begun = s.P, true
	}
}

// arcPiece is the longest turn that one cubic curve stands for. A curve over
// an angle φ with handles of 4/3·tan(φ/4) is off its arc by about 2/27·
// sin⁶(φ/4)/cos²(φ/4) of the radius (the usual bound for such curves): less
// than 5 parts in a thousand million for an eighth of a right angle.
const arcPiece = math.Pi / 16

func (t frame) arc(a r2.Vec, s leaf.Seg) {
	chord := s.P.Sub(a).Len()
	if chord == 0 || !(s.R > 0) || math.IsInf(s.R, 0) {
		x, y := t.at(s.P)
		t.page.put("l", x, y)
		return
	}
	s.R = math.Max(s.R, chord/2) // as SVG does: too short a radius just reaches
	c := leaf.ArcCentre(a, s)
	from := math.Atan2(a.Y-c.Y, a.X-c.X)
	turn := math.Atan2(s.P.Y-c.Y, s.P.X-c.X) - from
	// On paper y runs down, so angles grow to the right as seen.
	if s.Left && turn > 0 {
		turn -= 2 * math.Pi
	}
	if !s.Left && turn < 0 {
		turn += 2 * math.Pi
	}
	n := max(1, int(math.Ceil(math.Abs(turn)/arcPiece)))
	step := turn / float64(n)
	h := 4.0 / 3 * math.Tan(step/4) * s.R
	on := func(i int) (at, along r2.Vec) {
		sin, cos := math.Sincos(from + float64(i)*step)
		return r2.Vec{X: c.X + s.R*cos, Y: c.Y + s.R*sin}, r2.Vec{X: -sin, Y: cos}
	}
	p, d := on(0)
	for i := 1; i <= n; i++ {
		q, e := on(i)
		if i == n {
			q = s.P
		}
		x1, y1 := t.at(p.Add(d.Mul(h)))
		x2, y2 := t.at(q.Sub(e.Mul(h)))
		x3, y3 := t.at(q)
		t.page.put("c", x1, y1, x2, y2, x3, y3)
		p, d = q, e
	}
}

// text sets one line of words.
func (t frame) text(w leaf.Text) {
	p := t.page
	st := Style{Face: Table, Size: t.k * w.Size.EM(), Colour: Ink}
	switch {
	case w.Strong:
		st.Face = TableBold
	case w.Italic:
		st.Face = TableItalic
	}
	if w.Accent {
		st.Colour = Accent
	}
	x, y := t.x+t.k*w.At.X, t.y+t.k*w.At.Y
	if w.Anchor != leaf.Start {
		length := Width(st.Face, st.Size, w.S)
		if w.Anchor == leaf.Middle {
			length /= 2
		}
		if w.Up {
			y += length
		} else {
			x -= length
		}
	}
	if w.Halo {
		p.setStroke(White)
		p.setLine(t.k*halo, nil, true)
		p.words(x, y, st, w.S, w.Up, "1 Tr\n")
		p.setFill(st.Colour)
		p.words(x, y, st, w.S, w.Up, "0 Tr\n")
		return
	}
	p.setFill(st.Colour)
	p.words(x, y, st, w.S, w.Up, "")
}
