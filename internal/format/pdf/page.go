package pdf

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// perMM is points in a millimetre.
const perMM = 72 / 25.4

// Page is one page. Places are in mm from its upper left corner, y down.
type Page struct {
	W, H  float64
	doc   *Doc
	index int
	buf   bytes.Buffer
	links []link
	in    *Element // what is drawn now belongs to it; nil is decoration
	open  *Element // whose marked stretch is open in the buffer
	isOut bool     // a stretch of decoration is open
	marks []*Element
	state graphics
	saved []graphics
}

type link struct {
	x, y, w, h float64
	to         string
}

// graphics is what was last set on a page, so that nothing is set twice.
type graphics struct {
	stroke, fill       Colour
	strokeSet, fillSet bool
	width              float64
	dash               string
	round              bool
}

// Link makes a box lead to the place of that name. A name that nothing has is
// no link.
func (p *Page) Link(x, y, w, h float64, to string) {
	p.links = append(p.links, link{x, y, w, h, to})
}

// In says which element is drawn from here on; nil is decoration.
func (p *Page) In(e *Element) { p.in = e }

// begin opens the marked stretch that what follows belongs to.
func (p *Page) begin() {
	if p.in != nil && p.open == p.in || p.in == nil && p.isOut {
		return
	}
	p.end()
	if p.in == nil {
		p.buf.WriteString("/Artifact BMC\n")
		p.isOut = true
		return
	}
	p.open = p.in
	fmt.Fprintf(&p.buf, "/%s <</MCID %d>> BDC\n", p.in.kind, len(p.marks))
	p.in.kids = append(p.in.kids, content{p.index, len(p.marks)})
	p.marks = append(p.marks, p.in)
}

func (p *Page) end() {
	if p.open != nil || p.isOut {
		p.buf.WriteString("EMC\n")
	}
	p.open, p.isOut = nil, false
}

// put writes numbers and an operator.
func (p *Page) put(op string, v ...float64) {
	for _, x := range v {
		p.buf.Write(appendNumber(p.buf.AvailableBuffer(), x))
		p.buf.WriteByte(' ')
	}
	p.buf.WriteString(op)
	p.buf.WriteByte('\n')
}

// appendNumber is number for the many: four decimals, trailing zeros cut.
func appendNumber(b []byte, v float64) []byte {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		v = 0
	}
	v = math.Max(-1e7, math.Min(1e7, v))
	n := int64(math.Round(v * 1e4))
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/1e4, 10)
	if part := n % 1e4; part > 0 {
		at := len(b)
		b = strconv.AppendInt(b, 1e4+part, 10)
		b[at] = '.'
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
	}
	return b
}

func (p *Page) x(x float64) float64 { return x * perMM }
func (p *Page) y(y float64) float64 { return (p.H - y) * perMM }

func (p *Page) setFill(c Colour) {
	if p.state.fillSet && p.state.fill == c {
		return
	}
	p.state.fill, p.state.fillSet = c, true
	if c.R == c.G && c.G == c.B {
		p.put("g", c.R)
	} else {
		p.put("rg", c.R, c.G, c.B)
	}
}

func (p *Page) setStroke(c Colour) {
	if p.state.strokeSet && p.state.stroke == c {
		return
	}
	p.state.stroke, p.state.strokeSet = c, true
	if c.R == c.G && c.G == c.B {
		p.put("G", c.R)
	} else {
		p.put("RG", c.R, c.G, c.B)
	}
}

// setLine sets width and dashes, mm.
func (p *Page) setLine(width float64, dash []float64, round bool) {
	if p.state.width != width {
		p.state.width = width
		p.put("w", width*perMM)
	}
	d := "["
	for i, v := range dash {
		if i > 0 {
			d += " "
		}
		d += number(v * perMM)
	}
	d += "] 0 d"
	if d != p.state.dash && (p.state.dash != "" || len(dash) > 0) {
		p.state.dash = d
		p.buf.WriteString(d + "\n")
	}
	if round != p.state.round {
		p.state.round = round
		if round {
			p.buf.WriteString("1 J 1 j\n")
		} else {
			p.buf.WriteString("0 J 0 j\n")
		}
	}
}

// Line draws a straight line, width in mm.
func (p *Page) Line(x1, y1, x2, y2, width float64, c Colour) {
	p.begin()
	p.setStroke(c)
	p.setLine(width, nil, false)
	p.put("m", p.x(x1), p.y(y1))
	p.put("l", p.x(x2), p.y(y2))
	p.buf.WriteString("S\n")
}

// Dashed draws a straight line in dashes and gaps, mm.
func (p *Page) Dashed(x1, y1, x2, y2, width float64, c Colour, dash ...float64) {
	p.begin()
	p.setStroke(c)
	p.setLine(width, dash, false)
	p.put("m", p.x(x1), p.y(y1))
	p.put("l", p.x(x2), p.y(y2))
	p.buf.WriteString("S\n")
}

// Fill fills a rectangle.
func (p *Page) Fill(x, y, w, h float64, c Colour) {
	p.begin()
	p.setFill(c)
	p.put("re", p.x(x), p.y(y+h), w*perMM, h*perMM)
	p.buf.WriteString("f\n")
}

// Frame draws a rectangle's outline, width in mm.
func (p *Page) Frame(x, y, w, h, width float64, c Colour) {
	p.begin()
	p.setStroke(c)
	p.setLine(width, nil, false)
	p.put("re", p.x(x), p.y(y+h), w*perMM, h*perMM)
	p.buf.WriteString("S\n")
}

// Circle draws a circle; filled, or as a line of the given width in mm.
func (p *Page) Circle(x, y, r, width float64, filled bool, c Colour) {
	p.begin()
	op := "s"
	if filled {
		p.setFill(c)
		op = "f"
	} else {
		p.setStroke(c)
		p.setLine(width, nil, false)
	}
	t := frame{page: p, k: 1}
	t.path([]leaf.Seg{{Op: leaf.Move, P: r2.Vec{X: x + r, Y: y}}, {Op: leaf.Arc, P: r2.Vec{X: x - r, Y: y}, R: r, Left: true},
		{Op: leaf.Arc, P: r2.Vec{X: x + r, Y: y}, R: r, Left: true}})
	p.buf.WriteString(op + "\n")
}

// Lines draws a run of straight lines through points; closed and filled where
// filled is set.
func (p *Page) Lines(pts []r2.Vec, width float64, filled bool, c Colour) {
	if len(pts) < 2 {
		return
	}
	p.begin()
	if filled {
		p.setFill(c)
	} else {
		p.setStroke(c)
		p.setLine(width, nil, false)
	}
	for i, q := range pts {
		op := "l"
		if i == 0 {
			op = "m"
		}
		p.put(op, p.x(q.X), p.y(q.Y))
	}
	if filled {
		p.buf.WriteString("f\n")
	} else {
		p.buf.WriteString("S\n")
	}
}

// Clip keeps what follows within a rectangle, until Unclip.
func (p *Page) Clip(x, y, w, h float64) {
	p.end()
	p.saved = append(p.saved, p.state)
	p.buf.WriteString("q\n")
	p.put("re", p.x(x), p.y(y+h), w*perMM, h*perMM)
	p.buf.WriteString("W n\n")
}

// Unclip ends the last Clip.
func (p *Page) Unclip() {
	if n := len(p.saved); n > 0 {
		p.end()
		p.buf.WriteString("Q\n")
		p.state, p.saved = p.saved[n-1], p.saved[:n-1]
	}
}
