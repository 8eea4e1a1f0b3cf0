package making

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// smallShop has a lean, a middle and a fat bit, and a saw.
func smallShop() *design.ShopFile {
	return &design.ShopFile{
		Saws: []*design.Saw{{Name: "bench saw", Kind: "table saw", Kerf: design.Spread{Mean: n(3)}, Depth: design.Spread{Mean: n(70)}}},
		Bits: []*design.Bit{{Name: "six", Diameter: n(6), Length: n(20)}, {Name: "twelve", Diameter: n(12), Length: n(30)},
			{Name: "sixteen", Diameter: n(15.95), Length: n(30)}},
	}
}

func slotIn(q *piece.Part, kind piece.CutKind, x0, y0, x1, y1, deep float64) {
	q.Cuts = append(q.Cuts, piece.Cut{ID: q.ID + "/" + string(kind), Kind: kind, Face: piece.FaceA, X0: n(x0), Y0: n(y0), X1: n(x1), Y1: n(y1), Depth: n(deep)})
}

// part is a panel with its blank cut to size.
func part(id string, l, w, t float64) *piece.Part {
	q := panel(l, w, t)
	q.ID, q.Name, q.BlankLength, q.BlankWidth = id, id, n(l), n(w)
	return q
}

func setUps(q ...*piece.Part) []work.SetUp {
	return SetUps(&piece.Piece{Parts: q}, &design.Design{Shop: smallShop()}, nil).SetUps
}

func TestBitForASlot(t *testing.T) {
	for _, c := range []struct {
		name         string
		kind         piece.CutKind
		y0, y1, deep float64
		bit          string
		across, pass int
		missing      bool
	}{
		{"the fattest that goes in", piece.Housing, 100, 117.8, 5.9, "sixteen", 2, 2, false},
		{"as fat as the slot", piece.Housing, 100, 112, 6.4, "twelve", 1, 2, false},
		{"a groove for the lean one", piece.Groove, 10, 16.7, 6, "six", 2, 2, false},
		{"three runs of it", piece.Housing, 100, 140, 3, "sixteen", 3, 1, false},
		{"a rabbet's bit hangs over the edge", piece.Rabbet, 393.6, 400, 8, "twelve", 1, 3, false},
		{"a rabbet wider than any bit", piece.Rabbet, 382.3, 400, 8.85, "sixteen", 2, 3, false},
		{"leaner than any bit", piece.Groove, 10, 14, 6, "", 1, 2, true},
		{"deeper than the lean one cuts", piece.Groove, 10, 18, 25, "", 1, 8, true},
	} {
		q := part("panel", 1000, 400, 40)
		slotIn(q, c.kind, 0, c.y0, 1000, c.y1, c.deep)
		us := setUps(q)
		if len(us) != 1 {
			t.Fatalf("%s: %d set-ups", c.name, len(us))
		}
		if u := us[0]; u.With != c.bit || u.Across != c.across || u.Deep != c.pass || u.Missing != c.missing {
			t.Errorf("%s: %q, %d across, %d deep, missing %v", c.name, u.With, u.Across, u.Deep, u.Missing)
		}
	}
}

func TestWhatNothingCanMakeIsAFinding(t *testing.T) {
	q := part("panel", 1000, 400, 20)
	slotIn(q, piece.Groove, 0, 10, 1000, 14, 6)
	p, d := &piece.Piece{Parts: []*piece.Part{q}}, &design.Design{Shop: smallShop()}
	fs := SetUps(p, d, nil).Findings
	if len(fs) != 1 || fs[0].Verdict != work.Look || fs[0].Value.V != 6 || fs[0].Limit.V != 4 {
		t.Errorf("%+v", fs)
	}
	q.Cuts[0].Y1 = n(17)
	if fs = SetUps(p, d, nil).Findings; len(fs) != 1 || fs[0].Verdict != work.Fine {
		t.Errorf("%+v", fs)
	}
	d.Shop.Bits = nil
	if fs = SetUps(p, d, nil).Findings; len(fs) != 1 || fs[0].Verdict != work.Look {
		t.Errorf("without bits: %+v", fs)
	}
}

// Rabbets of one width on parts of any size share the fence of their own edge;
// on an end that is still overlong the place is told from the datum.
func TestWhatSharesAFence(t *testing.T) {
	a, b, c := part("a", 900, 400, 20), part("b", 500, 300, 20), part("c", 700, 400, 20)
	slotIn(a, piece.Rabbet, 0, 393.6, 900, 400, 8)
	slotIn(b, piece.Rabbet, 0, 293.6, 500, 300, 8)
	slotIn(c, piece.Rabbet, 682, 0, 700, 400, 9)
	if us := setUps(a, b, c); len(us) != 2 || len(us[0].Cuts) != 2 || us[0].From != "own edge" || us[1].From != "own end" || us[1].Stop.V != 18 {
		t.Errorf("%+v", us)
	}
	c.BlankLength = n(704)
	us := setUps(c)
	if len(us) != 3 || us[0].Kind != "square the end" || us[1].From != "datum end" || us[1].Stop.V != 682 || us[2].Kind != "trim" || us[2].Stop.V != 700 {
		t.Errorf("overlong: %+v", us)
	}
}

