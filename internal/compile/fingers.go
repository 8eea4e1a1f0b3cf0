package compile

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// fingers are the teeth of a box's corner: an odd number of one width, counted
// from the lower edge, of which the sides have the first and the last.
type fingers struct {
	count int
	wide  trace.Num
	fit   string
	clear trace.Num // of each finger in its socket
}

// fingersOf shares the height of a box among fingers of one to two thicknesses,
// the lowest of them high enough to hide the end of the floor's groove.
func (b *builder) fingersOf(high, t, groove trace.Num) fingers {
	f := fingers{count: 3, fit: b.d.Shop.Habits.Fit}
	f.clear = b.d.Shop.Habits.FitClearance[f.fit]
	want := math.Max(1.5*t.V, groove.V+2)
	for n := 5; high.V/float64(n) >= want; n += 2 {
		f.count = n
	}
	f.wide = high.Scale(1/float64(f.count)).DecidedBy(high, t)
	return f
}

// fingered notches both ends of a part: the sockets for the fingers of the other
// part are every second one, from the first of them on.
func (b *builder) fingered(p *piece.Part, f fingers, deep trace.Num, first int, why [2]string) {
	quarter := f.clear.Scale(0.25)
	var gone [][2]trace.Num
	for i := first; i < f.count; i += 2 {
		lo, hi := f.wide.Scale(float64(i)), f.wide.Scale(float64(i+1))
		if i > 0 {
			lo = lo.Sub(quarter)
		}
		if i < f.count-1 {
			hi = hi.Add(quarter)
		} else {
			hi = p.Width
		}
		gone = append(gone, [2]trace.Num{lo, hi})
	}
	p.Outline = combed(p.Length.V, p.Width.V, deep.V, gone)
	for k, x := range [2]trace.Num{{}, p.Length.Sub(deep)} {
		for _, g := range gone {
			cut(p, piece.Cut{Kind: piece.Notch, Face: piece.FaceA, X0: x, X1: x.Add(deep), Y0: g[0], Y1: g[1], Depth: p.Thick, Through: true, For: why[k]})
		}
	}
}

// combed is a rectangle with the same sockets in both ends.
func combed(l, w, deep float64, gone [][2]trace.Num) planar.Region {
	const near = 1e-9
	var up []r2.Vec // the far end, upwards
	x := l
	if gone[0][0].V < near {
		x = l - deep
	}
	up = append(up, r2.Vec{X: x})
	for _, g := range gone {
		if g[0].V > near {
			up = append(up, r2.Vec{X: l, Y: g[0].V}, r2.Vec{X: l - deep, Y: g[0].V})
		}
		if g[1].V < w-near {
			up = append(up, r2.Vec{X: l - deep, Y: g[1].V}, r2.Vec{X: l, Y: g[1].V})
		}
	}
	x = l
	if gone[len(gone)-1][1].V > w-near {
		x = l - deep
	}
	up = append(up, r2.Vec{X: x, Y: w})
	out := append([]r2.Vec(nil), up...)
	for i := len(up) - 1; i >= 0; i-- {
		out = append(out, r2.Vec{X: l - up[i].X, Y: up[i].Y})
	}
	return planar.Region{{Outer: planar.Polygon(out...)}}
}

// fingerJoints combs the four corners of a box and books its joints.
func (b *builder) fingerJoints(w *design.Drawer, sides, ends [2]*piece.Part, f fingers) {
	t := sides[0].Thick
	for _, side := range sides {
		b.fingered(side, f, ends[0].Thick, 1, [2]string{ends[0].ID, ends[1].ID})
	}
	for _, end := range ends {
		b.fingered(end, f, t, 0, [2]string{sides[0].ID, sides[1].ID})
	}
	for k, side := range sides {
		enter := r3.Vec{X: []float64{-1, 1}[k]}
		for e, end := range ends {
			b.join(piece.Joint{Kind: "finger", A: side.ID, B: end.ID, Enter: enter, Also: []r3.Vec{{Z: []float64{1, -1}[e]}}, Depth: t,
				Fit: f.fit, Clearance: f.clear, Glued: true, Area: t.Mul(end.Thick).Scale(float64(f.count - 1)), Path: w.Path})
		}
	}
	for _, p := range []*piece.Part{sides[0], sides[1], ends[0], ends[1]} {
		p.Notes = append(p.Notes, say.F("Finger joints: {} fingers of {} at each corner, {} of clearance in each socket; the sides have the lowest and the highest.",
			f.count, say.LenN(f.wide, 2), say.LenN(f.clear, 2)))
	}
}
