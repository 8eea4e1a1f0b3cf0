package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// spec gathers what a kerfed bend of radius r is planned from, in a strip of the
// given width. The Nums are in
// the order in which respec takes their values back.
func (b *builder) spec(r trace.Num, angle float64, width trace.Num) (bend.Spec, []trace.Num) {
	d := b.d
	stock := b.role("shell").Stock
	saw := d.Body.Bend.Saw
	args := []trace.Num{stock.Thickness.Mean, d.Body.Bend.Skin, saw.Kerf.Mean, saw.Kerf.SD, r,
		width, stock.FaceVeneer, stock.InnerVeneer, d.Shop.Habits.LeastRib, d.Shop.Habits.LeastMouth,
		stock.Thickness.SD, saw.Depth.SD}
	s := bend.Spec{Angle: angle, Count: d.Body.Bend.Kerfs, GrainAlong: true}
	return b.respec(s, values(args)), args
}

// respec fills in a spec from plain values in spec's order, its layers with them.
func (b *builder) respec(s bend.Spec, x []float64) bend.Spec {
	s.Thick, s.Skin, s.Kerf, s.KerfSD, s.Radius, s.Width, s.FaceVeneer = x[0], x[1], x[2], x[3], x[4], x[5], x[6]
	s.LeastRib, s.LeastMouth = x[8], x[9]
	s.SkinSD = bend.SkinSpread(x[10], x[11], b.d.Body.Bend.Saw.DepthFrom != "show face")
	s.Layers = sheetLayers(b.role("shell").Stock.Layers, x[6], x[7])
	return s
}

// Moduli of one birch veneer along and across its grain, MPa: the layer model
// of the Handbook of Finnish Plywood (2007), 17 500 along; 600 across is a
// value from memory for rolled birch veneer in tension across the grain.
const (
	veneerAlong  = 17500
	veneerAcross = 600
)

// sheetLayers returns the sheet's veneers from the show face, the face grain
// running round the bend, each next veneer across the one before.
func sheetLayers(n int, face, inner float64) []bend.Layer {
	if n < 1 {
		return nil
	}
	out := make([]bend.Layer, n)
	for i := range out {
		out[i] = bend.Layer{Thick: inner, E: veneerAlong}
		if i%2 == 1 {
			out[i].E = veneerAcross
		}
	}
	out[0].Thick, out[n-1].Thick = face, face
	return out
}

func values(ns []trace.Num) []float64 {
	x := make([]float64, len(ns))
	for i, n := range ns {
		x[i] = n.V
	}
	return x
}

// bend plans the bend of corner c, which starts at the strip's x.
func (b *builder) bend(c int, x trace.Num) piece.Bend {
	k := b.corner(c)
	return b.bendAs(design.CornerNames[c%4], k.Radius, quarter, k.Path, b.front.Sub(b.rear), x)
}

// bendAs plans a bend by its name, its outside radius and its angle, in a strip
// of the given width. What it needs of the strip (flat length, pitch) hangs on
// all that the plan was made from.
func (b *builder) bendAs(name string, radius trace.Num, angle float64, path string, width, x trace.Num) piece.Bend {
	out := piece.Bend{Corner: name, Start: x, Radius: radius, Angle: trace.Const(angle), Path: path}
	if b.d.Body.Bend.Saw == nil {
		b.errorAt("body.bend", "no-saw", "no saw for the kerfs", "Name a saw of the shop file under 'bend'.")
		return out
	}
	spec, args := b.spec(radius, angle, width)
	plan, err := bend.New(spec)
	if err != nil {
		b.errorAt(path, "bend-impossible", "this bend cannot be planned", fmt.Sprintf("%v.", err))
		return out
	}
	out.Plan = plan
	spec.Count = plan.Count // a small change keeps the count: it moves in steps
	lifted := trace.LiftN(func(x []float64) []float64 {
		p, err := bend.New(b.respec(spec, x))
		if err != nil {
			return nil
		}
		return []float64{p.Flat, p.Pitch, p.Depth, p.Mouth, p.Rib, p.Facet, p.StrainLow, p.StrainHigh, p.RailRadius, p.RailGap, p.Clear}
	}, args...)
	out.Length, out.Pitch, out.Depth, out.Mouth, out.Rib, out.Facet = lifted[0], lifted[1], lifted[2], lifted[3], lifted[4], lifted[5]
	out.StrainLow, out.StrainHigh, out.RailRadius, out.RailGap, out.Clear = lifted[6], lifted[7], lifted[8], lifted[9], lifted[10]
	out.Count = trace.Step(float64(plan.Count), args...)
	for i := range plan.Count {
		out.Kerfs = append(out.Kerfs, x.Add(out.Pitch.Scale(float64(i)+0.5)))
	}
	return out
}
