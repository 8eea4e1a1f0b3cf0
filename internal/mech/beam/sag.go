package beam

import (
	"fmt"
	"math"
)

// Gravity is the standard acceleration of free fall, m/s² (by definition,
// 3rd CGPM, 1901), which turns kg into N.
const Gravity = 9.80665

// Ends tells how a shelf is held.
type Ends string

// Ways in which a shelf's ends are held.
const (
	Pins       Ends = "pins"       // both ends turn freely: the cautious case
	Fixed      Ends = "fixed"      // neither end can turn at all
	Continuous Ends = "continuous" // one of two equal spans that run on over a middle support
)

// factor is δ·EI/(q·L⁴).
func (e Ends) factor() float64 {
	switch e {
	case Fixed:
		return 1.0 / 384
	case Continuous:
		return continuousFactor
	}
	return 5.0 / 384
}

// continuousFactor is the largest deflection of two equal spans, at 0.4215·L
// from an outer end: the largest value of (x − 3x³ + 2x⁴)/48 for x = (1 + √33)/16.
var continuousFactor = func() float64 {
	x := (1 + math.Sqrt(33)) / 16
	return (x - 3*x*x*x + 2*x*x*x*x) / 48
}()

// momentFactor is the largest bending moment over q·L².
func (e Ends) momentFactor() float64 {
	if e == Fixed {
		return 1.0 / 12
	}
	return 1.0 / 8 // on pins at mid-span; of two spans over the middle support
}

// LineLoad turns kg for each metre into N/mm.
func LineLoad(kgPerM float64) float64 { return kgPerM * Gravity / 1000 }

// Sag returns the first, elastic sag, mm, of a span (mm) under a line load
// (N/mm), with the bending stiffness ei (N·mm²):
//
//	δ = 5·q·L⁴/(384·E·I)    on pins    (SHELF-01)
func Sag(load, span, ei float64, ends Ends) float64 {
	return ends.factor() * load * span * span * span * span / ei
}

// Long returns the sag after years, mm: first · (1 + k_def). (SHELF-02)
func Long(first, kdef float64) float64 { return first * (1 + kdef) }

// Moment returns the largest bending moment, N·mm.
func Moment(load, span float64, ends Ends) float64 {
	return ends.momentFactor() * load * span * span
}

// MaxSpan returns the span, mm, at which the first sag on pins is L/ratio:
//
//	L = (384·E·I/(5·q·ratio))^(1/3)    (SHELF-05)
func MaxSpan(load, ei, ratio float64) float64 {
	return math.Cbrt(384 * ei / (5 * load * ratio))
}

// Rect is a rectangle of a section that bends about the level axis: Width
// across, High upwards, Low its lower edge's height over any one level, mm, and
// its modulus along the span, MPa.
type Rect struct{ Width, High, Low, E float64 }

// EI returns the bending stiffness of the rectangles glued together, N·mm², and
// the height of their common neutral line, mm. (SHELF-03)
func EI(parts ...Rect) (ei, neutral float64) {
	var ea, eay float64
	for _, p := range parts {
		a := p.E * p.Width * p.High
		ea += a
		eay += a * (p.Low + p.High/2)
	}
	if ea <= 0 {
		return 0, 0
	}
	neutral = eay / ea
	for _, p := range parts {
		d := p.Low + p.High/2 - neutral
		ei += p.E * p.Width * p.High * (p.High*p.High/12 + d*d)
	}
	return ei, neutral
}

// Stress returns the bending stress in a fibre of modulus e (MPa) at the
// distance y (mm) from the neutral line of a section of stiffness ei: M·E·y/EI,
// MPa. (SHELF-06)
func Stress(moment, e, y, ei float64) float64 { return moment * e * y / ei }

// Shelf is a shelf to be judged. Lengths in mm, moduli in MPa.
type Shelf struct {
	Span float64 // clear, between the supports
	Load float64 // kg for each metre of the span
	Ends Ends
	// Panel: its depth (front to back), thickness and modulus along the span,
	// and the shear modulus in its plane, for twisting (0: a sixteenth of E).
	Depth, Thick, E, G float64
	// Edging along the front edge: its width (front to back), height and
	// modulus; Height 0: none. Drop is how far its top lies under the panel's.
	EdgingWidth, EdgingHigh, EdgingE, EdgingDrop float64
	// BackHeld tells that the back edge is fastened to a back panel, so that it
	// neither sags nor twists free: the section then acts as one.
	BackHeld bool
	Kdef     float64 // creep factor, SHELF-02
	// Strength in bending that may be used in the long term, MPa; 0: not judged.
	Strength float64
}

