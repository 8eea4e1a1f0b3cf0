package drawing

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// callouts finds places for numbers on leaders: beside what is drawn, near what
// they name, no leader across another and no word on a word. The drawing is
// kept as a raster of cells, in which a line of it counts as ink.
type callouts struct {
	pen    *pen
	field  r2.Box // where numbers may stand
	nx, ny int
	ink    []bool
	words  []r2.Box
	lines  [][2]r2.Vec
}

const (
	cellSize   = 0.7 // mm of paper
	maxCells   = 1 << 18
	leaderFoot = 1.2 // the level end of a leader
	crossInk   = 1.0 // what a leader pays for each cell of ink that it crosses
	onInk      = 8.0 // and a number for each cell that it covers
	perLength  = 0.3
)

// newCallouts takes stock of what the pen has drawn so far.
func newCallouts(p *pen, field r2.Box) *callouts {
	c := &callouts{pen: p, field: field}
	size := field.Size()
	if !(size.X > 0 && size.Y > 0 && size.X*size.Y/(cellSize*cellSize) < maxCells) {
		return c
	}
	c.nx, c.ny = int(size.X/cellSize)+1, int(size.Y/cellSize)+1
	c.ink = make([]bool, c.nx*c.ny)
	for _, it := range p.items {
		switch it := it.(type) {
		case leaf.Text:
			c.words = append(c.words, it.Box())
		case leaf.Path:
			c.trace(it)
		}
	}
	return c
}

// trace puts the lines of a path into the raster.
func (c *callouts) trace(path leaf.Path) {
	if path.Line == "" || path.Line == leaf.Hatch || path.Line == leaf.Dots {
		return
	}
	var at, start r2.Vec
	for _, s := range path.Segs {
		switch s.Op {
		case leaf.Move:
			start = s.P
		case leaf.Close:
			s.P = start
			fallthrough
		default: // an arc by its chord: the bends of a piece are short on paper
			c.walk(at, s.P, func(i int) { c.ink[i] = true })
		}
		at = s.P
	}
}

// walk visits the cells along a line.
func (c *callouts) walk(a, b r2.Vec, visit func(cell int)) {
	if c.ink == nil {
		return
	}
	n := int(b.Sub(a).Len()/(0.6*cellSize)) + 1
	if n > 2000 || n < 0 {
		return
	}
	last := -1
	for i := range n + 1 {
		if k := c.cell(a.Lerp(b, float64(i)/float64(n))); k >= 0 && k != last {
			visit(k)
			last = k
		}
	}
}

func (c *callouts) cell(q r2.Vec) int {
	x, y := int((q.X-c.field.Min.X)/cellSize), int((q.Y-c.field.Min.Y)/cellSize)
	if x < 0 || y < 0 || x >= c.nx || y >= c.ny {
		return -1
	}
	return y*c.nx + x
}

// spot is a way to set one number: the dot, the knee and the words.
type spot struct {
	tip, knee r2.Vec
	text      leaf.Text
	cost      float64
}

// put sets a number for the first of the tips that has a good place; it
// reports whether there is any.
func (c *callouts) put(tips []r2.Vec, s string) bool {
	best := spot{cost: math.Inf(1)}
	for i, tip := range tips {
		for _, reach := range []float64{4.5, 6.5, 9, 12, 16, 21, 27, 34, 42} {
			if float64(i)+perLength*reach >= best.cost {
				break
			}
			for k := range 16 {
				sin, cos := math.Sincos(2 * math.Pi * (float64(k) + 0.5) / 16)
				o := spotAt(tip, tip.Add(pt(cos, sin).Mul(reach)), s)
				o.cost = float64(i) + perLength*reach
				c.weigh(&o, best.cost)
				if o.cost < best.cost {
					best = o
				}
			}
		}
	}
	if math.IsInf(best.cost, 1) {
		return false
	}
	c.set(best)
	return true
}

