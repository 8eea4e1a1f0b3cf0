package pdf

import (
	paper "rodwork/internal/format/pdf"
	"rodwork/internal/geom/r2"
)

// sign draws the mark of a state, size mm high, standing on the base line: a
// filled square with a cross, a ring with a point, a pencil tick, a triangle, or
// a square struck through. The word beside it says the same.
func (s *setter) sign(key string, x, base, size float64) {
	p, u := s.page, size/14
	y := base - size*0.88
	at := func(px, py float64) r2.Vec { return r2.Vec{X: x + px*u, Y: y + py*u} }
	stroke := func(c paper.Colour, pts ...r2.Vec) { p.Lines(pts, 1.5*u, false, c) }
	switch key {
	case "stop":
		p.Fill(x, y, size, size, paper.Accent)
		stroke(paper.White, at(4, 4), at(10, 10))
		stroke(paper.White, at(10, 4), at(4, 10))
	case "look":
		p.Circle(x+7*u, y+7*u, 6*u, 1.5*u, false, paper.Ink)
		p.Circle(x+7*u, y+7*u, 2.1*u, 0, true, paper.Ink)
	case "fine":
		stroke(paper.Ink, at(1.5, 7.5), at(5.5, 11.5), at(12.5, 2))
	case "caution":
		stroke(paper.Ink, at(7, 1.2), at(13.2, 12.6), at(0.8, 12.6), at(7, 1.2), at(7.2, 1.6))
		stroke(paper.Ink, at(7, 5), at(7, 9))
		stroke(paper.Ink, at(7, 10), at(7, 11.4))
	case "box":
		p.Frame(x, y, size, size, 1.2*u, paper.Ink)
	default:
		p.Frame(x+u, y+u, 12*u, 12*u, 1.5*u, paper.Ink)
		stroke(paper.Ink, at(1, 13), at(13, 1))
	}
}
