package pdf

import (
	"fmt"
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// Paper is a sheet of paper as a printer takes it, upright, mm.
type Paper struct {
	Name string
	W, H float64
}

// Papers that printers take (ISO 216 and ANSI/ASME Y14.1).
var (
	A4     = Paper{"A4", 210, 297}
	Letter = Paper{"Letter", 215.9, 279.4}
)

// Measures of full-size sheets, mm.
const (
	square    = 100.0 // side of the square that is measured
	bigMargin = 12.0
	bigFoot   = square + 16
	tick      = 5.0
)

// FullSize puts a leaf that is drawn at 1 : 1 on one page, with a square to
// measure below it. The error says if the page would be longer than readers can
// be expected to show (MaxSide): such a leaf can be tiled.
func FullSize(l leaf.Leaf) ([]byte, error) {
	w := math.Max(l.W, square+110) + 2*bigMargin
	h := l.H + 2*bigMargin + bigFoot + 10
	if w > MaxSide || h > MaxSide || math.IsNaN(w+h) {
		return nil, fmt.Errorf("pdf: %.0f × %.0f mm is too large for one page; %.0f mm is the most", w, h, MaxSide)
	}
	d := New(Info{Title: l.Title, Lang: "en"})
	p := d.AddPage(w, h)
	p.In(d.Element(nil, H1, ""))
	end := p.Words(bigMargin, 12, Style{TableBold, 5.2, Ink}, l.Title)
	p.Words(bigMargin+end+5, 12, Style{Table, 3.7, Ink}, l.Right)
	p.In(d.Element(nil, Figure, l.Alt))
	p.Leaf(l, bigMargin, bigMargin+8, 1)
	p.In(d.Element(nil, P, ""))
	y := bigMargin + 8 + l.H + 10
	p.corners(bigMargin, y)
	p.remarks(bigMargin+square+10, y+5, append([]string{"Full size, 1 : 1. Print at 100 %, without fitting to the page.",
		"Measure the square of four corners before use: it is 100 mm wide and 100 mm high."}, leaf.CaptionLines(l.Caption)...))
	return d.Bytes()
}

// remarks sets lines of small words below each other.
func (p *Page) remarks(x, y float64, lines []string) {
	for i, s := range lines {
		p.Words(x, y+4.6*float64(i), Style{Table, 3.2, Ink}, s)
	}
}

// corners draws the square to measure: its four corners alone, so that it is
// not taken for a line of the work.
func (p *Page) corners(x, y float64) {
	for _, c := range [...]struct{ x, y, dx, dy float64 }{{0, 0, 1, 1}, {square, 0, -1, 1}, {0, square, 1, -1}, {square, square, -1, -1}} {
		p.Line(x+c.x, y+c.y, x+c.x+tick*c.dx, y+c.y, 0.18, Ink)
		p.Line(x+c.x, y+c.y, x+c.x, y+c.y+tick*c.dy, 0.18, Ink)
	}
	p.Words(x+tick+1.5, y+1.1, Style{Table, 2.7, Ink}, "100 mm × 100 mm from corner to corner")
}

// Measures of tiles, mm: what printers leave white, the band for words at the
// foot, and how far neighbours overlap.
const (
	tileMargin = 10.0
	tileFoot   = 12.0
	overlap    = 10.0
)

// tiling is how a leaf is cut into tiles.
type tiling struct {
	paper      Paper // as it is turned
	cols, rows int
	w, h       float64 // of a tile's window
	used       []bool  // by row and column: something is drawn there
}

// most is how many tiles a leaf may take: more is no template but a mistake.
const mostTiles = 400

// Tiled puts a leaf that is drawn at 1 : 1 on as many sheets of paper as it
// needs, upright or on their side, whichever takes fewer; sheets on which
// nothing would stand are left out. The first page is the key: the whole leaf
// made small, with the tiles over it.
//
// Neighbours overlap by 10 mm. Along the middle of each overlap runs a thin
// dashed line with rings on it; they stand at the same places of the leaf on
// both sheets. Cut one sheet along its line and lay it on the other, ring on
// ring. Each sheet has its own square of 100 mm to measure.
func Tiled(l leaf.Leaf, paper Paper) ([]byte, error) {
	t := tile(l, paper)
	if turned := tile(l, Paper{paper.Name, paper.H, paper.W}); turned.count() < t.count() {
		t = turned
	}
	if math.IsNaN(l.W+l.H) || t.cols*t.rows > mostTiles {
		return nil, fmt.Errorf("pdf: %.0f × %.0f mm would take more than %d sheets", l.W, l.H, mostTiles)
	}
	d := New(Info{Title: l.Title, Lang: "en"})
	t.key(d.AddPage(t.paper.W, t.paper.H), l)
	for row := range t.rows {
		for col := range t.cols {
			if t.used[row*t.cols+col] {
				t.sheet(d.AddPage(t.paper.W, t.paper.H), l, row, col)
			}
		}
	}
	return d.Bytes()
}

func tile(l leaf.Leaf, paper Paper) tiling {
	t := tiling{paper: paper, w: paper.W - 2*tileMargin, h: paper.H - 2*tileMargin - tileFoot}
	fit := func(size, window float64) int {
		return max(1, int(math.Ceil(math.Min(1e6, (size-overlap)/(window-overlap))-1e-9)))
	}
	t.cols, t.rows = fit(l.W, t.w), fit(l.H, t.h)
	if t.cols*t.rows > mostTiles || t.cols > mostTiles || t.rows > mostTiles {
		t.cols, t.rows = mostTiles, 2
		return t
	}
	t.used = make([]bool, t.cols*t.rows)
	for i := range t.used {
		t.used[i] = touches(l, t.window(i/t.cols, i%t.cols))
	}
	return t
}

func (t tiling) count() int {
	if t.used == nil {
		return math.MaxInt
	}
	n := 0
	for _, u := range t.used {
		if u {
			n++
		}
	}
	return n
}

// window is what a tile shows of the leaf.
func (t tiling) window(row, col int) r2.Box {
	at := r2.Vec{X: float64(col) * (t.w - overlap), Y: float64(row) * (t.h - overlap)}
	return r2.Box{Min: at, Max: r2.Vec{X: at.X + t.w, Y: at.Y + t.h}}
}

// touches reports whether anything of the leaf may lie in the box: lines are
// looked at one by one, since a path round the whole leaf leaves its middle
// empty.
func touches(l leaf.Leaf, b r2.Box) bool {
	meets := func(o r2.Box) bool {
		return o.Min.X <= b.Max.X && o.Max.X >= b.Min.X && o.Min.Y <= b.Max.Y && o.Max.Y >= b.Min.Y
	}
	for _, it := range l.Items {
		switch it := it.(type) {
		case leaf.Text:
			if meets(it.Box()) {
				return true
			}
		case leaf.Path:
			var start, at r2.Vec
			for _, s := range it.Segs {
				step := leaf.Path{Segs: []leaf.Seg{{Op: leaf.Move, P: at}, s}}
				switch s.Op {
				case leaf.Move:
					start, at = s.P, s.P
					continue
				case leaf.Close:
					step.Segs[1] = leaf.Seg{Op: leaf.To, P: start}
				}
				if meets(step.Box()) {
					return true
				}
				at = step.Segs[1].P
			}
			if it.Fill != leaf.None && meets(it.Box()) {
				return true
			}
		}
	}
	return false
}

// name of a tile: a letter for its row, a number for its column.
func (t tiling) name(row, col int) string {
	letter := string(rune('A' + row%26))
	if row >= 26 {
		letter = string(rune('A'+row/26-1)) + letter
	}
	return fmt.Sprintf("%s%d", letter, col+1)
}

// sheet draws one tile.
func (t tiling) sheet(p *Page, l leaf.Leaf, row, col int) {
	d, b := p.doc, t.window(row, col)
	p.In(d.Element(nil, Figure, fmt.Sprintf("Tile %s of %s", t.name(row, col), l.Title)))
	p.Clip(tileMargin, tileMargin, t.w, t.h)
	p.Leaf(l, tileMargin-b.Min.X, tileMargin-b.Min.Y, 1)
	p.Unclip()
	p.In(nil)
	t.joins(p, row, col)
	p.corners(tileMargin+(t.w-square)/2, tileMargin+(t.h-square)/2)
	p.In(d.Element(nil, P, ""))
	y := t.paper.H - tileMargin
	end := p.Words(tileMargin, y-2, Style{TableBold, 6, Ink}, t.name(row, col))
	p.Words(tileMargin+end+4, y-5, Style{Table, 3.2, Ink}, leaf.Shorten(l.Title, leaf.Name, false, false, t.w-60))
	p.Words(tileMargin+end+4, y-1, Style{Table, 2.7, Ink}, "1 : 1 · print at 100 %, without fitting to the page · cut on a dashed line, lay ring on ring")
	t.index(p, t.paper.W-tileMargin, y, row, col)
}

// joins draws the lines that a tile shares with its neighbours.
func (t tiling) joins(p *Page, row, col int) {
	const ring = 1.5
	left, top := tileMargin+overlap/2, tileMargin+overlap/2
	right, bottom := tileMargin+t.w-overlap/2, tileMargin+t.h-overlap/2
	has := func(r, c int) bool {
		return r >= 0 && c >= 0 && r < t.rows && c < t.cols && t.used[r*t.cols+c]
	}
	upright := func(x float64) {
		p.Dashed(x, tileMargin, x, tileMargin+t.h, 0.13, Ink, 3, 2)
		for i := range 3 {
			p.Circle(x, top+(bottom-top)*float64(1+2*i)/6, ring, 0.13, false, Ink)
		}
	}
	level := func(y float64) {
		p.Dashed(tileMargin, y, tileMargin+t.w, y, 0.13, Ink, 3, 2)
		for i := range 3 {
			p.Circle(left+(right-left)*float64(1+2*i)/6, y, ring, 0.13, false, Ink)
		}
	}
	if has(row, col-1) {
		upright(left)
	}
	if has(row, col+1) {
		upright(right)
	}
	if has(row-1, col) {
		level(top)
	}
	if has(row+1, col) {
		level(bottom)
	}
}

// index draws the tiles as small boxes, this one filled, in the corner of the
// foot.
func (t tiling) index(p *Page, right, bottom float64, row, col int) {
	cell := math.Min(4, math.Min((tileFoot-2)/float64(t.rows), 50/float64(t.cols)))
	x, y := right-cell*float64(t.cols), bottom-cell*float64(t.rows)
	for i, used := range t.used {
		cx, cy := x+cell*float64(i%t.cols), y+cell*float64(i/t.cols)
		if i == row*t.cols+col {
			p.Fill(cx, cy, cell, cell, Ink)
		} else if used {
			p.Frame(cx, cy, cell, cell, 0.13, Ink)
		}
	}
}

// key draws the first page: the leaf made small, with its tiles over it.
func (t tiling) key(p *Page, l leaf.Leaf) {
	d := p.doc
	p.In(d.Element(nil, H1, ""))
	p.Words(tileMargin, tileMargin+6, Style{TableBold, 5.2, Ink}, leaf.Shorten(l.Title, leaf.Head, false, true, t.w))
	p.In(d.Element(nil, P, ""))
	lines := []string{l.Right, fmt.Sprintf("Full size, 1 : 1, on %d sheets of %s and this key. Print at 100 %%, without fitting to the page.", t.count(), t.paper.Name),
		"On each sheet measure the square of four corners before use: it is 100 mm wide and 100 mm high.",
		"Cut a sheet along its dashed line and lay it on its neighbour, ring on ring; then measure across the join.",
		"A sheet on which nothing stands is left out."}
	p.remarks(tileMargin, tileMargin+13, lines)
	top := tileMargin + 13 + 4.6*float64(len(lines)) + 6
	step := r2.Vec{X: t.w - overlap, Y: t.h - overlap}
	whole := r2.Vec{X: step.X*float64(t.cols) + overlap, Y: step.Y*float64(t.rows) + overlap}
	k := math.Min(t.w/whole.X, (t.paper.H-tileMargin-top)/whole.Y)
	p.In(d.Element(nil, Figure, l.Alt))
	p.outline(l, tileMargin, top, k)
	for row := range t.rows {
		for col := range t.cols {
			if !t.used[row*t.cols+col] {
				continue
			}
			b := t.window(row, col)
			p.Frame(tileMargin+k*(b.Min.X+overlap/2), top+k*(b.Min.Y+overlap/2), k*step.X, k*step.Y, 0.13, Accent)
			p.Words(tileMargin+k*(b.Min.X+overlap)+1, top+k*(b.Min.Y+overlap)+3.4, Style{TableBold, 3.2, Accent}, t.name(row, col))
		}
	}
}

// outline draws a leaf's lines k times their size in one width, without words.
func (p *Page) outline(l leaf.Leaf, x, y, k float64) {
	p.begin()
	p.setStroke(Ink)
	p.setLine(0.18, nil, false)
	f := frame{p, x, y, k}
	for _, it := range l.Items {
		if path, ok := it.(leaf.Path); ok && path.Line != "" && path.Line != leaf.Hatch && path.Line != leaf.Dots && len(path.Segs) > 0 {
			f.path(path.Segs)
			p.buf.WriteString("S\n")
		}
	}
}
