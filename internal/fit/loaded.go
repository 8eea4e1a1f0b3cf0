package fit

import (
	"math"

	"rodwork/internal/geom/r2"
	"rodwork/internal/mech/bend"
	"rodwork/internal/mech/chain"
	"rodwork/internal/piece"
)

// farFlat is how much of a flat beside a bend is looked at, mm: what lies
// further off hardly bends, and carries no clamp of this bend.
const farFlat = 250.0

// mostClamps is how many places are clamped at most along one bend.
const mostClamps = 9

// Loaded is a bend under clamps on its rail or former.
type Loaded struct {
	Problem chain.Problem
	Clamped chain.Clamped
	// From is where the chain starts on the flat strip, mm from its datum end;
	// Before and After are the flats looked at.
	From, Before, After float64
	// Limit is the gap that clamps are set for, mm: a glue line, or what the rib
	// edges stand off by anyhow.
	Limit float64
	// Bend is where the bend starts and ends along the chain.
	Bend [2]float64
}

// Load pulls a bend on its former with as few clamps as bring it on. The error
// is that of chain.Solve, or says that the bend has no such former.
func Load(q *piece.Part, i int) (Loaded, error) {
	b := q.Bends[i]
	p := b.Plan
	var out Loaded
	if _, early := p.Shut(); early {
		return out, &chain.InputError{What: "no bend that its kerfs let close"}
	}
	if !kerfed(b) || p.Stiffness <= 0 || p.RailRadius <= 0 || p.Spec.Angle > math.Pi*0.99 {
		return out, &chain.InputError{What: "no kerfed bend of less than half a turn, of plies that are known"}
	}
	out.Before, out.After = flats(q, i)
	out.From = b.Start.V - out.Before
	k := chain.Kerfed{Before: out.Before, After: out.After, Positions: p.Positions, Flat: p.Flat, Kerf: p.Spec.Kerf, Alpha: p.Alpha,
		Stiff: p.Stiffness, Shut: p.ClosedAt, Stop: p.ShutStiffness(), Over: p.Spec.Thick - p.NeutralY, EI: p.Spec.Width * bend.SkinEI(p.Spec.Layers, p.Spec.Thick)}
	out.Bend = [2]float64{out.Before, out.Before + p.Flat}
	out.Limit = math.Max(bend.GlueLine, p.RailGap+0.05)
	links := k.Links()
	out.Problem = chain.Problem{Links: links, Start: chain.Bent(links, p.Alpha),
		Former: &chain.Former{Centre: r2.Vec{X: out.Before, Y: p.RailRadius + k.Over}, Radius: p.RailRadius, Angle: p.Spec.Angle},
		Clamps: ends(links)}
	c, err := chain.Place(out.Problem, out.Limit, mostClamps)
	out.Clamped = c
	return out, err
}

// flats are the straight stretches on both sides of a bend, as far as they
// matter.
func flats(q *piece.Part, i int) (before, after float64) {
	from, to := 0.0, q.Length.V
	if i > 0 {
		from = q.Bends[i-1].Start.V + q.Bends[i-1].Length.V
	}
	if i+1 < len(q.Bends) {
		to = q.Bends[i+1].Start.V
	}
	b := q.Bends[i]
	return math.Min(math.Max(b.Start.V-from, 0), farFlat), math.Min(math.Max(to-b.Start.V-b.Length.V, 0), farFlat)
}

// ends are the first clamps: on each flat one beside the bend and one far off,
// the couple that holds the bend's moment.
func ends(links []chain.Link) []int {
	first, last := 0, len(links)-1
	for first < last && !links[first+1].Rib {
		first++
	}
	for last > first && !links[last].Rib {
		last--
	}
	out := []int{0}
	for _, k := range []int{max(first-1, 0), min(last+1, len(links)-1), len(links) - 1} {
		if k != out[len(out)-1] {
			out = append(out, k)
		}
	}
	return out
}
