package bend

import "math"

// Blade is a blade in a saw, as measured. Lengths in mm.
type Blade struct {
	Name         string
	Kerf, KerfSD float64
	DepthSD      float64 // of a set depth
	ShowFace     bool    // the depth is gauged from the show face, on the bed
	FloorRise    float64 // of an M-shaped floor, see FloorRise
	Deepest      float64 // cut; 0: not known
	Longest      float64 // cut, across the strip; 0: not known
}

// Tried is one blade with one skin, planned at its best.
type Tried struct {
	Blade Blade
	Plan  Plan
	Worst Level
	// Key names the verdict that is worst.
	Key string
}

// Fits reports whether nothing says stop and everything is covered.
func (t Tried) Fits() bool { return t.Plan.Count > 0 && (t.Worst == Fine || t.Worst == Look) }

// Sought is what Seek found.
type Sought struct {
	// Best is the best of all that was tried: the mildest worst verdict, then the
	// fewest bad ones, then the widest margin.
	Best Tried
	// ByBlade has the best of each blade that can make the cut, in their order.
	ByBlade []Tried
	// TooShort are blades that cannot reach across the strip or to the depth.
	TooShort []Blade
	// Binds is the verdict that keeps Best from fitting; its Key is "" where
	// Best fits.
	Binds Verdict
	// MostCount is the largest number of kerfs that leaves the least rib, with
	// the best's blade and skin.
	MostCount int
	// Radius is the nearest larger radius at which some blade and skin of the
	// shop fits, mm, and AtRadius that bend; 0: none up to a hundred times.
	Radius   float64
	AtRadius Tried
	// Kerf is the width nearest to the best blade's, in steps of 0.2 mm, that would fit at the radius
	// that was asked for, and AtKerf that bend; 0: none from 0.8 to 12 mm.
	Kerf   float64
	AtKerf Tried
}

// Seek tries every blade with every skin from the face veneer on (without
// layers: from 0.6 mm on), as many kerfs as are best. A count in the spec is
// kept: then that many are tried. thickSD is the spread of the sheet's
// thickness, mm. Where nothing fits it looks for the nearest radius and the
// nearest blade that would. The error is a *SpecError.
func Seek(s Spec, blades []Blade, thickSD float64) (Sought, error) {
	if err := s.check(); err != nil {
		return Sought{}, err
	}
	var out Sought
	var able []Blade
	for _, b := range blades {
		if !b.reaches(s) {
			out.TooShort = append(out.TooShort, b)
			continue
		}
		able = append(able, b)
		if t := best(s, []Blade{b}, thickSD, s.skins()); t.Plan.Count > 0 {
			out.ByBlade = append(out.ByBlade, t)
			out.Best = better(out.Best, t)
		}
	}
	if out.Best.Plan.Count > 0 {
		out.MostCount = out.Best.Plan.Spec.MostCount()
	}
	if out.Best.Fits() || len(able) == 0 {
		return out, nil
	}
	out.Binds = binding(out.Best.Plan)
	free := s
	free.Count = 0 // with a count that was asked for, nothing may help: let it go
	out.Radius, out.AtRadius = nearestRadius(free, able, thickSD)
	out.Kerf, out.AtKerf = nearestKerf(free, able, out.Best, thickSD)
	return out, nil
}

// reaches reports whether the blade can make the cut at all.
func (b Blade) reaches(s Spec) bool {
	return !(b.Deepest > 0 && b.Deepest < s.Thick-s.Skin || b.Longest > 0 && b.Longest < s.Width)
}

// with returns the spec as the blade cuts it, leaving the skin.
func (b Blade) with(s Spec, skin, thickSD float64) Spec {
	s.Kerf, s.KerfSD, s.Skin, s.FloorRise = b.Kerf, b.KerfSD, skin, b.FloorRise
	s.SkinSD = SkinSpread(thickSD, b.DepthSD, !b.ShowFace)
	return s
}

// coarse keeps the spec's own skin and every second of the others: enough to
// find a radius or a blade by.
func coarse(skins []float64) []float64 {
	out := skins[:1:1]
	for i := 1; i < len(skins); i += 2 {
		out = append(out, skins[i])
	}
	return out
}

