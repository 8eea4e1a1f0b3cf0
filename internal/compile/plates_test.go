package compile

import (
	"math"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// plates returns the depths of the hinge plates' holes of a part.
func plates(p *piece.Part) []float64 {
	var out []float64
	for _, c := range p.Cuts {
		if len(c.For) > len(plateFor) && c.For[:len(plateFor)] == plateFor {
			out = append(out, c.Depth.V)
		}
	}
	return out
}

// Two bays of which the left one's door hangs on the divider, and the right one
// has a shelf housed in it; the shelf lies at the lower hinge or clear of it.
func doorAndShelf(at float64) *design.Design {
	d := plainBox()
	twoBays(d)
	f := door("door", "a")
	f.Set, f.HangOn = "inset", []string{"right"}
	f.Hinge.Sets = []string{"inset"}
	d.Fronts = []design.Front{f}
	d.Shelves = []design.Shelf{{In: "b", FixedAt: trace.Const(at), Count: 1, Path: "shelves.0"}}
	return d
}

func TestPlateHolesLeaveAWeb(t *testing.T) {
	clear, over := built(t, doorAndShelf(300)), built(t, doorAndShelf(90))
	if got := plates(clear.Part("divider")); len(got) != 2 || got[0] != 12 || got[1] != 12 {
		t.Errorf("clear of the shelf the holes are %v deep", got)
	}
	q := over.Part("divider")
	got := plates(q)
	if len(got) != 2 || got[1] != 12 {
		t.Fatalf("the holes are %v deep", got)
	}
	deep := 0.0
	for _, c := range q.Cuts {
		if c.Kind == piece.Housing {
			deep = c.Depth.V
		}
	}
	if want := q.Thick.V - deep - 2.5; math.Abs(got[0]-want) > 1e-9 || deep == 0 {
		t.Errorf("behind a housing of %.2f in %.1f the holes are %.2f deep, want %.2f", deep, q.Thick.V, got[0], want)
	}
	if len(q.Notes) == 0 {
		t.Error("the part does not tell of it")
	}
}

// Plates of two doors at one height of a divider share its thickness.
func TestPlatesBackToBackShare(t *testing.T) {
	d := doorAndShelf(300)
	o := door("other", "b")
	o.Set, o.HangOn, o.Hinge = "inset", []string{"left"}, d.Fronts[0].Hinge
	d.Fronts, d.Shelves = append(d.Fronts, o), nil
	q := built(t, d).Part("divider")
	got := plates(q)
	if len(got) != 4 {
		t.Fatalf("%d rows of holes", len(got))
	}
	for _, v := range got {
		if want := (q.Thick.V - 2.5) / 2; math.Abs(v-want) > 1e-9 {
			t.Errorf("%.2f deep, want %.2f", v, want)
		}
	}
}

// A rail that follows the bend is glued to the shell along its head, round the
// curve and down the straight: all of its outline but its foot and its far end.
func TestRailIsGluedAlongTheBend(t *testing.T) {
	p := built(t, choir())
	q := p.Part("rail")
	round := 0.0
	for l := range q.Outline.All {
		vs := l.Flatten(1e-4)
		for i, v := range vs {
			w := vs[(i+1)%len(vs)]
			at := math.Hypot(w.X-v.X, w.Y-v.Y)
			foot := v.Y < 1e-6 && w.Y < 1e-6
			far := v.X > q.Length.V-1e-6 && w.X > q.Length.V-1e-6
			if !foot && !far {
				round += at
			}
		}
	}
	for _, j := range p.Joints {
		if j.ID == "rail / shell" {
			if want := round * q.Thick.V; math.Abs(j.Area.V-want) > 1e-3*want {
				t.Errorf("it is glued over %.0f mm², its outline says %.0f", j.Area.V, want)
			}
			return
		}
	}
	t.Error("no such joint")
}
