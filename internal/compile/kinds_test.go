package compile

import (
	"fmt"
	"math"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// plainBox is a box of one bay without fronts, of the choir's shop.
func plainBox() *design.Design {
	d := choir()
	d.Body.Kind = design.Box
	for _, name := range design.CornerNames {
		d.Body.Corners[name] = design.Corner{Joint: "rabbet", Through: "side", Path: "body.corners." + name}
	}
	d.Bays = []design.Bay{{Name: "inside", Kind: design.Rest, Path: "inside"}}
	d.Fronts, d.Drawers, d.Shelves, d.Rails = nil, nil, nil, nil
	d.Base = design.Base{Kind: "none", Path: "base"}
	return d
}

func twoBays(d *design.Design) {
	d.Bays = []design.Bay{{Name: "a", Kind: design.Equal, Path: "inside.bays.0"}, {Name: "b", Kind: design.Equal, Path: "inside.bays.1"}}
}

func bentAll(d *design.Design, radius float64, names ...string) {
	d.Body.Kind = design.BentShell
	for _, n := range names {
		d.Body.Corners[n] = design.Corner{Bent: true, Radius: trace.Const(radius), Path: "body.corners." + n}
	}
}

func door(name string, covers ...string) design.Front {
	h := &design.Hinge{Name: "cup hinge", Sets: []string{"full overlay"}, CupDia: trace.Const(35), CupDepth: trace.Const(13), CupEdge: trace.Const(4),
		PlateLine: trace.Const(37), PlatePitch: trace.Const(32), CupLeast: trace.Const(3), CupMost: trace.Const(8), InHand: 9}
	return design.Front{Name: name, Covers: covers, As: "door", Set: "overlay", Gap: trace.Const(3), Hinge: h,
		HingeAt: []trace.Num{trace.Const(90), trace.Const(-90)}, Path: "fronts." + name}
}

func lidded(d *design.Design, open ...string) {
	d.Body.Open = open
	d.Rails = []design.Rail{{Where: "top back", Height: trace.Const(80), Follow: true, Path: "rails.0"}}
	f := design.Front{Name: "lid", As: "lid", Gap: trace.Const(3), Path: "fronts.0", PullDia: trace.Const(30),
		HingeAt: []trace.Num{trace.Const(150), trace.Const(-150)},
		Lid: design.Lid{Overhang: trace.Const(15), Hinge: &design.Hardware{Name: "flap hinge", Kind: "lid hinge"}, Stay: &design.Hardware{Name: "stay", Kind: "stay"},
			Vents: &design.Vents{In: "sides", Count: 4, Diameter: trace.Const(30), Below: trace.Const(90)}}}
	for _, b := range d.Bays {
		f.Covers = append(f.Covers, b.Name)
	}
	d.Fronts = append(d.Fronts, f)
}

// kinds are pieces that between them use every word of the body, the fronts,
// the rails and the base.
func kinds() map[string]func() *design.Design {
	screw := &design.Hardware{Name: "wall screw 6", Kind: "wall screw", Diameter: trace.Const(6), Length: trace.Const(100)}
	foot := &design.Hardware{Name: "foot 60", Kind: "foot", Height: trace.Const(60)}
	out := map[string]func() *design.Design{
		"overlay pair over two bays": func() *design.Design {
			d := plainBox()
			twoBays(d)
			f := door("doors", "a", "b")
			f.As = "pair"
			d.Fronts = []design.Front{f}
			return d
		},
		"overlay doors side by side": func() *design.Design {
			d := plainBox()
			twoBays(d)
			b := door("right", "b")
			b.HangOn = []string{"right"}
			d.Fronts = []design.Front{door("left", "a"), b}
			return d
		},
		"half overlay": func() *design.Design {
			d := plainBox()
			f := door("door", "inside")
			f.Set = "half overlay"
			d.Fronts = []design.Front{f}
			return d
		},
		"overlay that follows four bends": func() *design.Design {
			d := plainBox()
			bentAll(d, 120, design.CornerNames...)
			d.Body.Seams = []design.Seam{{On: "bottom", From: "left", Place: trace.Const(300), Joint: "loose tongue", Path: "body.seams.0"}}
			f := door("doors", "inside")
			f.As, f.Follow = "pair", true
			f.HingeAt = []trace.Num{trace.Const(200), trace.Const(-200)}
			d.Fronts = []design.Front{f}
			return d
		},
		"lid, front closed": func() *design.Design {
			d := plainBox()
			twoBays(d)
			lidded(d, "top")
			return d
		},
		"lid, bent below": func() *design.Design {
			d := plainBox()
			bentAll(d, 120, design.BottomLeft, design.BottomRight)
			lidded(d, "top")
			return d
		},
		"lid and doors": func() *design.Design {
			d := plainBox()
			d.Fronts = []design.Front{door("door", "inside")}
			lidded(d, "front", "top")
			return d
		},
		"two seams": func() *design.Design {
			d := plainBox()
			bentAll(d, 120, design.CornerNames...)
			twoBays(d)
			d.Body.Seams = []design.Seam{{On: "bottom", From: "left", Place: trace.Const(300), Joint: "loose tongue", Path: "body.seams.0"},
				{On: "top", From: "right", Place: trace.Const(300), Joint: "butt", Path: "body.seams.1"}}
			return d
		},
		"three rails": func() *design.Design {
			d := plainBox()
			bentAll(d, 120, design.CornerNames...)
			d.Body.Seams = []design.Seam{{On: "top", From: "left", Place: trace.Const(300), Joint: "loose tongue", Path: "body.seams.0"}}
			twoBays(d)
			for _, w := range []string{"top back", "bottom back", "top front"} {
				d.Rails = append(d.Rails, design.Rail{Where: w, Height: trace.Const(90), Follow: true, Path: "rails." + w})
			}
			return d
		},
		"feet": func() *design.Design {
			d := plainBox()
			d.Base = design.Base{Kind: "feet", Height: foot.Height, SetBack: trace.Const(60), Count: 6, Use: foot, Path: "base"}
			return d
		},
		"sides to the floor": func() *design.Design {
			d := plainBox()
			twoBays(d)
			d.Base = design.Base{Kind: "sides", Height: trace.Const(90), SetBack: trace.Const(50), Kick: true, Path: "base"}
			d.Fronts = []design.Front{door("door", "a")}
			return d
		},
		"hung on brick": func() *design.Design {
			d := plainBox()
			twoBays(d)
			d.Brief.Place.Wall = "brick"
			d.Base = design.Base{Kind: "wall", Height: trace.Const(90), Count: 4, Use: screw, Path: "base"}
			return d
		},
		"boards and shelves in the bends": func() *design.Design {
			d := plainBox()
			bentAll(d, 160, design.TopLeft, design.TopRight, design.BottomRight)
			d.Bays = []design.Bay{{Name: "a", Kind: design.Equal, Path: "inside.bays.0", Levels: []design.Level{
				{Name: "low", Kind: design.Rest, Follow: true}, {Name: "high", Kind: design.Given, Height: trace.Const(90)}}},
				{Name: "b", Kind: design.Equal, Path: "inside.bays.1"}}
			d.Shelves = []design.Shelf{{In: "b", Count: 1, FixedAt: trace.Const(620), Follow: true, SetBack: trace.Const(5), Path: "shelves.0"},
				{In: "b", Count: 1, FixedAt: trace.Const(60), Follow: true, SetBack: trace.Const(5), Path: "shelves.1"},
				{In: "b", Count: 1, FixedAt: trace.Const(300), Follow: true, SetBack: trace.Const(5), Path: "shelves.2"}}
			return d
		},
	}
	return out
}

// In every kind of piece no two parts share wood.
func TestKindsShareNoWood(t *testing.T) {
	for name, make := range kinds() {
		t.Run(name, func(t *testing.T) { noShare(t, make()) })
	}
}

func TestOverlayMeetsInTheMiddle(t *testing.T) {
	p := built(t, kinds()["overlay doors side by side"]())
	l, r, u := p.Part("left"), p.Part("right"), p.Part("divider")
	near(t, "the left door's outer edge", l.Origin[0].V-l.Width.V, 1.5)
	near(t, "the right door's outer edge", r.Origin[0].V, p.Width.V-1.5)
	near(t, "the gap between them", r.Origin[0].V-r.Width.V-l.Origin[0].V, 3)
	near(t, "the middle of the gap", l.Origin[0].V+1.5, u.Origin[0].V-u.Thick.V/2)
	near(t, "the piece's depth", p.Depth.V, 400+2+17.7)
	near(t, "the doors' height", l.Length.V, 760-3)
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s: %.4f, want %.4f", what, got, want)
	}
}

