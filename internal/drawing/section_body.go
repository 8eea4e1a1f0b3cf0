package drawing

import (
	"math"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/geom/view"
	"rodwork/internal/piece"
)

// knife is a plane that cuts the piece: a pose whose Z looks towards the eye.
// Places on paper are those of the view that looks along it.
type knife struct {
	at   float64 // the plane: all p with p·view.Eye = at
	view view.View
}

func (k knife) pose() r3.Pose {
	return r3.Pose{O: k.view.Eye.Mul(k.at), X: k.view.Right, Y: k.view.Up, Z: k.view.Eye}
}

// face is what a knife cuts of one part, mm in the view's frame.
type face struct {
	q      *piece.Part
	region planar.Region
	way    r2.Vec // through the thickness on paper; 0: that of a flat part
}

// box is the upright rectangle round it.
func (c face) box() r2.Box { return c.region.Box() }

// cut is a piece cut by a knife: the cut faces, and what lies behind them.
type cut struct {
	knife
	faces  []face
	behind []view.Item
}

// cutBy cuts bodies. A body that can't be cut is drawn whole where most of it
// lies behind the plane.
func (k knife) cutBy(pc *piece.Piece, bodies []view.Item) cut {
	out := cut{knife: k}
	pose := k.pose()
	for _, it := range bodies {
		lo, hi := it.Body.Extent(k.view.Eye)
		switch {
		case !(lo < k.at-planar.Near):
			continue // before the plane, or nothing
		case hi <= k.at+planar.Near:
			out.behind = append(out.behind, it)
			continue
		}
		region, err := it.Body.Section(pose)
		if q := pc.Part(it.ID); err == nil && len(region) > 0 && q != nil {
			out.faces = append(out.faces, face{q: q, region: region})
		}
		if b, ok := behindPlane(it.Body, pose); ok {
			out.behind = append(out.behind, view.Item{ID: it.ID, Body: b})
		}
	}
	return out
}

// behindPlane returns what of a body lies behind the plane z = 0 of a pose.
func behindPlane(b solid.Body, plane r3.Pose) (solid.Body, bool) {
	n := r3.Vec{X: plane.Z.Dot(b.Pose.X), Y: plane.Z.Dot(b.Pose.Y), Z: plane.Z.Dot(b.Pose.Z)}
	c := plane.O.Sub(b.Pose.O).Dot(plane.Z) // n·p ≤ c is behind
	out := solid.Body{Pose: b.Pose, Within: b.Within}
	switch {
	case math.Abs(n.Z) > 1-1e-9:
		lo, hi := math.Inf(-1), c
		if n.Z < 0 {
			lo, hi = -c, math.Inf(1)
		}
		for _, s := range b.Slabs {
			s.Z0, s.Z1 = max(s.Z0, lo), min(s.Z1, hi)
			if s.Z1-s.Z0 > planar.Near {
				out.Slabs = append(out.Slabs, s)
			}
		}
	case math.Abs(n.Z) < 1e-7:
		u := r2.Vec{X: n.X, Y: n.Y}.Unit()
		for _, s := range b.Slabs {
			lo, hi := s.Region.Extent(u)
			if hi > c {
				box := s.Region.Box()
				reach := box.Size().X + box.Size().Y + box.Min.Len() + math.Abs(c) + 1
				half := planar.Rect(min(lo, c)-1, -reach, c, reach).Placed(r2.Vec{}, u, u.Left())
				kept, err := planar.Intersection(s.Region, half)
				if err != nil {
					return solid.Body{}, false
				}
				s.Region = kept
			}
			if len(s.Region) > 0 {
				out.Slabs = append(out.Slabs, s)
			}
		}
	default:
		return b.CutBy(plane.O, plane.Z), true
	}
	return out, len(out.Slabs) > 0
}

// lines are the seen edges of what lies behind the plane.
func (c cut) lines() []view.Line {
	sc, err := view.NewScene(c.behind, sceneChord)
	if err != nil {
		return nil
	}
	return sc.Draw(c.view, view.Options{})
}
