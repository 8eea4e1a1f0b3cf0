package material

import "math"

// Moduli of birch veneer, MPa. EL is what the published table of birch plywood
// stands on; ET is a usual ratio of about 1 : 30 across the grain (from memory,
// Wood Handbook, elastic ratios of yellow birch: 0.050 tangential, 0.078
// radial, so 600 is on the low side: it puts the neutral line of a skin nearer
// the face veneer where that runs round the bend).
const (
	BirchEL = 17500.0
	BirchET = 600.0
)

// Characteristic bending strength of birch veneer along its grain, MPa.
const BirchVeneerStrength = 70.0

// Veneer is one layer of a sheet.
type Veneer struct {
	Thick float64 // mm
	Along bool    // its grain runs with the face grain
}

// Plywood is a stack of veneers from one face to the other, all of one species.
type Plywood struct {
	Veneers  []Veneer
	EL, ET   float64 // MPa
	Strength float64 // characteristic, of a veneer along its grain in bending, MPa
}

// Stack returns the plywood of n veneers that alternate, the two faces of the
// thickness face and the others of inner, mm. n is made odd upwards, so that
// both faces run the same way, and is at least 3.
func Stack(n int, face, inner, el, et, strength float64) Plywood {
	n = max(3, n)
	if n%2 == 0 {
		n++
	}
	p := Plywood{EL: el, ET: et, Strength: strength, Veneers: make([]Veneer, n)}
	for i := range p.Veneers {
		p.Veneers[i] = Veneer{Thick: inner, Along: i%2 == 0}
	}
	p.Veneers[0].Thick, p.Veneers[n-1].Thick = face, face
	return p
}

// Birch returns birch plywood of n veneers; ET is left out, as the published
// table leaves it out.
func Birch(n int, face, inner float64) Plywood {
	return Stack(n, face, inner, BirchEL, 0, BirchVeneerStrength)
}

// Plate is a plywood's section for each millimetre of width.
type Plate struct {
	Thick             float64 // mm
	I, W              float64 // of the whole section: mm⁴/mm, mm³/mm
	EIAlong, EIAcross float64 // N·mm²/mm
	EAlong, EAcross   float64 // in bending, MPa
	FAlong, FAcross   float64 // characteristic bending strength, MPa
	EAAlong, EAAcross float64 // in tension or compression, MPa
	AreaShare         float64 // of the veneers that run with the face grain
	NeutralAlong      float64 // neutral line from the first face, mm
}

// Plate computes the section (MAT-01). Strength across is governed by the outermost
// veneer that runs across.
func (p Plywood) Plate() Plate {
	var s Plate
	for _, v := range p.Veneers {
		s.Thick += v.Thick
	}
	s.I = s.Thick * s.Thick * s.Thick / 12
	s.W = s.Thick * s.Thick / 6
	var farAlong, farAcross float64
	var along float64
	s.EIAlong, farAlong, s.NeutralAlong = p.bend(true)
	s.EIAcross, farAcross, _ = p.bend(false)
	for _, v := range p.Veneers {
		if v.Along {
			along += v.Thick
		}
	}
	s.AreaShare = along / s.Thick
	s.EAlong, s.EAcross = s.EIAlong/s.I, s.EIAcross/s.I
	s.EAAlong = p.EL*s.AreaShare + p.ET*(1-s.AreaShare)
	s.EAAcross = p.EL*(1-s.AreaShare) + p.ET*s.AreaShare
	if p.EL > 0 {
		// The moment at which the outermost veneer that runs with the span
		// reaches its strength, over the whole section's W.
		s.FAlong = p.Strength / p.EL * s.EIAlong / farAlong / s.W
		s.FAcross = p.Strength / p.EL * s.EIAcross / farAcross / s.W
	}
	return s
}

// bend returns EI for each mm of width along or across the face grain, the
// distance from the neutral line to the far side of the outermost veneer that
// runs with the bending, and the neutral line.
func (p Plywood) bend(along bool) (ei, far, neutral float64) {
	modulus := func(v Veneer) float64 {
		if v.Along == along {
			return p.EL
		}
		return p.ET
	}
	var ea, eay, y float64
	for _, v := range p.Veneers {
		ea += modulus(v) * v.Thick
		eay += modulus(v) * v.Thick * (y + v.Thick/2)
		y += v.Thick
	}
	neutral = eay / ea
	y = 0
	for _, v := range p.Veneers {
		d := y + v.Thick/2 - neutral
		ei += modulus(v) * (v.Thick*v.Thick*v.Thick/12 + v.Thick*d*d)
		if v.Along == along {
			far = math.Max(far, math.Abs(d)+v.Thick/2)
		}
		y += v.Thick
	}
	return ei, far, neutral
}

// Layer is a veneer's thickness, mm, and its modulus in one direction, MPa.
type Layer struct{ Thick, E float64 }

// Round returns the layers, from the first face in, as a bend sees them: with
// their moduli along the bend. grainAlong tells that the face grain runs round
// it. An ET of nought is replaced by BirchET's share of EL: a sliver of
// crossband is soft, not nothing.
func (p Plywood) Round(grainAlong bool) []Layer {
	et := p.ET
	if et == 0 {
		et = p.EL * BirchET / BirchEL
	}
	out := make([]Layer, len(p.Veneers))
	for i, v := range p.Veneers {
		out[i] = Layer{v.Thick, et}
		if v.Along == grainAlong {
			out[i].E = p.EL
		}
	}
	return out
}
