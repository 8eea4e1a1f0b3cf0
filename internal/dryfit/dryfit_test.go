package dryfit

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/replay"
	"rodwork/internal/work"
)

func order(t *testing.T, b *bench) []work.Step {
	t.Helper()
	r := Order(&b.p, shop(0, 0))
	if len(r.Stuck) > 0 {
		t.Fatalf("stuck: %v", r.Stuck)
	}
	for _, f := range replay.Joints(&b.p, r.Steps) {
		t.Errorf("step %d: %s", f.Step, f.Text)
	}
	return r.Steps
}

// place is the number of the step in which the part comes in.
func place(steps []work.Step, part string) int {
	for _, s := range steps {
		if s.Part == part {
			return s.Number
		}
	}
	return -1
}

func TestCarcaseGoesTogether(t *testing.T) {
	steps := order(t, carcase())
	if got := steps[len(steps)-1]; got.Part != "back" || got.Move != "from behind" {
		t.Errorf("the last step is %s %s, want the back from behind", got.Part, got.Move)
	}
	// The board is held by both dividers, so it is in before the second of them
	// is fast; and the top closes over both.
	board := place(steps, "board")
	second := max(place(steps, "divider 1"), place(steps, "divider 2"))
	if top := place(steps, "top"); top < board || top < second {
		t.Errorf("the top comes in at %d, before board (%d) or divider (%d)", top, board, second)
	}
}

// Two dividers in a bottom with a board between them: none of the three can
// come last alone once the others stand; the three go down together.
func TestSubAssemblyWhereNeeded(t *testing.T) {
	var b bench
	b.part("bottom", 0, 0, 0, 600, 18, 300)
	b.part("a", 100, 12, 0, 118, 400, 300)
	b.part("c", 400, 12, 0, 418, 400, 300)
	b.part("board", 112, 200, 0, 406, 218, 300)
	b.joint("housing", "a", "bottom", down)
	b.joint("housing", "c", "bottom", down)
	b.joint("housing", "board", "a", left)
	b.joint("housing", "board", "c", right)
	steps := order(t, &b)
	last := steps[len(steps)-1]
	if len(last.Joints) != 2 || last.Move != "up" && last.Move != "down" {
		t.Errorf("the last step closes %v %s; want both joints with the bottom at once", last.Joints, last.Move)
	}
}

// Three parts, each pair joined along another axis: nothing moves.
func TestInterlockedIsSaid(t *testing.T) {
	var b bench
	b.part("a", 0, 0, 0, 100, 100, 100)
	b.part("c", 100, 0, 0, 200, 100, 100)
	b.part("d", 0, 100, 0, 200, 200, 100)
	b.joint("housing", "a", "c", right)
	b.joint("housing", "a", "d", up)
	b.joint("housing", "c", "d", front)
	r := Order(&b.p, shop(0, 0))
	if len(r.Stuck) != 1 || len(r.Stuck[0]) != 3 {
		t.Fatalf("stuck: %v, want all three", r.Stuck)
	}
	if len(r.Findings) == 0 || r.Findings[0].Verdict != work.Stop {
		t.Error("no finding says stop")
	}
	if len(r.Steps) != 3 {
		t.Errorf("%d steps: a part is lost", len(r.Steps))
	}
}

// A panel that is let into the floor of a box from above cannot come after the
// lid, which only lies on the walls.
func TestWhatStandsInTheWay(t *testing.T) {
	var b bench
	b.part("floor", 0, 0, 0, 400, 18, 300)
	b.part("wall", 0, 18, 0, 18, 300, 300)
	b.part("lid", 0, 300, 0, 400, 318, 300)
	b.part("post", 200, 12, 100, 218, 200, 200)
	b.joint("housing", "wall", "floor", down)
	b.joint("rabbet", "wall", "lid", up)
	b.joint("housing", "post", "floor", down)
	steps := order(t, &b)
	if place(steps, "lid") < place(steps, "post") {
		t.Error("the lid lies over the post before the post is in")
	}
}

