package drawing

import (
	"slices"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// column is a column of a small table on a leaf: its head, and where its
// words stand, from the table's left.
type column struct {
	head   string
	x      float64
	anchor leaf.Anchor
}

// grid is a small table on a leaf: a head in italics, hair rules below the
// head and the last row, the first column in semibold.
type grid struct {
	pen  *pen
	at   r2.Vec
	step float64
	cols []column
	wide float64 // of the rules; 0: as far as the words go
	rows int
}

func (g *grid) head() {
	for _, c := range g.cols {
		g.pen.add(leaf.Text{At: pt(g.at.X+c.x, g.at.Y), S: c.head, Italic: true, Anchor: c.anchor})
	}
	g.rule(g.at.Y + 1.2)
}

func (g *grid) rule(y float64) {
	w := g.wide
	if w == 0 {
		w = 210 - leaf.Margin - g.at.X
	}
	g.pen.line(leaf.Dimension, pt(g.at.X, y), pt(g.at.X+w, y))
}

func (g *grid) row(cells ...string) {
	g.rows++
	y := g.at.Y + 1 + float64(g.rows)*g.step
	for i, s := range cells {
		g.pen.add(leaf.Text{At: pt(g.at.X+g.cols[i].x, y), S: s, Anchor: g.cols[i].anchor, Strong: i == 0})
	}
}

// foot closes the table and returns its lowest place.
func (g *grid) foot() float64 {
	y := g.at.Y + 2.4 + float64(g.rows)*g.step
	g.rule(y)
	return y
}

// widestGap returns the two neighbouring places with the widest room between
// them whose middle is free.
func widestGap(xs []float64, taken func(mid float64) bool) (a, b float64) {
	xs = slices.Clone(xs)
	slices.Sort(xs)
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] > b-a && !taken((xs[i]+xs[i-1])/2) {
			a, b = xs[i-1], xs[i]
		}
	}
	return a, b
}
