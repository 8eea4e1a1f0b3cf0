package check

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// A bare shelf against the formula written out here: 5·q·L⁴/(384·E·I)·(1 + k),
// with E of 13 veneers from the handbook's model (10 048 MPa) and k = 1.
func TestSagAgainstTheFormula(t *testing.T) {
	f := find(sags(shelfOn(900, 300, 40, 0)), "sag/shelf")
	q := 40 * 9.80665 / 1000
	i := 300 * 17.7 * 17.7 * 17.7 / 12
	want := 2 * 5 * q * math.Pow(900, 4) / (384 * 10048 * i)
	if math.Abs(f.Value.V-want) > 1e-3*want {
		t.Errorf("it sags %.4f mm, want %.4f", f.Value.V, want)
	}
	if f.Verdict != work.Look || f.Unit != "mm" {
		t.Errorf("it says %s: %.2f of %.2f", f.Verdict, f.Value.V, f.Limit.V)
	}
}

// Longer, more loaded or thinner is never better. An edging stiffens the front,
// and the shelf, straight from front to back, twists: held fast in front its
// rear edge comes down by half as much again as without it (1.5·q/k: the load
// lies at half the depth), never more.
func TestSagIsMonotone(t *testing.T) {
	sag := func(in Input) float64 { return find(sags(in), "sag/shelf").Value.V }
	rapid.Check(t, func(rt *rapid.T) {
		l := rapid.Float64Range(300, 1500).Draw(rt, "span")
		q := rapid.Float64Range(5, 80).Draw(rt, "load")
		e := rapid.Float64Range(20, 60).Draw(rt, "edging")
		more := rapid.Float64Range(1, 100).Draw(rt, "more")
		base := sag(shelfOn(l, 300, q, e))
		for name, in := range map[string]Input{"longer": shelfOn(l+more, 300, q, e), "heavier": shelfOn(l, 300, q+more, e)} {
			if sag(in) <= base {
				rt.Fatalf("%s sags less", name)
			}
		}
		if base > 1.51*sag(shelfOn(l, 300, q, 0)) {
			rt.Fatal("an edging makes it worse by more than the twist explains")
		}
		thin := shelfOn(l, 300, q, e)
		thin.Piece.Parts[0].Thick = n(15)
		if sag(thin) <= base {
			rt.Fatal("thinner sags less")
		}
	})
}

// The traced sag moves as its partial by the span says.
func TestSagNamesItsSources(t *testing.T) {
	var led trace.Ledger
	in := shelfOn(800, 300, 40, 30)
	in.Piece.Spaces[0].Size[0] = led.Var(800, trace.Input{Path: "span"})
	d := find(sags(in), "sag/shelf").Value.D(0)
	up := find(sags(shelfOn(801, 300, 40, 30)), "sag/shelf").Value.V
	down := find(sags(shelfOn(799, 300, 40, 30)), "sag/shelf").Value.V
	if want := (up - down) / 2; math.Abs(d-want) > 1e-3*want {
		t.Errorf("partial %.6g, want %.6g", d, want)
	}
}

// Each mend, put in, does what it says.
func TestSagMendsHold(t *testing.T) {
	in := shelfOn(1100, 300, 40, 20)
	in.Design.Shop.Stocks = append(in.Design.Shop.Stocks, thick(27), thick(40))
	f := find(sags(in), "sag/shelf")
	if f.Verdict == work.Fine || len(f.Mends) < 2 {
		t.Fatalf("%s with %d mends", f.Verdict, len(f.Mends))
	}
	for _, m := range f.Mends {
		switch m.Path {
		case "shelves.0.edging.height":
			var h float64
			if _, err := fmt.Sscanf(m.New, "%f mm", &h); err != nil {
				t.Fatal(err)
			}
			if v := find(sags(shelfOn(1100, 300, 40, h)), "sag/shelf").Verdict; v == f.Verdict {
				t.Errorf("an edging of %.0f leaves it at %s", h, v)
			}
		case "shelves.0.stock":
			again := shelfOn(1100, 300, 40, 20)
			for _, s := range in.Design.Shop.Stocks {
				if s.Name == m.New {
					again.Piece.Parts[0].Stock, again.Piece.Parts[0].Thick = s, s.Thickness.Mean
				}
			}
			if v := find(sags(again), "sag/shelf").Verdict; v == f.Verdict {
				t.Errorf("%s leaves it at %s", m.New, v)
			}
		}
	}
}

func thick(t float64) *design.Stock {
	s := birch18()
	s.Name, s.Thickness.Mean = fmt.Sprintf("birch ply %.0f", t), n(t)
	s.Layers = int(t/1.4) | 1
	return s
}