// shellPiece is a shell of one bend over a floor, a side, a divider and a rail.
func shellPiece() *bench {
	var b bench
	b.part("bottom", 10, 0, 0, 600, 18, 300)
	b.part("side", 582, 0, 0, 600, 390, 300)
	b.part("divider", 300, 12, 6, 318, 388, 300)
	b.part("rail", 40, 300, 6, 582, 382, 24)
	b.part("back", 8, 8, 0, 592, 392, 6)
	s := &piece.Part{ID: "shell", Name: "shell", Role: piece.Strip, Length: n(900), Width: n(300), Thick: n(18), Pose: r3.Identity(),
		Bends: []piece.Bend{{Corner: "top left", Start: n(300), Length: n(150), Radius: n(100)}}}
	s.Origin[2] = n(300)
	s.Run = []piece.Stretch{
		{X0: 0, X1: 300, From: r2.Vec{}, Dir: r2.Vec{Y: 1}},
		{X0: 300, X1: 450, From: r2.Vec{Y: 300}, Dir: r2.Vec{Y: 1}, Radius: 100, Angle: math.Pi / 2},
		{X0: 450, X1: 950, From: r2.Vec{X: 100, Y: 400}, Dir: r2.Vec{X: 1}},
	}
	b.p.Parts = append(b.p.Parts, s)
	b.joint("rabbet", "bottom", "shell", left, up)
	b.joint("rabbet", "bottom", "side", right, up)
	b.joint("rabbet", "side", "shell", up)
	b.joint("housing", "divider", "bottom", down)
	b.joint("housing", "divider", "shell", up)
	b.joint("butt", "rail", "shell", up, front)
	b.joint("butt", "rail", "side", right, front)
	b.joint("notch", "rail", "divider", front, down)
	b.joint("rabbet", "back", "shell", front)
	b.joint("rabbet", "back", "bottom", front)
	return &b
}

func TestShellIsWrappedOverItsRail(t *testing.T) {
	steps := order(t, shellPiece())
	i := place(steps, "shell")
	if steps[i-1].Move != "wrapped round" {
		t.Fatalf("the shell comes in %q", steps[i-1].Move)
	}
	if place(steps, "rail") > i || place(steps, "divider") > i || place(steps, "back") < i {
		t.Error("rail and divider come before the shell, the back after it")
	}
	if g := steps[i-1].Group; g == steps[i].Group || g == steps[i-2].Group {
		t.Error("a wrapped shell is a glue-up of its own")
	}
}

func TestEdgingFirstShelfLast(t *testing.T) {
	b := carcase()
	q := b.part("shelf", 20, 200, 6, 248, 218, 280)
	e := b.part("edging", 20, 190, 280, 248, 218, 300)
	q.Loose, e.Loose, e.Of = true, true, "shelf"
	b.joint("edging", "edging", "shelf", back)
	b.joint("pins", "shelf", "left side", down, back)
	b.joint("pins", "shelf", "divider 1", down, back)
	steps := order(t, b)
	if steps[0].Part != "shelf" || steps[1].Part != "edging" || steps[1].Group == 0 {
		t.Errorf("it begins with %s and %s", steps[0].Part, steps[1].Part)
	}
	if last := steps[len(steps)-1]; last.Part != "shelf" || last.Group != 0 || last.Move != "from the front" {
		t.Errorf("it ends with %s %s in glue-up %d", last.Part, last.Move, last.Group)
	}
}

// The replay finds each order that is spoilt.
func TestReplayFindsFaults(t *testing.T) {
	b := carcase()
	good := order(t, b)
	for i := range good {
		spoilt := slices.Clone(good)
		if len(good[i].Joints) > 0 {
			for _, d := range [][3]float64{{1, 1, 1}, {0, 0, 0}, {-good[i].Dir[0], -good[i].Dir[1], -good[i].Dir[2]}} {
				spoilt[i].Dir = d
				if len(replay.Joints(&b.p, spoilt)) == 0 {
					t.Errorf("step %d may come along %v", i+1, d)
				}
			}
			spoilt = slices.Clone(good)
			spoilt[i].Joints = good[i].Joints[1:]
			if len(replay.Joints(&b.p, spoilt)) == 0 {
				t.Errorf("step %d may leave a joint out", i+1)
			}
		}
		if len(replay.Joints(&b.p, append(slices.Clone(good[:i]), good[i+1:]...))) == 0 {
			t.Errorf("step %d may be left out", i+1)
		}
		if len(replay.Joints(&b.p, append(slices.Clone(good), good[i]))) == 0 {
			t.Errorf("step %d may be done twice", i+1)
		}
	}
	slices.Reverse(good)
	if len(replay.Joints(&b.p, good)) == 0 {
		t.Error("the order may be turned round")
	}
}

// Boxes in a row, joined like a tree along any axes, always go together.
func TestTreesGoTogether(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var b bench
		ways := []r3.Vec{left, right, up, down, front, back}
		k := rapid.IntRange(1, 12).Draw(rt, "parts")
		for i := range k {
			at := float64(i) * 1000 // apart, so that only joints count
			b.part(fmt.Sprint(i), at, at, at, at+10, at+10, at+10)
			if i > 0 {
				b.joint("housing", fmt.Sprint(i), fmt.Sprint(rapid.IntRange(0, i-1).Draw(rt, "on")), rapid.SampledFrom(ways).Draw(rt, "way"))
			}
		}
		r := Order(&b.p, shop(0, 0))
		if len(r.Stuck) > 0 {
			rt.Fatalf("stuck: %v", r.Stuck)
		}
		if f := replay.Joints(&b.p, r.Steps); len(f) > 0 {
			rt.Fatalf("%v", f)
		}
	})
}