// Planning tables of a maker of hinges, as printed: crank 0, rim at 5, plate 0,
// lap 20.0; rim at 7, plate −2, lap 24.0; crank 9.5, rim at 4, plate 2, lap 7.5;
// crank 19 (inset), rim at 4, plate 2, reveal 2.0; rim at 6, plate 3.5, reveal
// 1.5. The overlay at zero is 15 less the crank.
func TestCupEdgeByTable(t *testing.T) {
	for _, c := range []struct{ crank, plate, lap, edge float64 }{
		{0, 0, 20, 5}, {0, -2, 24, 7}, {9.5, 2, 7.5, 4}, {19, 2, -2, 4}, {19, 3.5, -1.5, 6},
	} {
		f := door("door", "inside")
		zero, high := trace.Const(15-c.crank), trace.Const(c.plate)
		f.Hinge.OverlayAtZero, f.Hinge.PlateHigh = &zero, &high
		b := &builder{d: choir()}
		near(t, fmt.Sprintf("crank %g, plate %g", c.crank, c.plate), b.cupEdge(&f, trace.Const(c.lap)).V, c.edge)
		if len(b.diags) > 0 {
			t.Errorf("%v", b.diags)
		}
	}
	f := door("door", "inside")
	zero, high := trace.Const(15), trace.Const(0)
	f.Hinge.OverlayAtZero, f.Hinge.PlateHigh = &zero, &high
	b := &builder{d: choir()}
	if b.cupEdge(&f, trace.Const(10)); len(b.diags) != 1 || b.diags[0].Code != "hinge-out-of-reach" {
		t.Errorf("a cup that would lie off the door's edge is not told: %v", b.diags)
	}
}

