package text

import (
	"slices"
	"strings"

	"rodwork/internal/table"
)

const (
	gutter    = 2  // columns between two columns
	leastWord = 10 // a column of words is not made narrower than this
)

// table prints a table in lines. Columns of words are made narrower, and their
// cells broken, until it fits; if it can't fit, each row is printed as a list.
func (p *printer) table(t table.Table) {
	p.para(clean(t.Caption), "")
	cells := p.cells(t)
	widths, fits := p.widths(t, cells)
	if fits && !tellsSentences(t, cells) {
		p.grid(t, cells, widths)
	} else {
		p.records(t, cells)
	}
	p.para(clean(t.Note), "")
}

// longSentence is more than a cell of a grid can hold without being torn into
// a ribbon.
const longSentence = 60

func tellsSentences(t table.Table, cells [][]string) bool {
	for k, r := range t.Rows {
		for i, c := range r.Cells {
			if len(c.Say) > 0 && columns(cells[k+1][i]) > longSentence {
				return true
			}
		}
	}
	return false
}

// cells prints every cell, the heads first.
func (p *printer) cells(t table.Table) [][]string {
	out := make([][]string, 0, len(t.Rows)+1)
	head := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		head[i] = strings.TrimSpace(clean(c.Head + " " + p.book.HeadUnit(c)))
	}
	out = append(out, head)
	for _, r := range t.Rows {
		row := make([]string, len(t.Columns))
		for i, c := range r.Cells {
			row[i] = p.cell(c, t.Columns[i])
		}
		out = append(out, row)
	}
	return out
}

func (p *printer) cell(c table.Cell, col table.Column) string {
	switch {
	case c.Q != nil:
		return clean(p.book.PrintedIn(*c.Q, col))
	case len(c.Say) > 0:
		return p.plain(c.Say)
	}
	return clean(c.Text)
}

// widths finds the width of each column, and whether they fit the line.
func (p *printer) widths(t table.Table, cells [][]string) ([]int, bool) {
	n := len(t.Columns)
	widths, least := make([]int, n), make([]int, n)
	for i, col := range t.Columns {
		for k, row := range cells {
			w := columns(row[i])
			if k == 0 { // heads may break at their spaces
				for _, word := range strings.Fields(row[i]) {
					least[i] = max(least[i], columns(word))
				}
				widths[i] = max(widths[i], least[i])
				continue
			}
			widths[i] = max(widths[i], w)
			if col.Align == table.Right {
				least[i] = max(least[i], w)
			} else {
				least[i] = max(least[i], min(w, leastWord))
			}
		}
	}
	room := p.width - gutter*(n-1)
	for sum(widths) > room {
		widest := -1
		for i := range widths {
			if widths[i] > least[i] && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return widths, false
		}
		widths[widest]--
	}
	return widths, true
}

func sum(ns []int) int {
	s := 0
	for _, n := range ns {
		s += n
	}
	return s
}

func (p *printer) grid(t table.Table, cells [][]string, widths []int) {
	rule := strings.Repeat("-", min(p.width, sum(widths)+gutter*(len(widths)-1)))
	p.line(rule)
	for k, row := range cells {
		if k > 0 && t.Rows[k-1].Total {
			p.line(rule)
		}
		p.gridRow(t, row, widths)
		if k == 0 {
			p.line(rule)
		}
	}
	p.line(rule)
}

func (p *printer) gridRow(t table.Table, row []string, widths []int) {
	broken := make([][]string, len(row))
	high := 1
	for i, c := range row {
		broken[i] = wrap(c, max(widths[i], 1))
		high = max(high, len(broken[i]))
	}
	for l := range high {
		parts := make([]string, len(row))
		for i := range row {
			s := ""
			if l < len(broken[i]) {
				s = broken[i][l]
			}
			parts[i] = pad(s, widths[i], t.Columns[i].Align == table.Right)
		}
		p.line(strings.Join(parts, strings.Repeat(" ", gutter)))
	}
}

// records prints each row by itself: what names it in one line, then the other
// cells with their heads.
func (p *printer) records(t table.Table, cells [][]string) {
	names := slices.IndexFunc(t.Columns, func(c table.Column) bool { return c.Names })
	for _, row := range cells[1:] {
		p.hang(strings.TrimSpace(strings.Join(row[:names+1], "  ")), "", "  ")
		for i, c := range row {
			if c == "" || i <= names {
				continue
			}
			head := cells[0][i]
			if head != "" {
				head += ": "
			}
			p.hang(head+c, "  ", "    ")
		}
	}
}
