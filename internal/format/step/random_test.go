package step_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/format/step"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// panels draws panels with pockets on a coarse grid, so that they meet, cross,
// and lie flush as cuts in a shop do.
var panels = rapid.Custom(func(t *rapid.T) solid.Body {
	w, h := 20*rapid.IntRange(2, 12).Draw(t, "w"), 20*rapid.IntRange(2, 8).Draw(t, "h")
	var pockets []solid.Pocket
	at := func(limit int, what string) float64 {
		return float64(10 * rapid.IntRange(-1, limit/10+1).Draw(t, what))
	}
	for range rapid.IntRange(0, 5).Draw(t, "pockets") {
		p := solid.Pocket{Face: rapid.SampledFrom([]solid.Side{solid.A, solid.B}).Draw(t, "face"),
			Depth: rapid.SampledFrom([]float64{3, 6, 9, 10, 18}).Draw(t, "depth")}
		x, y := at(w, "x"), at(h, "y")
		if rapid.Bool().Draw(t, "round") {
			p.Region = planar.Disc(r2.Vec{X: x, Y: y}, rapid.SampledFrom([]float64{2.5, 10, 15, 17.5}).Draw(t, "radius"))
		} else {
			p.Region = planar.Rect(x, y, at(w, "x1"), at(h, "y1"))
		}
		if len(p.Region) > 0 {
			pockets = append(pockets, p)
		}
	}
	round := float64(rapid.SampledFrom([]int{0, 5, 20}).Draw(t, "round"))
	outline, err := planar.Rounded(planar.Corner{Round: round}, planar.Corner{P: r2.Vec{X: float64(w)}},
		planar.Corner{P: r2.Vec{X: float64(w), Y: float64(h)}, Round: round}, planar.Corner{P: r2.Vec{Y: float64(h)}})
	if err != nil {
		t.Skip(err)
	}
	b, err := solid.Panel(r3.Identity(), planar.Region{{Outer: outline}}, 18, pockets)
	if err != nil || b.Volume() < 1 {
		t.Skip("nothing left")
	}
	return b
})

// Random panels: the kernel finds the volume that the slabs have, or the panel
// is refused since it touches itself; that is seldom.
func random(t testing.TB) []exam {
	const n = 40
	var out []exam
	for seed := range n {
		b := panels.Example(seed)
		f, err := step.Part(step.Product{ID: "panel", Name: "panel", Body: b})
		if err != nil {
			t.Logf("seed %d: %v", seed, err)
			continue
		}
		out = append(out, exam{fmt.Sprintf("random %d", seed), f, func(t *testing.T, j judged) { check(t, b, j) }})
	}
	if len(out) < n*9/10 {
		t.Errorf("only %d of %d panels could be written", len(out), n)
	}
	return out
}
