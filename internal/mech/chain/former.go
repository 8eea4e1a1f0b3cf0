package chain

import (
	"math"

	"rodwork/internal/geom/r2"
)

// Former is what a strip is pulled on: two straight flanks, tangent to an arc
// between them. The strip runs along +x on the first flank, below it, and turns
// to the left round the arc. A rail is a former that reaches only so far.
type Former struct {
	Centre r2.Vec  // of the arc
	Radius float64 // mm
	Angle  float64 // that the arc turns, rad, under π
	// From and To bound what is there, as an angle round the arc from its first
	// tangent point, rad; beyond them the strip meets nothing. Both 0: all of it,
	// flanks too.
	From, To float64
}

// whole tells whether there are flanks.
func (f Former) whole() bool { return f.From == 0 && f.To == 0 }

// gap returns how far a point stands off the former (negative: inside), the
// direction away from it, the curvature of its face there, and whether there
// is something to meet.
func (f Former) gap(p r2.Vec) (d float64, away r2.Vec, curv float64, ok bool) {
	v := p.Sub(f.Centre)
	at := math.Atan2(v.Y, v.X) + math.Pi/2 // 0 at the first tangent point
	if at < -math.Pi/2 {
		at += 2 * math.Pi
	}
	if !f.whole() && (at < f.From-1e-9 || at > f.To+1e-9) {
		return 0, r2.Vec{}, 0, false
	}
	switch {
	case at < 0:
		away = r2.Vec{Y: -1}
		return v.Dot(away) - f.Radius, away, 0, true
	case at > f.Angle:
		away = r2.Vec{Y: -1}.Turn(f.Angle)
		return v.Dot(away) - f.Radius, away, 0, true
	}
	r := v.Len()
	if r < 1e-9 {
		return -f.Radius, r2.Vec{Y: -1}, 0, true
	}
	return r - f.Radius, v.Mul(1 / r), 1 / r, true
}