func TestSeam(t *testing.T) {
	p := built(t, kinds()["overlay that follows four bends"]())
	s := p.Part("shell")
	if len(s.Bends) != 4 || s.Bends[0].Corner != design.BottomLeft || s.Bends[3].Corner != design.BottomRight {
		t.Fatalf("the strip's bends are not those of a loop from the seam: %d", len(s.Bends))
	}
	flat := 2*(1460-240) + 2*(760-240) + 4*s.Bends[0].Length.V
	near(t, "the strip", s.Length.V, flat)
	near(t, "its first flat, from the seam to the bend", s.Bends[0].Start.V, 300-120)
	tongue := p.Part("tongue")
	near(t, "the tongue's middle", tongue.Origin[0].V+tongue.Width.V/2, 300)
	body, err := piece.Solid(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	smooth := built(t, func() *design.Design {
		d := kinds()["overlay that follows four bends"]()
		d.Body.Seams[0].Joint = "butt"
		return d
	}()).Part("shell")
	plain, _ := piece.Solid(smooth, 0)
	groove := 20 * (6.4 + 0.1) * tongue.Length.V // 10 mm into each end
	if got := plain.Volume() - body.Volume(); math.Abs(got-groove) > 1 {
		t.Errorf("the two grooves take %.0f mm³, want %.0f", got, groove)
	}
}

// A shelf whose end lies in a bend touches the curve of the rib tips with its
// shorter face, and leaves there the gap that it tells at the other.
func TestShelfInTheBend(t *testing.T) {
	p := built(t, kinds()["boards and shelves in the bends"]())
	r := p.Part("shell").Bends[1].RailRadius.V
	cy, cx := 760-160.0, 1460-160.0
	q := p.Part("shelf in b")
	y1 := q.Origin[1].V + q.Thick.V
	near(t, "the corner touches the curve", math.Hypot(q.Origin[0].V+q.Length.V-cx, y1-cy), r)
	if len(q.Notes) != 1 {
		t.Errorf("%d notes", len(q.Notes))
	}
	straight := p.Part("shelf in b 3")
	if straight == nil || len(straight.Notes) != 0 {
		t.Errorf("the middle shelf has no end in a bend")
	}
}

func TestFeetAndWallScrews(t *testing.T) {
	p := built(t, kinds()["feet"]())
	if f := p.Fittings[len(p.Fittings)-1]; f.Kind != "foot" || f.Count != 6 || len(f.At) != 6 || f.At[0][2].V != 340 || f.At[1][0].V != 730 {
		t.Errorf("feet %+v", f)
	}
	near(t, "the height on feet", p.Height.V, 760+60)
	p = built(t, kinds()["hung on brick"]())
	rail, back := p.Part("hanging rail"), p.Part("back")
	for _, q := range []*piece.Part{rail, back} {
		n := 0
		for _, c := range q.Cuts {
			if c.For == "wall screw" {
				n++
			}
		}
		if n != 4 {
			t.Errorf("%s has %d holes for screws", q.ID, n)
		}
	}
}
