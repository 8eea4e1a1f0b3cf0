package check

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r3"
	"rodwork/internal/work"
)

// point is a mass in space, for an evaluator that shares nothing with the
// search: it turns the body about its lower edge and lets gravity pull straight
// down.
type point struct {
	kg float64
	at r3.Vec
}

// turned turns a point about a level axis through a foot, so that the body leans
// to the side.
func turned(v r3.Vec, g ground, side string, block float64) r3.Vec {
	sin := 0.0
	switch side {
	case "front":
		sin = block / (g.front.V - g.rear.V)
		c := math.Sqrt(1 - sin*sin)
		z, y := v.Z-g.front.V, v.Y
		return r3.Vec{X: v.X, Y: y*c - z*sin, Z: g.front.V + z*c + y*sin}
	case "back":
		sin = block / (g.front.V - g.rear.V)
		c := math.Sqrt(1 - sin*sin)
		z, y := v.Z-g.rear.V, v.Y
		return r3.Vec{X: v.X, Y: y*c + z*sin, Z: g.rear.V + z*c - y*sin}
	case "left":
		sin = block / (g.right.V - g.left.V)
		c := math.Sqrt(1 - sin*sin)
		x, y := v.X-g.left.V, v.Y
		return r3.Vec{X: g.left.V + x*c - y*sin, Y: y*c + x*sin, Z: v.Z}
	}
	sin = block / (g.right.V - g.left.V)
	c := math.Sqrt(1 - sin*sin)
	x, y := v.X-g.right.V, v.Y
	return r3.Vec{X: g.right.V + x*c + y*sin, Y: y*c - x*sin, Z: v.Z}
}

// bruteWorst is the worst ratio about the four edges of what turned points say.
func bruteWorst(ps []point, pullN, pullY float64, g ground, f flooring) float64 {
	worst := 0.0
	for _, edge := range edgeNames {
		holds, tips := 0.0, 0.0
		corner := r3.Vec{X: g.left.V, Z: g.front.V}
		if edge == "back" {
			corner.Z = g.rear.V
		}
		if edge == "right" {
			corner.X = g.right.V
		}
		base := turned(corner, g, f.toward, f.block)
		side := func(v r3.Vec) float64 { // how far inside of the edge
			switch edge {
			case "front":
				return base.Z - v.Z
			case "back":
				return v.Z - base.Z
			case "left":
				return v.X - base.X
			}
			return base.X - v.X
		}
		count := func(m float64) {
			if m >= 0 {
				holds += m
			} else {
				tips -= m
			}
		}
		for _, p := range ps {
			count(p.kg * 9.80665 * side(turned(p.at, g, f.toward, f.block)))
		}
		if pullN > 0 {
			at := turned(r3.Vec{X: (g.left.V + g.right.V) / 2, Y: pullY, Z: g.front.V}, g, f.toward, f.block)
			switch edge { // a truly level pull to the front
			case "front":
				count(-pullN * (at.Y - base.Y))
			case "back":
				count(pullN * (at.Y - base.Y))
			}
		}
		if holds > 0 {
			worst = math.Max(worst, tips/holds)
		} else {
			worst = nothingHolds
		}
	}
	return worst
}

// A grid of fillings by halves, leaves by 10°, drawers by quarters, finds no
// state worse than the search did; and the search's own state is as bad as it
// says, by the other evaluator.
func TestNoGridFindsAWorseState(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		in := drawer(cabinet(draw(300, 1200, "w"), draw(500, 1900, "h"), draw(220, 600, "d"), draw(0, 60, "set"), draw(8, 60, "body"), draw(1, 12, "door"), 0))
		for i := range rapid.IntRange(0, 2).Draw(rt, "shelves") {
			in.Contents = append(in.Contents, work.MassLine{Part: string(rune('a' + i)), Mass: n(draw(1, 60, "kg")),
				X: n(draw(0, in.Piece.Width.V, "x")), Y: n(draw(50, in.Piece.Height.V, "y")), Z: n(draw(0, in.Piece.Depth.V, "z"))})
		}
		g, ok := groundOf(in.Piece)
		if !ok {
			rt.Skip("no ground")
		}
		a := arenaOf(in, g)
		own, _ := a.search(alone)
		pull := party{pulls: []pull{{"a hand", handPull, in.Piece.Height}}}
		pulled, _ := a.search(pull)
		hung, _, _ := a.gravest(partiesOf(in, &a), "")
		b := &brute{rt: rt, in: in, g: g}
		b.grid(func(ps []point, f flooring) {
			if w := bruteWorst(ps, 0, 0, g, f); w > own.used*(1+1e-6)+1e-6 {
				rt.Fatalf("alone: the grid has %.6f, the search %.6f", w, own.used)
			}
			if w := bruteWorst(ps, handPull, in.Piece.Height.V, g, f); w > pulled.used*(1+1e-6)+1e-6 {
				rt.Fatalf("pulled: the grid has %.6f, the search %.6f", w, pulled.used)
			}
			for _, child := range b.children() {
				if w := bruteWorst(append(ps[:len(ps):len(ps)], child), 0, 0, g, f); w > hung.used*(1+1e-6)+1e-6 {
					rt.Fatalf("a child at %v: the grid has %.6f, the search %.6f", child.at, w, hung.used)
				}
			}
		})
		for _, w := range []found{own, pulled} {
			ps := []point{}
			for _, m := range w.stance.plain() {
				ps = append(ps, point{m.Kg, m.At})
			}
			force := 0.0
			if len(w.stance.pulls) > 0 {
				force = handPull
			}
			if got := bruteWorst(ps, force, in.Piece.Height.V, g, w.stance.floor); math.Abs(got-w.used) > 1e-6*(1+w.used) {
				rt.Fatalf("the search says %.9f, the other evaluator %.9f", w.used, got)
			}
		}
	})
}

