package compile

import (
	"math"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

func built(t *testing.T, d *design.Design) *piece.Piece {
	t.Helper()
	p, ds := Make(d, Options{})
	for _, d := range ds {
		t.Errorf("%s: %s %s", d.Path, d.Summary, d.Detail)
	}
	return p
}

// The sizes of the choir sideboard, reckoned by hand from its file: inner
// height 760 − 2·17.7 = 724.6; housings 17.7/3 = 5.9; bays (1460 − 2·17.7 −
// 2·17.7 − 420)/2 = 484.6.
func TestChoirSizes(t *testing.T) {
	p := built(t, choir())
	for _, c := range []struct {
		part                 string
		length, width, thick float64
	}{
		{"divider 2", 724.6 + 11.8, 400 - 6.4, 17.7},
		{"divider 1", 724.6 + 11.8, 400 - 6.4 - 17.7 - 2, 17.7},
		{"right side", 760 - 17.7 + 5.9, 400, 17.7},
		{"bottom", 1460 - 2*17.7 + 11.8, 400, 17.7},
		{"board over below", 420 + 11.8, 393.6, 17.7},
		{"back", 1460 - 2*(17.7-8+0.5), 760 - 2*(17.7-8+0.5), 6.4},
		{"doors, left", 724.6 - 5, (484.6*2 + 17.7 - 7.5) / 2, 17.7},
		{"tray front", 415, 145, 17.7},
		{"shelf in scores", 484.6 - 1.5, 382.3 - 5 - 20 - 6.4 - 0.5, 17.7},
		{"edging of shelf in scores", 483.1, 30, 20},
		{"tray box, front", 420 - 2*12.9 - 12, 150 - 24, 12},
		{"plinth, front", 1360, 100, 17.7},
		{"plinth, left end", 400 - 50 - 16 - 2*17.7, 100, 17.7},
	} {
		q := p.Part(c.part)
		if q == nil {
			t.Errorf("no part %q", c.part)
			continue
		}
		for i, w := range []float64{c.length, c.width, c.thick} {
			if got := []float64{q.Length.V, q.Width.V, q.Thick.V}[i]; math.Abs(got-w) > 1e-6 {
				t.Errorf("%s: size %d is %.4f, want %.4f", c.part, i, got, w)
			}
		}
	}
	strip := p.Part("shell")
	bend := strip.Bends[0]
	if got, want := strip.Length.V, 620+1320+bend.Plan.Flat; math.Abs(got-want) > 1e-6 {
		t.Errorf("strip %.3f, want %.3f", got, want)
	}
	if bend.Start.V != 620 || len(bend.Kerfs) != 30 {
		t.Errorf("bend starts at %v with %d kerfs", bend.Start.V, len(bend.Kerfs))
	}
	if got, want := bend.Kerfs[29].V, 620+29.5*bend.Plan.Pitch; math.Abs(got-want) > 1e-6 {
		t.Errorf("last kerf at %.4f, want %.4f", got, want)
	}
}

// Every part's solid lies in the piece's outside, and no two share wood.
func TestNoTwoPartsShareWood(t *testing.T) {
	p := built(t, choir())
	bodies := make([]solid.Body, len(p.Parts))
	for i, q := range p.Parts {
		b, err := piece.Solid(q, 0)
		if err != nil {
			t.Fatal(err)
		}
		if b.Volume() <= 0 {
			t.Fatalf("%s has no volume", q.ID)
		}
		bodies[i] = b
	}
	for i := range bodies {
		for k := i + 1; k < len(bodies); k++ {
			at, hit := shared(bodies[i], bodies[k])
			if !hit {
				at, hit = shared(bodies[k], bodies[i])
			}
			if hit {
				t.Errorf("%s and %s share wood at %.1f", p.Parts[i].ID, p.Parts[k].ID, at)
			}
		}
	}
}

// shared looks for a point of a's skin, 0.3 mm under its surface, that lies in b:
// two bodies that share wood share some of the skin of one of them.
func shared(a, b solid.Body) (r3.Vec, bool) {
	for _, p := range skin(a) {
		if inside(b, p) {
			return p, true
		}
	}
	return r3.Vec{}, false
}

// skin returns points close under a body's surface, along every edge of every
// slab at its foot, middle and head.
func skin(b solid.Body) []r3.Vec {
	const under = 0.3
	var out []r3.Vec
	for _, s := range b.Slabs {
		for _, l := range s.Region.Loops() {
			for i := range l {
				e := l.Edge(i)
				for k := range 21 {
					t := (float64(k) + 0.5) / 21
					at := e.At(t).Add(e.Tangent(t).Unit().Left().Mul(under))
					for _, z := range []float64{s.Z0 + under, (s.Z0 + s.Z1) / 2, s.Z1 - under} {
						out = append(out, b.Pose.At(r3.Vec{X: at.X, Y: at.Y, Z: z}))
					}
				}
			}
		}
	}
	return out
}

func inside(b solid.Body, at r3.Vec) bool {
	l := b.Pose.Local(at)
	for _, s := range b.Slabs {
		if l.Z > s.Z0+0.01 && l.Z < s.Z1-0.01 && s.Region.Contains(r2.Vec{X: l.X, Y: l.Y}) && !s.Region.OnEdge(r2.Vec{X: l.X, Y: l.Y}, 0.02) {
			return true
		}
	}
	return false
}

// Every housing and rabbet holds its partner: the panel reaches into the cut
// and stays off its floor and walls by no more than the clearance.
func TestHousingsMeetTheirPanels(t *testing.T) {
	housingsMeet(t, choir())
	for name, make := range kinds() {
		t.Run(name, func(t *testing.T) { housingsMeet(t, make()) })
	}
}

func housingsMeet(t *testing.T, d *design.Design) {
	t.Helper()
	p := built(t, d)
	for _, j := range p.Joints {
		if j.Kind != "housing" && j.Kind != "loose tongue" {
			continue
		}
		in, a := p.Part(j.B), p.Part(j.A)
		bi, _ := piece.Solid(in, 0)
		ba, _ := piece.Solid(a, 0)
		// A millimetre further in the direction of entry the panel must be in wood.
		moved := bi
		moved.Pose = moved.Pose.Moved(j.Enter.Mul(1))
		if _, hit := shared(moved, ba); !hit {
			t.Errorf("%s does not reach the floor of its housing", j.ID)
		}
	}
}

func TestWhereSizesComeFrom(t *testing.T) {
	d := choir()
	p := built(t, d)
	names := func(n trace.Num) map[string]bool {
		m := map[string]bool{}
		for _, id := range n.Sources() {
			m[d.Ledger.Inputs()[id].Path] = true
		}
		return m
	}
	got := names(p.Part("divider 2").Length)
	for _, want := range []string{"sizes.height", "sizes.plinth", "stock.birch ply 18.thickness", "habits.housing"} {
		if !got[want] {
			t.Errorf("divider 2's length does not name %s: %v", want, got)
		}
	}
	for _, not := range []string{"sizes.width", "sizes.turn", "sizes.depth"} {
		if got[not] {
			t.Errorf("divider 2's length names %s", not)
		}
	}
	if got := names(p.Part("shell").Length); !got["sizes.turn"] || !got["sizes.skin"] || !got["saw.track.kerf"] {
		t.Errorf("the strip's length comes from %v", got)
	}
}

func TestWhatCannotBeBuiltIsSaid(t *testing.T) {
	for _, c := range []struct {
		name, code string
		spoil      func(*design.Design)
	}{
		{"radius under the sheet's thickness", "radius-small", func(d *design.Design) { spoil(d, func(c *design.Corner) { c.Radius = trace.Const(15) }) }},
		{"radius over the height", "radius-large", func(d *design.Design) { spoil(d, func(c *design.Corner) { c.Radius = trace.Const(800) }) }},
		{"no room for the bays", "no-room", func(d *design.Design) { d.Body.Width = trace.Const(430) }},
		{"a front over a bay that is not there", "no-space", func(d *design.Design) { d.Fronts[0].Covers = []string{"nowhere"} }},
		{"a divider in the bend", "divider-in-bend", func(d *design.Design) {
			d.Bays[0].Kind, d.Bays[0].Width = design.Given, trace.Const(90)
		}},
		{"too many shelves for the row", "row-short", func(d *design.Design) { d.Shelves[0].Count = 99 }},
		{"a drawer in the bend", "part-in-bend", func(d *design.Design) {
			d.Body.Corners[design.TopRight] = design.Corner{Bent: true, Radius: trace.Const(140)}
		}},
		{"a door that must follow", "front-must-follow", func(d *design.Design) { d.Fronts[0].Follow = false }},
	} {
		d := choir()
		c.spoil(d)
		_, ds := Make(d, Options{})
		found := false
		for _, x := range ds {
			found = found || x.Code == c.code
		}
		if !found {
			t.Errorf("%s: no %s among %v", c.name, c.code, ds)
		}
	}
}

func spoil(d *design.Design, f func(*design.Corner)) {
	c := d.Body.Corners[design.TopLeft]
	f(&c)
	d.Body.Corners[design.TopLeft] = c
}

func BenchmarkMake(b *testing.B) {
	for b.Loop() {
		Make(choir(), Options{})
	}
}
