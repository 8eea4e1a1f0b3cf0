package beam

import "math"

// Twist is a shelf on four pins with a stiff strip along its front edge, under
// a line load in the middle of its depth. The section is taken as straight from
// front to back: it sags and it turns.
type Twist struct {
	Load       float64 // N/mm
	Span       float64 // mm
	PanelEI    float64 // N·mm², spread evenly over the depth
	StripEI    float64 // N·mm², what the strip adds to the whole section
	Depth      float64 // of the panel, mm
	StripWidth float64 // mm, in front of the panel's edge
	GJ         float64 // torsional stiffness of the panel, N·mm²
}

// Sags returns the first sag, mm, of the panel's front edge, middle and back
// edge at mid-span (SHELF-04). With w = w₀ + φ·z (z from the middle of the
// depth to the front) and one half sine wave along the span, the least energy
// gives two linear equations, with k = π/L and the sine part 4q/π of the load:
//
//	(B₀·k⁴)·w₀ + (B₁·k⁴)·φ           = 4q/π
//	(B₁·k⁴)·w₀ + (B₂·k⁴ + GJ·k²)·φ   = 0
//
// where B₀, B₁, B₂ are the sums of EI, EI·z and EI·z² over the section. The one
// wave is 0.4 % over the exact sag of a beam.
func (t Twist) Sags() (front, middle, back float64) {
	z := (t.Depth + t.StripWidth) / 2
	b0 := t.PanelEI + t.StripEI
	b1 := t.StripEI * z
	b2 := t.PanelEI*t.Depth*t.Depth/12 + t.StripEI*z*z
	k := math.Pi / t.Span
	k2 := k * k
	k4 := k2 * k2
	turn := b2*k4 + t.GJ*k2
	q := 4 * t.Load / math.Pi
	det := b0*k4*turn - b1*k4*b1*k4
	w := q * turn / det
	phi := -q * b1 * k4 / det
	return w + phi*t.Depth/2, w, w - phi*t.Depth/2
}
