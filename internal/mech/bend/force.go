package bend

import "math"

// Handling habits that a force or a spring-back is reckoned with.
const (
	// LongestArm is the longest lever that is counted on, mm: further out a limp
	// strip bows instead of passing on the pull. Common practice, no source.
	LongestArm = 300.0
	// FillerE is the modulus of a hard filling of the kerfs, MPa: glues that cure
	// hard lie about 2000 to 4000. From memory.
	FillerE = 2000.0
)

// CloseForce returns the force, N, that pulls the bend shut at the end of a
// straight stretch: the moment (N·mm) over the lever arm (mm), of which no more
// than LongestArm counts (BEND-18). Without an arm there is no such force: 0.
func CloseForce(moment, arm float64) float64 {
	if arm = math.Min(arm, LongestArm); !(arm > 0) {
		return 0
	}
	return moment / arm
}

// Bonded is what is glued to a bend while it is held on its former.
type Bonded struct {
	// PlyThick is the thickness, mm, and PlyE the modulus along the bend, MPa, of
	// an inner ply over the rib tips; 0: none.
	PlyThick, PlyE float64
	// FillE is the modulus of what fills the kerfs, MPa; 0: they are empty.
	FillE float64
}

// GivenBack returns the share of its curvature that the bend gives back when it
// is let go: the stiffness before over the stiffness after (BEND-19),
//
//	lost = [w/EI_a + (s − w)/EI_b]after / [w/EI_a + (s − w)/EI_b]before
//
// over one pitch, EI_a at a kerf and EI_b at a rib. Bare, it is 1. ok is false
// where the layers are not known.
func (p Plan) GivenBack(b Bonded) (lost float64, ok bool) {
	if len(p.Spec.Layers) == 0 || p.Rib <= 0 {
		return 0, false
	}
	before := p.give(p.kerfLayers(Bonded{}), p.ribLayers(Bonded{}))
	after := p.give(p.kerfLayers(b), p.ribLayers(b))
	if !(before > 0) {
		return 0, false
	}
	return math.Min(after/before, 1), true
}

// give is the flexibility of one pitch for each millimetre of width.
func (p Plan) give(kerf, rib []band) float64 {
	return p.Spec.Kerf/bandsEI(kerf) + p.Rib/bandsEI(rib)
}

// band is a layer at its place: from the uncut face, mm, with its modulus, MPa.
type band struct{ top, thick, e float64 }

func (p Plan) kerfLayers(b Bonded) []band {
	out := p.bands(p.Spec.Skin)
	if b.FillE > 0 {
		out = append(out, band{p.Spec.Skin, p.Depth, b.FillE})
	}
	return p.withPly(out, b)
}

func (p Plan) ribLayers(b Bonded) []band { return p.withPly(p.bands(p.Spec.Thick), b) }

func (p Plan) withPly(out []band, b Bonded) []band {
	if b.PlyThick > 0 && b.PlyE > 0 {
		out = append(out, band{p.Spec.Thick, b.PlyThick, b.PlyE})
	}
	return out
}

func (p Plan) bands(thick float64) []band {
	var out []band
	eachLeft(p.Spec.Layers, thick, func(top, t, e float64) { out = append(out, band{top, t, e}) })
	return out
}

// bandsEI is ΣE·(h³/12 + h·d²) about the common neutral line, N·mm²/mm.
func bandsEI(bs []band) float64 {
	var eh, ehy, ei float64
	for _, b := range bs {
		eh += b.e * b.thick
		ehy += b.e * b.thick * (b.top + b.thick/2)
	}
	for _, b := range bs {
		d := b.top + b.thick/2 - ehy/eh
		ei += b.e * (b.thick*b.thick*b.thick/12 + b.thick*d*d)
	}
	return ei
}

// Filling returns the volume, mm³, that fills every kerf of the bend to the
// brim (BEND-13): tapered slots, narrower or, with kerfs outside, wider at the
// mouth. 0 where the kerfs would have to be shut beyond closing.
func (p Plan) Filling() float64 {
	if p.Mouth < 0 {
		return 0
	}
	return p.Spec.Width * float64(p.Count) * p.Depth * (p.Spec.Kerf + p.Mouth) / 2
}

// MostCount returns the largest number of kerfs that leaves the least rib
// between two of them; 0 where not even one does.
func (s Spec) MostCount() int {
	n := s.mostKerfs()
	for lo := 0; lo < n; { // ribs get narrower with every kerf
		mid := (lo + n + 1) / 2
		if s.sized(mid).Rib >= s.leastRib()-1e-9 {
			lo = mid
		} else {
			n = mid - 1
		}
	}
	return n
}
