package bend

import "math"

// Stack is a bend of equal plies, glued to each other on a former; one ply alone
// is a sheet that is bent cold and held. Lengths in mm, angles in rad.
type Stack struct {
	Ply    float64 // thickness of one, as measured
	Count  int     // n
	Radius float64 // of the outer face, as it shall be in the end
	Angle  float64
	Width  float64 // across the bend
	Length float64 // of the whole strip: glue goes on all of it
	E      float64 // modulus of one ply along the bend, MPa; 0: not known
	// GrainAlong tells that the plies' face grain runs round the bend, Soaked
	// that they are bent soaked, and dried on the former before the glue.
	GrainAlong, Soaked bool
	// OpenTime of the glue and SpreadTime for one mm² of glue line, both in s; 0:
	// not known.
	OpenTime, SpreadTime float64
}

// StackPlan is a Stack, worked out.
type StackPlan struct {
	Stack Stack
	Thick float64 // of all plies
	Mid   float64 // radius at mid-thickness, as wanted
	Flat  float64 // length of the bend at mid-thickness
	Inner float64 // radius of the inner face, as wanted
	// Lost is the share of curvature that is given back, 1/n².
	Lost float64
	// FormerRadius is that of a former inside the bend, FormerAngle its angle;
	// both allow for what is given back. Of a cold bend they are as wanted.
	FormerRadius, FormerAngle float64
	GlueLines                 int
	GlueArea                  float64 // mm², all lines
	GlueTime                  float64 // s, to spread it
	// Least is the recommended radius of one ply to its inner face, Breaks the
	// one at BreakFactor times its strain; Covered is false where no table
	// reaches a ply of this thickness.
	Least, Breaks float64
	Covered       bool
	// Moment holds all plies on the former, N·mm, each bent for itself; 0 where
	// the modulus is not known.
	Moment float64
}

// The keys of the verdicts on a stack.
const (
	KeyPly  = "ply"
	KeyOpen = "open time"
	KeyHold = "hold"
)

// NewStack works a stack out. The error is a *SpecError.
func NewStack(s Stack) (StackPlan, error) {
	for _, f := range []struct {
		name      string
		v, lo, hi float64
		want      string
	}{
		{"Ply", s.Ply, 0.1, 50, "0.1 to 50 mm"},
		{"Count", float64(s.Count), 1, 50, "1 to 50 plies"},
		{"Radius", s.Radius, 1, 1e5, "1 mm to 100 m"},
		{"Angle", s.Angle, 0.01, 2*math.Pi + 1e-9, "0.01 rad to a full turn"},
		{"Width", s.Width, 0, 1e5, "0 to 100 m"},
		{"Length", s.Length, 0, 1e5, "0 to 100 m"},
		{"E", s.E, 0, 1e6, "0 (not known) to a million MPa"},
		{"OpenTime", s.OpenTime, 0, 1e6, "0 (not known) or seconds"},
		{"SpreadTime", s.SpreadTime, 0, 1e6, "0 (not known) or seconds"},
	} {
		if !(f.v >= f.lo && f.v <= f.hi) { // also NaN
			return StackPlan{}, &SpecError{f.name, f.v, f.want}
		}
	}
	p := StackPlan{Stack: s, Thick: s.Ply * float64(s.Count)}
	if s.Radius <= p.Thick {
		return StackPlan{}, &SpecError{"Radius", s.Radius, "more than all plies are thick"}
	}
	n := float64(s.Count)
	p.Mid, p.Inner = s.Radius-p.Thick/2, s.Radius-p.Thick
	p.Flat = s.Angle * p.Mid
	p.Lost = 1 / (n * n)
	keep := 1 - p.Lost
	p.FormerRadius, p.FormerAngle = p.Inner, s.Angle
	if s.Count > 1 {
		p.FormerRadius, p.FormerAngle = p.Mid*keep-p.Thick/2, s.Angle/keep
		if p.FormerRadius < 1 {
			return StackPlan{}, &SpecError{"Count", n, "more, thinner plies: with so few the former would have no radius left"}
		}
	}
	p.GlueLines = s.Count - 1
	p.GlueArea = float64(p.GlueLines) * s.Width * math.Max(s.Length, p.Flat)
	p.GlueTime = p.GlueArea * s.SpreadTime
	p.Least, p.Covered = MinRadius(s.Ply, s.GrainAlong, s.Soaked)
	if p.Covered {
		_, stop, _ := Allowed(s.Ply, s.GrainAlong, s.Soaked)
		p.Breaks = s.Ply/2/stop - s.Ply/2
	}
	p.Moment = n * s.Width * s.E * s.Ply * s.Ply * s.Ply / 12 / (p.FormerRadius + p.Thick/2)
	return p, nil
}

