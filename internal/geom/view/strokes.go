package view

import (
	"math"
	"slices"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// drawing is the work on one view.
type drawing struct {
	view    View
	scene   *Scene
	hidden  bool // hidden lines are wanted
	screens []screen
	groups  []group
	rings   []ring // holes of all screens
	sides   []side // of all screens
	lines   []stroke
	marks   []mark
	done    []mark
	taken   []span    // scratch: of one line or circle
	spans   []span    // scratch
	cuts    []float64 // scratch
	near    []ring    // scratch: those of a screen that a stroke may cross
}

// stroke is a straight stretch that may be drawn: an edge, or a chord of one.
type stroke struct {
	a, b   r2.Vec
	na, nb float64 // depth towards the eye
	long   float64 // length on paper
	rank   int     // of Kind: 0 edge, 1 silhouette, 2 tangent
	body   int
	unseen bool // known to be hidden, whatever stands before it
	// For a chord of an arc seen square on: its circle, and the angles of a
	// and b on it, from < to.
	center   r2.Vec
	radius   float64
	from, to float64
}

var kinds = [3]Kind{Edge, Silhouette, Tangent}

// strokes gathers all that may be drawn.
func (d *drawing) strokes() {
	n := 0
	for _, k := range d.scene.skins {
		n += 2 * len(k.Edges)
	}
	d.lines = slices.Grow(d.lines, n)
	d.marks = slices.Grow(d.marks, 2*n)
	for body, k := range d.scene.skins {
		for i := range k.Edges {
			d.edge(body, &k.Edges[i])
		}
		for i := range k.Rounds {
			d.silhouettes(body, &k.Rounds[i])
		}
	}
}

func (d *drawing) edge(body int, e *solid.Edge) {
	rank := 0
	if e.Kind == solid.Tangent {
		rank = 2
	}
	if e.Radius == 0 {
		d.add(stroke{rank: rank, body: body, unseen: d.away(e.N)}, e.A, e.B)
		return
	}
	s := stroke{rank: rank, body: body}
	along := e.Axis.Dot(d.view.Eye)
	square := math.Abs(along) > 1-1e-9
	var start float64
	if square {
		s.radius = e.Radius
		s.center, _ = d.view.Project(e.Center)
		a, _ := d.view.Project(e.A)
		start = math.Atan2(a.Y-s.center.Y, a.X-s.center.X)
	}
	p, t0 := e.A, 0.0
	for _, t1 := range d.stops(e, square) {
		q := e.At(t1)
		s.unseen = d.away(e.Normals((t0 + t1) / 2))
		switch {
		case square && along > 0:
			s.from, s.to = start+t0*e.Sweep, start+t1*e.Sweep
			d.add(s, p, q)
		case square: // clockwise on paper: told the other way
			s.from, s.to = start-t1*e.Sweep, start-t0*e.Sweep
			d.add(s, q, p)
		default:
			d.add(s, p, q)
		}
		p, t0 = q, t1
	}
}

// stops returns the shares of an arc at which its chords end: evenly, and where
// the wall along it turns away from the eye, so that the arc and the wall's
// silhouette end in one place.
func (d *drawing) stops(e *solid.Edge, square bool) []float64 {
	chord := 2 * e.Radius * math.Sin(e.Sweep/2)
	n := planar.Edge{B: r2.Vec{X: chord}, Bulge: math.Tan(e.Sweep / 4)}.Chords(d.scene.chord)
	d.cuts = d.cuts[:0]
	for j := 1; j < n; j++ {
		d.cuts = append(d.cuts, float64(j)/float64(n))
	}
	if !square {
		x, y := e.N[1].Dot(d.view.Eye), e.Axis.Cross(e.N[1]).Dot(d.view.Eye)
		phi := math.Mod(math.Atan2(-x, y)+2*math.Pi, math.Pi)
		for ; phi < e.Sweep; phi += math.Pi {
			d.cut(phi/e.Sweep, 1e-9, 1-1e-9)
		}
		slices.Sort(d.cuts)
	}
	return append(d.cuts, 1)
}

// away reports whether neither of two faces looks towards the eye.
func (d *drawing) away(n [2]r3.Vec) bool {
	return n[0].Dot(d.view.Eye) < 1e-9 && n[1].Dot(d.view.Eye) < 1e-9
}

// silhouettes adds the lines where the ray of sight touches a cylinder: its
// normal is square to the eye there. On a hollow cylinder such a line is always
// hidden, as the material lies on both sides of the ray.
func (d *drawing) silhouettes(body int, r *solid.Round) {
	if r.Hollow && !d.hidden {
		return
	}
	side := r.Up.Unit().Cross(r.From) // a quarter turn on from From
	x, y := r.From.Dot(d.view.Eye), side.Dot(d.view.Eye)
	if math.Hypot(x, y) < 1e-9 {
		return // seen end on
	}
	// cos φ·x + sin φ·y = 0
	first := math.Atan2(-x, y)
	for _, phi := range [4]float64{first - math.Pi, first, first + math.Pi, first + 2*math.Pi} {
		if phi < -1e-9 || phi > r.Sweep+1e-9 {
			continue
		}
		s, c := math.Sincos(phi)
		p := r.Center.Add(r.From.Mul(r.Radius * c)).Add(side.Mul(r.Radius * s))
		if p, q, ok := r.Kept(p, p.Add(r.Up)); ok {
			d.add(stroke{rank: 1, body: body, unseen: r.Hollow}, p, q)
		}
	}
}

// add projects a stroke and keeps it if it has a length and a use.
func (d *drawing) add(s stroke, a, b r3.Vec) {
	if s.unseen && !d.hidden {
		return
	}
	s.a, s.na = d.view.Project(a)
	s.b, s.nb = d.view.Project(b)
	if s.long = s.b.Sub(s.a).Len(); s.long > short {
		d.lines = append(d.lines, s)
	}
}
