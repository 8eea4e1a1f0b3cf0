package pdf

import (
	"strconv"

	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
)

// part is one text of a finding with its look.
type part struct {
	t     *text
	l     look
	boxed bool // in a frame: a value that mends
}

// parts are the texts of a finding, in order.
func (s *setter) findingParts(f book.Finding) []part {
	v := string(f.Finding.Verdict)
	head := &text{}
	head.sign(v, 2.7, sans.plain)
	head.add(sans.bold, v)
	head.add(paper.Style{Face: paper.Table, Size: sans.plain.Size, Colour: paper.Soft}, " "+f.Finding.Title)
	out := []part{{t: head, l: sans}, {t: s.said(sans, f.Finding.Text), l: sans}}
	if f.Finding.Rule != "" {
		from := &text{}
		if f.Rule != nil {
			id := "sources/rule " + f.Rule.ID
			from.put(bit{style: small.plain, link: id}, f.Rule.Title)
			if len(f.Rule.Sources) > 0 {
				from.add(small.plain, ", "+string(f.Rule.Sources[0].Label))
			}
			if n := s.pages[id]; n > 0 {
				from.put(bit{style: small.plain, link: id}, ", p.\u00a0"+strconv.Itoa(n))
			}
		} else {
			from.add(small.plain, "rule "+f.Finding.Rule)
		}
		out = append(out, part{t: from, l: small})
	}
	for i, m := range f.Finding.Mends {
		t, l := &text{}, small
		word := "mend: "
		if i > 0 {
			word = "or "
		}
		t.add(small.plain, word)
		if m.New != "" {
			l = sansRed
		}
		s.sentence(t, l, m.Text)
		out = append(out, part{t: t, l: l, boxed: m.New != ""})
	}
	return out
}

// Space round the frame of a mend, and before it.
const (
	padX   = 1.6
	padY   = 0.5
	before = 1.2
)

func (s *setter) findingHeight(f book.Finding, width float64) float64 {
	h := 0.0
	for _, p := range s.findingParts(f) {
		w := width
		if p.boxed {
			w -= 2 * padX
			h += before + 2*padY
		}
		h += float64(len(broken(p.t.words, w))) * p.l.step
	}
	return h
}

// placeFinding sets a finding and returns where it ends.
func (s *setter) placeFinding(f book.Finding, x, y, width float64) float64 {
	s.page.Dest(f.BlockID(), y-2)
	e := s.el(paper.Note)
	for _, p := range s.findingParts(f) {
		if !p.boxed {
			y = s.stack(e, x, y, broken(p.t.words, width), p.l)
			continue
		}
		lines := broken(p.t.words, width-2*padX)
		w := 0.0
		for _, l := range lines {
			w = max(w, l.w)
		}
		y += before
		s.page.In(nil)
		s.page.Frame(x, y, w+2*padX, float64(len(lines))*p.l.step+2*padY, 0.18, paper.Accent)
		y = s.stack(e, x+padX, y+padY, lines, p.l) + padY
	}
	return y
}

// Columns of a band of findings, and the space between them, mm.
const (
	bandColumns = 3
	bandGap     = 7.0
)

func (s *setter) bandWidth() float64 { return (s.wide() - (bandColumns-1)*bandGap) / bandColumns }

// band sets findings in three columns across the page, row by row.
func (s *setter) band(found []book.Finding) {
	if len(found) == 0 {
		return
	}
	s.clear()
	width := s.bandWidth()
	for i := 0; i < len(found); i += bandColumns {
		row := found[i:min(i+bandColumns, len(found))]
		h := 0.0
		for _, f := range row {
			h = max(h, s.findingHeight(f, width))
		}
		s.begin(3, h)
		for j, f := range row {
			s.placeFinding(f, leftMargin+float64(j)*(width+bandGap), s.y, width)
		}
		s.y += h
		s.opened = false
	}
	s.y += 1
	s.my = s.y
}