// Verdicts judges the stack: the ply on the former, the glue's open time where
// both its numbers are known, and for one ply alone, that it must be held.
func (p StackPlan) Verdicts() []Verdict {
	out := []Verdict{p.ply()}
	s := p.Stack
	if p.GlueLines > 0 && s.OpenTime > 0 && s.SpreadTime > 0 {
		v := Verdict{Key: KeyOpen, Rule: "BEND-23", Level: Fine, Unit: "s", Value: p.GlueTime, Limit: s.OpenTime / 2,
			Why: "half of the glue's open time is left for bending and clamping"}
		switch {
		case p.GlueTime > s.OpenTime:
			v.Level, v.Limit, v.Why = Stop, s.OpenTime, "the first line has skinned over before the last is spread"
		case p.GlueTime > s.OpenTime/2:
			v.Level, v.Why = Look, "little of the open time is left for bending and clamping: more hands, a roller, or a slower glue"
		}
		out = append(out, certain(v))
	}
	if s.Count == 1 {
		out = append(out, certain(Verdict{Key: KeyHold, Rule: "BEND-24", Level: Look, Unit: "N·mm", Value: p.Moment,
			Why: "a sheet that is bent cold gives all back: it must be fixed along its whole bend, and pulls there for good"}))
	}
	return out
}

// ply judges one ply at the tightest place, on the former.
func (p StackPlan) ply() Verdict {
	v := Verdict{Key: KeyPly, Rule: "BEND-07", Unit: "mm", AtLeast: true, Value: p.FormerRadius, Limit: p.Least}
	switch {
	case !p.Covered && p.Stack.Ply < thinnestPly && p.FormerRadius >= p.thinnestNeeds():
		v.Level, v.Limit, v.Why = Fine, p.thinnestNeeds(), "thinner than the thinnest sheet in the table, and bent no tighter than that one may be"
	case !p.Covered:
		v.Level, v.Why = NotCovered, "no published radius reaches a ply of this thickness: only a test tells"
	case p.FormerRadius >= p.Least:
		v.Level, v.Why = Fine, "within the radii recommended for plywood of this thickness"
	case p.FormerRadius >= p.Breaks:
		v.Level, v.Why = Look, "tighter than recommended, short of the radius reported to break: bend one ply first, or soak them"
	default:
		v.Level, v.Limit, v.Why = Stop, p.Breaks, "tighter than the radius reported to break"
	}
	return certain(v)
}

// thinnestNeeds is the recommended radius of the thinnest sheet in the table.
func (p StackPlan) thinnestNeeds() float64 {
	r, _ := MinRadius(thinnestPly, p.Stack.GrainAlong, p.Stack.Soaked)
	return r
}

// LeastOutside returns the least outside radius, mm, to which the stack may be
// bent with every ply at its recommended radius on the former; ok is false
// where no table reaches its ply.
func (p StackPlan) LeastOutside() (float64, bool) {
	if !p.Covered {
		return 0, false
	}
	if p.Stack.Count == 1 {
		return p.Least + p.Thick, true
	}
	return (p.Least+p.Thick/2)/(1-p.Lost) + p.Thick/2, true
}
