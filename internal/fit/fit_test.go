package fit_test

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"rodwork/internal/fit"
	"rodwork/internal/mech/bend"
	"rodwork/internal/mech/spread"
	"rodwork/internal/plan"
)

// planOf plans an example with changes to its shop file.
func planOf(t testing.TB, example string, change ...string) *plan.Plan {
	t.Helper()
	piece, err := os.ReadFile("../../examples/" + example + "/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	shop, err := os.ReadFile("../../examples/main/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text, _, _ := strings.Cut(string(shop), "\ntests:") // tests begin with an empty register
	for i := 0; i+1 < len(change); i += 2 {
		if !strings.Contains(text, change[i]) {
			t.Fatalf("the shop file has no %q", change[i])
		}
		text = strings.Replace(text, change[i], change[i+1], 1)
	}
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: []byte(text)}, plan.Options{})
	if p == nil || ds.HasErrors() {
		t.Fatal(ds)
	}
	return p
}

func all(p *plan.Plan) []fit.Fit {
	return fit.All(p.FitInput())
}

func of(t testing.TB, p *plan.Plan, k fit.Kind) fit.Fit {
	t.Helper()
	for _, f := range all(p) {
		if f.Kind == k {
			return f
		}
	}
	t.Fatalf("no fit of the kind %s", k)
	return fit.Fit{}
}

// The sideboard has each kind of fit; each names its causes and where they come
// from, and its builds come out.
func TestEachKindOfFit(t *testing.T) {
	p := planOf(t, "main")
	seen := map[fit.Kind]int{}
	for _, f := range all(p) {
		seen[f.Kind]++
		if len(f.Origins) != len(f.Stack.Causes) {
			t.Errorf("%s: %d causes, %d origins", f.ID, len(f.Stack.Causes), len(f.Origins))
		}
		r := f.Build(500)
		if r.Failed > 0 || math.IsNaN(r.Tight.Mean) || len(r.Shares) != len(f.Stack.Causes) {
			t.Errorf("%s: %+v", f.ID, r)
		}
	}
	for _, k := range []fit.Kind{fit.Slot, fit.Mouth, fit.Shut, fit.OnRail, fit.Shelf, fit.Drawer} {
		if seen[k] == 0 {
			t.Errorf("no %s", k)
		}
	}
}

// With only the blade's width scattering, the angle of a shut bend scatters as
// N; with only the single kerfs, as √N.
func TestShutBendScattersAsTheLawsSay(t *testing.T) {
	still := []string{"readings: [17.62, 17.68, 17.71, 17.75, 17.70, 17.66, 17.78, 17.70]", "mean: 17.7, spread: 0, count: 10000",
		"depth spread: 0.08", "depth spread: 0", "rates:", "spreads: {moisture: 0}\nrates:"}
	f := of(t, planOf(t, "main", still...), fit.Shut)
	n := 0
	for _, c := range f.Stack.Causes {
		n = max(n, c.Times)
	}
	arm := 0.0
	{ // from the nominal outcome: N·w/arm
		arm = float64(n) * 2.20 / f.Build(2).Nominal.Tight
	}
	for name, want := range map[string]float64{"mean width of the blade’s kerf": spread.Stack(n, 0.03, 0) / arm, "kerf from kerf": spread.Stack(n, 0, 0.03) / arm} {
		g := f
		g.Stack.Causes = append([]spread.Cause{}, f.Stack.Causes...)
		for i := range g.Stack.Causes {
			if c := &g.Stack.Causes[i]; c.Name == name {
				c.SD = 0.03
			} else {
				c.SD = 0
			}
		}
		r := g.Build(10_000)
		if math.Abs(r.Tight.SD-want) > 4*r.Tight.SDSE {
			t.Errorf("%s: the angle scatters by %.5f, the law wants %.5f ± %.5f", name, r.Tight.SD, want, r.Tight.SDSE)
		}
	}
}

// With open kerfs the blade's width moves what the strip measures on its rail by
// nothing; in the mouths it shows whole.
func TestBladeMovesNoOutsideOfAnOpenBend(t *testing.T) {
	p := planOf(t, "main")
	only := func(f fit.Fit, sd float64) spread.Result {
		f.Stack.Causes = append([]spread.Cause{}, f.Stack.Causes...)
		for i := range f.Stack.Causes {
			if c := &f.Stack.Causes[i]; strings.HasPrefix(c.Name, "mean width") {
				c.SD = sd
			} else {
				c.SD = 0
			}
		}
		return f.Build(2000)
	}
	if r := only(of(t, p, fit.OnRail), 0.05); r.Gap.SD > 0.0005 || r.Gap.Mean > 0.002 {
		t.Errorf("the blade alone opens the rail's gap by %.5f ± %.5f", r.Gap.Mean, r.Gap.SD)
	}
	if r := only(of(t, p, fit.Mouth), 0.05); math.Abs(r.Tight.SD-0.05) > 0.004 {
		t.Errorf("the blade alone moves the mouths by %.4f, not by itself", r.Tight.SD)
	}
}

