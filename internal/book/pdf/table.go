package pdf

import (
	"rodwork/internal/book"
	paper "rodwork/internal/format/pdf"
	"rodwork/internal/table"
)

// grid is a table made ready: words in cells, and the columns' widths.
type grid struct {
	t      table.Table
	heads  []*text
	cells  [][]*text // by row and column
	width  []float64
	gap    float64
	told   bool // cells hold sentences: rows are set apart
	total  float64
	cell   look
	atHead look
}

// table sets a table; where it goes over to another page the head is repeated.
func (s *setter) table(b book.Table) {
	g := s.grid(b.Table)
	s.skip(4)
	caption := broken(plain(captionStyle, b.Table.Caption).words, s.wide())
	h := float64(len(caption))*captionStep + s.headHeight(g)
	for i := range min(3, len(g.cells)) {
		h += s.rowHeight(g, i)
	}
	s.need(min(h, s.room()))
	s.mark(b.BlockID())
	e := s.el(paper.TableOf)
	s.page.In(s.doc.Element(e, paper.Caption, ""))
	for _, ln := range caption {
		s.draw(leftMargin, s.y+3.6, ln)
		s.y += captionStep
	}
	s.page.In(nil)
	s.opened = false
	s.tableHead(g, s.doc.Element(e, paper.TR, ""))
	for i := range g.cells {
		s.row(g, i, e, b.Table.Caption)
	}
	s.page.In(nil)
	s.page.Line(leftMargin, s.y, leftMargin+g.total, s.y, 0.25, paper.Ink)
	s.y += 0.8
	if b.Table.Note != "" {
		s.flow(s.el(paper.P), leftMargin, min(s.wide(), 140), plain(small.plain, b.Table.Note), small)
	}
	s.y += 2
	s.my = s.y
}

var captionStyle = paper.Style{Face: paper.TextItalic, Size: paper.MM(10), Colour: paper.Soft}

const captionStep = 5.0

// grid puts words into the cells and finds how wide the columns are: as wide as
// they like where all have room; else none narrower than its longest word, the
// rest shared by how much each still wants.
func (s *setter) grid(t table.Table) grid {
	g := grid{t: t, gap: 3.4, cell: cells, atHead: heads, cells: make([][]*text, len(t.Rows))}
	if len(t.Columns) > 8 {
		g.gap = 2.4
	}
	n := len(t.Columns)
	least, most := make([]float64, n), make([]float64, n)
	for c, col := range t.Columns {
		head := &text{}
		head.add(heads.plain, col.Head)
		if u := s.b.HeadUnit(col); u != "" {
			head.add(heads.plain, " "+u)
		}
		g.heads = append(g.heads, head)
		lo, hi := head.natural()
		least[c], most[c] = lo, min(hi, max(lo, 22))
	}
	for r, row := range t.Rows {
		g.cells[r] = make([]*text, n)
		for c := range min(n, len(row.Cells)) {
			g.cells[r][c] = s.cell(row, row.Cells[c], t.Columns[c])
			g.told = g.told || len(row.Cells[c].Say) > 0
			lo, hi := g.cells[r][c].natural()
			least[c], most[c] = max(least[c], lo), max(most[c], hi)
		}
	}
	g.width = share(least, most, s.wide()-float64(max(0, n-1))*g.gap-2*edge)
	g.total = 2*edge + float64(max(0, n-1))*g.gap
	for _, w := range g.width {
		g.total += w
	}
	if spare := s.column() - g.total; spare > 0 && n > 1 {
		g.gap += spare / float64(n-1)
		g.total = s.column()
	}
	return g
}

// edge is the space between a table's rules' ends and its words, mm.
const edge = 1.4

// share divides a width among columns.
func share(least, most []float64, width float64) []float64 {
	var lo, hi float64
	for c := range least {
		lo, hi = lo+least[c], hi+most[c]
	}
	out := make([]float64, len(least))
	for c := range out {
		switch {
		case hi <= width:
			out[c] = most[c]
		case lo <= width && hi > lo:
			out[c] = least[c] + (width-lo)*(most[c]-least[c])/(hi-lo)
		case lo > 0:
			out[c] = width * least[c] / lo
		}
	}
	if lo > width { // long words give way first; short ones stay whole
		squeeze(out, least, width)
	}
	return out
}

// squeeze keeps columns at their longest word where that is under an even
// share, and divides the rest among the others.
func squeeze(out, least []float64, width float64) {
	rest, open := width, len(least)
	for {
		even, changed := rest/float64(max(open, 1)), false
		for c, w := range least {
			if w > 0 && w <= even && out[c] >= 0 {
				out[c], rest, open, changed = -w, rest-w, open-1, true
			}
		}
		if !changed {
			for c := range out {
				if out[c] < 0 {
					out[c] = -out[c]
				} else {
					out[c] = even
				}
			}
			return
		}
	}
}

