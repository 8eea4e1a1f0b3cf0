package beam

import "math"

// HeldSag returns the first sag, mm, of the front edge of a shelf at mid-span
// whose back edge is fastened to a back that does not give (SHELF-08). The
// section turns about that edge, w = φ·z with z from the back, and one half sine
// wave along the span; the least energy gives, with k = π/L,
//
//	φ·(B₂·k⁴ + GJ·k²) = (4q/π)·b/2
//
// where B₂ = EI·b²/3 + EI_s·z_s², EI_s what a strip in front adds.
func (t Twist) HeldSag() float64 {
	z := t.Depth + t.StripWidth/2
	b2 := t.PanelEI*t.Depth*t.Depth/3 + t.StripEI*z*z
	k := math.Pi / t.Span
	turn := b2*k*k*k*k + t.GJ*k*k
	return 4 * t.Load / math.Pi * t.Depth / 2 / turn * t.Depth
}

// twistOf is the shelf as a beam that turns.
func (s Shelf) twistOf() Twist {
	panel := Rect{Width: s.Depth, High: s.Thick, E: s.E}
	bare, _ := EI(panel)
	t := Twist{Load: LineLoad(s.Load), Span: s.Span, PanelEI: bare, Depth: s.Depth, GJ: s.shear() * s.Depth * s.Thick * s.Thick * s.Thick / 3}
	if s.edged() {
		ei, _ := EI(panel, Rect{Width: s.EdgingWidth, High: s.EdgingHigh, E: s.EdgingE, Low: s.Thick - s.EdgingDrop - s.EdgingHigh})
		t.StripEI, t.StripWidth = ei-bare, s.EdgingWidth
	}
	return t
}

// Held judges the shelf with its back edge fastened to the back (SHELF-08),
// which carries the load that falls to it. The error is an *InputError.
func Held(s Shelf) (Result, error) {
	r, err := Judge(s)
	if err != nil {
		return r, err
	}
	front := math.Min(s.twistOf().HeldSag(), r.First)
	r.Front, r.Middle, r.Back, r.First = front, front/2, 0, front
	r.Long = Long(front, s.Kdef)
	r.Level = level(r, s)
	return r, nil
}

// FourPins is what the four pins of a shelf bear (SHELF-09).
type FourPins struct {
	Load float64 // kg, on the whole shelf, its own mass with it
	Dia  float64 // mm
	Deep float64 // mm, of the pin in its hole
	Rho  float64 // kg/m³ of the panel that it sits in
}

// Bearing returns the force on the most loaded pin, N, and the pressure in its
// hole, MPa, with what that may be for years, MPa. A load that lies to the front
// gives the front pins two thirds.
func (p FourPins) Bearing() (force, pressure, may float64) {
	force = p.Load * Gravity / 2 * 2 / 3
	// A pin is a lever: at the mouth of its hole it presses about four times
	// what it would if it pressed evenly.
	pressure = 4 * force / (p.Dia * p.Deep)
	return force, pressure, Embedding(p.Rho, p.Dia) * permanent / gammaM
}

// permanent is k_mod for a load of years, gammaM the partial factor of
// connections in Eurocode 5 (from memory).
const permanent, gammaM = 0.6, 1.3

// Embedding is the strength of a hole's wall in plywood, MPa: f_h =
// 0.11·(1 − 0.01·d)·ρ (EN 1995-1-1, equation 8.36, from memory).
func Embedding(rho, dia float64) float64 { return 0.11 * (1 - 0.01*dia) * rho }

// Shear is the largest shear stress in a rectangle at the ends of a span under a
// line load, MPa: 1.5·(q·L/2)/(b·t).
func Shear(load, span, depth, thick float64) float64 { return 1.5 * load * span / 2 / (depth * thick) }

// Midload is a beam on two supports with one load (N) in its middle (SHELF-10).
// It returns the sag, mm, and the stress, MPa.
func Midload(force, span, depth, thick, e float64) (sag, stress float64) {
	i := depth * thick * thick * thick / 12
	return force * span * span * span / (48 * e * i), force * span / 4 * thick / 2 / i
}

// Sitting is the load of a heavy person who sits down, N: that of 110 kg, up to
// which EN 1022 takes adults (scope, quoted), half as much again for sitting
// down with a bump (common practice).
const Sitting = 110 * Gravity * 1.5
