package pdf

import (
	"slices"

	paper "rodwork/internal/format/pdf"
	"rodwork/internal/table"
)

// grid is a table made ready: words in cells, and the columns' widths.
type grid struct {
	t     table.Table
	heads []*text
	cells [][]*text // by row and column
	width []float64
	gap   float64
	told  bool    // cells hold sentences: rows are set apart
	x     float64 // where it begins
	total float64
	// folds is how many blocks of rows stand side by side.
	folds int
	// look is that of the cells, and pad the space above and below a row.
	look look
	pad  float64
}

// Space in tables, mm: between a rule's end and the words, above and below a
// row, and between blocks that stand side by side.
const (
	edge    = 1.4
	rowPad  = 0.35
	foldGap = 9.0
)

// grid puts words into the cells and finds how wide the columns are.
func (s *setter) grid(t table.Table) grid {
	g := grid{t: t, gap: 3.4, x: leftMargin, cells: make([][]*text, len(t.Rows)), folds: 1, look: cells, pad: rowPad}
	if len(t.Columns) > 8 {
		g.gap = 2.6
	}
	least, most, heads := s.fill(&g)
	n := len(t.Columns)
	room := s.wide() - float64(max(0, n-1))*g.gap - 2*edge
	for c := range n { // heads stay on one line where there is room for it
		heads[c] = max(heads[c], most[c])
	}
	if spare := min(room, sum(heads)); sum(most) <= room {
		g.width, most = level(most, heads, spare), heads
	} else {
		g.width = share(least, most, room)
	}
	if len(t.Rows) <= mostTuned && !slices.Equal(g.width, most) {
		g.tune(least, most)
	}
	g.measure(n)
	g.fold(s)
	if spare := s.column() - g.total; spare > 0 && n > 1 && g.folds == 1 {
		g.gap += spare / float64(n-1)
		g.total = s.column()
	}
	return g
}

func (g *grid) measure(columns int) {
	g.total = 2*edge + float64(max(0, columns-1))*g.gap + sum(g.width)
}

func sum(v []float64) (s float64) {
	for _, x := range v {
		s += x
	}
	return s
}

// fill makes the texts of heads and cells, and returns for each column its
// longest word, its longest line, and how long its head would like to be.
func (s *setter) fill(g *grid) (least, most, longest []float64) {
	n := len(g.t.Columns)
	least, most, longest = make([]float64, n), make([]float64, n), make([]float64, n)
	for c, col := range g.t.Columns {
		head := &text{}
		head.add(heads.plain, col.Head)
		if u := s.b.HeadUnit(col); u != "" {
			head.add(heads.plain, " "+u)
		}
		g.heads = append(g.heads, head)
		lo, hi := head.natural()
		least[c], most[c], longest[c] = lo, lo, min(hi, max(lo, 24))
	}
	for r, row := range g.t.Rows {
		g.cells[r] = make([]*text, n)
		for c := range n {
			if c >= len(row.Cells) {
				g.cells[r][c] = &text{}
				continue
			}
			g.cells[r][c] = s.cell(row, row.Cells[c], g.t.Columns[c])
			g.told = g.told || len(row.Cells[c].Say) > 0
			lo, hi := g.cells[r][c].natural()
			least[c], most[c] = max(least[c], lo), max(most[c], hi)
		}
	}
	return least, most, longest
}