func TestUnknownStockIsNotJudged(t *testing.T) {
	in := shelfOn(900, 300, 40, 0)
	in.Piece.Parts[0].Stock.Species = "moon wood"
	if f := find(sags(in), "sag/shelf"); f.Verdict != work.NotCovered {
		t.Errorf("it says %s", f.Verdict)
	}
	in = shelfOn(900, 300, 40, 0)
	in.Loads, in.Design.Brief.Holds = nil, nil
	if f := find(sags(in), "sag"); f == nil || f.Verdict != work.Look {
		t.Error("nothing is said of shelves without a load")
	}
}

// What stands by reckoning in traced numbers agrees with the solver, in every
// state and about every edge.
func TestStanceAgreesWithTheSolver(t *testing.T) {
	in := drawer(cabinet(800, 1200, 350, 40, 25, 4, 30))
	g, ok := groundOf(in.Piece)
	if !ok {
		t.Fatal("it stands on nothing")
	}
	a := arenaOf(in, g)
	tried := 0
	for _, p := range append(partiesOf(in, &a), alone) {
		for _, f := range floors {
			for k := range 5 {
				picks := make([]int, len(a.things))
				for i := range picks {
					picks[i] = (k + i) % len(a.things[i].choices)
				}
				tried++
				agrees(t, a.stance(p, f, picks))
			}
		}
	}
	if tried < 100 {
		t.Fatalf("only %d states", tried)
	}
}

func agrees(t *testing.T, s stance) {
	t.Helper()
	outs, err := s.state().Outcomes()
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range outs {
		if got := s.used(o.Edge.Name).V; math.Abs(got-o.Tips/o.Holds) > 1e-9*(1+got) {
			t.Errorf("%s %s about %s: %.9g, the solver says %.9g", s.name, s.act, o.Edge.Name, got, o.Tips/o.Holds)
		}
	}
}

// The front of a plinth that is set back is the fulcrum. An empty body of 25 kg
// in the middle of 350, its fulcrum at 310: it holds 25·(310 − 175); a child of
// 20.4 kg at the front edge tips with 20.4·40, on a flat floor.
func TestPlinthIsTheFulcrum(t *testing.T) {
	in := cabinet(800, 1200, 350, 40, 25, 0, 0)
	g, _ := groundOf(in.Piece)
	if g.front.V != 310 || g.rear.V != 0 {
		t.Fatalf("it stands from %.0f to %.0f", g.rear.V, g.front.V)
	}
	a := arenaOf(in, g)
	for _, p := range partiesOf(in, &a) {
		if p.words != "standing on its front edge in the middle" || p.person.kg.V != 20.4 {
			continue
		}
		s := a.stance(p, floors[0], make([]int, len(a.things)))
		if got, want := s.used("front").V, 20.4*40/(25*135.0); math.Abs(got-want) > 1e-9 {
			t.Errorf("%.6f, want %.6f", got, want)
		}
		return
	}
	t.Error("no such state")
}

// A deeper base is never worse, a heavier door never better.
func TestStandingIsMonotone(t *testing.T) {
	alone := func(in Input) float64 { return find(stands(in), "stand/alone").Value.V }
	rapid.Check(t, func(rt *rapid.T) {
		w, h, d := rapid.Float64Range(300, 1200).Draw(rt, "w"), rapid.Float64Range(400, 2000).Draw(rt, "h"), rapid.Float64Range(200, 600).Draw(rt, "d")
		set := rapid.Float64Range(10, 80).Draw(rt, "set back")
		door := rapid.Float64Range(1, 12).Draw(rt, "door")
		base := alone(cabinet(w, h, d, set, 25, door, 20))
		if alone(cabinet(w, h, d, set-5, 25, door, 20)) > base+1e-9 {
			rt.Fatal("a deeper base is worse")
		}
		if alone(cabinet(w, h, d, set, 25, door+2, 20)) < base-1e-9 {
			rt.Fatal("a heavier door is better")
		}
	})
}

func TestVerdictsOfStanding(t *testing.T) {
	for _, c := range []struct {
		name          string
		in            Input
		alone, people work.Verdict
	}{
		{"a heavy low chest", cabinet(1200, 500, 700, 0, 300, 2, 50), work.Fine, work.Fine},
		{"a light tall cupboard", cabinet(600, 1800, 300, 40, 25, 5, 10), work.Look, work.Look},
		{"a door heavier than its case", cabinet(900, 1200, 250, 60, 6, 12, 0), work.Stop, work.Look},
	} {
		fs := stands(c.in)
		if a := find(fs, "stand/alone"); a.Verdict != c.alone {
			t.Errorf("%s alone: %s (%.2f), want %s", c.name, a.Verdict, a.Value.V, c.alone)
		}
		if p := find(fs, "stand/people"); p.Verdict != c.people {
			t.Errorf("%s with people: %s (%.2f), want %s", c.name, p.Verdict, p.Value.V, c.people)
		}
		for _, f := range fs {
			for _, s := range f.Text {
				if strings.Contains(s.Text, "compl") {
					t.Error("a screen promises nothing")
				}
			}
		}
	}
}