// Whatever the joints, an order either is found and replays without a fault, or
// a finding says stop; no part is lost.
func TestFoundOrSaid(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var b bench
		ways := []r3.Vec{left, right, up, down, front, back}
		k := rapid.IntRange(2, 8).Draw(rt, "parts")
		for i := range k {
			x, y := float64(i%3)*100, float64(i/3)*100
			b.part(fmt.Sprint(i), x, y, 0, x+99, y+99, 50)
		}
		for range rapid.IntRange(0, 12).Draw(rt, "joints") {
			i, j := rapid.IntRange(0, k-1).Draw(rt, "i"), rapid.IntRange(0, k-1).Draw(rt, "j")
			id := fmt.Sprintf("%d / %d", i, j)
			if i == j || slices.ContainsFunc(b.p.Joints, func(o piece.Joint) bool { return o.ID == id }) {
				continue
			}
			b.joint("housing", fmt.Sprint(i), fmt.Sprint(j), rapid.SampledFrom(ways).Draw(rt, "way"))
		}
		r := Order(&b.p, shop(0, 0))
		in := map[string]bool{}
		for _, s := range r.Steps {
			in[s.Part] = true
		}
		if len(in) != k {
			rt.Fatalf("%d of %d parts come in", len(in), k)
		}
		if f := replay.Joints(&b.p, r.Steps); (len(f) > 0) != (len(r.Stuck) > 0) {
			rt.Fatalf("stuck %v, faults %v", r.Stuck, f)
		}
	})
}

// With a short open time the carcase is glued in stages, and what cannot be
// spread in time is said.
func TestGlueUpsKeepTheOpenTime(t *testing.T) {
	b := carcase()
	last := func(rate, open float64) int {
		g := 0
		for _, s := range Order(&b.p, shop(rate, open)).Steps {
			g = max(g, s.Group)
		}
		return g
	}
	one, many := last(0, 0), last(1000, 25) // a joint takes 10 s
	if one != 2 || many < 5 {               // the dividers with their board, then the box
		t.Errorf("%d and %d glue-ups", one, many)
	}
	r := Order(&b.p, shop(1000, 5))
	if !slices.ContainsFunc(r.Findings, func(f work.Finding) bool { return f.Rule == TimeRule.ID && f.Verdict == work.Look }) {
		t.Error("nothing is said of a glue that stays open for half a joint")
	}
}

func TestSentences(t *testing.T) {
	b := carcase()
	r := Order(&b.p, shop(0, 0))
	var got []string
	for _, s := range r.Steps {
		var text strings.Builder
		for _, x := range s.Text {
			text.WriteString(x.Text)
			if x.Q != nil {
				fmt.Fprintf(&text, "%.*f", x.Q.Decimals, x.Q.V)
			}
		}
		got = append(got, text.String())
	}
	want := "divider 1, with divider 2 and board on it, goes down into bottom, 6.0 deep in the housing."
	if got[4] != want {
		t.Errorf("got %q, want %q", got[4], want)
	}
	want = "back goes from behind into bottom, left side, right side and top, 6.0 deep in the rabbet."
	if last := got[len(got)-1]; last != want {
		t.Errorf("got %q, want %q", last, want)
	}
}

func TestRulesAreComplete(t *testing.T) {
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}

func TestNothingToAssemble(t *testing.T) {
	if r := Order(&piece.Piece{}, shop(0, 0)); len(r.Steps) != 0 || len(r.Findings) != 0 {
		t.Errorf("%v", r)
	}
}

// A body beyond the bound is said not to be covered, at once, and loses no part.
func TestTooManyParts(t *testing.T) {
	var b bench
	b.part("side", 0, 0, 0, 18, 4000, 300)
	for i := range MostParts {
		id := fmt.Sprint("shelf ", i)
		b.part(id, 12, float64(i)*9, 0, 606, float64(i)*9+5, 300)
		b.joint("housing", id, "side", left)
	}
	r := Order(&b.p, shop(0, 0))
	if !r.Large || len(r.Steps) != MostParts+1 || r.Findings[0].Verdict != work.NotCovered {
		t.Errorf("large %v, %d steps, %s", r.Large, len(r.Steps), r.Findings[0].Verdict)
	}
}
