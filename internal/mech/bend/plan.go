package bend

import (
	"fmt"
	"math"
)

// The habits that stand in where a Spec leaves them out; all common practice.
const (
	SandingAllowance = 0.1  // mm, taken off the show face after bending
	DefaultMouth     = 0.2  // mm, left open for fuzz and glue
	DefaultRib       = 3.0  // mm, or the kerf where that is wider
	TangentMargin    = 12.0 // mm, beyond half a rib, kept clear at a tangent point
	BetaWidest       = 2.0  // the hinge's length is w to w + 2h
)

// SpecError says which value of a Spec cannot be planned with, and what is
// wanted instead.
type SpecError struct {
	Field string
	Value float64
	Want  string
}

// Error names the field, its value and what is wanted.
func (e *SpecError) Error() string {
	return fmt.Sprintf("bend: %s is %g: want %s", e.Field, e.Value, e.Want)
}

// mostKerfs bounds a plan: a hundred and more is already a day at the saw.
const mostKerfs = 2000

// New plans the bend. With a Count it plans exactly that, however badly its
// limits come out (Verdicts tells); with Count 0 it chooses, see Choice. The
// error is a *SpecError: a value that is no number, negative, or such that no
// chain of ribs and hinges gives that radius.
func New(s Spec) (Plan, error) {
	if err := s.check(); err != nil {
		return Plan{}, err
	}
	if s.Count > 0 {
		p := s.with(s.Count)
		if p.Rib <= 0 {
			return Plan{}, &SpecError{"Count", float64(s.Count),
				fmt.Sprintf("at most %d kerfs, so that a rib is left between two", s.mostKerfs())}
		}
		p.Choice = Choice{How: Given}
		return p, nil
	}
	return s.choose()
}

func (s Spec) check() error {
	for _, f := range []struct {
		name      string
		v, lo, hi float64
		want      string
	}{
		{"Thick", s.Thick, 1, 100, "1 to 100 mm"},
		{"Skin", s.Skin, 0.05, 50, "0.05 mm up to less than the sheet"},
		{"Kerf", s.Kerf, 0.1, 20, "0.1 to 20 mm"},
		{"KerfSD", s.KerfSD, 0, 5, "0 to 5 mm"},
		{"Radius", s.Radius, 1, 1e5, "1 mm to 100 m"},
		{"Angle", s.Angle, 0.01, 2*math.Pi + 1e-9, "0.01 rad to a full turn"},
		{"Width", s.Width, 0, 1e5, "0 to 100 m"},
		{"Count", float64(s.Count), 0, mostKerfs, "0 (choose) to 2000"},
		{"LeastRib", s.LeastRib, 0, 1e3, "0 to 1000 mm"},
		{"LeastMouth", s.LeastMouth, 0, 20, "0 to 20 mm"},
		{"FaceVeneer", s.FaceVeneer, 0, 100, "0 to 100 mm"},
		{"Sanding", s.Sanding, 0, 10, "0 to 10 mm"},
		{"SkinSD", s.SkinSD, 0, 10, "0 to 10 mm"},
		{"BetaLow", s.BetaLow, 0, 10, "0 to 10"},
		{"BetaHigh", s.BetaHigh, 0, 10, "0 to 10"},
		{"FloorRise", s.FloorRise, 0, 10, "0 to 10 mm"},
	} {
		if !(f.v >= f.lo && f.v <= f.hi) { // also NaN
			return &SpecError{f.name, f.v, f.want}
		}
	}
	for _, l := range s.Layers {
		if !(l.Thick > 0 && l.Thick <= 100 && l.E > 0 && l.E <= 1e6) {
			return &SpecError{"Layers", l.Thick, "layers of a thickness and a modulus above nought"}
		}
	}
	switch {
	case s.Skin >= s.Thick:
		return &SpecError{"Skin", s.Skin, "less than the sheet"}
	case s.Radius <= s.Thick:
		return &SpecError{"Radius", s.Radius, "more than the sheet is thick"}
	case s.BetaHigh < s.BetaLow:
		return &SpecError{"BetaHigh", s.BetaHigh, "at least BetaLow"}
	}
	return nil
}

// with returns the plan with n kerfs; the spec is checked.
func (s Spec) with(n int) Plan {
	p := s.sized(n)
	p.Positions = make([]float64, n)
	for i := range p.Positions {
		p.Positions[i] = (float64(i) + 0.5) * p.Pitch
	}
	return p
}

// sized is with without the list of kerfs: what a choice needs.
func (s Spec) sized(n int) Plan {
	alpha := s.Angle / float64(n)
	y := Neutral(s.Layers, s.Skin)
	p := Plan{Spec: s, Count: n, Alpha: alpha, NeutralY: y, Rn: s.neutralRadius(y), Depth: s.Thick - s.Skin}
	p.Pitch = Pitch(p.Rn, s.Kerf, alpha)
	p.Flat = float64(n) * p.Pitch
	arm := s.Thick - y
	p.Mouth = s.Kerf - alpha*arm
	p.Rib = p.Pitch - s.Kerf
	p.InsidePitch = p.Pitch - alpha*arm
	p.ClosedAt = s.Kerf / arm
	p.LeastCount = atLeast(s.Angle * arm / s.Kerf)
	p.TradeCount = atLeast(s.Angle * s.Thick / s.Kerf)
	p.Facet = p.Rib / 2 * math.Tan(alpha/4)
	p.RailRadius = p.Rib/2/math.Tan(alpha/2) + s.Kerf/alpha - arm
	if s.Outside {
		p.turnOut()
	}
	p.RailGap = math.Hypot(p.RailRadius, p.Rib/2) - p.RailRadius
	p.Clear = p.Rib/2 + TangentMargin
	p.strains()
	p.Stiffness = s.Width * SkinEI(s.Layers, s.Skin+s.FloorRise/2) / s.Kerf
	p.Moment = p.Stiffness * alpha
	_, high := s.betas()
	p.MomentLow = p.Moment * s.Kerf / (s.Kerf + high*s.Skin)
	return p
}