// cell puts words into a cell; picked rows and sums are bold.
func (s *setter) cell(row table.Row, c table.Cell, col table.Column) *text {
	l := cells
	if row.Picked || row.Total {
		l.plain = l.bold
	}
	t := &text{}
	if c.Mark != "" {
		t.sign(c.Mark, 2.5, l.plain)
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

// share divides a width among columns. Where there is too little for all, a
// level is found that no column goes over unless its longest word does: narrow
// columns keep what they like, and those with much to say break into lines.
func share(least, most []float64, width float64) []float64 {
	if sum(least) > width { // even words must be cut: the longest first
		return level(make([]float64, len(least)), least, width)
	}
	return level(least, most, width)
}

// level clamps one number between least and most of each column, so that they
// add up to the width, which lies between the sums of both.
func level(least, most []float64, width float64) []float64 {
	out := make([]float64, len(least))
	below, above := 0.0, width
	for range 60 {
		at := (below + above) / 2
		for c := range out {
			out[c] = min(most[c], max(least[c], at))
		}
		if sum(out) > width {
			above = at
		} else {
			below = at
		}
	}
	return out
}

// Bounds of the tuning of columns: rows of a table that it is worth for, and
// how often width is moved.
const (
	mostTuned  = 60
	tuneRounds = 20
)

// tune moves width from one column to another while that takes lines off the
// table, as long as no word must be cut: first much at a time, then less.
func (g *grid) tune(least, most []float64) {
	for _, step := range []float64{16, 8, 4, 2} {
		for range tuneRounds {
			if !g.move(least, most, step) {
				break
			}
		}
	}
}

// move makes the best move of one step, and reports whether there was one.
func (g *grid) move(least, most []float64, step float64) bool {
	n := len(g.width)
	now, less, more := make([][]int, n), make([][]int, n), make([][]int, n)
	for c, w := range g.width {
		now[c] = g.lines(c, w)
		if w-step >= least[c] {
			less[c] = g.lines(c, w-step)
		}
		if w < most[c] {
			more[c] = g.lines(c, w+step)
		}
	}
	best, from, to := height(now), -1, -1
	for a := range n {
		for b := range n {
			if a == b || less[a] == nil || more[b] == nil {
				continue
			}
			trial := slices.Clone(now)
			trial[a], trial[b] = less[a], more[b]
			if h := height(trial); h < best {
				best, from, to = h, a, b
			}
		}
	}
	if from < 0 {
		return false
	}
	g.width[from] -= step
	g.width[to] += step
	return true
}

// lines counts the lines of a column's head and cells at a width.
func (g *grid) lines(c int, width float64) []int {
	out := []int{len(broken(g.heads[c].words, width))}
	for r := range g.cells {
		out = append(out, len(broken(g.cells[r][c].words, width)))
	}
	return out
}

// height adds up the lines of all rows.
func height(lines [][]int) int {
	all := 0
	for r := range lines[0] {
		most := 1
		for c := range lines {
			most = max(most, lines[c][r])
		}
		all += most
	}
	return all
}

// fold sets a long narrow table of single lines in blocks side by side.
func (g *grid) fold(s *setter) {
	const fewest, most = 16, 3
	n := min(most, int((s.wide()+foldGap)/(g.total+foldGap)))
	if len(g.cells) < fewest || n < 2 || g.told {
		return
	}
	for r, row := range g.t.Rows {
		if row.Total || s.rowHeight(*g, r) > g.single()+0.01 {
			return
		}
	}
	g.folds = n
}

// columnX is where a column begins.
func (g grid) columnX(c int) float64 {
	x := g.x + edge
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

func (s *setter) rowHeight(g grid, r int) float64 {
	n := 1
	for c, t := range g.cells[r] {
		n = max(n, len(broken(t.words, g.width[c])))
	}
	return float64(n)*g.look.step + 2*g.pad
}

// single is the height of a row of one line.
func (g grid) single() float64 { return g.look.step + 2*g.pad }

// closer is the look of cells in a table whose lines are set closer, so that no
// few rows are left over for the next page.
var closer = styles(paper.Table, paper.TableBold, paper.TableItalic, 8.8, 10.4, paper.Ink)

// squeeze sets the lines of a table closer where that, and only that, brings
// all of it onto the page.
func (s *setter) squeeze(g *grid, left float64) {
	if g.folds > 1 || s.tall(*g) <= left {
		return
	}
	tight := *g
	tight.look, tight.pad = closer, 0
	if s.tall(tight) <= left {
		*g = tight
	}
}

// tall is the height of a table with its head and note.
func (s *setter) tall(g grid) float64 {
	h := s.headHeight(g) + 1 + s.noteHeight(g)
	for r := range g.cells {
		h += s.rowHeight(g, r)
	}
	return h
}

// cellLines sets the lines of a cell.
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
