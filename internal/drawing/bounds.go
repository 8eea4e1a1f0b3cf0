package drawing

import (
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// extent is an upright box in the piece's frame.
type extent struct{ min, max r3.Vec }

func (e extent) size() r3.Vec { return e.max.Sub(e.min) }

func noExtent() extent {
	inf := math.Inf(1)
	return extent{r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}}
}

func (e extent) with(p r3.Vec) extent {
	return extent{
		r3.Vec{X: min(e.min.X, p.X), Y: min(e.min.Y, p.Y), Z: min(e.min.Z, p.Z)},
		r3.Vec{X: max(e.max.X, p.X), Y: max(e.max.Y, p.Y), Z: max(e.max.Z, p.Z)},
	}
}

// extentOf returns the box of a part in the piece. A bent strip's box goes by
// its outer face, its ends and its width.
func extentOf(q *piece.Part) extent {
	e := noExtent()
	if len(q.Run) > 0 {
		for _, s := range q.Run {
			for _, x := range []float64{s.X0, s.X1} {
				for _, h := range []float64{0, q.Thick.V} {
					e = e.with(piece.Place(q, x, 0, h)).with(piece.Place(q, x, q.Width.V, h))
				}
			}
		}
		return e
	}
	for _, s := range q.Outline {
		for _, v := range s.Outer {
			for _, z := range []float64{0, q.Thick.V} {
				e = e.with(q.Pose.At(r3.Vec{X: v.P.X, Y: v.P.Y, Z: z}))
			}
		}
	}
	return e
}

// lies tells the axis of the piece that a flat part's thickness lies along:
// 'x' for an upright, 'y' for a horizontal, 'z' for what faces the front.
func lies(q *piece.Part) byte {
	z := q.Pose.Z
	switch {
	case math.Abs(z.X) > 0.9:
		return 'x'
	case math.Abs(z.Y) > 0.9:
		return 'y'
	case math.Abs(z.Z) > 0.9:
		return 'z'
	}
	return 0
}

// isFront tells whether a part closes the piece's front or belongs to a drawer
// behind it: what is taken out to look inside.
func isFront(q *piece.Part) bool {
	return q != nil && (q.Role == piece.Door || q.Role == piece.DrawerFront || isDrawerBox(q))
}

// isDrawerBox tells whether a part belongs to a drawer's box.
func isDrawerBox(q *piece.Part) bool {
	return q != nil && (q.Role == piece.DrawerSide || q.Role == piece.DrawerEnd || q.Role == piece.DrawerFloor)
}