// skins are what may be left: the spec's own first, then from the face veneer
// to the middle of the crossband behind it.
func (s Spec) skins() []float64 {
	from, to := 0.6, math.Min(3.2, s.Thick/3)
	if v := s.faceVeneer(); v > 0 {
		from, to = math.Max(v, thinnestSkin), v+0.7
		if len(s.Layers) > 1 {
			to = v + s.Layers[1].Thick/2
		}
	}
	out := []float64{s.Skin}
	for k := math.Ceil(from*10 - 1e-9); k/10 <= to+1e-9; k++ {
		if h := k / 10; math.Abs(h-s.Skin) > 1e-9 && h < s.Thick {
			out = append(out, h)
		}
	}
	return out
}

// best is the best of all blades with all skins; without a plan where none can
// be planned.
func best(s Spec, blades []Blade, thickSD float64, skins []float64) Tried {
	var out Tried
	for _, b := range blades {
		for _, h := range skins {
			if p, err := New(b.with(s, h, thickSD)); err == nil {
				out = better(out, judged(b, p))
			}
		}
	}
	return out
}

func judged(b Blade, p Plan) Tried {
	t := Tried{Blade: b, Plan: p, Worst: Fine}
	for _, v := range p.Verdicts() {
		if rank(v.Level) < rank(t.Worst) {
			t.Worst, t.Key = v.Level, v.Key
		}
	}
	return t
}

// better is the better of two, the first of equals.
func better(a, b Tried) Tried {
	if a.Plan.Count == 0 || b.Plan.Count > 0 && less(b, a) {
		return b
	}
	return a
}

func less(a, b Tried) bool {
	if ra, rb := rank(a.Worst), rank(b.Worst); ra != rb {
		return ra > rb
	}
	na, nb := a.Plan.bad(), b.Plan.bad()
	if na != nb {
		return na < nb
	}
	return worst(a.Plan.likely()).by < worst(b.Plan.likely()).by-1e-6
}

// bad counts verdicts, a stop for a hundred.
func (p Plan) bad() int {
	n := 0
	for _, v := range p.Verdicts() {
		n += [...]int{100, 10, 1, 0}[rank(v.Level)]
	}
	return n
}

// binding is the gravest verdict of a plan; of equals, closing before strain
// before the others, as they stand in their list.
func binding(p Plan) Verdict {
	vs := p.Verdicts()
	out := vs[0]
	for _, v := range vs[1:] {
		if rank(v.Level) < rank(out.Level) {
			out = v
		}
	}
	if g := p.Governs(); out.Key == KeyMouth || out.Key == KeyStrain {
		return g
	}
	return out
}

// nearestRadius is the least radius over the spec's, to a millimetre, at which
// something fits.
func nearestRadius(s Spec, blades []Blade, thickSD float64) (float64, Tried) {
	skins := coarse(s.skins())
	at := func(r float64) Tried { s.Radius = r; return best(s, blades, thickSD, skins) }
	lo := math.Ceil(s.Radius)
	step, hi := 1.0, lo
	most := 100 * s.Radius
	for {
		hi = lo + step
		if hi > most {
			return 0, Tried{}
		}
		if at(hi).Fits() {
			break
		}
		lo, step = hi, 2*step
	}
	for hi-lo > 1.5 {
		if mid := math.Floor((lo + hi) / 2); at(mid).Fits() {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi, at(hi)
}

// nearestKerf is the width nearest to the best blade's at which that blade's
// saw would fit.
func nearestKerf(s Spec, blades []Blade, from Tried, thickSD float64) (float64, Tried) {
	b := from.Blade
	if from.Plan.Count == 0 {
		b = blades[0]
	}
	was, skins := b.Kerf, coarse(s.skins())
	for k := 1; k <= 60; k++ {
		for _, w := range []float64{was + float64(k)/5, was - float64(k)/5} {
			w = math.Round(w*10) / 10
			if w < 0.8 || w > 12 {
				continue
			}
			b.Kerf = w
			if t := best(s, []Blade{b}, thickSD, skins); t.Fits() {
				return w, t
			}
		}
	}
	return 0, Tried{}
}