func spotAt(tip, knee r2.Vec, s string) spot {
	d, anchor := leaderFoot, leaf.Start
	if knee.X < tip.X {
		d, anchor = -d, leaf.End
	}
	return spot{tip: tip, knee: knee, text: leaf.Text{At: pt(knee.X+1.5*d, knee.Y+leaf.Name.Cap()/2), S: s, Size: leaf.Name, Anchor: anchor, Halo: true}}
}

// foot is the level end of a spot's leader.
func (o spot) foot() r2.Vec {
	if o.text.Anchor == leaf.End {
		return pt(o.knee.X-leaderFoot, o.knee.Y)
	}
	return pt(o.knee.X+leaderFoot, o.knee.Y)
}

// weigh adds to a spot's cost what it covers; +Inf where it may not stand.
func (c *callouts) weigh(o *spot, most float64) {
	box := o.text.Box()
	room := box.Grown(0.9)
	room.Min.X, room.Max.X = room.Min.X-1, room.Max.X+1 // two numbers must not read as one
	if room.Min.X < c.field.Min.X || room.Min.Y < c.field.Min.Y || room.Max.X > c.field.Max.X || room.Max.Y > c.field.Max.Y {
		o.cost = math.Inf(1)
		return
	}
	foot := o.foot()
	for _, w := range c.words {
		if w.Overlaps(room) || crosses(o.tip, o.knee, w.Grown(0.4)) {
			o.cost = math.Inf(1)
			return
		}
	}
	for _, l := range c.lines {
		if crosses(l[0], l[1], room) || meet(o.tip, o.knee, l[0], l[1]) || meet(o.knee, foot, l[0], l[1]) {
			o.cost = math.Inf(1)
			return
		}
	}
	near := o.tip.Lerp(o.knee, min(1, 1.2/max(o.knee.Sub(o.tip).Len(), 0.1)))
	c.walk(near, o.knee, func(k int) {
		if c.ink[k] {
			o.cost += crossInk
		}
	})
	if o.cost >= most {
		return
	}
	grown := box.Grown(0.3)
	for y := grown.Min.Y; y < grown.Max.Y+cellSize; y += cellSize {
		c.walk(pt(grown.Min.X, min(y, grown.Max.Y)), pt(grown.Max.X, min(y, grown.Max.Y)), func(k int) {
			if c.ink[k] {
				o.cost += onInk
			}
		})
	}
}

// set draws the spot and takes its place.
func (c *callouts) set(o spot) {
	foot := o.foot()
	c.pen.line(leaf.Dimension, o.tip, o.knee, foot)
	c.pen.add(leaf.Path{Fill: leaf.Solid, Segs: circleOf(o.tip, 0.42)})
	c.pen.add(o.text)
	c.words = append(c.words, o.text.Box())
	c.lines = append(c.lines, [2]r2.Vec{o.tip, o.knee}, [2]r2.Vec{o.knee, foot})
}

// meet tells whether two stretches of lines cross or touch.
func meet(a, b, c, d r2.Vec) bool {
	u, v := b.Sub(a), d.Sub(c)
	side := func(p r2.Vec) float64 { return u.Cross(p.Sub(a)) }
	other := func(p r2.Vec) float64 { return v.Cross(p.Sub(c)) }
	return side(c)*side(d) <= 0 && other(a)*other(b) <= 0
}

// crosses tells whether a stretch of a line meets an upright rectangle.
func crosses(a, b r2.Vec, box r2.Box) bool {
	if box.Holds(a) || box.Holds(b) {
		return true
	}
	if max(a.X, b.X) < box.Min.X || min(a.X, b.X) > box.Max.X || max(a.Y, b.Y) < box.Min.Y || min(a.Y, b.Y) > box.Max.Y {
		return false
	}
	return meet(a, b, box.Min, box.Max) || meet(a, b, pt(box.Min.X, box.Max.Y), pt(box.Max.X, box.Min.Y))
}
