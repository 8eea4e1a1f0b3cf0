package layout_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rodwork/internal/design"
	"rodwork/internal/layout"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// shop is a ledger with one stock of sheets, one of sticks and a saw in it.
type shop struct {
	led    trace.Ledger
	sheet  *design.Stock
	stick  *design.Stock
	saw    *design.Saw
	habits design.Habits
	parts  []*piece.Part
}

func (s *shop) num(v float64, path string) trace.Num {
	return s.led.Var(v, trace.Input{Kind: trace.Shop, Path: path})
}

func newShop() *shop {
	s := &shop{}
	s.sheet = &design.Stock{Name: "birch ply 18", Kind: design.Plywood, GrainAlong: "length", Path: "stock.birch ply 18",
		Length: s.num(2440, "ply.length"), Width: s.num(1220, "ply.width"), Trim: s.num(8, "ply.trim"), Price: s.num(94.5, "ply.price")}
	s.stick = &design.Stock{Name: "ash 20", Kind: design.Solid, Stick: true, GrainAlong: "length", Path: "stock.ash 20",
		Length: s.num(2400, "ash.length"), Width: s.num(95, "ash.width"), Trim: s.num(10, "ash.trim"), Price: s.num(14, "ash.price")}
	s.saw = &design.Saw{Name: "track saw", Kerf: design.Spread{Mean: s.num(2.2, "saw.kerf")}}
	s.habits.KeptOffcut = s.num(100, "habits.kept offcut")
	return s
}

func (s *shop) part(id string, stock *design.Stock, length, width float64, g piece.Grain) {
	s.parts = append(s.parts, &piece.Part{ID: id, Number: len(s.parts) + 1, Name: id, Stock: stock, Grain: g, Path: "parts." + id,
		BlankLength: s.num(length, id+".length"), BlankWidth: s.num(width, id+".width")})
}

func (s *shop) make() ([]work.Layout, []work.Finding) {
	return layout.Make(context.Background(), &piece.Piece{Parts: s.parts}, s.saw, s.habits, 0)
}

// sideboard is a low cabinet's worth of parts.
func sideboard() *shop {
	s := newShop()
	s.part("strip", s.sheet, 2179.1, 400, piece.AlongLength)
	s.part("bottom", s.sheet, 1436.4, 393.6, piece.AlongLength)
	s.part("divider 1", s.sheet, 736.4, 373.4, piece.AlongLength)
	s.part("divider 2", s.sheet, 736.4, 393.6, piece.AlongLength)
	s.part("right side", s.sheet, 751.1, 400, piece.AlongLength)
	s.part("tray board", s.sheet, 431.8, 393.6, piece.AlongLength)
	s.part("edging 1", s.stick, 480, 30, piece.AlongLength)
	s.part("edging 2", s.stick, 480, 30, piece.AlongLength)
	s.part("edging 3", s.stick, 1600, 30, piece.AlongLength)
	return s
}

func TestSideboard(t *testing.T) {
	s := sideboard()
	layouts, findings := s.make()
	if len(findings) > 0 {
		t.Fatalf("findings: %s", text(findings[0].Text))
	}
	if len(layouts) != 2 {
		t.Fatalf("%d layouts, want one of sheets and one of sticks", len(layouts))
	}
	ply, ash := layouts[0], layouts[1]
	if len(ply.Sheets) != 1 || !ply.Proven || ply.Least != 1 || !ply.Checked || ply.Count.V != 1 {
		t.Errorf("ply: %d sheets, least %d, proven %v, checked %v, count %v", len(ply.Sheets), ply.Least, ply.Proven, ply.Checked, ply.Count.V)
	}
	if len(ash.Sticks) != 1 || !ash.Proven || !ash.Checked {
		t.Errorf("ash: %d sticks, proven %v, checked %v", len(ash.Sticks), ash.Proven, ash.Checked)
	}
	if got := len(ply.Count.Steps()); got != 4+12 {
		t.Errorf("the count hangs on %d inputs, want the stock's length, width and trim, the kerf and both sides of six blanks", got)
	}
	if len(ply.Count.Sources()) > 0 {
		t.Error("a count moved by a small change")
	}
	var cuts strings.Builder
	for _, c := range ply.Sheets[0].Cuts {
		fmt.Fprintf(&cuts, "%d %s %.1f\n", c.Number, c.Note, c.Fence)
	}
	if diff := cmp.Diff(sideboardCuts, cuts.String()); diff != "" {
		t.Errorf("cuts: %s", diff)
	}
}

// sideboardCuts is the order of sawing, number, kind and fence: the trim cuts,
// three rows, the lengths, and two rips to width.
const sideboardCuts = `1 trim the long edge 8.0
2 trim the end, square to it: the corner is the datum 8.0
3 rip 400.0
4 rip 400.0
5 rip 393.6
6 cross cut 2179.1
7 cross cut 1436.4
8 cross cut 751.1
9 cross cut 736.4
10 cross cut 736.4
11 cross cut 431.8
12 rip 393.6
13 rip 373.4
`

func text(s say.Sentence) string {
	var b strings.Builder
	for _, sp := range s {
		b.WriteString(sp.Text)
		if sp.Q != nil {
			b.WriteString("#")
		}
	}
	return b.String()
}

func TestGrainDecidesTheWay(t *testing.T) {
	for _, c := range []struct {
		part   piece.Grain
		stock  string
		turned bool
	}{
		{piece.AlongLength, "length", false},
		{piece.AlongWidth, "length", true},
		{piece.AlongLength, "width", true},
		{piece.AlongWidth, "width", false},
	} {
		s := newShop()
		s.sheet.GrainAlong = c.stock
		s.part("panel", s.sheet, 700, 500, c.part)
		layouts, findings := s.make()
		if len(findings) > 0 || len(layouts) != 1 {
			t.Fatalf("%v on %s: %d findings", c.part, c.stock, len(findings))
		}
		q := layouts[0].Sheets[0].Placements[0]
		if q.Turned != c.turned || (q.Length == 700) == c.turned {
			t.Errorf("%v on %s: %g × %g, turned %v", c.part, c.stock, q.Length, q.Width, q.Turned)
		}
	}
}