// A pin in the last kerf adds up its errors, a stop does not: the gap at the
// rail says so.
func TestAPinAddsUp(t *testing.T) {
	stop := of(t, planOf(t, "main"), fit.OnRail).Build(3000)
	pin := of(t, planOf(t, "main", "index: stop", "index: pin"), fit.OnRail).Build(3000)
	if pin.Gap.Mean < 1.3*stop.Gap.Mean {
		t.Errorf("gap %.3f by a pin, %.3f by a stop", pin.Gap.Mean, stop.Gap.Mean)
	}
}

// A planned strip lies on its own rail at every rib; a rail that is too large is
// met at its flanks only, one too small in the middle, and by how much is a
// matter of two right-angled triangles.
func TestLayingAStripOnRails(t *testing.T) {
	p := of2(t)
	a := p.RailRadius
	if l := fit.Lay(p, a); l.Worst > 1e-6 || len(l.Gaps) != p.Count-1 {
		t.Errorf("its own rail: %.7f at %d ribs", l.Worst, len(l.Gaps))
	}
	// Both arcs lie between the same flanks, so they are apart by the difference of
	// their radii times sec(θ/2) − 1 on the line of symmetry.
	apart := 2 * (1/math.Cos(p.Spec.Angle/2) - 1)
	large := fit.Lay(p, a+2)
	if math.Abs(large.Worst-apart) > 0.01 || large.Flats > 1e-9 {
		t.Errorf("a rail 2 mm too large is met at %.4f in the middle (want %.4f) and %.4f at the flats", large.Worst, apart, large.Flats)
	}
	small := fit.Lay(p, a-2) // lifted by that much, the flats stand off by its share square to them
	if want := apart * math.Cos(p.Spec.Angle/2); math.Abs(small.Flats-want) > 0.01 || small.Worst < small.Flats {
		t.Errorf("a rail 2 mm too small leaves %.4f at the flats (want %.4f), %.4f at worst", small.Flats, want, small.Worst)
	}
}

func of2(t *testing.T) bend.Plan {
	t.Helper()
	p, err := bend.New(bend.Spec{Thick: 17.7, Skin: 1.6, Kerf: 2.2, Radius: 140, Angle: math.Pi / 2, Count: 36, Width: 400,
		Layers: []bend.Layer{{Thick: 1.1, E: 17500}, {Thick: 1.4, E: 600}}, GrainAlong: true})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A bend of a half turn is not laid, and has no fit on a rail.
func TestAHalfTurnIsNotLaid(t *testing.T) {
	for _, f := range all(planOf(t, "half-round-table")) {
		if f.Kind == fit.OnRail {
			t.Errorf("%s", f.Title)
		}
	}
	p := of2(t)
	p.Spec.Angle = math.Pi
	if l := fit.Lay(p, p.RailRadius); len(l.Gaps) != 0 || l.Worst != 0 {
		t.Errorf("%+v", l)
	}
}

// The rail that suits a bent shell: a quarter of a round, measured by its chord
// and its height.
func TestRailForAShellThatIsBent(t *testing.T) {
	r := 140.0
	chord, height := 2*r*math.Sin(math.Pi/4), r*(1-math.Cos(math.Pi/4))
	got, ok := fit.Suits(chord, height, 17.7)
	if !ok || math.Abs(got-(r-17.7)) > 1e-9 {
		t.Errorf("%.6f", got)
	}
	for _, bad := range [][3]float64{{0, 1, 1}, {10, 6, 1}, {10, 1, 100}, {math.NaN(), 1, 1}} {
		if _, ok := fit.Suits(bad[0], bad[1], bad[2]); ok {
			t.Errorf("%v has a rail", bad)
		}
	}
}

// The same plan builds the same, and ten thousand builds of every fit of the
// sideboard are a benchmark (under a second on one core is wanted).
func TestSameBuilds(t *testing.T) {
	a, b := all(planOf(t, "main")), all(planOf(t, "main"))
	for i := range a {
		if x, y := a[i].Build(200), b[i].Build(200); x.Tight != y.Tight || x.Bad != y.Bad {
			t.Errorf("%s differs", a[i].ID)
		}
	}
}

func BenchmarkTenThousandBuilds(b *testing.B) {
	p := planOf(b, "main")
	for b.Loop() {
		for _, f := range all(p) {
			f.Build(10_000)
		}
	}
}
