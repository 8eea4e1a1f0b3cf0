package bend

import "math"

// mostKerfs returns the largest count that leaves a rib between two kerfs:
// with fewer than θ·R_n/w the hinges' radius w/α is under R_n.
func (s Spec) mostKerfs() int {
	rn := s.neutralRadius(Neutral(s.Layers, s.Skin))
	n := int(math.Ceil(s.Angle*rn/s.Kerf)) - 1
	return min(max(n, 0), mostKerfs)
}

// fewest returns the smallest count that turns each hinge by at most 45°.
func (s Spec) fewest() int { return max(1, atLeast(s.Angle/(math.Pi/4))) }

// choose takes the fewest kerfs of the best class that has any: Easy, Likely,
// else the compromise with the least excess over its worst limit.
func (s Spec) choose() (Plan, error) {
	first, last := s.fewest(), s.mostKerfs()
	if first > last {
		return Plan{}, &SpecError{"Radius", s.Radius, "a radius that leaves ribs between the kerfs"}
	}
	for _, class := range []struct {
		how   ChoiceKind
		holds func(Plan) []excess
	}{{Easy, Plan.easy}, {Likely, Plan.likely}} {
		binds := ""
		for n := first; n <= last; n++ {
			over := worst(class.holds(s.sized(n)))
			if over.by <= 1 {
				p := s.with(n)
				p.Choice = Choice{How: class.how, Binds: binds}
				return p, nil
			}
			binds = over.key
		}
	}
	return s.compromise(first, last), nil
}

// compromise returns the count whose worst excess is least; the fewest of
// equals.
func (s Spec) compromise(first, last int) Plan {
	best, binds, least := first, "", math.Inf(1)
	for n := first; n <= last; n++ {
		if over := worst(s.sized(n).likely()); over.by < least-1e-9 {
			best, binds, least = n, over.key, over.by
		}
	}
	p := s.with(best)
	p.Choice = Choice{How: Compromise, Binds: binds}
	return p
}

// excess is how far a value is over its limit, as a ratio: 1 just holds.
type excess struct {
	key string
	by  float64
}

func worst(list []excess) excess {
	w := list[0]
	for _, e := range list[1:] {
		if e.by > w.by {
			w = e
		}
	}
	return w
}

// easy: each limit holds, the strain at both ends of β.
func (p Plan) easy() []excess {
	return append(p.shape(), excess{KeyStrain, over(p.StrainHigh, p.strainLimit(p.StrainFine))})
}

// likely: each limit holds, the strain is fine in the middle of β, and nowhere
// beyond the breaking band.
func (p Plan) likely() []excess {
	return append(p.shape(),
		excess{KeyStrain, over(p.StrainMid, p.strainLimit(p.StrainFine))},
		excess{KeyStrain, over(p.StrainHigh, p.strainLimit(p.StrainStop))})
}

// strainLimit of a skin that no table covers is unknown; the choice then does
// not turn on it (the verdict says 'not covered').
func (p Plan) strainLimit(limit float64) float64 {
	if !p.StrainCovered {
		return math.Inf(1)
	}
	return limit
}

// shape lists the excesses of what a maker can measure: ribs, mouths, facets.
func (p Plan) shape() []excess {
	facet := over(p.Facet, FacetSeen)
	if v := p.Spec.faceVeneer(); v > 0 {
		facet = math.Max(facet, over(p.Facet+p.Spec.sanding(), v/3))
	}
	return []excess{
		{KeyRib, over(p.Spec.leastRib(), p.Rib)},
		{KeyMouth, mouthExcess(p)},
		{KeyFacet, facet},
	}
}

func over(value, limit float64) float64 { return value / limit }

// mouthExcess grows on through nought into negative mouths, so that a shut
// kerf is worse than a narrow one: it is what the kerf would have to be wide
// over what it is.
func mouthExcess(p Plan) float64 {
	if p.Spec.Outside {
		return 0 // it opens
	}
	need := p.Alpha*(p.Spec.Thick-p.NeutralY) + p.Spec.leastMouth()
	return need / p.Spec.Kerf
}
