package solid

import (
	"cmp"
	"slices"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
)

// Ray returns the stretches of the line through o in direction d (length 1)
// that lie in the body, mm along it, in order; exact for arcs. Stretches before
// o have negative ends. What runs along the boundary may count or not.
func (b Body) Ray(o, d r3.Vec) []planar.Span {
	p := b.Pose.Local(o)
	way := r3.Vec{X: d.Dot(b.Pose.X), Y: d.Dot(b.Pose.Y), Z: d.Dot(b.Pose.Z)}
	run := flatten(way).Len()
	var out []planar.Span
	for _, s := range b.Slabs {
		t0, t1, ok := between(p.Z, way.Z, s.Z0, s.Z1)
		if !ok {
			continue
		}
		if run*(t1-t0) < planar.Near { // straight through
			if s.Region.Contains(flatten(p.Add(way.Mul((t0 + t1) / 2)))) {
				out = append(out, planar.Span{T0: t0, T1: t1})
			}
			continue
		}
		for _, w := range s.Region.Along(flatten(p), flatten(way).Mul(1/run)) {
			if lo, hi := max(t0, w.T0/run), min(t1, w.T1/run); hi-lo > planar.Near {
				out = append(out, planar.Span{T0: lo, T1: hi})
			}
		}
	}
	return b.kept(joined(out), o, d)
}

// kept clips stretches of a line by the half-spaces.
func (b Body) kept(ss []planar.Span, o, d r3.Vec) []planar.Span {
	for _, p := range b.saws() {
		left := ss[:0]
		far, up := -p.over(o), d.Dot(p.n) // up·t ≤ far is kept
		for _, s := range ss {
			switch {
			case abs(up) < 1e-12 && far < 0:
				continue
			case up > 1e-12:
				s.T1 = min(s.T1, far/up)
			case up < -1e-12:
				s.T0 = max(s.T0, far/up)
			}
			if s.T1-s.T0 > planar.Near {
				left = append(left, s)
			}
		}
		ss = left
	}
	return ss
}

// endless stands for the far end of a line, mm.
const endless = 1e9

// between returns the stretch of a line at heights z0 to z1, where it starts at
// height z and rises by up per mm.
func between(z, up, z0, z1 float64) (t0, t1 float64, ok bool) {
	if abs(up) < 1e-12 {
		return -endless, endless, z0 <= z && z < z1
	}
	t0, t1 = (z0-z)/up, (z1-z)/up
	return max(-endless, min(t0, t1)), min(endless, max(t0, t1)), true
}

// joined puts stretches in order and joins those that touch.
func joined(ss []planar.Span) []planar.Span {
	slices.SortFunc(ss, func(a, b planar.Span) int { return cmp.Compare(a.T0, b.T0) })
	var out []planar.Span
	for _, s := range ss {
		if n := len(out); n > 0 && s.T0-out[n-1].T1 <= planar.Near {
			out[n-1].T1 = max(out[n-1].T1, s.T1)
			continue
		}
		out = append(out, s)
	}
	return out
}
