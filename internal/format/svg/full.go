package svg

import (
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// Measures of a full-size sheet, mm.
const (
	square    = 100.0 // side of the square that is measured
	corner    = 5.0   // how far its four corners run
	sheetHead = 16.0
	sheetFoot = square + 12
	footWords = 112.0 // from the edge to the words beside the square
	footWide  = 180.0
)

// sheet returns a full-size leaf as a sheet of its own: title above, caption
// and a square of 100 mm below, nothing scaled. It has one ink and no paper: a
// machine that follows lines would take a fill for work.
func sheet(l leaf.Leaf) leaf.Leaf {
	out := l
	out.W = max(l.W, footWords+footWide+leaf.Margin)
	out.H = sheetHead + l.H + sheetFoot
	out.Items = nil
	for _, it := range l.Items {
		out.Items = append(out.Items, plain(leaf.Moved(it, r2.Vec{Y: sheetHead})))
	}
	title := leaf.Text{At: r2.Vec{X: leaf.Margin, Y: 10}, S: l.Title, Size: leaf.Head, Strong: true}
	title.S = leaf.Shorten(l.Title, leaf.Head, false, true, out.W-2*leaf.Margin)
	out.Items = append(out.Items, title)
	words := append([]string{l.Right, "Full size, 1 : 1: one unit is one millimetre. Print at 100 %, without fitting to the page.",
		"Measure the square of four corners before use: it is 100 mm wide and 100 mm high."}, leaf.CaptionLines(l.Caption)...)
	y := sheetHead + l.H + 4
	for i, s := range words {
		out.Items = append(out.Items, leaf.Text{At: r2.Vec{X: footWords, Y: y + 4 + 4.6*float64(i)}, S: s})
	}
	out.Items = append(out.Items, corners(r2.Vec{X: leaf.Margin - 4, Y: y}))
	return out
}

// corners is the square to measure: its four corners alone, so that it is not
// taken for a line of the work.
func corners(at r2.Vec) leaf.Path {
	p := leaf.Path{Line: leaf.Dimension}
	for _, c := range [...]struct{ x, y, dx, dy float64 }{{0, 0, 1, 1}, {square, 0, -1, 1}, {0, square, 1, -1}, {square, square, -1, -1}} {
		v := at.Add(r2.Vec{X: c.x, Y: c.y})
		p.Segs = append(p.Segs, leaf.Seg{Op: leaf.Move, P: v.Add(r2.Vec{X: corner * c.dx})}, leaf.Seg{Op: leaf.To, P: v},
			leaf.Seg{Op: leaf.To, P: v.Add(r2.Vec{Y: corner * c.dy})})
	}
	return p
}

// plain returns the item in the one ink of a full-size sheet.
func plain(it leaf.Item) leaf.Item {
	switch it := it.(type) {
	case leaf.Path:
		it.Accent = false
		if it.Fill == leaf.Paper {
			it.Fill = leaf.None
		}
		return it
	case leaf.Text:
		it.Accent, it.Halo = false, false
		return it
	}
	return it
}

// Page returns the leaf as a page of its own that is W × H mm, nothing put to
// it and nothing scaled: a sheet of labels.
func Page(l leaf.Leaf) []byte {
	w := &writer{}
	w.open(l, l)
	w.items(l.Items)
	w.s("</svg>\n")
	return []byte(w.b.String())
}
