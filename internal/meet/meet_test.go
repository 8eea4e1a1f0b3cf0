package meet_test

import (
	"math"
	"os"
	"strings"
	"testing"

	"rodwork/internal/compile"
	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/meet"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

var examples = []string{"main", "plain-box", "wall-shelf", "nursery-bench", "half-round-table", "splayed-table"}

// built compiles an example afresh, so that a test may spoil it.
func built(t testing.TB, name string) *piece.Piece {
	t.Helper()
	text, err := os.ReadFile("../../examples/" + name + "/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	shop, err := os.ReadFile("../../examples/main/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if own, err := os.ReadFile("../../examples/" + name + "/shop.yaml"); err == nil {
		shop = own
	}
	d, ds := design.Resolve("piece.yaml", text, "shop.yaml", shop)
	if ds.HasErrors() {
		t.Fatal(ds)
	}
	p, _ := compile.Make(d, compile.Options{})
	return p
}

func TestRulesAreComplete(t *testing.T) {
	for _, r := range meet.Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}

func TestExamplesAreClean(t *testing.T) {
	for _, name := range examples {
		p := built(t, name)
		r := meet.Make(p)
		for _, f := range r.Findings {
			if f.Verdict != work.Fine {
				t.Errorf("%s: %s: %s: %v", name, f.Verdict, f.ID, f.Text)
			}
		}
		if len(r.Clashes)+len(r.Loose) > 0 || len(r.Findings) != 3 {
			t.Errorf("%s: %v %v, %d findings", name, r.Clashes, r.Loose, len(r.Findings))
		}
		if len(r.Meetings) != len(p.Joints) {
			t.Errorf("%s: %d meetings of %d joints", name, len(r.Meetings), len(p.Joints))
		}
	}
}

// joinedTwice reports whether a joint's two parts meet in another one too: what
// they share is then not told apart.
func joinedTwice(p *piece.Piece, j piece.Joint) bool {
	n := 0
	for _, o := range p.Joints {
		if o.A == j.A && o.B == j.B {
			n++
		}
	}
	return n > 1
}

// A housing's glue area, counted by the piece from its sizes, is what its faces
// share as solids.
func TestAreaOfHousings(t *testing.T) {
	n := 0
	for _, name := range examples {
		p := built(t, name)
		for i, w := range meet.Make(p).Meetings {
			j := p.Joints[i]
			if j.Kind != "housing" && j.Kind != "edging" || joinedTwice(p, j) {
				continue
			}
			n++
			// The solids count the shoulders of stopped housings too.
			if w.Area < j.Area.V*(1-1e-9) || w.Area > j.Area.V*1.06 {
				t.Errorf("%s: %s: %g mm² touch, the piece counts %g", name, j.ID, w.Area, j.Area.V)
			}
			if !w.Rests || w.Gap != 0 {
				t.Errorf("%s: %s: a gap of %g", name, j.ID, w.Gap)
			}
		}
	}
	if n < 10 {
		t.Errorf("only %d joints looked at", n)
	}
}

// Each part in turn is shifted by 0.1 mm each way: something must be said, as
// both ways along its thickness a part has room for no more than its clearance.
// What hangs on hardware has room, and is only pushed hard.
func TestShiftsAreFound(t *testing.T) {
	const by = 0.1
	dirs := []r3.Vec{{X: by}, {X: -by}, {Y: by}, {Y: -by}, {Z: by}, {Z: -by}}
	for _, name := range examples {
		p := built(t, name)
		found, tried := 0, 0
		for _, q := range p.Parts {
			if q.Loose || q.Of != "" || len(q.Run) > 0 {
				continue
			}
			at := q.Pose
			for _, d := range dirs {
				q.Pose = at.Moved(d)
				tried++
				if wrong(meet.Make(p)) > 0 {
					found++
				}
			}
			q.Pose = at
		}
		t.Logf("%s: %d of %d shifts change something that matters", name, found, tried)
		// Along a housing or a rabbet that is open at the front nothing stops a
		// part; all else must be found.
		if found*3 < tried*2 {
			t.Errorf("%s: only %d of %d shifts found", name, found, tried)
		}
	}
}

func wrong(r meet.Report) int {
	n := 0
	for _, f := range r.Findings {
		if f.Verdict != work.Fine {
			n++
		}
	}
	return n
}

// Planted faults, each with what must be said of it.
func TestPlantedFaults(t *testing.T) {
	part := func(p *piece.Piece, id string) *piece.Part {
		q := p.Part(id)
		if q == nil {
			t.Fatalf("no part %q", id)
		}
		return q
	}
	for _, c := range []struct {
		name  string
		spoil func(p *piece.Piece)
		id    string
		value float64
	}{
		{"divider 0.1 up", func(p *piece.Piece) { q := part(p, "divider 1"); q.Pose.O.Y += 0.1 }, "meet/divider 1 / bottom", 0.1},
		{"divider 0.1 up, at the top", func(p *piece.Piece) { q := part(p, "divider 1"); q.Pose.O.Y += 0.1 }, "meet/shell and divider 1", 0.1},
		{"divider 0.1 to the right", func(p *piece.Piece) { q := part(p, "divider 1"); q.Pose.O.X += 0.1 }, "meet/bottom and divider 1", 0.05},
		{"bottom 0.1 to the right", func(p *piece.Piece) { q := part(p, "bottom"); q.Pose.O.X += 0.1 }, "meet/right side and bottom", 0.1},
		{"rail 0.1 up", func(p *piece.Piece) { q := part(p, "rail"); q.Pose.O.Y += 0.1 }, "meet/shell and rail", 0.1},
		{"plinth end 0.1 forward", func(p *piece.Piece) { q := part(p, "plinth, left end"); q.Pose.O.Z += 0.1 }, "meet/plinth, left end / plinth, rear", 0.1},
		{"shelf without its pins", func(p *piece.Piece) {
			var keep []piece.Joint
			for _, j := range p.Joints {
				if !(j.Kind == "pins" && j.B == "shelf 1 in hymns") {
					keep = append(keep, j)
				}
			}
			p.Joints = keep
		}, "meet/loose shelf 1 in hymns", 2},
		{"a board 5 mm too high", func(p *piece.Piece) { q := part(p, "board over below"); q.Pose.O.Y += 5 }, "meet/divider 2 and board over below", 4.95},
	} {
		p := built(t, "main")
		c.spoil(p)
		r := meet.Make(p)
		ok := false
		var said []string
		for _, f := range r.Findings {
			said = append(said, f.ID)
			if f.ID == c.id {
				ok = true
				if math.Abs(f.Value.V-c.value) > 0.011 {
					t.Errorf("%s: %g, want %g", c.name, f.Value.V, c.value)
				}
			}
		}
		if !ok {
			t.Errorf("%s: %q was not said, but %s", c.name, c.id, strings.Join(said, "; "))
		}
	}
}

func BenchmarkMake(b *testing.B) {
	p := built(b, "main")
	for b.Loop() {
		if r := meet.Make(p); len(r.Clashes) > 0 {
			b.Fatal(r.Clashes)
		}
	}
}
