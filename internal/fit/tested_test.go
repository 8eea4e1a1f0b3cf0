package fit_test

import (
	"math"
	"strings"
	"testing"

	"rodwork/internal/fit"
	"rodwork/internal/plan"
	"rodwork/internal/work"
)

const bendTest = `tests:
  strip: {kind: bend, tool: track saw, stock: birch ply 18, measured: 2026-06-02, kerf: [2.23, 2.25, 2.24], double: [4.47, 4.49, 4.48],
    skin: {mean: 1.60, spread: 0.03, count: 12}, turned once: {turn: 1.92 deg, spread: 0.03 deg, count: 12}, turned twice: {turn: 3.04 deg, spread: 0.04 deg, count: 12}HELD}
rates:`

// words are a finding's words, without its numbers.
func words(f work.Finding) string {
	var b strings.Builder
	for _, sp := range f.Text {
		b.WriteString(sp.Text)
	}
	return b.String()
}

func finding(t *testing.T, p *plan.Plan, id string) work.Finding {
	t.Helper()
	for _, f := range p.Findings {
		if f.ID == id {
			return f
		}
	}
	t.Fatalf("no finding %s", id)
	return work.Finding{}
}

// A fresh test strip goes into the plan: its kerf, and its hinge, so that the
// range of the strain is narrower. With the blade measured anew it is stale, and
// the plan is as before.
func TestAFreshStripNarrowsTheStrain(t *testing.T) {
	before := planOf(t, "main")
	fresh := planOf(t, "main", "rates:", strings.Replace(bendTest, "HELD", "", 1))
	stale := planOf(t, "main", "rates:", strings.Replace(bendTest, "HELD", "", 1), "count: 12, measured: 2026-03-14", "count: 12, measured: 2026-07-01")
	wide := func(p *plan.Plan) float64 {
		b := p.Piece.Part("shell").Bends[0]
		return b.StrainHigh.V - b.StrainLow.V
	}
	if wide(fresh) > 0.8*wide(before) || wide(fresh) <= 0 {
		t.Errorf("the strain's range is %.5f with the strip, %.5f without", wide(fresh), wide(before))
	}
	if k := fresh.Piece.Part("shell").Bends[0].Plan.Spec.Kerf; math.Abs(k-2.24) > 1e-9 {
		t.Errorf("planned with a kerf of %g", k)
	}
	if wide(stale) != wide(before) {
		t.Error("a stale strip went into the plan")
	}
	if f := finding(t, stale, "tests/stale/strip"); f.Verdict != work.Look || !strings.Contains(words(f), "measured after") {
		t.Errorf("%s: %s", f.Verdict, words(f))
	}
	if f := finding(t, before, "tests/missing"); f.Verdict != work.Look || !strings.Contains(words(f), "top left") {
		t.Errorf("%s: %s", f.Verdict, words(f))
	}
	if f := finding(t, fresh, "tests/missing"); strings.Contains(words(f), "top left") {
		t.Errorf("%s", words(f))
	}
}

// What a strip bore or broke at decides the finding on strain.
func TestAStripDecidesTheStrain(t *testing.T) {
	for held, want := range map[string]work.Verdict{", held to: 3.2 deg": work.Fine, ", held to: 2.5 deg": work.Look, ", cracked at: 2.6 deg": work.Stop,
		", held to: 2.9 deg, cracked at: 3.4 deg": work.Fine} {
		p := planOf(t, "main", "rates:", strings.Replace(bendTest, "HELD", held, 1))
		if f := finding(t, p, "bend/shell/top left/strain"); f.Verdict != want {
			t.Errorf("%s: %s, want %s: %s", held, f.Verdict, want, words(f))
		}
	}
}

// A slot that was tried: its offset moves the fit, and its fence and thickness
// are what is left of the spread.
func TestATriedSlotMovesTheFit(t *testing.T) {
	slot := func(p *plan.Plan) fit.Fit {
		for _, f := range fit.All(p.FitInput()) {
			if f.Kind == fit.Slot && strings.Contains(f.ID, "housing") {
				return f
			}
		}
		t.Fatal("no housing")
		return fit.Fit{}
	}
	before := slot(planOf(t, "main")).Build(2)
	after := slot(planOf(t, "main", "rates:", `tests:
  housing: {kind: fit, tool: straight 16, stock: birch ply 18, measured: 2026-06-02, cut: housing, set: 17.80, slot: [17.87, 17.86, 17.88, 17.87], feels: loose}
rates:`)).Build(2)
	if d := after.Nominal.Tight - before.Nominal.Tight; math.Abs(d-0.07) > 1e-9 {
		t.Errorf("the fit moved by %.4f, the slot came out 0.07 wide", d)
	}
	best := slot(planOf(t, "main", "rates:", `tests:
  housing: {kind: fit, tool: straight 16, stock: birch ply 18, measured: 2026-06-02, cut: housing, fit: snug, best: 0.2}
rates:`))
	if low, high := fit.Window("snug", 0.2); best.Limits.Tight != low || best.Limits.Loose != high {
		t.Errorf("a step test piece wants 0.2, the fit is held between %g and %g", best.Limits.Tight, best.Limits.Loose)
	}
}