// A housing that runs out into a deeper rabbet is not stopped there.
func TestStoppedEnds(t *testing.T) {
	q := part("panel", 1000, 400, 20)
	slotIn(q, piece.Rabbet, 0, 393.6, 1000, 400, 8)
	slotIn(q, piece.Housing, 500, 12, 517.8, 393.6, 6)
	us := setUps(q)
	if h := us[1].Cuts[0]; us[1].Kind != "housing" || !h.StopFrom || h.StopTo {
		t.Errorf("%+v", us[1])
	}
	q.Cuts[0].Depth = n(4)
	for _, u := range setUps(q) {
		if u.Kind == "housing" && !u.Cuts[0].StopTo {
			t.Error("a shallower rabbet does not free its end")
		}
	}
}

func TestASawThatIsWishedFor(t *testing.T) {
	q, in := part("side", 1000, 400, 20), part("board", 500, 400, 18)
	slotIn(q, piece.Housing, 500, 0, 518, 400, 6)
	q.Cuts[0].For = "board"
	d := &design.Design{Shop: smallShop(), Joints: []design.JointWish{{A: "board", B: "side", Tool: "bench saw"}}}
	p := &piece.Piece{Parts: []*piece.Part{q, in}}
	if u := SetUps(p, d, nil).SetUps[0]; u.With != "bench saw" || !u.NotThrough || u.Across != 6 {
		t.Errorf("%+v", u)
	}
	q.Cuts[0].Y0 = n(12) // stopped: no saw can
	if u := SetUps(p, d, nil).SetUps[0]; u.With != "sixteen" {
		t.Errorf("%+v", u)
	}
}

// Late parts come after everything else, and are bored from the edge that is
// known: the nearer one.
func TestLatePartsComeLast(t *testing.T) {
	door, side := part("door", 700, 480, 18), part("side", 800, 400, 18)
	door.Late, door.BlankLength = true, n(704)
	hole := func(q *piece.Part, y, dia float64) {
		q.Cuts = append(q.Cuts, piece.Cut{ID: q.ID + "/hole", Kind: piece.Hole, Face: piece.FaceB, X0: n(80), Y0: n(y), Diameter: n(dia), Depth: n(12), Count: 1})
	}
	hole(door, 458.5, 35)
	hole(side, 37, 35)
	us := setUps(door, side)
	if len(us) != 2 || us[0].Cuts[0].Part != "side" || us[1].From != "nearer edge" || us[1].Stop.V != 21.5 {
		t.Errorf("%+v", us)
	}
}

// Every cut stands in one set-up, all cuts of a set-up share what is set, and
// the order of the parts in the piece does not matter.
func TestEveryCutOnce(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var parts []*piece.Part
		cuts := 0
		for i := range rapid.IntRange(1, 6).Draw(rt, "parts") {
			q := part(string(rune('a'+i)), 800, 400, 20)
			for k := range rapid.IntRange(0, 5).Draw(rt, "cuts") {
				x := float64(rapid.IntRange(0, 7).Draw(rt, "x")) * 100
				kind := rapid.SampledFrom([]piece.CutKind{piece.Housing, piece.Rabbet, piece.Groove}).Draw(rt, "kind")
				slotIn(q, kind, x, 0, x+rapid.SampledFrom([]float64{3, 6.5, 18, 40}).Draw(rt, "w"), 400, rapid.SampledFrom([]float64{3, 6, 25}).Draw(rt, "d"))
				q.Cuts[k].ID += string(rune('0' + k))
				cuts++
			}
			parts = append(parts, q)
		}
		us := setUps(parts...)
		got := 0
		for i, u := range us {
			got += len(u.Cuts)
			if u.Number != i+1 || !u.Missing && (float64(u.Across)*u.Cutter.V < u.Width.V-0.01 || u.Kind != "rabbet" && u.Cutter.V > u.Width.V+0.01) {
				rt.Errorf("%+v", u)
			}
		}
		if got != cuts {
			rt.Errorf("%d cuts in set-ups, %d on parts", got, cuts)
		}
		slices.Reverse(parts)
		if back := setUps(parts...); len(back) != len(us) {
			rt.Errorf("%d and %d set-ups", len(us), len(back))
		}
	})
}

