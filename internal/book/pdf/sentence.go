package pdf

import (
	"regexp"
	"strings"

	paper "rodwork/internal/format/pdf"
	"rodwork/internal/say"
)

// look is a family of styles for a text: plain, bold for what was written, and
// italic for names, with the step from line to line.
type look struct {
	plain, bold, italic paper.Style
	step                float64
}

func styles(plain, bold, italic paper.Face, points, leading float64, c paper.Colour) look {
	st := func(f paper.Face) paper.Style { return paper.Style{Face: f, Size: paper.MM(points), Colour: c} }
	return look{st(plain), st(bold), st(italic), paper.MM(leading)}
}

// The looks of the book.
var (
	body    = styles(paper.Text, paper.TextBold, paper.TextItalic, 10.5, 14.4, paper.Ink)
	lead    = styles(paper.TextItalic, paper.TextBold, paper.TextItalic, 12, 17, paper.Soft)
	lesser  = styles(paper.Text, paper.TextBold, paper.TextItalic, 9.4, 13, paper.Ink)
	softer  = styles(paper.Text, paper.TextBold, paper.TextItalic, 9.4, 13, paper.Soft)
	sans    = styles(paper.Table, paper.TableBold, paper.TableItalic, 8.4, 11, paper.Ink)
	sansRed = styles(paper.Table, paper.TableBold, paper.TableItalic, 8.4, 11, paper.Accent)
	small   = styles(paper.Table, paper.TableBold, paper.TableItalic, 7.8, 10.2, paper.Soft)
	cells   = styles(paper.Table, paper.TableBold, paper.TableItalic, 8.8, 11.8, paper.Ink)
	heads   = styles(paper.Table, paper.TableBold, paper.TableItalic, 8, 10, paper.Soft)
)

// sentence appends a sentence. Written values and choices are bold.
func (s *setter) sentence(t *text, l look, words say.Sentence) {
	for _, sp := range words {
		switch {
		case sp.Q != nil:
			st := l.plain
			if sp.Q.Path != "" {
				st = l.bold
			}
			t.add(st, tight(s.b.Printed(*sp.Q)))
		case sp.Path != "" || sp.Strong:
			t.add(l.bold, sp.Text)
		case sp.Italic:
			t.add(l.italic, sp.Text)
		case strings.HasPrefix(sp.Text, " %"): // stays with its number
			t.add(l.plain, "\u00a0"+sp.Text[1:])
		default:
			t.add(l.plain, sp.Text)
		}
	}
}

// tight keeps a number and its unit on one line.
func tight(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }

var lowerPart = regexp.MustCompile(`_([\pL\pN]+)`)

// formula appends a text in which y_n sets the index low.
func (t *text) formula(st paper.Style, s string) {
	for s != "" {
		at := lowerPart.FindStringIndex(s)
		if at == nil {
			t.add(st, s)
			return
		}
		t.add(st, s[:at[0]])
		low := bit{style: st, rise: -0.2 * st.Size}
		low.style.Size *= 0.72
		t.put(low, s[at[0]+1:at[1]])
		s = s[at[1]:]
	}
}

// plain returns a text of one style.
func plain(st paper.Style, s string) *text {
	t := &text{}
	t.add(st, s)
	return t
}

// said returns a sentence as a text.
func (s *setter) said(l look, words say.Sentence) *text {
	t := &text{}
	s.sentence(t, l, words)
	return t
}

// flow sets lines at x, turning the page where one is full. Of a paragraph at
// least two lines stand on each page.
func (s *setter) flow(e *paper.Element, x, width float64, t *text, l look) {
	lines := broken(t.words, width)
	if len(lines) == 0 {
		return
	}
	keep := min(2, len(lines))
	if len(lines) == 3 {
		keep = 3
	}
	s.need(float64(keep) * l.step)
	for i, ln := range lines {
		rest := len(lines) - i
		s.need(l.step)
		if rest == 2 && i > 1 {
			s.need(2 * l.step)
		}
		s.page.In(e)
		s.draw(x, s.y+ascent(l), ln)
		s.page.In(nil)
		s.y += l.step
		s.opened = false
	}
}

// ascent is how far the base line lies below the top of a line.
func ascent(l look) float64 { return l.step/2 + 0.33*l.plain.Size }

// stack sets lines at a place without turning the page, and returns where they
// end.
func (s *setter) stack(e *paper.Element, x, y float64, lines []line, l look) float64 {
	s.page.In(e)
	for _, ln := range lines {
		s.draw(x, y+ascent(l), ln)
		y += l.step
	}
	s.page.In(nil)
	return y
}

// el adds an element to the section in hand.
func (s *setter) el(kind string) *paper.Element { return s.doc.Element(s.sect, kind, "") }
