package check

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/geom/r3"
	"rodwork/internal/material"
	"rodwork/internal/mech/frame"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// stick is a part as the front view's frame sees it: a line at a place, from lo
// to hi, wide across the view and high in it.
type stick struct {
	part       *piece.Part
	upright    bool
	at, lo, hi float64
	wide, high float64
	m          substance
	seam       *seam
}

// reachOf is how far a flat part reaches along each of the piece's axes.
func reachOf(q *piece.Part) (lo, hi [3]float64) {
	for axis := range 3 {
		a := q.Origin[axis].V
		b := a
		for _, e := range [3]struct{ c, size float64 }{{comp(q.Pose.X, axis), q.Length.V}, {comp(q.Pose.Y, axis), q.Width.V}, {comp(q.Pose.Z, axis), q.Thick.V}} {
			if e.c > 0 {
				b += e.c * e.size
			} else {
				a += e.c * e.size
			}
		}
		lo[axis], hi[axis] = a, b
	}
	return lo, hi
}

// framing are the roles of parts that make the frame of the front view.
var framing = map[piece.Role]bool{
	piece.Strip: true, piece.Side: true, piece.Top: true, piece.Bottom: true, piece.Divider: true, piece.Board: true,
	piece.Shelf: true, piece.Rail: true, piece.Post: true,
}

// The two ways in which a piece is pushed: the axis along which.
const (
	sideways = 0
	forwards = 2
)

