package bend

// Level is how a verdict comes out.
type Level string

// The levels, worst first.
const (
	Stop       Level = "stop" // don't cut yet
	NotCovered Level = "not covered"
	Look       Level = "look" // the maker's decision
	Fine       Level = "fine"
)

// The keys of the verdicts on a bend.
const (
	KeyMouth  = "mouth"
	KeyStrain = "strain"
	KeyFacet  = "facet"
	KeyRib    = "rib"
	KeyRail   = "rail"
	KeySkin   = "skin"
)

// Verdict is what one rule says of a plan.
type Verdict struct {
	Key   string // "strain"
	Rule  string // "BEND-05"
	Level Level
	// Value is what was found, Limit what it is held against: at most, or at
	// least where AtLeast is set. Both are in Unit ("mm", "1").
	Value, Limit float64
	AtLeast      bool
	Unit         string
	// Low and High are the ends of the value's range where it is uncertain;
	// else both are Value.
	Low, High float64
	// Why says in a few words, without numbers, why the level is what it is.
	Why string
}

// Show-face facets, peak to valley: our formula at the two spacings that a
// workshop magazine (1991) reports on 3/4 in stock at a radius of 12 in. With
// kerfs 1/4 in apart the flats 'could hardly be seen', with 1/2 in they were
// noticeable. Kerf 1/8 in and skin 1/16 in are taken.
const (
	FacetUnseen = 0.0083 // mm
	FacetSeen   = 0.0497 // mm
)

// Verdicts judges the plan: mouth, strain, facet, rib, rail, and the skin where
// its spread is known. The order is fixed.
func (p Plan) Verdicts() []Verdict {
	v := []Verdict{p.mouth(), p.strain(), p.facet(), p.rib(), p.rail()}
	if p.Spec.SkinSD > 0 {
		v = append(v, p.skin())
	}
	return v
}

// Governs returns the worst verdict on closing and strain: which of the two
// sets the bend's limit. Of equals, the one nearer to its limit.
func (p Plan) Governs() Verdict {
	m, s := p.mouth(), p.strain()
	if rank(m.Level) != rank(s.Level) {
		if rank(m.Level) < rank(s.Level) {
			return m
		}
		return s
	}
	if p.StrainCovered && p.StrainHigh/p.StrainStop > mouthExcess(p) {
		return s
	}
	return m
}

func rank(l Level) int {
	for i, x := range []Level{Stop, NotCovered, Look, Fine} {
		if x == l {
			return i
		}
	}
	return 0
}

func certain(v Verdict) Verdict { v.Low, v.High = v.Value, v.Value; return v }

func (p Plan) mouth() Verdict {
	v := Verdict{Key: KeyMouth, Rule: "BEND-03", Level: Fine, Unit: "mm", AtLeast: true,
		Value: p.Mouth, Limit: p.Spec.leastMouth(), Why: "each kerf stays open"}
	switch {
	case p.Spec.Outside:
		v.Why = "kerfs on the outside open as the strip bends: nothing shuts"
	case p.Mouth < 0:
		v.Level, v.Why = Stop, "the kerfs shut before the angle is reached"
	case p.Mouth < v.Limit:
		v.Level, v.Why = Look, "the kerfs are nearly shut: fuzz, glue or a narrower kerf would hold the bend open"
	}
	return certain(v)
}

