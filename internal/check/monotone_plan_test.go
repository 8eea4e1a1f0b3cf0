package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// gravest is the rank of the worst finding whose id begins so: 0 where none is
// worse than fine.
func gravest(p *plan.Plan, prefix string) int {
	worst := 0
	for _, f := range p.Findings {
		if strings.HasPrefix(f.ID, prefix) {
			worst = max(worst, map[work.Verdict]int{work.Look: 1, work.Stop: 2}[f.Verdict])
		}
	}
	return worst
}

// On built pieces: along each row of sizes, from kind to harsh, no verdict gets
// better, and the last is worse than the first.
func TestVerdictsOfBuiltPiecesAreMonotone(t *testing.T) {
	for _, c := range []struct{ name, base, was, now, of, values string }{
		{"longer shelves", "case", "width: 600", "width: %s", "sag/shelf", "400 700 900 1000 1100 1200 1400"},
		{"heavier books", "case", "mass: 0.7 kg", "mass: %s kg", "sag/shelf", "0.2 0.7 2 5 9 14"},
		{"shallower chest", "drawers", "depth: 480", "depth: %s", "stand/alone", "700 600 520 480 450 430 410"},
		{"plinth further back", "case", "set back: 20", "set back: %s", "stand/alone", "10 30 60 100 140 180 200"},
		{"longer legs", "bench", "leg height: 140", "leg height: %s", "legs/sideways", "120 140 180 240 300 420"},
		{"longer lid", "bench", "width: 960", "width: %s", "sat/", "500 700 960 1200 1500 1800"},
		{"taller doors", "cupboard", "height: 800", "height: %s", "hinges/", "600 900 1200 1500 2000"},
		{"slats drawn apart", "stool", "apart: 60", "apart: %s", "between/lower slat", "50 60 80 88 92 100"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			first, last := -1, math.MinInt
			for _, v := range strings.Fields(c.values) {
				got := gravest(made(t, c.base, c.was, fmt.Sprintf(c.now, v)), c.of)
				if got < last {
					t.Errorf("at %s it says %d, after %d", v, got, last)
				}
				if first < 0 {
					first = got
				}
				last = got
			}
			if last <= first {
				t.Errorf("from %d to %d: the row shows nothing", first, last)
			}
		})
	}
}
