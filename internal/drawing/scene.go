package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/view"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// leastHole is the diameter, mm, under which holes are left out of a view of
// the whole piece: screws would be specks.
const leastHole = 12

// seen returns the part without what no view of the whole piece shows: holes
// that are small, or do not go through. Joints stay, for parts fill them.
func seen(q *piece.Part) *piece.Part {
	keep := func(c piece.Cut) bool {
		round := c.Kind == piece.Hole || c.Kind == piece.HoleRow
		if c.Kind == piece.Mortise || c.Face.Narrow() {
			return false
		}
		return !round || c.Diameter.V >= leastHole && (c.Through || c.Depth.V > q.Thick.V-1e-6)
	}
	out := *q
	out.Cuts = nil
	for _, c := range q.Cuts {
		if keep(c) {
			out.Cuts = append(out.Cuts, c)
		}
	}
	return &out
}

// bodiesOf returns the bodies of all parts, as the views of the whole piece have
// them. A part whose body can't be made is left out, and named.
func bodiesOf(pc *piece.Piece) (items []view.Item, lost []string) {
	for _, q := range pc.Parts {
		body, err := piece.Solid(seen(q), leastHole)
		if err != nil {
			lost = append(lost, q.Name)
			continue
		}
		items = append(items, view.Item{ID: q.ID, Body: body})
	}
	return items, lost
}

// withFeet adds the bought feet to bodies that are drawn.
func withFeet(pc *piece.Piece, items []view.Item) []view.Item {
	items = items[:len(items):len(items)]
	for i, b := range piece.Feet(pc) {
		items = append(items, view.Item{ID: fmt.Sprintf("foot %d", i+1), Body: b})
	}
	return items
}

// sceneOf makes bodies ready to be drawn. One that can't be is left out, and
// named.
func sceneOf(items []view.Item) (*view.Scene, []string) {
	var lost []string
	sc, err := view.NewScene(items, sceneChord)
	if err == nil {
		return sc, lost
	}
	// One bad body spoils the scene: find it by trying each alone.
	var good []view.Item
	for _, it := range items {
		if _, err := view.NewScene([]view.Item{it}, sceneChord); err == nil {
			good = append(good, it)
		} else {
			lost = append(lost, it.ID)
		}
	}
	sc, err = view.NewScene(good, sceneChord)
	if err != nil {
		return &view.Scene{}, lost
	}
	return sc, lost
}

// sceneChord is how far chords lie from an arc of the piece, mm: a thirtieth of
// a millimetre on paper at 1 : 12.
const sceneChord = 0.4

// Lines of a view closer than closeTo on paper close to one. What is shorter
// than tiny is a chord of a curve, and is compared with long lines only. A
// dashed line shorter than leastDashed would not look dashed, and what is left
// of a line that is told but for less than speck would be a speck.
const (
	closeTo     = 0.6
	speck       = 0.15
	tiny        = 1.4
	leastDashed = 2.5
)

// draft draws the lines of a view: seen edges wide, tangent edges narrow,
// hidden ones dashed where dashed accepts their body. Lines that would lie
// closer than closeTo on paper close to the first of them.
func (p *pen) draft(f frame, lines []view.Line, dashed func(body string) bool) {
	var straight []view.Line
	for _, l := range thinned(f.K, lines, dashed) {
		switch {
		case l.Radius == 0:
			straight = append(straight, l)
		case l.Sweep > 2*math.Pi-1e-6:
			p.circle(lookOf(l), f.at(l.Center), l.Radius*f.K)
		default:
			p.add(leaf.Path{Line: lookOf(l), Segs: []leaf.Seg{{Op: leaf.Move, P: f.at(l.A)}, {Op: leaf.Arc, P: f.at(l.B), R: l.Radius * f.K, Left: true, Large: l.Sweep > math.Pi}}})
		}
	}
	// Chains joins what follows each other; lines come by their weight.
	straight = sorted(straight, func(a, b *view.Line) int {
		if a.Hidden != b.Hidden {
			if b.Hidden {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Body, b.Body))
	})
	for _, chain := range view.Chains(straight) {
		ps := []r2.Vec{f.at(chain[0].A)}
		for _, l := range chain {
			ps = append(ps, f.at(l.B))
		}
		p.line(lookOf(chain[0]), ps...)
	}
}