func (p Plan) strain() Verdict {
	v := Verdict{Key: KeyStrain, Rule: "BEND-05", Unit: "1", Value: p.StrainHigh,
		Low: p.StrainLow, High: p.StrainHigh}
	// The strain that plywood bears falls as it gets thicker: a skin past the
	// table that is strained more than its thickest row bears breaks all the more.
	_, thickest, _ := Allowed(thickestPly, p.Spec.GrainAlong, p.Spec.Soaked)
	switch {
	case !p.StrainCovered && p.Spec.Skin > thickestPly && p.StrainHigh > thickest:
		v.Level, v.Limit, v.Why = Stop, thickest, "thicker than any sheet with a published radius, and strained more than the thickest of them bears"
	case !p.StrainCovered:
		v.Level, v.Why = NotCovered, "no published radius reaches a skin of this thickness: only a test strip tells"
	case p.StrainHigh <= p.StrainFine:
		v.Level, v.Limit, v.Why = Fine, p.StrainFine, "within the radii recommended for plywood as thin as the skin"
	case p.StrainHigh <= p.StrainStop:
		v.Level, v.Limit, v.Why = Look, p.StrainFine, "beyond the recommended radii, short of the one reported to break: bend a test strip"
	case p.StrainLow <= p.StrainStop:
		v.Level, v.Limit, v.Why = Stop, p.StrainStop, "may reach the strain reported to break: only a test strip of this blade and batch can allow it"
	default:
		v.Level, v.Limit, v.Why = Stop, p.StrainStop, "beyond the strain reported to break, however long the hinge is"
	}
	return v
}

func (p Plan) facet() Verdict {
	v := Verdict{Key: KeyFacet, Rule: "BEND-06", Level: Fine, Unit: "mm",
		Value: p.Facet, Limit: FacetUnseen, Why: "flats that were hardly seen in print"}
	switch {
	case p.Facet > FacetSeen:
		v.Level, v.Limit, v.Why = Look, FacetSeen, "flats that will be noticed"
	case p.Facet > FacetUnseen:
		v.Level, v.Why = Look, "flats between those hardly seen and those noticed: look along the test strip"
	}
	if t := p.Spec.faceVeneer(); t > 0 && p.Facet+p.Spec.sanding() > t/3 {
		v.Level, v.Value, v.Limit = Stop, p.Facet+p.Spec.sanding(), t/3
		v.Why = "levelling the flats would sand through a third of the face veneer"
	}
	return certain(v)
}

func (p Plan) rib() Verdict {
	v := Verdict{Key: KeyRib, Rule: "BEND-08", Level: Fine, Unit: "mm", AtLeast: true,
		Value: p.Rib, Limit: p.Spec.leastRib(), Why: "ribs wide enough to stand the saw"}
	switch {
	case p.Rib < v.Limit/2-1e-9:
		v.Level, v.Why = Stop, "ribs so narrow that hardly one stays whole at the saw"
	case p.Rib < v.Limit-1e-9:
		v.Level, v.Why = Look, "ribs so narrow that they may break off at the saw or under a clamp"
	}
	return certain(v)
}

// rail judges how the inside meets a rail: the tips' edges stand off by less
// than a PVA glue line bridges, or more.
func (p Plan) rail() Verdict {
	v := Verdict{Key: KeyRail, Rule: "BEND-09", Level: Fine, Unit: "mm",
		Value: p.RailGap, Limit: GlueLine, Why: "rib tips within a glue line of the rail"}
	if p.RailGap > GlueLine {
		v.Level, v.Why = Look, "rib edges stand off the rail by more than a glue line: glue holds at the rib middles only"
	}
	return certain(v)
}

// GlueLine is the thickest joint that a PVA glue is trusted with, mm (from
// memory of glue makers' advice: 0.05 to 0.15 mm).
const GlueLine = 0.15

func (p Plan) skin() Verdict {
	least := p.Spec.Skin - 3*p.Spec.SkinSD
	v := Verdict{Key: KeySkin, Rule: "BEND-10", Level: Fine, Unit: "mm", AtLeast: true, Value: least,
		Low: least, High: p.Spec.Skin + 3*p.Spec.SkinSD, Limit: p.Spec.faceVeneer(),
		Why: "the saw stays out of the face veneer"}
	switch {
	case least <= 0:
		v.Level, v.Why = Stop, "with this spread of thickness and depth the saw may cut through"
	case least < v.Limit:
		v.Level, v.Why = Look, "with this spread of thickness and depth the saw may enter the face veneer"
	}
	return v
}