// TestTooLong: a strip longer than the sheet is named, with the sheet that it
// would need; the other parts are laid out all the same.
func TestTooLong(t *testing.T) {
	s := sideboard()
	s.part("long strip", s.sheet, 2424.1, 400, piece.AlongLength)
	s.part("broad top", s.sheet, 1000, 1204.5, piece.AlongLength)
	s.part("long edging", s.stick, 2381, 30, piece.AlongLength)
	s.part("deep edging", s.stick, 300, 96, piece.AlongLength)
	s.part("just so", s.sheet, 2424, 100, piece.AlongLength)
	layouts, findings := s.make()
	if len(layouts) != 2 {
		t.Fatalf("%d layouts", len(layouts))
	}
	want := []struct {
		part         string
		value, limit float64
	}{{"long strip", 2424.1, 2424}, {"broad top", 1204.5, 1204}, {"long edging", 2381, 2380}, {"deep edging", 96, 95}}
	if len(findings) != len(want) {
		t.Fatalf("%d findings, want %d", len(findings), len(want))
	}
	for i, w := range want {
		f := findings[i]
		if f.Part != w.part || f.Value.V != w.value || f.Limit.V != w.limit || f.Verdict != work.Stop || f.Path != "parts."+w.part {
			t.Errorf("%s: %+v", w.part, f)
		}
		if len(f.Value.Sources()) == 0 || len(f.Limit.Sources()) == 0 {
			t.Errorf("%s: value and limit do not know where they come from", w.part)
		}
		t.Log(text(f.Text))
	}
	for _, p := range layouts[0].Sheets {
		for _, q := range p.Placements {
			if q.Part == "long strip" || q.Part == "broad top" {
				t.Errorf("%s was laid out", q.Part)
			}
		}
	}
}

func TestNonsense(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*shop)
		want  int // findings
	}{
		"no saw":          {func(s *shop) { s.saw = nil }, 2}, // one for each stock
		"no blank":        {func(s *shop) { s.parts[0].BlankWidth = trace.Const(-3) }, 1},
		"not a number":    {func(s *shop) { s.parts[0].BlankLength = trace.Const(math.NaN()) }, 1},
		"endless":         {func(s *shop) { s.parts[0].BlankLength = trace.Const(math.Inf(1)) }, 1},
		"all trim":        {func(s *shop) { s.sheet.Trim = trace.Const(610) }, 6},
		"a kerf of 1 m":   {func(s *shop) { s.saw.Kerf.Mean = trace.Const(1000) }, 2},
		"a sheet of 1 km": {func(s *shop) { s.sheet.Length = trace.Const(1e6) }, 1},
		"no stock":        {func(s *shop) { s.parts[0].Stock = nil }, 0},
		"two thousand": {func(s *shop) {
			for range 2000 {
				s.part("again", s.sheet, 100, 100, piece.NoGrain)
			}
		}, 1},
	} {
		s := sideboard()
		c.spoil(s)
		if _, findings := s.make(); len(findings) != c.want {
			t.Errorf("%s: %d findings, want %d", name, len(findings), c.want)
			for _, f := range findings {
				t.Log(text(f.Text))
			}
		}
	}
}

// TestLanes: a stick wide enough gives several strips side by side.
func TestLanes(t *testing.T) {
	s := newShop()
	for _, id := range []string{"a", "b", "c", "d"} {
		s.part(id, s.stick, 2000, 30, piece.AlongLength)
	}
	layouts, _ := s.make()
	if got := layouts[0]; len(got.Sticks) != 2 || !got.Proven || got.Count.V != 2 {
		t.Errorf("%d sticks, want 2: three lanes of 30 go in 95, with two kerfs of 2.2", len(got.Sticks))
	}
	at := map[float64]int{}
	for _, q := range layouts[0].Sticks[0].Lengths {
		at[q.Y]++
	}
	if len(at) != 3 || at[0] != 1 || at[32.2] != 1 || at[64.4] != 1 {
		t.Errorf("lanes %v", at)
	}
}

func TestRulesAreComplete(t *testing.T) {
	for _, r := range layout.Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
		for _, res := range r.Eval(r.Example.In) {
			if want, ok := r.Example.Out[res.Name]; !ok || math.Abs(res.Value-want) > 1e-9 {
				t.Errorf("%s: %s is %g, the example says %g", r.ID, res.Name, res.Value, want)
			}
		}
	}
}

func BenchmarkSideboard(b *testing.B) {
	s := sideboard()
	for b.Loop() {
		s.make()
	}
}

// TestReach: with a track of 1.4 m the long rips, and the trim cut along the
// long edge, are told of; with one of 2.7 m there is nothing to tell.
func TestReach(t *testing.T) {
	for _, c := range []struct {
		longest float64
		want    int
	}{{2700, 0}, {1400, 1}, {0, 0}} {
		s := sideboard()
		s.saw.Longest = s.num(c.longest, "saw.longest cut")
		layouts, findings := s.make()
		if len(findings) != c.want || len(layouts) != 2 {
			t.Fatalf("track of %g: %d findings, want %d", c.longest, len(findings), c.want)
		}
		if c.want == 1 {
			f := findings[0]
			if f.Verdict != work.Look || f.Limit.V != c.longest || f.Value.V < 2400 {
				t.Errorf("%+v", f)
			}
			t.Log(text(f.Text))
		}
	}
}
