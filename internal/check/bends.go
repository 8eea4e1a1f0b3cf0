package check

import (
	"fmt"

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
			if b.Stack != nil {
				out = append(out, stack(q, b, i == 0)...)
			}
			if b.Plan.Count == 0 {
				continue // not planned; the compiler has said why
			}
			governs := b.Plan.Governs()
			t := &trials{bend: b}
			for k, v := range b.Plan.Verdicts() {
				f := bendFinding(q, b, v)
				if v.Level == bend.Stop || v.Level == bend.Look {
					f.Mends = t.mends(k, v)
				}
				if v.Key == governs.Key {
					f.Text = append(f.Text, say.F(" Of closing and strain this one governs.")...)
				}
				out = append(out, f)
			}
			if f, ok := sought(in, q, b); ok {
				out = append(out, f)
			}
			if f, ok := innerPly(in, q, b); ok {
				out = append(out, f)
			}
		}
		if f, ok := tooLong(in, q); ok {
			out = append(out, f)
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
	return work.Finding{
		ID: fmt.Sprintf("bend/%s/%s/%s", q.ID, b.Corner, v.Key), Rule: v.Rule, Verdict: verdict(v.Level),
		Title: bendTitles[v.Key] + ", " + b.Corner, Value: bendValue(b, v), Limit: trace.Const(v.Limit), Unit: v.Unit,
		Part: q.ID, Path: b.Path, Chapter: "shell", Text: bendText(b, v),
	}
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
		if p.Spec.Outside {
			return say.F("With {} kerfs on the outside each turns {} and opens to {}: {}.", p.Count, say.Angle(p.Alpha, 2), say.Len(p.Mouth, 2), v.Why)
		}
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