// brute lays the grid. It places leaves and drawers by itself.
type brute struct {
	rt *rapid.T
	in Input
	g  ground
	// leaf is the outer edge of the leaf where it now stands, open or not.
	leaf r3.Vec
	open bool
	skip bool    // one angle in two is left out for them, for speed
	out  float64 // how far the drawers are out, of their way
}

// children are one child at each place where one may hang or stand: the leaf's
// edge, at its head, where it stands open; the upper edge of a drawer's front
// that is out, at its ends and its middle; the piece's front edge, at half its
// height, at its ends and between.
func (b *brute) children() []point {
	const kg = 27.2
	var out []point
	if b.skip {
		return nil
	}
	if b.open {
		out = append(out, point{kg, b.leaf})
	}
	if q := b.in.Piece.Part("front of drawer"); q != nil && b.out > 0 {
		for _, share := range []float64{0, 0.5, 1} {
			at := r3.Vec{X: q.Origin[0].V + share*q.Length.V, Y: q.Origin[1].V + q.Width.V, Z: q.Origin[2].V + q.Thick.V + b.out*350}
			out = append(out, point{kg, at})
		}
	}
	for _, share := range []float64{0, 0.4, 1} {
		x := share * b.in.Piece.Width.V
		out = append(out, point{kg, r3.Vec{X: x, Y: b.in.Piece.Height.V / 2, Z: b.in.Piece.Depth.V}})
	}
	return out
}

func (b *brute) grid(visit func([]point, flooring)) {
	var still []point
	doorKg, drawerKg := 0.0, map[string]float64{}
	ds := drawersOf(b.in)
	for _, m := range b.in.Masses {
		moves := false
		if m.Part == "door" {
			doorKg, moves = doorKg+m.Mass.V, true
		}
		for _, d := range ds {
			for _, id := range d.parts {
				if id == m.Part {
					drawerKg[m.Part], moves = m.Mass.V, true
				}
			}
		}
		if !moves {
			still = append(still, point{m.Mass.V, r3.Vec{X: m.X.V, Y: m.Y.V, Z: m.Z.V}})
		}
	}
	q := b.in.Piece.Part("door")
	hinge, face := q.Origin[0].V-q.Width.V, q.Origin[2].V+q.Thick.V
	y := b.in.Piece.Height.V / 2
	right := b.in.Piece.Joints[0].Enter.X > 0
	fills := []float64{0, 0.5, 1}
	var contents func(i int, ps []point)
	contents = func(i int, ps []point) {
		if i < len(b.in.Contents) {
			for _, s := range fills {
				c := b.in.Contents[i]
				contents(i+1, append(ps[:len(ps):len(ps)], point{c.Mass.V * s, r3.Vec{X: c.X.V, Y: c.Y.V, Z: c.Z.V}}))
			}
			return
		}
		for deg := 0.0; deg <= 110; deg += 10 {
			sin, cos := math.Sincos(deg * math.Pi / 180)
			at := r3.Vec{X: hinge + q.Width.V/2*cos, Y: y, Z: face + q.Width.V/2*sin}
			if right {
				at.X = hinge + q.Width.V - q.Width.V/2*cos
			}
			b.open, b.skip = deg >= 30, deg > 0 && int(deg)%20 == 0
			b.leaf = r3.Vec{X: hinge + q.Width.V*cos, Y: q.Origin[1].V + q.Length.V, Z: face + q.Width.V*sin}
			if right {
				b.leaf.X = hinge + q.Width.V - q.Width.V*cos
			}
			if deg == 0 {
				at.Z = face - q.Thick.V/2
			}
			for _, out := range []float64{0, 0.25, 1} {
				b.out = out
				for _, s := range fills {
					all := append(ps[:len(ps):len(ps)], point{doorKg, at})
					for _, d := range ds {
						for _, m := range b.in.Masses {
							if kg, ok := drawerKg[m.Part]; ok {
								all = append(all, point{kg, r3.Vec{X: m.X.V, Y: m.Y.V, Z: m.Z.V + out*d.travel.V}})
							}
						}
						all = append(all, point{d.clear.V * clothing * s, r3.Vec{X: d.middle[0].V, Y: d.middle[1].V, Z: d.middle[2].V + out*d.travel.V}})
					}
					for _, f := range floors {
						visit(all, f)
					}
				}
			}
		}
	}
	contents(0, still)
}

// A child on a leaf: the worst of the search is no less than on any of the
// angles that it names, and its own ratio is that of the solver.
func TestChildOnALeaf(t *testing.T) {
	in := cabinet(600, 1200, 350, 20, 25, 5, 0)
	g, _ := groundOf(in.Piece)
	a := arenaOf(in, g)
	worst, _, _ := a.gravest(partiesOf(in, &a), "")
	o, err := worst.stance.state().About(worst.edge)
	if err != nil || math.Abs(o.Tips/o.Holds-worst.used) > 1e-9 {
		t.Errorf("%.6f, the solver says %.6f: %v", worst.used, o.Tips/o.Holds, err)
	}
	if worst.stance.person == nil || worst.used < 1 {
		t.Errorf("a child on an open door does not tip it: %.2f, %s", worst.used, worst.stance.name)
	}
	if f := anchor(in, worst, true); f.Verdict != work.Look {
		t.Error("no word of an anchor where a child is about")
	}
}