func (s *setter) cell(row table.Row, c table.Cell, col table.Column) *text {
	l := cells
	if row.Picked || row.Total || col.Names && false {
		l.plain = l.bold
	}
	t := &text{}
	if c.Mark != "" {
		t.sign(c.Mark, 2.5, l.plain)
		t.add(l.plain, "\u00a0")
	}
	switch {
	case c.Q != nil:
		st := l.plain
		if c.Q.Path != "" {
			st = l.bold
		}
		t.add(st, tight(s.b.PrintedIn(*c.Q, col)))
	case len(c.Say) > 0:
		s.sentence(t, l, c.Say)
	default:
		t.add(l.plain, c.Text)
	}
	return t
}

// columnX is where a column begins.
func (g grid) columnX(c int) float64 {
	x := leftMargin + edge
	for i := range c {
		x += g.width[i] + g.gap
	}
	return x
}

func (s *setter) headHeight(g grid) float64 {
	n := 1
	for c, t := range g.heads {
		n = max(n, len(broken(t.words, g.width[c])))
	}
	return float64(n)*heads.step + 2.6
}

func (s *setter) tableHead(g grid, tr *paper.Element) {
	h := s.headHeight(g)
	s.page.In(nil)
	s.page.Line(leftMargin, s.y, leftMargin+g.total, s.y, 0.25, paper.Ink)
	for c, t := range g.heads {
		lines := broken(t.words, g.width[c])
		y := s.y + h - 1.2 - float64(len(lines))*heads.step
		s.cellLines(s.doc.Element(tr, paper.TH, ""), g, c, y, lines, heads)
	}
	s.y += h
	s.page.In(nil)
	s.page.Line(leftMargin, s.y, leftMargin+g.total, s.y, 0.25, paper.Ink)
	s.y += 0.5
}

func (s *setter) cellLines(e *paper.Element, g grid, c int, y float64, lines []line, l look) {
	s.page.In(e)
	for _, ln := range lines {
		x := g.columnX(c)
		if g.t.Columns[c].Align == table.Right {
			x += g.width[c] - ln.w
		}
		s.draw(x, y+ascent(l), ln)
		y += l.step
	}
	s.page.In(nil)
}

const rowPad = 0.35

func (s *setter) rowHeight(g grid, r int) float64 {
	n := 1
	for c, t := range g.cells[r] {
		if t != nil {
			n = max(n, len(broken(t.words, g.width[c])))
		}
	}
	return float64(n)*g.cell.step + 2*rowPad
}

// row sets one row, whole where a page can hold it.
func (s *setter) row(g grid, r int, e *paper.Element, caption string) {
	h := s.rowHeight(g, r)
	last := r == len(g.cells)-1
	if h > s.left() || !last && g.t.Rows[r+1].Total && h+s.rowHeight(g, r+1) > s.left() {
		s.over(g, e, caption)
	}
	lines, n := make([][]line, len(g.cells[r])), 0
	for c, t := range g.cells[r] {
		if t != nil {
			lines[c] = broken(t.words, g.width[c])
			n = max(n, len(lines[c]))
		}
	}
	tr := s.doc.Element(e, paper.TR, "")
	s.rowGround(g, r, min(h, s.left()))
	for n = max(n, 1); ; {
		take := min(n, max(1, int((s.left()-2*rowPad)/g.cell.step)))
		for c := range lines {
			k := min(take, len(lines[c]))
			if len(lines[c]) > 0 {
				s.cellLines(s.doc.Element(tr, paper.TD, ""), g, c, s.y+rowPad, lines[c][:k], g.cell)
			}
			lines[c] = lines[c][k:]
		}
		s.y += float64(take)*g.cell.step + 2*rowPad
		if n -= take; n <= 0 {
			break
		}
		s.over(g, e, caption) // a row that no page holds
	}
	if !last && !g.t.Rows[r+1].Total && (g.told || r%5 == 4) {
		s.page.Line(leftMargin, s.y, leftMargin+g.total, s.y, 0.13, paper.Hair)
	}
}

// rowGround draws what lies under a row that is picked or a sum.
func (s *setter) rowGround(g grid, r int, h float64) {
	row := g.t.Rows[r]
	s.page.In(nil)
	if row.Picked {
		s.page.Fill(leftMargin, s.y, g.total, h, paper.Wash)
		s.page.Fill(leftMargin, s.y, 0.7, h, paper.Accent)
	}
	if row.Total {
		s.page.Line(leftMargin, s.y, leftMargin+g.total, s.y, 0.25, paper.Ink)
	}
}

// over goes on with a table on the next page.
func (s *setter) over(g grid, e *paper.Element, caption string) {
	s.page.In(nil)
	s.page.Line(leftMargin, s.y, leftMargin+g.total, s.y, 0.13, paper.Hair)
	s.turn()
	for s.left() < s.room()/4 { // figures that waited took it
		s.turn()
	}
	s.skip(4)
	s.page.In(nil)
	s.page.Words(leftMargin, s.y+3.6, captionStyle, fit(captionStyle, caption+", continued", s.wide()))
	s.y += captionStep
	s.tableHead(g, nil)
	s.opened = false
}