func TestScrews(t *testing.T) {
	screws9 := func(head string) *piece.Pegs {
		return &piece.Pegs{Kind: "screw", Count: 9, Head: head, Length: n(50), Every: n(150)}
	}
	p := &piece.Piece{Joints: []piece.Joint{{ID: "1", Kind: "screwed", A: "plinth", B: "bottom", Pegs: screws9("bottom")},
		{ID: "2", Kind: "screwed", A: "box, front", B: "front", Pegs: screws9("box, front")}, {ID: "3", Kind: "butt", A: "bottom", B: "plinth"},
		{ID: "4", Kind: "dowel", A: "plinth", B: "front", Pegs: &piece.Pegs{Kind: "dowel", Count: 2}}}}
	ls := screws(p)
	if len(ls) != 2 || ls[0].Through != "bottom" || ls[0].In != "plinth" || ls[0].Count != 9 || ls[0].Every.V != 150 || ls[1].Through != "box, front" || ls[1].In != "front" {
		t.Fatalf("%+v", ls)
	}
}

// Holes of a row that runs across the part are set from its end.
func TestRowsAcross(t *testing.T) {
	q := part("top", 800, 400, 18)
	q.Cuts = []piece.Cut{{ID: "h", Kind: piece.HoleRow, Face: piece.FaceB, X0: n(60), Y0: n(380), StepY: n(-90), Diameter: n(8), Depth: n(13), Count: 4},
		{ID: "m", Kind: piece.Mortise, Face: piece.EndLow, X0: n(10), X1: n(70), Y0: n(6), Y1: n(12), Depth: n(21)}}
	us := setUps(q)
	if len(us) != 2 || us[0].Kind != "mortise" || us[0].From != "face B" || us[0].Stop.V != 6 || us[0].Depth.V != 21 || us[0].Cuts[0].From.V != 10 {
		t.Fatalf("%+v", us)
	}
	if c := us[1].Cuts[0]; us[1].From != "datum end" || us[1].Stop.V != 60 || c.From.V != 110 || c.To.V != 380 || c.Step.V != 90 {
		t.Errorf("%+v", us[1])
	}
}

func TestOffcutForATestPiece(t *testing.T) {
	l := []work.Layout{{Stock: "ply", Sheets: []work.SheetLayout{{Number: 1, GrainAlong: "length", Offcuts: []work.Offcut{{Length: 600, Width: 300}, {Length: 120, Width: 500}}},
		{Number: 2, GrainAlong: "length", Offcuts: []work.Offcut{{Length: 460, Width: 110}}}}}}
	for _, c := range []struct {
		long, wide float64
		turn       bool
		sheet      int
	}{{450, 100, false, 2}, {450, 110.5, false, 1}, {100, 450, false, 1}, {450, 115, true, 1}, {700, 100, true, 0}} {
		n, o := stash{}.offcut(l, "ply", c.long, c.wide, c.turn)
		if n != c.sheet || (o == nil) != (c.sheet == 0) {
			t.Errorf("%+v: sheet %d", c, n)
		}
	}
}

func TestRules(t *testing.T) {
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}

func TestShapesWindowsAndEndGrooves(t *testing.T) {
	q := part("leg", 400, 100, 20)
	q.Outline = planar.Region{{Outer: planar.Polygon(r2.Vec{}, r2.Vec{X: 400}, r2.Vec{X: 380, Y: 100}, r2.Vec{Y: 100})}}
	if us := setUps(q); len(us) != 1 || us[0].Kind != "outline" || us[0].Width.V != 0 {
		t.Errorf("a slanting end: %+v", us)
	}
	s := part("strip", 400, 300, 18)
	s.Cuts = []piece.Cut{{ID: "w", Kind: piece.Window, X0: n(50), X1: n(200), Y0: n(40), Y1: n(240), Depth: n(18), Through: true},
		{ID: "g", Kind: piece.EndGroove, Face: piece.FaceB, X0: n(388), X1: n(400), Y1: n(300), Z0: n(5.9), Z1: n(12.2), Depth: n(12)}}
	us := setUps(s)
	if len(us) != 2 || us[0].Kind != "end groove" || us[0].With != "six" || us[0].From != "face B" || us[0].Stop.V != 5.9 || us[0].Depth.V != 12 || us[1].Kind != "window" {
		t.Errorf("%+v", us)
	}
	h := part("rail", 400, 60, 18)
	h.Cuts = []piece.Cut{{ID: "h", Kind: piece.Hole, Face: piece.EndLow, X0: n(30), Y0: n(9), Diameter: n(8), Depth: n(20), Count: 1}}
	if us := setUps(h); len(us) != 1 || us[0].From != "face B" || us[0].Stop.V != 9 {
		t.Errorf("%+v", us)
	}
}