// neutralRadius is the radius of the neutral line that lies y off the uncut
// face: under the outer face, or over the inner one where the kerfs are outside.
func (s Spec) neutralRadius(y float64) float64 {
	if s.Outside {
		return s.Radius - s.Thick + y
	}
	return s.Radius - y
}

// turnOut sets what is otherwise where the kerfs are outside: a mouth opens
// instead of closing, rib tips spread, and the rail meets the skin itself.
func (p *Plan) turnOut() {
	s := p.Spec
	arm := s.Thick - p.NeutralY
	p.Mouth = s.Kerf + p.Alpha*arm
	p.InsidePitch = p.Pitch - p.Alpha*p.NeutralY
	p.ClosedAt, p.LeastCount, p.TradeCount = 0, s.fewest(), s.fewest()
	p.RailRadius = p.Rib/2/math.Tan(p.Alpha/2) + s.Kerf/p.Alpha - p.NeutralY
}

func (p *Plan) strains() {
	s := p.Spec
	low, high := s.betas()
	outer, inner := p.NeutralY, s.Skin-p.NeutralY
	if s.Outside { // the floor of the kerf is stretched, the uncut face is pressed: the farther one is judged
		outer, inner = math.Max(outer, inner), math.Min(outer, inner)
	}
	p.StrainHigh = Strain(outer, p.Alpha, s.Kerf, s.Skin, low)
	p.StrainMid = Strain(outer, p.Alpha, s.Kerf, s.Skin, s.betaLikely())
	p.StrainLow = Strain(outer, p.Alpha, s.Kerf, s.Skin, high)
	p.StrainInner = Strain(inner, p.Alpha, s.Kerf, s.Skin, low)
	p.StrainFine, p.StrainStop, p.StrainCovered = Allowed(s.Skin, s.GrainAlong, s.Soaked)
}

func (s Spec) betas() (low, high float64) {
	if s.BetaLow == 0 && s.BetaHigh == 0 {
		return 0, s.betaWidest()
	}
	return s.BetaLow, s.BetaHigh
}

// What finite elements gave of how far a hinge reaches past the slot in plywood
// with its face grain round the bend (tools/fe-bend): 3.2 to 3.4 mm under skins
// of 1.1 to 2.0 mm, as it is the crossband over the face veneer that is sheared.
const (
	shearedReach = 3.2 // mm
	thinnestRun  = 1.1 // skin, mm: under it no run was made, and no more skins are counted
)

// betaWidest is the longest hinge of a bend that no test strip was made of, in
// skins: BetaWidest, or what was computed where that is more.
func (s Spec) betaWidest() float64 {
	if len(s.Layers) < 2 || !s.GrainAlong || s.Outside || s.Skin <= 0 {
		return BetaWidest
	}
	return math.Max(BetaWidest, shearedReach/math.Max(s.Skin, thinnestRun))
}

// betaLikely is the hinge that a count is chosen by: the middle of what was
// tested, else one skin, as thin skins were computed for one plywood only.
func (s Spec) betaLikely() float64 {
	if s.BetaLow == 0 && s.BetaHigh == 0 {
		return BetaWidest / 2
	}
	return (s.BetaLow + s.BetaHigh) / 2
}

func (s Spec) leastRib() float64 {
	if s.LeastRib > 0 {
		return s.LeastRib
	}
	return math.Max(DefaultRib, s.Kerf)
}

// leastMouth is what must stay open with the blade at its narrowest.
func (s Spec) leastMouth() float64 {
	m := s.LeastMouth
	if m == 0 {
		m = DefaultMouth
	}
	return m + 3*s.KerfSD
}

func (s Spec) faceVeneer() float64 {
	if s.FaceVeneer > 0 || len(s.Layers) == 0 {
		return s.FaceVeneer
	}
	return s.Layers[0].Thick
}

func (s Spec) sanding() float64 {
	if s.Sanding > 0 {
		return s.Sanding
	}
	return SandingAllowance
}

// Pitch returns the spacing of the kerfs, mm, from centre to centre, that
// folds exactly to the radius rn (mm) of the neutral line, with kerfs of the
// width w (mm) that turn alpha (rad) each:
//
//	s = w + 2(R_n − w/α)·tan(α/2)     (BEND-01)
//
// Where it comes out at or under w no rib is left: no such chain exists.
func Pitch(rn, w, alpha float64) float64 {
	return w + 2*(rn-w/alpha)*math.Tan(alpha/2)
}

// atLeast rounds a count up; a hair over a whole number (from rounding) is
// that number.
func atLeast(x float64) int { return int(math.Ceil(x - 1e-9)) }
