package bend

import (
	"math"

	"rodwork/internal/geom/r2"
)

// Strip is what is known of a kerfed strip when it lies on the bench: where
// the kerfs are, how wide and deep, and how far each is turned. It carries no
// radius and no pitch: Fold finds out what comes of it.
type Strip struct {
	Positions []float64 // kerf centres from one end, rising, mm
	Length    float64   // of the strip laid flat, mm
	Kerf      float64   // mm
	Thick     float64   // mm
	NeutralY  float64   // neutral line of the skin from the outer face, mm (with kerfs outside, from the kerfed one)
	Alpha     float64   // turn at each kerf, rad
}

// Strip returns the plan as it lies on the bench, with straight flats of the
// given lengths (mm) before and after the bend.
func (p Plan) Strip(before, after float64) Strip {
	s := Strip{Length: before + p.Flat + after, Kerf: p.Spec.Kerf, Thick: p.Spec.Thick,
		NeutralY: p.NeutralY, Alpha: p.Alpha}
	if p.Spec.Outside {
		s.NeutralY = p.Spec.Thick - p.NeutralY
	}
	for _, x := range p.Positions {
		s.Positions = append(s.Positions, before+x)
	}
	return s
}

// Rib is a stretch between two kerfs (or a flat before the first or after the
// last), as a rectangle in its folded place.
type Rib struct {
	// OuterA to OuterB is its show face along the strip; InnerA, InnerB stand
	// behind them on the kerfed face.
	OuterA, OuterB, InnerA, InnerB r2.Vec
	Turned                         float64 // rad, from the first flat
}

// Folded is a strip after folding. It starts at the origin along +x, show face
// down (at y = −NeutralY), and turns to the left.
type Folded struct {
	Ribs []Rib
	End  r2.Vec // of the neutral line
	// Angle is the direction of the last flat against the first, rad.
	Angle float64
	// Radius is the mean distance of the show face's rib middles from the
	// centre that the two end flats define, RadiusLow and RadiusHigh the least
	// and largest. The ends' own flats are left out.
	Radius, RadiusLow, RadiusHigh float64
	Centre                        r2.Vec
	// Width and Height are how far the show face reaches from the point where
	// the bend starts, along the first flat and square to it.
	Width, Height float64
	// Peak is how far the show face stands over the rib middles' circle at the
	// kerfs, at most.
	Peak float64
	// Mouths is the least distance between the inner edges of two neighbouring
	// ribs, negative where they overlap.
	Mouth float64
}

// foldSteps is the number of chords that a hinge is walked in. It is walked as
// short straight steps, not by an arc's formula, so that the proof shares no
// mathematics with the plan; 200 midpoint steps of a turn of 45° keep the end
// within w·α²/(24·200²), 2e-6 mm for a 3 mm kerf.
const foldSteps = 200

// Fold walks the strip from end to end: rigid ribs, hinges that turn evenly
// over the width of the kerf at the neutral line. It uses nothing of the plan's
// formulas. start and end are the places along the flat strip where the bend
// is meant to begin and end: the tangent points.
func Fold(s Strip, start, end float64) Folded {
	w := walker{}
	var f Folded
	at := 0.0
	for _, x := range s.Positions {
		f.Ribs = append(f.Ribs, w.rib(x-s.Kerf/2-at, s))
		w.hinge(s.Kerf, s.Alpha)
		at = x + s.Kerf/2
	}
	f.Ribs = append(f.Ribs, w.rib(s.Length-at, s))
	f.End, f.Angle = w.at, w.dir
	f.measure(s, start, end)
	return f
}

// walker goes along the neutral line.
type walker struct {
	at  r2.Vec
	dir float64
}

func (w *walker) rib(length float64, s Strip) Rib {
	along := r2.Vec{X: 1}.Turn(w.dir)
	off := func(p r2.Vec, d float64) r2.Vec { return p.Add(along.Left().Mul(d)) }
	a := w.at
	w.at = a.Add(along.Mul(length))
	return Rib{
		OuterA: off(a, -s.NeutralY), OuterB: off(w.at, -s.NeutralY),
		InnerA: off(a, s.Thick-s.NeutralY), InnerB: off(w.at, s.Thick-s.NeutralY),
		Turned: w.dir,
	}
}

