package pdf

import "strconv"

// Style is how words are set. Size is the font size in mm.
type Style struct {
	Face   Face
	Size   float64
	Colour Colour
}

// Words sets text on its base line with its left end at x, and returns its
// length in mm.
func (p *Page) Words(x, y float64, s Style, text string) float64 {
	p.begin()
	p.setFill(s.Colour)
	return p.words(x, y, s, text, false, "")
}

// words writes the operators of a text; up turns it a quarter turn to the left,
// mode is a text rendering operator.
func (p *Page) words(x, y float64, s Style, text string, up bool, mode string) float64 {
	rs := runs(s.Face, text)
	if len(rs) == 0 {
		return 0
	}
	p.buf.WriteString("BT\n" + mode)
	if up {
		p.put("Tm", 0, 1, -1, 0, p.x(x), p.y(y))
	} else {
		p.put("Td", p.x(x), p.y(y))
	}
	var length float64
	for _, r := range rs {
		p.buf.WriteString("/F" + strconv.Itoa(int(r.face)) + " ")
		p.put("Tf", s.Size*perMM)
		p.glyphs(r)
		length += r.width()
	}
	p.buf.WriteString("ET\n")
	return length * s.Size / 1000
}

const hexDigits = "0123456789ABCDEF"

// glyphs shows a run, its kerned pairs drawn together, and notes what was used.
func (p *Page) glyphs(r run) {
	f, used := fonts[r.face](), p.doc.used[r.face]
	p.buf.WriteString("[<")
	for i, g := range r.glyphs {
		if i > 0 {
			if k := f.pair(r.glyphs[i-1], g); k != 0 {
				p.buf.WriteByte('>')
				p.buf.Write(appendNumber(p.buf.AvailableBuffer(), -k))
				p.buf.WriteByte('<')
			}
		}
		p.buf.Write([]byte{hexDigits[g>>12], hexDigits[g>>8&15], hexDigits[g>>4&15], hexDigits[g&15]})
		if old, ok := used[g]; !ok || r.letters[i] < old {
			used[g] = r.letters[i]
		}
	}
	p.buf.WriteString(">] TJ\n")
}