// Result is what comes of a Shelf. Sags in mm.
type Result struct {
	EI    float64 // of the whole section, N·mm²
	First float64 // sag at first, of the edge that sags most
	Long  float64 // the same after years
	// Front, Middle and Back are the first sags of the three lines.
	Front, Middle, Back float64
	Bare                float64 // first sag without the edging
	Mass                float64 // kg that the shelf carries
	Stress              float64 // of the panel's outer fibre, MPa
	Limits              []Limit // with what each allows here
	Level               Level
	Used                float64 // stress over strength; 0 where not judged
}

// InputError says which value of a Shelf cannot be used.
type InputError struct {
	Field string
	Value float64
}

// Error names the field and its value.
func (e *InputError) Error() string {
	return fmt.Sprintf("beam: %s is %g: not a value that a shelf can have", e.Field, e.Value)
}

func (s Shelf) check() error {
	for _, f := range []struct {
		name      string
		v, lo, hi float64
	}{
		{"Span", s.Span, 1, 1e5}, {"Load", s.Load, 0, 1e5}, {"Depth", s.Depth, 1, 1e5},
		{"Thick", s.Thick, 0.5, 1e3}, {"E", s.E, 1, 1e6}, {"G", s.G, 0, 1e6},
		{"EdgingWidth", s.EdgingWidth, 0, 1e3}, {"EdgingHigh", s.EdgingHigh, 0, 1e3},
		{"EdgingE", s.EdgingE, 0, 1e6}, {"EdgingDrop", s.EdgingDrop, -1e3, 1e3},
		{"Kdef", s.Kdef, 0, 10}, {"Strength", s.Strength, 0, 1e4},
	} {
		if !(f.v >= f.lo && f.v <= f.hi) {
			return &InputError{f.name, f.v}
		}
	}
	return nil
}

// Judge computes a shelf and holds its long-term sag against every published
// limit. The error is an *InputError.
func Judge(s Shelf) (Result, error) {
	if err := s.check(); err != nil {
		return Result{}, err
	}
	q := LineLoad(s.Load)
	panel := Rect{Width: s.Depth, High: s.Thick, E: s.E}
	bare, neutral := EI(panel)
	r := Result{EI: bare, Mass: s.Load * s.Span / 1000, Bare: Sag(q, s.Span, bare, s.Ends)}
	r.Front, r.Middle, r.Back = r.Bare, r.Bare, r.Bare
	if s.edged() {
		strip := Rect{Width: s.EdgingWidth, High: s.EdgingHigh, E: s.EdgingE,
			Low: s.Thick - s.EdgingDrop - s.EdgingHigh}
		r.EI, neutral = EI(panel, strip)
		w := Twist{Load: q, Span: s.Span, PanelEI: bare, StripEI: r.EI - bare, Depth: s.Depth,
			StripWidth: s.EdgingWidth, GJ: s.shear() * s.Depth * s.Thick * s.Thick * s.Thick / 3}
		r.Front, r.Middle, r.Back = w.Sags()
		if s.BackHeld {
			one := Sag(q, s.Span, r.EI, s.Ends)
			r.Front, r.Middle, r.Back = one, one, one
		}
	}
	r.First = math.Max(r.Middle, math.Max(r.Front, r.Back))
	r.Long = Long(r.First, s.Kdef)
	r.stress(s, q, neutral)
	r.Limits = Limits(s.Span)
	r.Level = level(r, s)
	return r, nil
}

func (s Shelf) edged() bool { return s.EdgingHigh > 0 && s.EdgingWidth > 0 && s.EdgingE > 0 }

// shear is the panel's shear modulus in its plane; E/16 is the usual guess for
// wood (EN 338 has G = E/16).
func (s Shelf) shear() float64 {
	if s.G > 0 {
		return s.G
	}
	return s.E / 16
}

// stress takes the bare panel's own curvature at its most bent line: cautious
// for an edged shelf, whose back edge bends as a bare panel does.
func (r *Result) stress(s Shelf, q, neutral float64) {
	bare, _ := EI(Rect{Width: s.Depth, High: s.Thick, E: s.E})
	y := s.Thick / 2
	if s.edged() && s.BackHeld {
		bare, y = r.EI, math.Max(s.Thick-neutral, neutral)
	}
	r.Stress = Stress(Moment(q, s.Span, s.Ends), s.E, y, bare)
	if s.Strength > 0 {
		r.Used = r.Stress / s.Strength
	}
}