func (w *walker) hinge(length, turn float64) {
	for range foldSteps {
		w.dir += turn / foldSteps / 2
		w.at = w.at.Add(r2.Vec{X: length / foldSteps}.Turn(w.dir))
		w.dir += turn / foldSteps / 2
	}
}

// measure takes a rule to the folded strip.
func (f *Folded) measure(s Strip, start, end float64) {
	first, last := f.Ribs[0], f.Ribs[len(f.Ribs)-1]
	a := along(first, start)                      // show face where the bend starts
	b := along(last, end-(s.Length-length(last))) // and where it ends
	f.Width = b.X - a.X                           // to the last flat's tangent point
	f.Height = b.Y - a.Y                          //
	f.Centre = normalsMeet(a, first.Turned, b, last.Turned)
	if math.Abs(f.Angle-2*math.Pi) < 1e-6 && len(f.Ribs) > 4 {
		// A ring's ends look along one line: take a rib a third of the way round.
		r := f.Ribs[len(f.Ribs)/3]
		f.Centre = normalsMeet(a, first.Turned, middle(r), r.Turned)
	}
	f.Mouth = math.Inf(1)
	for i := 1; i < len(f.Ribs); i++ {
		p, q := f.Ribs[i-1], f.Ribs[i]
		across := r2.Vec{X: 1}.Turn((p.Turned + q.Turned) / 2)
		f.Mouth = math.Min(f.Mouth, q.InnerA.Sub(p.InnerB).Dot(across))
	}
	f.radii(a, b)
}

func (f *Folded) radii(a, b r2.Vec) {
	f.RadiusLow, f.RadiusHigh = math.Inf(1), 0
	take := func(p r2.Vec) {
		r := p.Sub(f.Centre).Len()
		f.RadiusLow, f.RadiusHigh = math.Min(f.RadiusLow, r), math.Max(f.RadiusHigh, r)
		f.Radius += r
	}
	take(a)
	take(b)
	for _, r := range f.Ribs[1 : len(f.Ribs)-1] {
		take(middle(r))
	}
	f.Radius /= float64(len(f.Ribs))
	for i := 1; i < len(f.Ribs); i++ {
		p, q := f.Ribs[i-1], f.Ribs[i]
		f.Peak = math.Max(f.Peak, peak(p, q).Sub(f.Centre).Len()-f.Radius)
	}
}

// peak is the middle of the show face over the hinge between two ribs: the
// arc that is tangent to both, by its chord and its sagitta.
func peak(p, q Rib) r2.Vec {
	chord := q.OuterA.Sub(p.OuterB)
	sag := chord.Len() / 2 * math.Tan((q.Turned-p.Turned)/4)
	out := r2.Vec{Y: -1}.Turn((p.Turned + q.Turned) / 2)
	return p.OuterB.Add(q.OuterA).Mul(0.5).Add(out.Mul(sag))
}

// along returns the point of a rib's show face at the distance d from its start.
func along(r Rib, d float64) r2.Vec {
	return r.OuterA.Add(r2.Vec{X: d}.Turn(r.Turned))
}

// middle is the middle of a rib's show face.
func middle(r Rib) r2.Vec { return r.OuterA.Add(r.OuterB).Mul(0.5) }

func length(r Rib) float64 { return r.OuterB.Sub(r.OuterA).Len() }

// normalsMeet returns where the line through p square to direction u meets
// that through q square to v. Where the two are parallel (a half turn) it is
// the middle of p and q.
func normalsMeet(p r2.Vec, u float64, q r2.Vec, v float64) r2.Vec {
	nu, nv := r2.Vec{Y: 1}.Turn(u), r2.Vec{Y: 1}.Turn(v)
	det := nu.Cross(nv)
	if math.Abs(det) < 1e-9 {
		return p.Add(q).Mul(0.5)
	}
	return p.Add(nu.Mul(q.Sub(p).Cross(nv) / det))
}
