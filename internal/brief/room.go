package brief

import (
	"math"
	"sort"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// touch is how near two faces lie that are taken to be the same plane, mm.
const touch = 1.0

// room is a space with what divides it: surfaces that stay where they are, and
// shelves that may stand on any of the holes.
type room struct {
	space *piece.Space
	floor string // id of the part whose upper face is the space's floor, or ""
	fixed []surface
	loose []surface
	holes []trace.Num // absolute y of the underside of what stands on them, rising
	arcs  []arc
	rails []box3
}

// surface is a horizontal that things stand on.
type surface struct {
	part  *piece.Part
	under trace.Num // absolute y of its underside as built
	thick trace.Num
	drop  trace.Num // how far its edging hangs below the underside
	back  trace.Num // absolute z of its rear edge
	front trace.Num // absolute z of its front edge, with the edging
}

// arc is a bent corner of the shell that the space reaches into: the inside
// radius and the height of its centre. High tells a top corner.
type arc struct {
	radius, centre trace.Num
	high           bool
}

type box3 struct{ min, max [3]trace.Num }

// span returns where a flat part lies along an axis of the piece (0 x, 1 y,
// 2 z), for a part whose frame is square to the piece's.
func span(p *piece.Part, axis int) (lo, hi trace.Num) {
	lo = p.Origin[axis]
	if lo.V == 0 && len(lo.Sources()) == 0 { // a part placed without traced numbers
		lo = trace.Const(component(p.Pose.O, axis))
	}
	hi = lo
	for _, s := range []struct {
		dir  r3.Vec
		size trace.Num
	}{{p.Pose.X, p.Length}, {p.Pose.Y, p.Width}, {p.Pose.Z, p.Thick}} {
		switch c := component(s.dir, axis); {
		case c > 0.5:
			hi = hi.Add(s.size)
		case c < -0.5:
			lo = lo.Sub(s.size)
		}
	}
	return lo, hi
}

func component(v r3.Vec, axis int) float64 { return [3]float64{v.X, v.Y, v.Z}[axis] }

func boxOf(p *piece.Part) box3 {
	var b box3
	for k := range 3 {
		b.min[k], b.max[k] = span(p, k)
	}
	return b
}

// roomsOf returns the spaces that things can be put in: no drawers, and no bay
// that is told again by its levels.
func roomsOf(p *piece.Piece) []room {
	parents := map[string]bool{}
	for _, s := range p.Spaces {
		if s.Inside != "" && s.Inside != s.Name {
			parents[s.Inside] = true
		}
	}
	var rooms []room
	for i := range p.Spaces {
		s := &p.Spaces[i]
		if s.Drawer || parents[s.Name] {
			continue
		}
		rooms = append(rooms, roomOf(p, s))
	}
	return rooms
}

func roomOf(p *piece.Piece, s *piece.Space) room {
	r := room{space: s, floor: s.Floor, arcs: arcsOf(s)}
	for _, id := range s.Shelves {
		part := p.Part(id)
		if part == nil {
			continue
		}
		if f := surfaceOf(p, part); part.Loose {
			r.loose = append(r.loose, f)
		} else {
			r.fixed = append(r.fixed, f)
		}
	}
	sortSurfaces(r.fixed)
	sortSurfaces(r.loose)
	if len(r.loose) > 0 {
		for _, h := range s.Holes {
			r.holes = append(r.holes, s.Min[1].Add(h))
		}
		sort.SliceStable(r.holes, func(i, j int) bool { return r.holes[i].V < r.holes[j].V })
	}
	for _, q := range p.Parts {
		if q.Role == piece.Rail {
			if b := boxOf(q); meets(b, s) {
				r.rails = append(r.rails, b)
			}
		}
	}
	return r
}

func sortSurfaces(s []surface) {
	sort.SliceStable(s, func(i, j int) bool { return s[i].under.V < s[j].under.V })
}

func surfaceOf(p *piece.Piece, part *piece.Part) surface {
	b := boxOf(part)
	s := surface{part: part, under: b.min[1], thick: b.max[1].Sub(b.min[1]), back: b.min[2], front: b.max[2]}
	for _, q := range p.Parts {
		if q.Role != piece.Edging || q.Of != part.ID {
			continue
		}
		e := boxOf(q)
		if drop := b.min[1].Sub(e.min[1]); drop.V > s.drop.V {
			s.drop = drop
		}
		if e.max[2].V > s.front.V {
			s.front = e.max[2]
		}
	}
	return s
}

// meets tells whether a part's box shares room with the space.
func meets(b box3, s *piece.Space) bool {
	for k := range 3 {
		if b.max[k].V <= s.Min[k].V+touch || b.min[k].V >= s.Min[k].V+s.Size[k].V-touch {
			return false
		}
	}
	return true
}

// arcsOf lists the bent corners that the space reaches into, always in the
// same order.
func arcsOf(s *piece.Space) []arc {
	var out []arc
	for _, name := range design.CornerNames {
		r, ok := s.Round[name]
		if !ok || r.V <= 0 {
			continue
		}
		a := arc{radius: r, high: name == design.TopLeft || name == design.TopRight}
		if a.centre = s.Min[1].Add(r); a.high {
			a.centre = s.Min[1].Add(s.Size[1]).Sub(r)
		}
		out = append(out, a)
	}
	return out
}

// loss is what the arc takes of the width for something that reaches from y0
// up to y1.
func (a arc) loss(y0, y1 float64) float64 {
	r, reach := a.radius.V, a.centre.V-y0
	if a.high {
		reach = y1 - a.centre.V
	}
	if reach <= 0 || r <= 0 {
		return 0
	}
	return r - math.Sqrt(max(0, r*r-reach*reach))
}
