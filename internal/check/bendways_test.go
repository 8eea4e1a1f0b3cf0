package check

import (
	"math"
	"strings"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// A strip of a shell with two bent corners on top, longer than its sheet, is
// given a seam between them from which both pieces come out of a sheet; with no
// room for one it says so.
func TestALongStripIsGivenASeam(t *testing.T) {
	n := trace.Const
	for _, c := range []struct {
		length float64
		ok     bool
	}{{2600, true}, {2400, false}, {4000, true}, {6000, false}} {
		flat := c.length - 2*(400+220)
		q := &piece.Part{ID: "shell", Role: piece.Strip, Length: n(c.length), BlankLength: n(c.length + 4), Grain: piece.AlongLength,
			Stock: &design.Stock{Name: "ply", Length: n(2440), Width: n(1220), GrainAlong: "length", Trim: n(5)},
			Bends: []piece.Bend{{Corner: design.TopLeft, Start: n(400), Length: n(220)}, {Corner: design.TopRight, Start: n(620 + flat), Length: n(220)}}}
		d := &design.Design{}
		d.Body.Kind = design.BentShell
		d.Body.Corners = map[string]design.Corner{design.TopLeft: {Bent: true, Radius: n(140)}, design.TopRight: {Bent: true, Radius: n(140)}}
		f, said := tooLong(Input{Design: d}, q)
		if said != (c.length+4 > 2430) {
			t.Errorf("%g: said %v", c.length, said)
		}
		if !said {
			continue
		}
		on, at, ok := seamFor(Input{Design: d}, q, 2430)
		if ok != c.ok || ok && on != "top" || f.Verdict != work.Stop {
			t.Errorf("%g: a seam on %q at %g: %v", c.length, on, at, ok)
		}
		if !ok {
			continue
		}
		x := 620 + at - 140 // on the strip
		if first, second := x+4, c.length-x+4; first > 2430 || second > 2430 || x < 620+seamReach || x > 620+flat-seamReach {
			t.Errorf("%g: the seam at %g leaves %g and %g", c.length, x, first, second)
		}
		if m := f.Mends[0]; m.Path != "body.seams" || !strings.Contains(m.New, "on: top") {
			t.Errorf("mend %+v", m)
		}
	}
}

// A stack that takes longer to spread than its glue stays open says so once for
// its strip; a ply that is bent too tightly is offered a radius that it takes.
func TestStacksAreJudged(t *testing.T) {
	p, err := bend.NewStack(bend.Stack{Ply: 6.4, Count: 3, Radius: 140, Angle: math.Pi / 2, Width: 400, Length: 2000, GrainAlong: true, OpenTime: 540, SpreadTime: 1080e-6})
	if err != nil {
		t.Fatal(err)
	}
	q := &piece.Part{ID: "shell"}
	b := &piece.Bend{Corner: design.TopLeft, Stack: &p, Path: "body.corners.top left"}
	fs := stack(q, b, true)
	if len(fs) != 2 || fs[0].Verdict != work.Stop || fs[1].Verdict != work.Stop || len(fs[1].Mends) == 0 {
		t.Fatalf("%+v", fs)
	}
	if again := stack(q, b, false); len(again) != 1 {
		t.Errorf("the second bend tells of the glue again")
	}
	m := fs[0].Mends[0]
	if m.Path != "body.corners.top left.radius" || !strings.HasSuffix(m.New, " mm") {
		t.Errorf("mend %+v", m)
	}
}