func TestHungOnTheWall(t *testing.T) {
	in := cabinet(600, 500, 250, 40, 12, 3, 20)
	in.Design.Base.Kind = "wall"
	fs := stands(in)
	if len(fs) != 1 || fs[0].Value.V != 35 || fs[0].Verdict != work.Look {
		t.Errorf("%+v", fs)
	}
}

func TestDoors(t *testing.T) {
	for _, c := range []struct {
		high, wide, kg float64
		hinges         int
		verdict        work.Verdict
	}{
		{700, 400, 3.45, 2, work.Fine}, {1300, 400, 4, 2, work.Look}, {1300, 400, 4, 3, work.Fine},
		{2100, 500, 12, 2, work.Stop}, {2500, 500, 12, 5, work.NotCovered},
	} {
		in := cabinet(c.wide+40, c.high+140, 300, 40, 20, c.kg, 0)
		in.Piece.Fittings[0].Count = c.hinges
		f := find(doors(in), "hinges/door")
		if f.Verdict != c.verdict {
			t.Errorf("%.0f high, %.1f kg, %d hinges: %s, want %s", c.high, c.kg, c.hinges, f.Verdict, c.verdict)
		}
	}
	in := cabinet(800, 540, 300, 40, 20, 4, 0)
	if find(doors(in), "wide/door") == nil {
		t.Error("a door wider than high is not looked at")
	}
}

func TestHardwareOfOneNameShares(t *testing.T) {
	in := Input{Design: &design.Design{}, Piece: &piece.Piece{Fittings: []piece.Fitting{
		{What: "hinge", Count: 2, InHand: 3, On: "a"}, {What: "hinge", Count: 2, InHand: 3, On: "b"}, {What: "pin", Count: 4, InHand: 40}}}}
	fs := hardware(in)
	if len(fs) != 2 || fs[0].Verdict != work.Look || fs[0].Limit.V != 4 || fs[1].Verdict != work.Fine {
		t.Errorf("%+v", fs)
	}
}

func TestJointDepths(t *testing.T) {
	joint := func(kind string, depth float64) work.Verdict {
		p := &piece.Piece{Parts: []*piece.Part{{ID: "side", Name: "side", Thick: n(18)}}, Joints: []piece.Joint{{ID: "j", Kind: kind, A: "side", B: "shelf", Depth: n(depth)}}}
		return joints(Input{Piece: p, Design: &design.Design{}})[0].Verdict
	}
	for _, c := range []struct {
		kind  string
		depth float64
		want  work.Verdict
	}{{"housing", 6, work.Fine}, {"housing", 4.5, work.Fine}, {"housing", 4, work.Look}, {"housing", 7, work.Look}, {"rabbet", 9, work.Fine},
		{"rabbet", 10, work.Look}, {"housing", 18, work.Stop}} {
		if got := joint(c.kind, c.depth); got != c.want {
			t.Errorf("%s %.1f deep in 18: %s, want %s", c.kind, c.depth, got, c.want)
		}
	}
}

// pins is a divider with a row of pin holes from each face.
func pins(depth, offset float64) Input {
	row := func(face piece.Face, at float64, name string) piece.Cut {
		return piece.Cut{ID: name, Kind: piece.HoleRow, Face: face, X0: n(at), Y0: n(37), Diameter: n(5), Depth: n(depth), Count: 8, StepX: n(32), For: "shelf pins in " + name}
	}
	q := &piece.Part{ID: "divider", Name: "divider", Thick: n(18), Path: "inside.bays.0", Cuts: []piece.Cut{row(piece.FaceA, 100, "left"), row(piece.FaceB, 100+offset, "right")}}
	d := &design.Design{Shelves: []design.Shelf{{In: "left", FirstHole: n(100), Pitch: n(32), Path: "shelves.0"}, {In: "right", FirstHole: n(100 + offset), Pitch: n(32), Path: "shelves.1"}}}
	return Input{Piece: &piece.Piece{Parts: []*piece.Part{q}}, Design: d}
}