// sticksOf lists them as seen across a push, uprights first, each from left to
// right or from the floor up. Forwards only posts and their rails count: the
// ends of a carcase are walls that way.
func sticksOf(p *piece.Piece, u int) []stick {
	var out []stick
	for _, q := range p.Parts {
		switch {
		case !framing[q.Role] || q.Loose || q.Stock == nil || q.InPlan():
		case q.Role == piece.Rail && math.Abs(comp(q.Pose.X, u)) < 0.5: // seen on end
		case u == forwards && q.Role != piece.Rail && q.Role != piece.Post:
		case len(q.Run) > 0:
			out = append(out, stretches(q)...)
		default:
			lo, hi := reachOf(q)
			dx, dy, dz := hi[u]-lo[u], hi[1]-lo[1], hi[2-u]-lo[2-u]
			if oblique(q) { // a splayed leg: by its own section, where its box is
				dz = q.Width.V
				if dy > dx {
					lo[u], hi[u] = (lo[u]+hi[u]-q.Thick.V)/2, (lo[u]+hi[u]+q.Thick.V)/2
					dx = q.Thick.V
				}
			}
			s := stick{part: q, wide: dz, m: substanceOf(q.Stock, q.Stock.FaceVeneer.V, q.Stock.InnerVeneer.V, false)}
			if dy > dx {
				s.upright, s.at, s.lo, s.hi, s.high = true, (lo[u]+hi[u])/2, lo[1], hi[1], dx
			} else {
				s.at, s.lo, s.hi, s.high = (lo[1]+hi[1])/2, lo[u], hi[u], dy
			}
			if s.m.known && s.wide > 1 && s.high > 1 && s.hi-s.lo > 2*s.high {
				out = append(out, s)
			}
		}
	}
	out = seamed(p, out)
	slices.SortStableFunc(out, func(a, b stick) int {
		if a.upright != b.upright {
			if a.upright {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.at, b.at)
	})
	return out
}

// oblique tells whether a part stands or lies askew in the piece.
func oblique(q *piece.Part) bool {
	for _, v := range []r3.Vec{q.Pose.X, q.Pose.Y} {
		if math.Max(math.Abs(v.X), math.Max(math.Abs(v.Y), math.Abs(v.Z))) < 0.9999 {
			return true
		}
	}
	return false
}

// stretches are the straight runs of a strip that bends in the front view.
func stretches(q *piece.Part) []stick {
	var out []stick
	for _, r := range q.Run {
		if r.Radius > 0 || r.X1-r.X0 < 2*q.Thick.V {
			continue
		}
		a := piece.Place(q, r.X0, 0, q.Thick.V/2)
		b := piece.Place(q, r.X1, 0, q.Thick.V/2)
		s := stick{part: q, wide: q.Width.V, high: q.Thick.V, m: substanceOf(q.Stock, q.Stock.FaceVeneer.V, q.Stock.InnerVeneer.V, false)}
		switch d := b.Sub(a); {
		case !s.m.known:
			continue
		case math.Abs(d.Y) > 0.99*d.Len():
			s.upright, s.at, s.lo, s.hi = true, (a.X+b.X)/2, math.Min(a.Y, b.Y), math.Max(a.Y, b.Y)
		case math.Abs(d.X) > 0.99*d.Len():
			s.at, s.lo, s.hi = (a.Y+b.Y)/2, math.Min(a.X, b.X), math.Max(a.X, b.X)
		default:
			continue
		}
		out = append(out, s)
	}
	return out
}

// carcase is the frame of the front view with what is needed to read it.
type carcase struct {
	frame frame.Frame
	bars  []barOf
	rows  map[[2]int]int // node of upright and level
	high  float64        // over the nodes that the floor holds
	// crossings is the number of nodes where levels meet uprights: the first ones.
	crossings int
	seams     []int       // nodes where strips meet end to end
	heads     []int       // nodes that are pushed: the highest at the left
	parts     []trace.Num // sizes and places that it hangs on
}

// barOf is what a bar of the frame stands for.
type barOf struct {
	stick  *stick
	moment [2]float64 // what the joint at each end may be given; +Inf where it runs on
	joint  [2]string
}

// carcaseOf builds it; ok is false where the front view shows no frame: a body
// of free parts, one that bends in plan.
func carcaseOf(in Input, u int) (carcase, bool) {
	sticks := sticksOf(in.Piece, u)
	c := carcase{rows: map[[2]int]int{}}
	c.frame.Plane = true
	n := 0
	for n < len(sticks) && sticks[n].upright {
		n++
	}
	if n < 2 || len(sticks)-n < 1 || len(sticks) > 60 {
		return c, false
	}
	meets := joinedIn(in.Piece)
	for i := range n {
		for j := n; j < len(sticks); j++ {
			if _, ok := meets.of(&sticks[i], &sticks[j]); ok {
				c.rows[[2]int{i, j}] = len(c.frame.Nodes)
				c.frame.Nodes = append(c.frame.Nodes, frame.Node{At: r3.Vec{X: sticks[i].at, Y: sticks[j].at}})
			}
		}
	}
	c.crossings = len(c.frame.Nodes)
	for i := range n {
		c.addFoot(sticks, i)
	}
	c.addSeams(sticks)
	for i := range sticks {
		c.addBars(sticks, i, meets)
	}
	for i := range sticks {
		q := sticks[i].part
		c.parts = append(c.parts, q.Length, q.Width, q.Thick, q.Origin[0], q.Origin[1], q.Origin[2])
	}
	return c, c.stand() && len(c.frame.Bars) >= 3
}

// foot stands for the floor among the levels.
const foot = -1

// addFoot gives an upright that reaches well below its lowest level a node at
// its foot.
func (c *carcase) addFoot(sticks []stick, i int) {
	low := math.Inf(1)
	for j := range sticks {
		if node, ok := c.rows[[2]int{i, j}]; ok {
			low = math.Min(low, c.frame.Nodes[node].At.Y)
		}
	}
	if s := &sticks[i]; !math.IsInf(low, 1) && s.lo < low-2*s.high {
		c.rows[[2]int{i, foot}] = len(c.frame.Nodes)
		c.frame.Nodes = append(c.frame.Nodes, frame.Node{At: r3.Vec{X: s.at, Y: s.lo}})
	}
}

// addBars runs along a stick from node to node.
func (c *carcase) addBars(sticks []stick, i int, meets meetings) {
	s := &sticks[i]
	type at struct{ node, other int }
	var on []at
	if node, ok := c.rows[[2]int{i, foot}]; ok && s.upright {
		on = append(on, at{node, foot})
	}
	for k := range sticks {
		key := [2]int{i, k}
		if !s.upright {
			key = [2]int{k, i}
		}
		if node, ok := c.rows[key]; ok {
			on = append(on, at{node, k})
		}
	}
	if node, ok := c.rows[[2]int{seamRow, i}]; ok {
		k := 0
		for k < len(on) && c.frame.Nodes[on[k].node].At.X < s.seam.at {
			k++
		}
		on = slices.Insert(on, k, at{node, seamRow})
	}
	sec := frame.Rect(s.wide, s.high, s.m.e, s.m.e/16)
	for k := 1; k < len(on); k++ {
		a, b := on[k-1], on[k]
		bar := frame.Bar{Name: s.part.Name, A: a.node, B: b.node, Section: sec, Ends: [2]frame.Spring{frame.Welded, frame.Welded}}
		of := barOf{stick: s, moment: [2]float64{math.Inf(1), math.Inf(1)}}
		if c.frame.Nodes[bar.A].At.Sub(c.frame.Nodes[bar.B].At).Len() < 1 {
			continue
		}
		for end, o := range []at{a, b} {
			if o.other == foot || o.other == seamRow && end == 0 {
				continue // one spring for one seam
			}
			if o.other == seamRow {
				spring, may := frame.Joint(s.seam.kind, s.seam.glued, s.wide, s.high, 1.5*s.m.strength)
				bar.Ends[end] = frame.Spring{Y: spring, Z: spring}
				of.moment[end], of.joint[end] = may, "its seam"
				continue
			}
			j, _ := meets.of(s, &sticks[o.other])
			if !s.is(j.ends) && j.kind != bendJoint {
				continue // the other part ends at this one
			}
			if j.kind == bendJoint && s.upright {
				continue // one spring for one corner: at the level's end
			}
			spring, may := frame.Joint(j.kind, j.glued, math.Min(s.wide, sticks[o.other].wide), s.high, 1.5*s.m.strength)
			bar.Ends[end] = frame.Spring{Y: spring, Z: spring}
			of.moment[end], of.joint[end] = may, sticks[o.other].part.Name
		}
		c.frame.Bars = append(c.frame.Bars, bar)
		c.bars = append(c.bars, of)
	}
}

// stand holds the lowest nodes, as on hinges, and finds those that are pushed:
// the highest, at the left.
func (c *carcase) stand() bool {
	if len(c.frame.Nodes) < 4 {
		return false
	}
	low, high, left := math.Inf(1), math.Inf(-1), math.Inf(1)
	for _, n := range c.frame.Nodes {
		low, high = math.Min(low, n.At.Y), math.Max(high, n.At.Y)
	}
	for i := range c.frame.Nodes {
		n := &c.frame.Nodes[i]
		if n.At.Y < low+5 && !slices.Contains(c.seams, i) { // what it stands on is at its corners
			n.Fix[0], n.Fix[1] = true, true
		}
		if n.At.Y > high-5 {
			left = math.Min(left, n.At.X)
		}
	}
	for i, n := range c.frame.Nodes {
		if n.At.Y > high-5 && n.At.X < left+5 {
			c.heads = append(c.heads, i)
		}
	}
	c.high = high - low
	return c.high > 50
}

// bendJoint is where a strip turns a corner: it is taken as a hinge, which is
// cautious, since what kerfs hold once they are shut and glued is not known.
const bendJoint = "bend"

type meeting struct {
	kind  string
	glued bool
	ends  *piece.Part // the part that goes in
}

// meetings are the joints by the two parts' ids, in the order of the alphabet.
type meetings map[[2]string]meeting

func joinedIn(p *piece.Piece) meetings {
	m := meetings{}
	for i := range p.Joints {
		j := &p.Joints[i]
		key := [2]string{min(j.A, j.B), max(j.A, j.B)}
		spring, _ := frame.Joint(j.Kind, j.Glued, 1, 1, 1)
		if old, ok := m[key]; ok && spring <= 0 && old.kind != "" {
			continue
		}
		m[key] = meeting{j.Kind, j.Glued, p.Part(j.B)}
	}
	return m
}

// of tells whether an upright and a level meet, and how.
func (m meetings) of(a, b *stick) (meeting, bool) {
	u, l := a, b
	if !u.upright {
		u, l = b, a
	}
	near := 1.6*math.Max(u.high, l.high) + 1
	if u.is(l.part) || l.is(u.part) {
		// Two stretches of one strip meet in the corner between them.
		corner := math.Inf(1)
		for _, e := range [4]float64{math.Abs(l.lo - u.at), math.Abs(l.hi - u.at), math.Abs(u.lo - l.at), math.Abs(u.hi - l.at)} {
			corner = math.Min(corner, e)
		}
		return meeting{kind: bendJoint, glued: true}, corner < 3000
	}
	if l.lo-near > u.at || l.hi+near < u.at || u.lo-near > l.at || u.hi+near < l.at {
		return meeting{}, false
	}
	if j, ok := m[[2]string{min(u.part.ID, l.part.ID), max(u.part.ID, l.part.ID)}]; ok || l.seam == nil {
		return j, ok
	}
	other := l.seam.part.ID
	j, ok := m[[2]string{min(u.part.ID, other), max(u.part.ID, other)}]
	return j, ok
}

// panel is the carcase's back as a field of shear between its outermost uprights
// and levels; ok is false where it has none, or none that closes the frame.
func (c *carcase) panel(in Input) (frame.Panel, *piece.Part, bool) {
	var back *piece.Part
	for _, q := range in.Piece.Parts {
		if q.Role == piece.BackPanel && q.Stock != nil && (back == nil || q.Length.V*q.Width.V > back.Length.V*back.Width.V) {
			back = q
		}
	}
	if back == nil {
		return frame.Panel{}, nil, false
	}
	corner := [4]int{-1, -1, -1, -1}
	for i, n := range c.frame.Nodes {
		if i >= c.crossings {
			continue // a foot: the back ends above it
		}
		for k, sign := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
			if corner[k] < 0 || sign[0]*n.At.X+sign[1]*n.At.Y > sign[0]*c.frame.Nodes[corner[k]].At.X+sign[1]*c.frame.Nodes[corner[k]].At.Y+1e-6 {
				corner[k] = i
			}
		}
	}
	a, b, d := c.frame.Nodes[corner[0]].At, c.frame.Nodes[corner[1]].At, c.frame.Nodes[corner[3]].At
	if math.Abs(a.Y-b.Y) > 1 || math.Abs(a.X-d.X) > 1 || corner[0] == corner[2] {
		return frame.Panel{}, back, false
	}
	g := 0.0
	if m, err := material.Find(string(back.Stock.Kind), back.Stock.Species); err == nil {
		if g = m.Shear.V; g <= 0 {
			g = m.E.V / 16
		}
	}
	glued := false
	for _, j := range in.Piece.Joints {
		glued = glued || j.B == back.ID && j.Glued
	}
	lo, hi := reachOf(back)
	return frame.Panel{Nodes: corner, Shear: frame.BackShear(g, back.Thick.V, hi[0]-lo[0], hi[1]-lo[1], glued)}, back, g > 0
}
