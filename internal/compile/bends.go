package compile

import (
	"fmt"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// turn is a bend that is wanted: its name, outside radius and angle, where it
// starts on a strip of the given width, and what it is made of.
type turn struct {
	name          string
	radius, width trace.Num
	angle         float64
	path          string
	stock         *design.Stock
	x             trace.Num
	left, outside bool // turns to the left; kerfs on the convex face
}

// spec gathers what a kerfed bend is planned from. The Nums are in the order in
// which respec takes their values back.
func (b *builder) spec(t turn) (bend.Spec, []trace.Num) {
	d, stock := b.d, t.stock
	saw := d.Body.Bend.Saw
	skin, kerf := d.Body.Bend.Skin, b.kerfIn(saw, stock)
	args := []trace.Num{stock.Thickness.Mean, skin, kerf.Mean, kerf.SD, t.radius,
		t.width, stock.FaceVeneer, stock.InnerVeneer, d.Shop.Habits.LeastRib, d.Shop.Habits.LeastMouth,
		stock.Thickness.SD, saw.Depth.SD, saw.Bevel}
	s := bend.Spec{Angle: t.angle, Count: d.Body.Bend.Kerfs, GrainAlong: !d.Body.Bend.AcrossGrain, Soaked: d.Body.Bend.Soaked, Outside: t.outside}
	s.BetaLow, s.BetaHigh = b.hinge(saw, stock)
	return b.respec(s, t, values(args)), args
}

// respec fills in a spec from plain values in spec's order, its layers with them.
func (b *builder) respec(s bend.Spec, t turn, x []float64) bend.Spec {
	s.Thick, s.Skin, s.Kerf, s.KerfSD, s.Radius, s.Width, s.FaceVeneer = x[0], x[1], x[2], x[3], x[4], x[5], x[6]
	s.LeastRib, s.LeastMouth = x[8], x[9]
	s.SkinSD = bend.SkinSpread(x[10], x[11], b.d.Body.Bend.Saw.DepthFrom != "show face")
	s.FloorRise = bend.FloorRise(s.Kerf, x[12])
	s.Layers = sheetLayers(t.stock.Layers, x[6], x[7], s.GrainAlong)
	return s
}

// Moduli of one birch veneer along and across its grain, MPa: the layer model
// of the Handbook of Finnish Plywood (2007), 17 500 along; 600 across is a
// value from memory for rolled birch veneer in tension across the grain.
const (
	veneerAlong  = 17500
	veneerAcross = 600
)

// sheetLayers returns the sheet's veneers from the uncut face, the face grain
// running round the bend or along the kerfs, each next veneer across the one
// before.
func sheetLayers(n int, face, inner float64, along bool) []bend.Layer {
	if n < 1 {
		return nil
	}
	out := make([]bend.Layer, n)
	for i := range out {
		out[i] = bend.Layer{Thick: inner, E: veneerAlong}
		if (i%2 == 1) == along {
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

// bendAs plans a bend of the shell by its name, its outside radius and its
// angle, in a strip of the given width.
func (b *builder) bendAs(name string, radius trace.Num, angle float64, path string, width, x trace.Num) piece.Bend {
	return b.turned(turn{name: name, radius: radius, angle: angle, path: path, width: width, x: x,
		stock: b.role("shell").Stock, outside: b.d.Body.Bend.Outside})
}

// turned plans a bend. What it needs of the strip (flat length, pitch) hangs on
// all that the plan was made from.
func (b *builder) turned(t turn) piece.Bend {
	out := piece.Bend{Corner: t.name, Start: t.x, Radius: t.radius, Angle: trace.Const(t.angle), Path: t.path, Way: b.d.Body.Bend.Way,
		Left: t.left, Face: piece.FaceB}
	if t.left != t.outside { // the inside of a turn to the left is face A
		out.Face = piece.FaceA
	}
	if out.Way == design.Laminated || out.Way == design.Cold {
		b.stacked(&out, t)
		return out
	}
	if b.d.Body.Bend.Saw == nil {
		b.errorAt("body.bend", "no-saw", "no saw for the kerfs", "Name a saw of the shop file under 'bend'.")
		return out
	}
	spec, args := b.spec(t)
	plan, err := bend.New(spec)
	if err != nil {
		b.errorAt(t.path, "bend-impossible", "this bend cannot be planned", fmt.Sprintf("%v.", err))
		return out
	}
	out.Plan = plan
	if ply := b.d.Body.Bend.InnerPly.Stock; ply != nil {
		out.LostPly, _ = plan.GivenBack(bend.Bonded{PlyThick: ply.Thickness.Mean.V, PlyE: sheetModulus(ply, true)})
	}
	if b.d.Body.Bend.Fill {
		out.LostFill, _ = plan.GivenBack(bend.Bonded{FillE: bend.FillerE})
	}
	spec.Count = plan.Count // a small change keeps the count: it moves in steps
	lifted := trace.LiftN(func(x []float64) []float64 {
		p, err := bend.New(b.respec(spec, t, x))
		if err != nil {
			return nil
		}
		return []float64{p.Flat, p.Pitch, p.Depth, p.Mouth, p.Rib, p.Facet, p.StrainLow, p.StrainHigh, p.RailRadius, p.RailGap, p.Clear}
	}, args...)
	out.Length, out.Pitch, out.Depth, out.Mouth, out.Rib, out.Facet = lifted[0], lifted[1], lifted[2], lifted[3], lifted[4], lifted[5]
	out.StrainLow, out.StrainHigh, out.RailRadius, out.RailGap, out.Clear = lifted[6], lifted[7], lifted[8], lifted[9], lifted[10]
	out.Count = trace.Step(float64(plan.Count), args...)
	for i := range plan.Count {
		out.Kerfs = append(out.Kerfs, t.x.Add(out.Pitch.Scale(float64(i)+0.5)))
	}
	return out
}

// stacked works out a bend of thin plies, or of one sheet bent cold.
func (b *builder) stacked(out *piece.Bend, t turn) {
	s := bend.Stack{Ply: t.stock.Thickness.Mean.V, Count: max(1, b.d.Body.Bend.Plies), Radius: t.radius.V, Angle: t.angle, Width: t.width.V,
		E: sheetModulus(t.stock, !b.d.Body.Bend.AcrossGrain), GrainAlong: !b.d.Body.Bend.AcrossGrain, Soaked: b.d.Body.Bend.Soaked}
	if gs := b.d.Shop.Glues; len(gs) > 0 {
		s.OpenTime, s.SpreadTime = gs[0].Open.V, b.d.Shop.Rates.SpreadPerM2.V*1e-6
	}
	plan, err := bend.NewStack(s)
	if err != nil {
		b.errorAt(t.path, "bend-impossible", "this bend cannot be made", fmt.Sprintf("%v.", err))
		return
	}
	thick := t.stock.Thickness.Mean.Scale(float64(s.Count))
	out.Stack = &plan
	out.Length = t.radius.Sub(thick.Scale(0.5)).Scale(t.angle)
	out.RailRadius = t.radius.Sub(thick)
	out.Clear = b.constant("rule.clear of a stack", bend.TangentMargin, "nothing is cut within 12 mm of where a bend without kerfs starts: common practice, no source")
}

// sheetModulus is the bending modulus of a whole sheet along the bend, MPa, by
// its layers; 0 where they are not known.
func sheetModulus(s *design.Stock, along bool) float64 {
	layers := sheetLayers(s.Layers, s.FaceVeneer.V, s.InnerVeneer.V, along)
	t := s.Thickness.Mean.V
	if len(layers) == 0 || t <= 0 {
		return 0
	}
	return bend.SkinEI(layers, t) * 12 / (t * t * t)
}

// glued sets the glue that a stack of plies takes over the whole strip.
func (b *builder) glued(p *piece.Part) {
	for i := range p.Bends {
		st := p.Bends[i].Stack
		if st == nil {
			continue
		}
		s := st.Stack
		s.Length = p.Length.V
		if plan, err := bend.NewStack(s); err == nil {
			p.Bends[i].Stack = &plan
		}
	}
}