func TestCutsFromBothFaces(t *testing.T) {
	for _, c := range []struct {
		depth, offset float64
		want          work.Verdict
	}{{10, 0, work.Stop}, {8, 0, work.Look}, {7, 0, work.Fine}, {10, 4.9, work.Stop}, {10, 16, ""}, {10, 5.1, ""}} {
		fs := faces(pins(c.depth, c.offset))
		switch {
		case c.want == "" && len(fs) > 0:
			t.Errorf("%.0f deep, %.1f apart: %s", c.depth, c.offset, fs[0].Verdict)
		case c.want != "" && (len(fs) != 1 || fs[0].Verdict != c.want):
			t.Errorf("%.0f deep, %.1f apart: %+v, want %s", c.depth, c.offset, fs, c.want)
		}
	}
	f := faces(pins(10, 0))[0]
	if m := f.Mends[0]; m.Path != "shelves.0.above floor" || m.New != "116 mm" {
		t.Errorf("the mend is %+v", m)
	}
	if len(faces(pins(10, 16))) != 0 {
		t.Error("the mend does not mend")
	}
}

func TestBendFindings(t *testing.T) {
	in := bentStrip(140, 36, 1.6)
	fs := bends(in)
	if len(fs) != len(in.Piece.Parts[0].Bends[0].Plan.Verdicts()) {
		t.Fatalf("%d findings", len(fs))
	}
	for i, v := range in.Piece.Parts[0].Bends[0].Plan.Verdicts() {
		if fs[i].Rule != v.Rule || fs[i].Value.V != v.Value || string(fs[i].Verdict) != string(v.Level) {
			t.Errorf("%s: %s %.4g, the plan says %s %.4g", fs[i].ID, fs[i].Verdict, fs[i].Value.V, v.Level, v.Value)
		}
	}
}

// Nine kerfs of 2.2 cannot turn 90° in 17.6: the mend says how many do.
func TestBendMendsHold(t *testing.T) {
	in := bentStrip(140, 9, 1.6)
	f := find(bends(in), "bend/shell/top left/mouth")
	if f.Verdict != work.Stop || len(f.Mends) == 0 {
		t.Fatalf("%s with %d mends", f.Verdict, len(f.Mends))
	}
	for _, m := range f.Mends {
		s := in.Piece.Parts[0].Bends[0].Plan.Spec
		s.Count = 9
		switch m.Path {
		case "body.bend.kerfs":
			if _, err := fmt.Sscan(m.New, &s.Count); err != nil {
				t.Fatal(err)
			}
		case "body.corners.top left.radius":
			if _, err := fmt.Sscanf(m.New, "%f mm", &s.Radius); err != nil {
				t.Fatal(err)
			}
		default:
			continue
		}
		p, err := bend.New(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range p.Verdicts() {
			if v.Key == bend.KeyMouth && v.Level == bend.Stop {
				t.Errorf("%s = %s leaves the kerfs shut", m.Path, m.New)
			}
		}
	}
}

// A row of pin holes near the tangent point, and the row that clears it.
func TestClearOfTheBend(t *testing.T) {
	near := func(count int) *work.Finding {
		in := bentStrip(140, 36, 1.6)
		in.Piece.Parts[0].Cuts = []piece.Cut{
			{Kind: piece.Rabbet, X0: n(0), X1: n(1200), For: "back"},
			{Kind: piece.HoleRow, X0: n(100), Diameter: n(5), Count: count, StepX: n(32), For: "shelf pins in scores"},
		}
		in.Design.Shelves = []design.Shelf{{In: "scores", FirstHole: n(128), Pitch: n(32), Path: "shelves.0"}}
		return find(clear(in), "clear/shell/top left")
	}
	// Holes at 100 + 32k: the bend starts at 600, and wants some 14 mm.
	for _, c := range []struct {
		count int
		want  work.Verdict
	}{{15, work.Fine}, {16, work.Fine}, {17, work.Stop}, {8, work.Fine}} {
		if f := near(c.count); f.Verdict != c.want {
			t.Errorf("%d holes: %s, %.1f of %.1f", c.count, f.Verdict, f.Value.V, f.Limit.V)
		}
	}
	m := near(17).Mends[0]
	if m.Path != "shelves.0.to" || m.New != "608 mm" { // one hole fewer: 128 + 15·32
		t.Errorf("the mend is %+v", m)
	}
}

func TestRulesAreCompleteAndUnique(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		if seen[r.ID] {
			t.Errorf("two rules are called %s", r.ID)
		}
		seen[r.ID] = true
	}
	for _, r := range own {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
	for _, in := range []Input{shelfOn(900, 300, 40, 30), cabinet(800, 1200, 350, 40, 25, 4, 30), bentStrip(140, 36, 1.6), pins(10, 0)} {
		for _, f := range Make(in) {
			if !seen[f.Rule] {
				t.Errorf("%s names rule %q, which is not in the list", f.ID, f.Rule)
			}
			if f.Title == "" || len(f.Text) == 0 || f.Chapter == "" || f.Path == "" {
				t.Errorf("%s lacks title, text, chapter or path", f.ID)
			}
		}
	}
}
