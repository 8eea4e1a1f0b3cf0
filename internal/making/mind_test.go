package making

import (
	"slices"
	"testing"

	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

func block(id string, long, wide, thick, kg float64) *piece.Part {
	return &piece.Part{ID: id, Length: trace.Const(long), Width: trace.Const(wide), Thick: trace.Const(thick), Mass: trace.Const(kg)}
}

func TestMindOfASetUp(t *testing.T) {
	p := &piece.Piece{Parts: []*piece.Part{block("board", 800, 300, 18, 3), block("lath", 800, 60, 18, 0.5), block("chip", 200, 150, 18, 0.3),
		block("slab", 900, 600, 60, 20), block("door", 2100, 600, 18, 12), block("bench top", 1900, 700, 80, 60)}}
	for _, c := range []struct {
		name string
		up   work.SetUp
		part string
		want []work.Mind
	}{
		{"routed", work.SetUp{Tool: work.Router}, "board", []work.Mind{work.Kickback, work.Climb, work.Dust}},
		{"narrow", work.SetUp{Tool: work.Router}, "lath", []work.Mind{work.Kickback, work.Climb, work.Dust, work.SmallPart}},
		{"short", work.SetUp{Tool: work.Drill}, "chip", []work.Mind{work.Catching, work.SmallPart}},
		{"by hand a small one may be", work.SetUp{Tool: work.Hand}, "chip", []work.Mind{work.EdgeTools}},
		{"hidden", work.SetUp{Tool: work.Saw, NotThrough: true}, "board", []work.Mind{work.Hidden, work.Dust}},
		{"sawn, heavy", work.SetUp{Tool: work.Saw}, "slab", []work.Mind{work.Kickback, work.Dust, work.TwoPeople}},
		{"sawn, long", work.SetUp{Tool: work.Saw}, "door", []work.Mind{work.Kickback, work.Dust, work.TwoPeople}},
		{"sawn, too heavy for two", work.SetUp{Tool: work.Saw}, "bench top", []work.Mind{work.Kickback, work.Dust, work.Lifting}},
	} {
		c.up.Cuts = []work.SetUpCut{{Part: c.part}}
		ups := []work.SetUp{c.up}
		minding(p, ups)
		if !slices.Equal(ups[0].Mind, c.want) {
			t.Errorf("%s: %q, want %q", c.name, ups[0].Mind, c.want)
		}
	}
}

// Glue is minded where a glued joint is closed; a glue-up's last step minds all
// that has come together.
func TestMindOfSteps(t *testing.T) {
	p := &piece.Piece{Parts: []*piece.Part{block("a", 800, 300, 18, 10), block("b", 800, 300, 18, 10), block("c", 800, 300, 18, 3)},
		Joints: []piece.Joint{{ID: "b / a", Glued: true}, {ID: "c / a"}}}
	in := []work.Step{{Part: "a", Group: 1}, {Part: "b", Group: 1, Joints: []string{"b / a"}}, {Part: "c", Joints: []string{"c / a"}}}
	out := MindSteps(p, in)
	for i, want := range [][]work.Mind{nil, {work.Vapour, work.TwoPeople}, nil} {
		if !slices.Equal(out[i].Mind, want) {
			t.Errorf("step %d: %q, want %q", i, out[i].Mind, want)
		}
	}
	if in[1].Mind != nil {
		t.Error("the order that was handed in has changed")
	}
}
