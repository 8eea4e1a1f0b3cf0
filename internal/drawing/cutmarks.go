package drawing

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// cutRow is a cut with its letter, a line of the table of cuts.
type cutRow struct {
	letter string
	c      piece.Cut
}

func isHole(c piece.Cut) bool { return c.Kind == piece.Hole || c.Kind == piece.HoleRow }

// holeAt returns the centre of a cut's i-th hole, in the part's frame.
func holeAt(c piece.Cut, i int) r2.Vec {
	return pt(c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V)
}

// holes marks a hole, or a row of holes, which shares one centre line, with the
// letter where no other cut's holes are.
func (p *pen) holes(f frame, r cutRow, all []piece.Cut) {
	c := r.c
	n := max(c.Count, 1)
	rad := max(0.45, c.Diameter.V/2*f.K)
	at := func(i int) r2.Vec { return f.at(holeAt(c, i)) }
	u := pt(1, 0)
	if step := at(n - 1).Sub(at(0)); step.Len() > 0 {
		u = step.Unit()
	}
	over := rad + 0.5
	p.line(leaf.Dimension, at(0).Sub(u.Mul(over)), at(n-1).Add(u.Mul(over)))
	for i := range n {
		p.circle(leaf.Dimension, at(i), rad)
		p.line(leaf.Dimension, at(i).Sub(u.Left().Mul(over)), at(i).Add(u.Left().Mul(over)))
	}
	away := over + 1.5
	side := u.Left().Mul(away)
	spots := []r2.Vec{at(0).Sub(u.Mul(away)), at(n - 1).Add(u.Mul(away)), at(0).Add(side), at(0).Sub(side), at(n - 1).Add(side), at(n - 1).Sub(side)}
	best, most := spots[0], -1.0
	for _, s := range spots {
		room := roomAt(f, s, all)
		if p.onWords(boxOf(s.X-1, s.Y-0.9, s.X+1, s.Y+0.9)) {
			room = 0
		}
		if room > most+0.1 {
			best, most = s, room
		}
		if most > 2.3 {
			break
		}
	}
	p.add(leaf.Text{At: pt(best.X, best.Y+0.9), S: r.letter, Strong: true, Halo: true, Anchor: leaf.Middle})
}

// onWords tells whether words stand in a rectangle already.
func (p *pen) onWords(b r2.Box) bool {
	for _, it := range p.items {
		if t, ok := it.(leaf.Text); ok && t.Box().Overlaps(b) {
			return true
		}
	}
	return false
}

// roomAt is the distance on paper from a place to the nearest hole's edge.
func roomAt(f frame, at r2.Vec, cuts []piece.Cut) float64 {
	least := math.Inf(1)
	for _, c := range cuts {
		if !isHole(c) {
			continue
		}
		for i := range max(c.Count, 1) {
			least = min(least, f.at(holeAt(c, i)).Sub(at).Len()-c.Diameter.V/2*f.K)
		}
	}
	return least
}

// cutTable lists cuts with their letters. It returns the height of its foot.
func (p *pen) cutTable(k ink, at r2.Vec, rows []cutRow) float64 {
	if len(rows) == 0 {
		return at.Y
	}
	t := grid{pen: p, at: at, step: 4.2, cols: []column{
		{"", 0, leaf.Start}, {"cut", 8, leaf.Start}, {"along", 66, leaf.End}, {"across", 92, leaf.End}, {"deep", 108, leaf.End}, {"for", 116, leaf.Start}}}
	t.head()
	room := 210 - leaf.Margin - at.X - 116
	for _, r := range rows {
		c := r.c
		along := k.size(c.X0.V, 1) + " … " + k.size(c.X1.V, 1)
		across := k.size(c.Y0.V, 1) + " … " + k.size(c.Y1.V, 1)
		kind := string(c.Kind)
		if isHole(c) {
			along, across = k.size(c.X0.V, 1), k.size(c.Y0.V, 1)
			kind = "hole ø " + k.size(c.Diameter.V, 1)
			if c.Count > 1 {
				kind = fmt.Sprintf("%d × ø %s", c.Count, k.size(c.Diameter.V, 1))
			}
			if step := max(math.Abs(c.StepX.V), math.Abs(c.StepY.V)); c.Count > 1 {
				kind += ", every " + k.size(step, 1)
			}
		}
		deep := k.fine(c.Depth.V, 1)
		if c.Through {
			deep = "through"
		}
		t.row(r.letter, kind, along, across, deep, leaf.Shorten(strings.TrimPrefix(c.For, "joint "), leaf.Note, false, false, room))
	}
	return t.foot()
}

// letterOf returns A, B … Z, AA, AB …
func letterOf(i int) string {
	s := string(rune('A' + i%26))
	if i >= 26 {
		return letterOf(i/26-1) + s
	}
	return s
}
