package bend

// Layer is one veneer of the sheet, from the show face inwards: its thickness,
// mm, and its modulus along the bend, MPa.
type Layer struct{ Thick, E float64 }

// Spec is a kerfed bend to be planned. Lengths in mm, angles in rad.
type Spec struct {
	Thick  float64 // of the sheet, as measured
	Skin   float64 // left under a kerf, h
	Kerf   float64 // width of the slot, w, as measured
	KerfSD float64 // its standard deviation
	Radius float64 // of the uncut outer face, Ro
	Angle  float64 // total, θ
	Width  float64 // of the strip, b
	Count  int     // N; 0: the fewest kerfs that satisfy the limits
	Layers []Layer // of the sheet from the show face; nil: homogeneous
	// GrainAlong tells that the face grain runs round the bend (across the
	// kerfs).
	GrainAlong bool
	LeastRib   float64
	LeastMouth float64
	// FaceVeneer is the thickness of the show veneer, for the facet limit; 0:
	// the first of Layers, if there are any.
	FaceVeneer float64
	// Sanding is what is sanded off the show face after bending; 0:
	// SandingAllowance.
	Sanding float64
	// Soaked tells that the skin is bent soaked in hot water, not dry.
	Soaked bool
	// SkinSD is the standard deviation of the skin as it will be cut; 0: not
	// known, and then not judged. See SkinSpread.
	SkinSD float64
	// BetaLow and BetaHigh bound the hinge's length w + β·h, once a test strip
	// has narrowed them; both 0: from 0 to 2, or to what was
	// computed for thin skins of plywood (doc.go).
	BetaLow, BetaHigh float64
	// Outside tells that the kerfs are on the convex face: the skin then is the
	// inside of the bend, Radius is that of the circle through the middles of the
	// ribs' tips, and Layers count from the uncut, inner face. See doc.go.
	Outside bool
	// FloorRise is how much thicker than Skin the middle of a kerf's floor is, as
	// the teeth are ground (function FloorRise); it stiffens the skin a little.
	FloorRise float64
}

// Plan is a kerfed bend, planned. Positions are measured along the strip from
// the tangent point where the bend starts.
type Plan struct {
	Spec        Spec
	Count       int
	Alpha       float64 // bend per kerf, rad
	NeutralY    float64 // neutral line from the outer face, y_n
	Rn          float64 // radius of the neutral line
	Pitch       float64 // s, exact for a finite number of kerfs
	Flat        float64 // N·s
	Positions   []float64
	Depth       float64 // of the kerf, from the kerfed face
	Mouth       float64 // left open, g
	Rib         float64 // s − w
	InsidePitch float64
	ClosedAt    float64 // the angle at which one kerf shuts; 0: never, it opens
	LeastCount  int     // N ≥ θ(t − y_n)/w
	TradeCount  int     // the trade's rule, for comparison
	Facet       float64 // peak to valley of the show face
	// Outer skin strain at both ends of the effective hinge length w … w + 2h.
	StrainLow, StrainHigh float64
	// Strain bands: fine up to StrainFine, stop beyond StrainStop.
	StrainFine, StrainStop float64
	RailRadius             float64 // largest convex rail that the rib tips take, a_i
	RailGap                float64 // at the edges of a rib
	Clear                  float64 // nothing is cut nearer a tangent point than this
	// StrainMid is the outer strain in the middle of the range of β, and
	// StrainInner the shortening of the skin's inner fibre at its short end.
	StrainMid, StrainInner float64
	// StrainCovered is false where the tables do not reach the skin's
	// thickness: then StrainFine and StrainStop are 0.
	StrainCovered bool
	Stiffness     float64 // of one hinge, N·mm/rad, at hinge length w
	Moment        float64 // that holds the bend, N·mm, elastic: the most that it may be
	MomentLow     float64 // the same with the longest hinge, w + β·h
	// Choice tells how Count was found.
	Choice Choice
}

// Choice tells how the number of kerfs was found.
type Choice struct {
	// How is Given (the spec said it), Easy (the fewest kerfs that every limit
	// holds at both ends of β), Likely (the fewest that hold in the middle of
	// β and nowhere reach the breaking band) or Compromise (no number holds).
	How ChoiceKind
	// Binds is the key of the verdict that kept the count from being smaller
	// or, for a compromise, from being good: "strain", "rib", "mouth", "facet".
	Binds string
}

// ChoiceKind is a way in which a count was found.
type ChoiceKind string

// The ways in which a count is found.
const (
	Given      ChoiceKind = "given"
	Easy       ChoiceKind = "easy"
	Likely     ChoiceKind = "likely"
	Compromise ChoiceKind = "compromise"
)
