package replay

import (
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Sweep is the least way from halt to halt of the farthest end of a strip that
// is wrapped, mm.
const Sweep = 2.0

// close lays a bent strip on by each of its flats in turn and closes its bends;
// one of these ways must be free of what the strip has no joint with.
func (f *film) close(s work.Step, moving, standing []*piece.Part) {
	var strip *piece.Part
	for _, m := range moving {
		if len(m.Run) > 0 {
			strip = m
		}
	}
	if strip == nil || len(moving) > 1 {
		f.wrong = append(f.wrong, Fault{s.Number, s.Part + " is no bent strip by itself, and can't be wrapped round anything"})
		return
	}
	var others []*piece.Part
	for _, o := range standing {
		if !f.joined(strip.ID, o.ID) {
			others = append(others, o)
		}
	}
	met := ""
	for k, st := range strip.Run {
		if st.Radius != 0 {
			continue
		}
		hit := f.laid(strip, others, k)
		if hit == nil {
			return
		}
		if met == "" {
			met = hit.Name
		}
	}
	f.wrong = append(f.wrong, Fault{s.Number, strip.Name + " meets " + met + " while it is wrapped round"})
}

// laid lays the strip on by its stretch k and closes it; it returns what it
// meets, nil for nothing.
func (f *film) laid(q *piece.Part, others []*piece.Part, k int) *piece.Part {
	f.stats.Pairs += len(others)
	length := q.Run[len(q.Run)-1].X1
	turn := 0.0
	for _, st := range q.Run {
		turn += max(st.Angle, -st.Angle)
	}
	for way := 0.0; ; {
		share := 1.0
		if all := turn * length; all > 0 {
			share = max(0, 1-way/all)
		}
		gap, hit := f.open(q, others, k, share, r3.Vec{})
		if hit != nil {
			return hit
		}
		if share == 0 {
			break
		}
		way += max(Sweep, gap)
	}
	out := q.Pose.Dir(r3.Vec{X: -q.Run[k].Dir.Y, Y: q.Run[k].Dir.X})
	far := 1.0
	for _, o := range others {
		far = max(far, o.Length.V+o.Width.V+o.Thick.V+length)
	}
	for way := 0.0; way < far; {
		gap, hit := f.open(q, others, k, 0, out.Mul(way))
		if hit != nil {
			return hit
		}
		way += max(Sweep, gap)
	}
	return nil
}

// open asks the strip, with its bends at a share of their angle and moved by
// off, how far it is from the others, and whether it meets one.
func (f *film) open(q *piece.Part, others []*piece.Part, k int, share float64, off r3.Vec) (gap float64, hit *piece.Part) {
	f.stats.Halts++
	c := *q
	c.Run = Opened(q.Run, k, share)
	b, err := piece.Solid(&c, leastHole)
	if err != nil {
		return 0, q
	}
	b.Pose = b.Pose.Moved(off)
	now := solid.Prepare(b)
	gap = 1e4
	for _, o := range others {
		g, meets := f.meets(now, f.at[o.ID], 0, true)
		if meets {
			return 0, o
		}
		gap = min(gap, g)
	}
	return gap, nil
}

// Opened returns the stretches of a strip with its bends at a share of their
// angle, stretch k where it is. The arc of face A keeps its length, mm.
func Opened(run []piece.Stretch, k int, share float64) []piece.Stretch {
	out := append([]piece.Stretch(nil), run...)
	for i := range out {
		if out[i].Radius == 0 {
			continue
		}
		if share < 1e-6 {
			out[i].Radius, out[i].Angle = 0, 0
			continue
		}
		out[i].Radius, out[i].Angle = run[i].Radius/share, run[i].Angle*share
	}
	for i := k + 1; i < len(out); i++ {
		out[i].From, out[i].Dir = end(out[i-1])
	}
	for i := k - 1; i >= 0; i-- {
		out[i] = before(out[i], out[i+1])
	}
	return out
}

// end is where a stretch ends, and the direction in which it does.
func end(s piece.Stretch) (at, dir r2.Vec) {
	if s.Radius == 0 {
		return s.From.Add(s.Dir.Mul(s.X1 - s.X0)), s.Dir
	}
	centre := s.From.Sub(s.Dir.Left().Mul(s.Radius))
	dir = s.Dir.Turn(-s.Angle)
	return centre.Add(dir.Left().Mul(s.Radius)), dir
}

// before places a stretch so that it ends where the next one starts.
func before(s, next piece.Stretch) piece.Stretch {
	if s.Radius == 0 {
		s.Dir = next.Dir
		s.From = next.From.Sub(s.Dir.Mul(s.X1 - s.X0))
		return s
	}
	centre := next.From.Sub(next.Dir.Left().Mul(s.Radius))
	s.Dir = next.Dir.Turn(s.Angle)
	s.From = centre.Add(s.Dir.Left().Mul(s.Radius))
	return s
}
