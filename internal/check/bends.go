package check

import (
	"fmt"
	"math"

	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// bends holds the plan of each bend against its limits.
func bends(in Input) []work.Finding {
	var out []work.Finding
	for _, q := range in.Piece.Parts {
		for i := range q.Bends {
			b := &q.Bends[i]
			if b.Plan.Count == 0 {
				continue // not planned; the compiler has said why
			}
			governs := b.Plan.Governs()
			for _, v := range b.Plan.Verdicts() {
				f := bendFinding(q, b, v)
				if v.Key == governs.Key {
					f.Text = append(f.Text, say.F(" Of closing and strain this one governs.")...)
				}
				out = append(out, f)
			}
		}
	}
	return out
}

// bendTitles names the verdicts.
var bendTitles = map[string]string{
	bend.KeyMouth: "kerfs stay open", bend.KeyStrain: "strain of the skin", bend.KeyFacet: "flats on the show face",
	bend.KeyRib: "ribs", bend.KeyRail: "ribs on the rail", bend.KeySkin: "spread of the skin",
}

func bendFinding(q *piece.Part, b *piece.Bend, v bend.Verdict) work.Finding {
	f := work.Finding{
		ID: fmt.Sprintf("bend/%s/%s/%s", q.ID, b.Corner, v.Key), Rule: v.Rule, Verdict: verdict(v.Level),
		Title: bendTitles[v.Key] + ", " + b.Corner, Value: bendValue(b, v), Limit: trace.Const(v.Limit), Unit: v.Unit,
		Part: q.ID, Path: b.Path, Chapter: "shell", Text: bendText(b, v),
	}
	if v.Level == bend.Stop || v.Level == bend.Look {
		f.Mends = bendMends(b, v)
	}
	return f
}

func verdict(l bend.Level) work.Verdict {
	switch l {
	case bend.Stop:
		return work.Stop
	case bend.Look:
		return work.Look
	case bend.Fine:
		return work.Fine
	}
	return work.NotCovered
}

// bendValue is the verdict's value with where it comes from.
func bendValue(b *piece.Bend, v bend.Verdict) trace.Num {
	n := trace.Const(v.Value)
	switch v.Key {
	case bend.KeyMouth:
		n = b.Mouth
	case bend.KeyStrain:
		n = b.StrainHigh
	case bend.KeyFacet:
		n = b.Facet
	case bend.KeyRib:
		n = b.Rib
	case bend.KeyRail:
		n = b.RailGap
	}
	return n.Plus(v.Value - n.V)
}

func bendText(b *piece.Bend, v bend.Verdict) say.Sentence {
	p := b.Plan
	switch v.Key {
	case bend.KeyMouth:
		return say.F("With {} kerfs each turns {} and is left {} open; {} at least is wanted: {}.",
			p.Count, say.Angle(p.Alpha, 2), say.Len(p.Mouth, 2), say.Len(v.Limit, 2), v.Why)
	case bend.KeyStrain:
		if v.Level == bend.NotCovered {
			return say.F("The skin is stretched by {} to {}: {}.", say.Percent(v.Low, 2), say.Percent(v.High, 2), v.Why)
		}
		return say.F("The skin is stretched by {} to {}, as the hinge is longer or shorter; fine up to {}, stop beyond {}: {}.",
			say.Percent(v.Low, 2), say.Percent(v.High, 2), say.Percent(p.StrainFine, 2), say.Percent(p.StrainStop, 2), v.Why)
	case bend.KeyFacet:
		return say.F("The show face is {} from peak to valley; the limit is {}: {}.", say.Len(v.Value, 3), say.Len(v.Limit, 3), v.Why)
	case bend.KeyRib:
		return say.F("The ribs are {} wide; {} at least is wanted: {}.", say.Len(v.Value, 2), say.Len(v.Limit, 1), v.Why)
	case bend.KeyRail:
		return say.F("On the rail the edges of a rib stand off by {}; a glue line bridges {}: {}.", say.Len(v.Value, 3), say.Len(v.Limit, 2), v.Why)
	}
	return say.F("The skin may come out at {}; {} is wanted: {}.", say.Len(v.Value, 2), say.Len(v.Limit, 2), v.Why)
}

// badness orders levels, the worst last.
func badness(l bend.Level) int {
	switch l {
	case bend.Fine:
		return 0
	case bend.Look:
		return 1
	case bend.NotCovered:
		return 2
	}
	return 3
}

// bendMends plans the bend anew with other kerfs, another radius, another skin,
// and offers the nearest change by which this verdict becomes fine, or at least
// better, and no other becomes worse.
func bendMends(b *piece.Bend, v bend.Verdict) []work.Mend {
	var out []work.Mend
	if n, ok := mendCount(b, v); ok {
		out = append(out, work.Mend{Text: say.F("cut {} kerfs instead of {}", n, b.Plan.Count), Path: "body.bend.kerfs", New: fmt.Sprint(n)})
	}
	if r, ok := mendStep(b, v, b.Radius.V, 5, 60, func(s *bend.Spec, x float64) { s.Radius = x }); ok {
		out = append(out, work.Mend{Text: say.F("turn the corner at {}", say.Len(r, 0)), Path: b.Path + ".radius", New: fmt.Sprintf("%.0f mm", r)})
	}
	least := math.Max(b.Plan.Spec.FaceVeneer, 0.3)
	for _, step := range []float64{-0.1, 0.1} {
		h, ok := mendStep(b, v, b.Plan.Spec.Skin, step, 20, func(s *bend.Spec, x float64) { s.Skin = x })
		if ok && h >= least {
			out = append(out, work.Mend{Text: say.F("leave a skin of {}", say.Len(h, 1)), Path: "body.bend.skin", New: fmt.Sprintf("%.1f mm", h)})
		}
	}
	if v.Key == bend.KeyStrain {
		out = append(out, work.Mend{Text: say.F("bend a test strip of this batch, cut with this blade, and log what it does")})
	}
	return out
}

// mendCount looks for the number of kerfs nearest to the planned one.
func mendCount(b *piece.Bend, v bend.Verdict) (int, bool) {
	x, ok := mendWith(b, v, func(k int) (float64, func(*bend.Spec)) {
		d := (k + 1) / 2
		if k%2 == 0 {
			d = -d
		}
		n := b.Plan.Count + d
		return float64(n), func(s *bend.Spec) { s.Count = n }
	}, 60)
	return int(x), ok && x > 0
}

// mendStep looks along one value of the spec, in whole steps away from what it
// is; the count is chosen anew as it was first chosen.
func mendStep(b *piece.Bend, v bend.Verdict, from, step float64, most int, set func(*bend.Spec, float64)) (float64, bool) {
	grid := math.Abs(step)
	return mendWith(b, v, func(k int) (float64, func(*bend.Spec)) {
		x := math.Round(from/grid)*grid + step*float64(k)
		return x, func(s *bend.Spec) { set(s, x); s.Count = countFor(b, s.Count) }
	}, most)
}

// countFor keeps a count that the maker gave and lets the planner choose one
// that it chose.
func countFor(b *piece.Bend, given int) int {
	if b.Plan.Choice.How == bend.Given {
		return given
	}
	return 0
}

// mendWith tries candidate after candidate, the first being number 1, and
// returns the first that makes the verdict fine, else the first that makes it
// better; none may make another verdict worse.
func mendWith(b *piece.Bend, v bend.Verdict, candidate func(int) (float64, func(*bend.Spec)), most int) (float64, bool) {
	was := levels(b.Plan)
	best, found := 0.0, false
	for k := 1; k <= most; k++ {
		x, set := candidate(k)
		if x <= 0 {
			continue
		}
		s := b.Plan.Spec
		s.Count = b.Plan.Count
		set(&s)
		p, err := bend.New(s)
		if err != nil {
			continue
		}
		now := levels(p)
		if worse(was, now) || now[v.Key] >= was[v.Key] {
			continue
		}
		if now[v.Key] == 0 {
			return x, true
		}
		if !found {
			best, found = x, true
		}
	}
	return best, found
}

func levels(p bend.Plan) map[string]int {
	m := map[string]int{}
	for _, v := range p.Verdicts() {
		m[v.Key] = badness(v.Level)
	}
	return m
}

func worse(was, now map[string]int) bool {
	for key, l := range now {
		if l > was[key] {
			return true
		}
	}
	return false
}
