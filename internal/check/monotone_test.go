package check

import (
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/work"
)

// ranks orders verdicts from fine to stop.
var ranks = map[work.Verdict]int{work.Fine: 0, work.Look: 1, work.Stop: 2}

// A shelf that is longer, thinner, shallower or loaded more never comes out
// better.
func TestShelfVerdictsAreMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := rapid.Float64Range(300, 1600).Draw(rt, "span")
		d := rapid.Float64Range(150, 500).Draw(rt, "depth")
		q := rapid.Float64Range(5, 120).Draw(rt, "load")
		more := rapid.Float64Range(1, 400).Draw(rt, "more")
		says := func(in Input) int { return ranks[find(sags(in), "sag/shelf").Verdict] }
		base := says(shelfOn(l, d, q, 0))
		thin := shelfOn(l, d, q, 0)
		thin.Piece.Parts[0].Thick = n(17.7 - more/50)
		for name, in := range map[string]Input{"longer": shelfOn(l+more, d, q, 0), "heavier": shelfOn(l, d, q+more/5, 0),
			"shallower": shelfOn(l, d-more/10, q, 0), "thinner": thin} {
			if says(in) < base {
				rt.Fatalf("%s comes out better", name)
			}
		}
	})
}

// A piece that is taller, shallower or narrower with the same masses, or whose
// door or upper load is heavier, never stands better, alone or with people near.
func TestStandingVerdictsAreMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		w, h, d := rapid.Float64Range(300, 1200).Draw(rt, "w"), rapid.Float64Range(400, 1300).Draw(rt, "h"), rapid.Float64Range(240, 600).Draw(rt, "d")
		set, door := rapid.Float64Range(0, 60).Draw(rt, "set back"), rapid.Float64Range(1, 12).Draw(rt, "door")
		more := rapid.Float64Range(1, 60).Draw(rt, "more")
		says := func(in Input) [2]int {
			fs := stands(in)
			return [2]int{ranks[find(fs, "stand/alone").Verdict], ranks[find(fs, "stand/people").Verdict]}
		}
		base := says(cabinet(w, h, d, set, 25, door, 0))
		for name, in := range map[string]Input{"taller": cabinet(w, h+more, d, set, 25, door, 0), "shallower": cabinet(w, h, d-more, set, 25, door, 0),
			"heavier door": cabinet(w, h, d, set, 25, door+more/5, 0), "narrower base": cabinet(w, h, d, set+more, 25, door, 0)} {
			got := says(in)
			if got[0] < base[0] || name != "heavier door" && got[1] < base[1] {
				rt.Fatalf("%s: %v after %v", name, got, base)
			}
		}
	})
}

// What guards never worsens: more openings for air, a stay, an anchor on the
// wall instead of standing free.
func TestGuardsNeverWorsen(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		count, area, apart := rapid.IntRange(0, 6).Draw(rt, "count"), rapid.Float64Range(50, 1500).Draw(rt, "area"), rapid.Float64Range(50, 900).Draw(rt, "apart")
		says := func(v vents) int {
			f := work.Finding{Verdict: work.Fine}
			air(&f, v.count > 0, v)
			return ranks[f.Verdict]
		}
		base := says(vents{count, area, apart})
		for _, v := range []vents{{count + 1, area, apart}, {count, area * 1.3, apart}, {count, area, apart + 100}} {
			if says(v) > base {
				rt.Fatalf("%+v is worse", v)
			}
		}
		w, h, d := rapid.Float64Range(300, 1200).Draw(rt, "w"), rapid.Float64Range(400, 1900).Draw(rt, "h"), rapid.Float64Range(220, 600).Draw(rt, "d")
		free, hung := cabinet(w, h, d, 40, 25, 5, 0), cabinet(w, h, d, 40, 25, 5, 0)
		hung.Design.Base.Kind = "wall"
		worst := 0
		for _, f := range stands(free) {
			worst = max(worst, ranks[f.Verdict])
		}
		for _, f := range stands(hung) {
			if ranks[f.Verdict] > max(worst, ranks[work.Look]) {
				rt.Fatalf("hung on the wall %s says %s", f.ID, f.Verdict)
			}
		}
	})
}
