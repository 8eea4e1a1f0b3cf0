package template

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/mech/rout"
)

// inside is a place where an outline turns into the material.
type inside struct {
	at     r2.Vec
	radius float64 // 0: sharp
}

// sharp is the turn below which two edges run into each other smoothly, rad.
const sharp = 1e-4

// insides returns the inside corners of a region: arcs that turn to the right
// (the material is at the left), and sharp corners that do.
func insides(r planar.Region) []inside {
	var out []inside
	for l := range r.All {
		for i := range l {
			e := l.Edge(i)
			if e.Bulge < 0 && e.IsArc() {
				out = append(out, inside{e.At(0.5), e.Radius()})
			}
			next := l.Edge((i + 1) % len(l))
			a, b := e.Tangent(1), next.Tangent(0)
			if math.Atan2(a.Cross(b), a.Dot(b)) < -sharp {
				out = append(out, inside{e.B, 0})
			}
		}
	}
	return out
}

// tightest returns the smallest inside radius; ok is false where there is none.
func tightest(r planar.Region) (least inside, ok bool) {
	for _, c := range insides(r) {
		if !ok || c.radius < least.radius-1e-9 {
			least, ok = c, true
		}
	}
	return least, ok
}

// want is what a bit must be.
type want struct {
	radius float64 // of the tightest inside corner
	reach  float64 // cutting length, mm
	most   float64 // diameter that goes through the bush
}

// choose returns the stoutest bit of the shop that is what is wanted; nil where
// there is none. short tells that one would do but for its length.
func choose(bits []*design.Bit, w want) (best *design.Bit, short bool) {
	for _, b := range bits {
		if b.Diameter.V > min(rout.LargestBit(w.radius), w.most)+1e-9 {
			continue
		}
		if b.Length.V < w.reach {
			short = true
			continue
		}
		if best == nil || b.Diameter.V > best.Diameter.V {
			best = b
		}
	}
	return best, short
}
