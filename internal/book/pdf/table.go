package pdf

import (
	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
)

var captionStyle = paper.Style{Face: paper.TextItalic, Size: paper.MM(10), Colour: paper.Soft}

const captionStep = 5.0

// table sets a table; where it goes over to another page the head is repeated.
func (s *setter) table(b book.Table) {
	g := s.grid(b.Table)
	caption := broken(plain(captionStyle, b.Table.Caption).words, s.wide())
	s.begin(4, min(float64(len(caption))*captionStep+s.together(g), s.room()))
	s.mark(b.BlockID())
	e := s.el(paper.TableOf)
	s.page.In(s.doc.Element(e, paper.Caption, ""))
	for _, ln := range caption {
		s.draw(leftMargin, s.y+3.6, ln)
		s.y += captionStep
	}
	s.opened, s.inTable = false, true
	s.squeeze(&g, s.left())
	if g.folds > 1 {
		s.folded(g, e)
	} else {
		s.tableHead(g, s.doc.Element(e, paper.TR, ""))
		for i := range g.cells {
			s.row(g, i, e)
		}
		s.tableEnd(g)
	}
	s.y, s.inTable = s.y+0.8, false
	if b.Table.Note != "" {
		s.flow(s.el(paper.P), leftMargin, min(s.wide(), noteWidth), plain(small.plain, b.Table.Note), small)
	}
	s.y += 1
	s.my = s.y
}

// together is how much of a table must stand on its first page: head and three
// rows, or all of one that is short.
func (s *setter) together(g grid) float64 {
	const short = 0.35 // of a page
	head := s.headHeight(g) + 1
	h, rows := head+s.noteHeight(g), (len(g.cells)+g.folds-1)/g.folds
	few := head
	for i := range rows {
		h += s.rowHeight(g, i)
		if i < 3 {
			few += s.rowHeight(g, i)
		}
	}
	if h < short*s.room() {
		return h
	}
	return few
}

const noteWidth = 140.0

func (s *setter) noteHeight(g grid) float64 {
	if g.t.Note == "" {
		return 0
	}
	return 1 + float64(min(3, len(broken(plain(small.plain, g.t.Note).words, min(s.wide(), noteWidth)))))*small.step
}

func (s *setter) tableEnd(g grid) {
	s.page.In(nil)
	s.page.Line(g.x, s.y, g.x+g.total, s.y, 0.25, paper.Ink)
}

// folded sets blocks of rows side by side, to be read down each before the
// next; every page has all its blocks of one height.
func (s *setter) folded(g grid, e *paper.Element) {
	rowH := g.single()
	for r := 0; r < len(g.cells); {
		if s.left() < s.headHeight(g)+3*rowH {
			s.next(g.t.Caption)
		}
		most := int((s.left() - s.headHeight(g) - 0.6) / rowH)
		rest := len(g.cells) - r
		each := max(1, min(most, (rest+g.folds-1)/g.folds))
		top, end := s.y, s.y
		for f := range g.folds {
			if r >= len(g.cells) {
				break
			}
			s.y, g.x = top, leftMargin+float64(f)*(g.total+foldGap)
			s.tableHead(g, s.doc.Element(e, paper.TR, ""))
			for i := range each {
				if r < len(g.cells) {
					s.plainRow(g, r, i == each-1, e)
					r++
				}
			}
			s.tableEnd(g)
			end = max(end, s.y)
		}
		s.y, s.opened = end, false
	}
}

// plainRow sets a row of single lines; every fifth has a hair line below.
func (s *setter) plainRow(g grid, r int, last bool, e *paper.Element) {
	tr := s.doc.Element(e, paper.TR, "")
	s.rowGround(g, r, g.single())
	for c, t := range g.cells[r] {
		s.cellLines(s.doc.Element(tr, paper.TD, ""), g, c, s.y+g.pad, broken(t.words, g.width[c]), g.look)
	}
	s.y += g.single()
	if r%5 == 4 && !last {
		s.page.Line(g.x, s.y, g.x+g.total, s.y, 0.13, paper.Hair)
	}
}

func (s *setter) tableHead(g grid, tr *paper.Element) {
	h := s.headHeight(g)
	s.page.In(nil)
	s.page.Line(g.x, s.y, g.x+g.total, s.y, 0.25, paper.Ink)
	for c, t := range g.heads {
		lines := broken(t.words, g.width[c])
		y := s.y + h - 1.2 - float64(len(lines))*heads.step
		var e *paper.Element // a head that is repeated is read once
		if tr != nil {
			e = s.doc.Element(tr, paper.TH, "")
		}
		s.cellLines(e, g, c, y, lines, heads)
	}
	s.y += h
	s.page.In(nil)
	s.page.Line(g.x, s.y, g.x+g.total, s.y, 0.25, paper.Ink)
	s.y += 0.5
}

// row sets one row, whole where a page can hold it. A sum stays with the row
// above it; of the last three rows none goes over alone, nor does the note.
func (s *setter) row(g grid, r int, e *paper.Element) {
	h := s.rowHeight(g, r)
	rest := len(g.cells) - r
	together := h
	if rest > 1 && g.t.Rows[r+1].Total || rest == 3 || rest == 1 {
		for i := r + 1; i < len(g.cells); i++ {
			together += s.rowHeight(g, i)
		}
		together += s.noteHeight(g)
	}
	if h > s.left() || together > s.left() && r > 0 && together < s.room()/3 {
		s.over(g)
	}
	lines, n := make([][]line, len(g.cells[r])), 1
	for c, t := range g.cells[r] {
		lines[c] = broken(t.words, g.width[c])
		n = max(n, len(lines[c]))
	}
	tr := s.doc.Element(e, paper.TR, "")
	s.rowGround(g, r, min(h, s.left()))
	for {
		take := min(n, max(1, int((s.left()-2*g.pad)/g.look.step)))
		for c := range lines {
			k := min(take, len(lines[c]))
			if k > 0 {
				s.cellLines(s.doc.Element(tr, paper.TD, ""), g, c, s.y+g.pad, lines[c][:k], g.look)
			}
			lines[c] = lines[c][k:]
		}
		s.y += float64(take) * g.single()
		if n -= take; n <= 0 {
			break
		}
		s.over(g) // a row that no page holds
	}
	if rest > 1 && !g.t.Rows[r+1].Total && (g.told || r%5 == 4) {
		s.page.Line(g.x, s.y, g.x+g.total, s.y, 0.13, paper.Hair)
	}
}

// rowGround draws what lies under a row that is picked or a sum.
func (s *setter) rowGround(g grid, r int, h float64) {
	row := g.t.Rows[r]
	s.page.In(nil)
	if row.Picked {
		s.page.Fill(g.x, s.y, g.total, h, paper.Wash)
		s.page.Fill(g.x, s.y, 0.7, h, paper.Accent)
	}
	if row.Total {
		s.page.Line(g.x, s.y, g.x+g.total, s.y, 0.25, paper.Ink)
	}
}

// over goes on with a table on the next page.
func (s *setter) over(g grid) {
	s.page.In(nil)
	s.page.Line(g.x, s.y, g.x+g.total, s.y, 0.13, paper.Hair)
	s.next(g.t.Caption)
	s.tableHead(g, nil)
}

// next turns the page within a table and says so.
func (s *setter) next(caption string) {
	s.turn()
	s.page.In(nil)
	s.page.Words(leftMargin, s.y+3.6, captionStyle, fit(captionStyle, caption, s.wide()-25)+", continued")
	s.y += captionStep
	s.opened = false
}