// lookOf is the kind of line that a line of a view is drawn in.
func lookOf(l view.Line) leaf.Line {
	switch {
	case l.Hidden:
		return leaf.Hidden
	case l.Kind == view.Tangent:
		return leaf.Dimension
	}
	return leaf.Visible
}

// thinned sorts lines by weight (seen before hidden, edges before tangents,
// long before short) and takes from each what is told already by an earlier
// one that runs beside it.
func thinned(k float64, lines []view.Line, dashed func(string) bool) []view.Line {
	rank := func(l *view.Line) int {
		r := 0
		if l.Hidden {
			r += 4
		}
		if l.Kind == view.Tangent {
			r += 2
		}
		return r
	}
	in := make([]view.Line, 0, len(lines))
	for _, l := range lines {
		if !l.Hidden || dashed != nil && dashed(l.Body) && l.Kind != view.Tangent {
			in = append(in, l)
		}
	}
	in = sorted(in, func(a, b *view.Line) int {
		if d := rank(a) - rank(b); d != 0 {
			return d
		}
		la, lb := a.B.Sub(a.A).Len(), b.B.Sub(b.A).Len()
		switch {
		case la > lb+1e-6:
			return -1
		case lb > la+1e-6:
			return 1
		}
		return 0
	})
	var out []view.Line
	for _, l := range in {
		if l.Radius > 0 {
			if !arcTold(l, out, closeTo/k) {
				out = append(out, l)
			}
			continue
		}
		out = append(out, untold(l, out, k)...)
	}
	return out
}

// sorted returns the lines in order, those that are equal as they came.
func sorted(lines []view.Line, less func(a, b *view.Line) int) []view.Line {
	order := make([]int32, len(lines)) // lines are large to be moved about
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortStableFunc(order, func(a, b int32) int { return less(&lines[a], &lines[b]) })
	out := make([]view.Line, len(lines))
	for i, k := range order {
		out[i] = lines[k]
	}
	return out
}

// arcTold tells whether an arc runs beside one that is kept.
func arcTold(l view.Line, kept []view.Line, tol float64) bool {
	for _, o := range kept {
		if o.Radius > 0 && o.Center.Sub(l.Center).Len() < tol && math.Abs(o.Radius-l.Radius) < tol && o.Sweep > l.Sweep-0.2 &&
			(o.Sweep > 6 || o.A.Sub(l.A).Len() < 3*tol+1) {
			return true
		}
	}
	return false
}

// untold returns the stretches of a straight line that no kept line runs
// beside; stretches shorter than speck on paper are dropped.
func untold(l view.Line, kept []view.Line, k float64) []view.Line {
	d := l.B.Sub(l.A)
	length := d.Len()
	if length*k < 0.05 || l.Hidden && length*k < leastDashed {
		return nil
	}
	short := length*k < tiny
	u := d.Mul(1 / length)
	n := u.Left()
	tol := closeTo / k
	var told [][2]float64
	for _, o := range kept {
		if o.Radius > 0 || short && o.B.Sub(o.A).Len()*k < 3*tiny {
			continue
		}
		a, b := o.A.Sub(l.A), o.B.Sub(l.A)
		if math.Abs(a.Dot(n)) > tol || math.Abs(b.Dot(n)) > tol {
			continue
		}
		if od := o.B.Sub(o.A); math.Abs(od.Dot(n)) > 0.05*od.Len() {
			continue
		}
		s, t := a.Dot(u), b.Dot(u)
		told = append(told, [2]float64{min(s, t) - 0.3*tol, max(s, t) + 0.3*tol})
	}
	if len(told) == 0 {
		return []view.Line{l}
	}
	slices.SortFunc(told, func(a, b [2]float64) int {
		switch {
		case a[0] < b[0]:
			return -1
		case a[0] > b[0]:
			return 1
		}
		return 0
	})
	var out []view.Line
	put := func(s, t float64) {
		if (t-s)*k < speck && t-s < length-1e-9 || l.Hidden && (t-s)*k < leastDashed {
			return
		}
		m := l
		m.A, m.B = l.A.Add(u.Mul(s)), l.A.Add(u.Mul(t))
		out = append(out, m)
	}
	from := 0.0
	for _, t := range told {
		if t[0] > from {
			put(from, min(t[0], length))
		}
		from = max(from, t[1])
		if from >= length {
			break
		}
	}
	if from < length {
		put(from, length)
	}
	return out
}

// boundsOf returns the box of the lines, with the whole of their arcs' ends.
func boundsOf(lines []view.Line) r2.Box { return view.Bounds(lines) }
