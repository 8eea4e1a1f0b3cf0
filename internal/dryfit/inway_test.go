package dryfit

import (
	"strings"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// solidPart adds a block with an outline, so that it is a solid too.
func (b *bench) solidPart(id string, x0, y0, z0, x1, y1, z1 float64) *piece.Part {
	q := b.part(id, x0, y0, z0, x1, y1, z1)
	q.Outline = planar.Rect(0, 0, x1-x0, y1-y0)
	return q
}

// upright adds a side whose face A looks to the right: its x runs up, its y to
// the back.
func (b *bench) upright(id string, x float64) *piece.Part {
	q := &piece.Part{ID: id, Name: id, Length: n(600), Width: n(300), Thick: n(18), Outline: planar.Rect(0, 0, 600, 300),
		Pose: r3.Pose{O: r3.Vec{X: x, Z: 300}, X: r3.Vec{Y: 1}, Y: r3.Vec{Z: -1}, Z: r3.Vec{X: 1}}}
	b.p.Parts = append(b.p.Parts, q)
	return q
}

// words are a finding's text, its numbers left out.
func words(f *work.Finding) string {
	out := ""
	for _, x := range f.Text {
		out += x.Text
	}
	return out
}

func told(fs []work.Finding, id string) *work.Finding {
	for i := range fs {
		if strings.HasPrefix(fs[i].ID, "way/"+id) {
			return &fs[i]
		}
	}
	return nil
}

// screwedBox is a post screwed to a board, its screws' heads looking forwards; a
// wall stands so far before them.
func screwedBox(away float64) *bench {
	var b bench
	post := b.solidPart("post", 0, 0, 100, 60, 400, 118)
	b.solidPart("board", -100, 0, 82, 200, 400, 100)
	b.solidPart("wall", -100, 0, 118+away, 200, 400, 136+away)
	b.solidPart("rest", -100, -18, 0, 200, 0, 500)
	b.joint("screwed", "post", "board", back)
	b.joint("butt", "board", "rest", down)
	b.joint("butt", "wall", "rest", down)
	j := &b.p.Joints[0]
	j.Pegs = &piece.Pegs{Kind: "screw", Count: 2, Diameter: n(4), Length: n(30), Head: "post"}
	post.Cuts = []piece.Cut{{Kind: piece.HoleRow, Face: piece.FaceA, X0: n(30), Y0: n(50), StepY: n(300), Count: 2, Diameter: n(4.4), Sink: n(8),
		Depth: n(18), Through: true, For: "screws of post / board"}}
	return &b
}

// In an order in which the wall stands before the post is screwed on, a driver
// needs room before it; in one in which it comes later, none.
func TestDriversReach(t *testing.T) {
	at := func(id string, into, joint string) work.Step {
		return work.Step{Part: id, Into: []string{into}, Joints: []string{joint}}
	}
	early := []work.Step{{Part: "rest"}, at("board", "rest", "board / rest"), at("wall", "rest", "wall / rest"), at("post", "board", "post / board")}
	late := []work.Step{early[0], early[1], early[3], early[2]}
	for _, c := range []struct {
		away  float64
		steps []work.Step
		want  work.Verdict
	}{{40, early, work.Stop}, {120, early, work.Look}, {240, early, work.Fine}, {40, late, work.Fine}} {
		f := told(inWay(&screwedBox(c.away).p, c.steps), "driver")
		switch {
		case f == nil && c.want != work.Fine:
			t.Errorf("%v: nothing is said", c.away)
		case f != nil && (f.Verdict != c.want || !strings.Contains(words(f), "wall")):
			t.Errorf("%v: %s %v", c.away, f.Verdict, f.Text)
		}
	}
}

// A shelf at the height of a hinge's plate is named; one beside it is not.
func TestHingeMeetsShelf(t *testing.T) {
	for _, c := range []struct {
		y    float64
		want bool
	}{{300, true}, {345, false}, {265, true}, {250, false}} {
		var b bench
		side := b.upright("side", 0)
		b.solidPart("door", 0, 0, 300, 400, 600, 318)
		b.solidPart("shelf", 19, c.y-9, 0, 400, c.y+9, 290)
		b.joint("hinges", "door", "side", left)
		side.Cuts = []piece.Cut{{Kind: piece.HoleRow, Face: piece.FaceA, X0: n(284), Y0: n(37), StepX: n(32), Count: 2, Diameter: n(5), Depth: n(12), For: "hinge plate of door"}}
		if f := told(inWay(&b.p, nil), "hinge of door and shelf"); (f != nil) != c.want {
			t.Errorf("shelf at %v: %v", c.y, f)
		}
	}
}

// A row of pins, or a hinge, beside a drawer on its slide is told, with how many.
func TestSlideMeetsPins(t *testing.T) {
	var b bench
	side := b.upright("side", 0)
	b.solidPart("drawer side", 31, 50, 20, 43, 200, 290)
	b.joint("slides", "drawer side", "side", back)
	row := piece.Cut{Kind: piece.HoleRow, Face: piece.FaceA, X0: n(100), Y0: n(37), StepX: n(64), Count: 5, Diameter: n(5), Depth: n(10), For: "shelf pins in bay"}
	side.Cuts = []piece.Cut{row}
	f := told(inWay(&b.p, nil), "slide")
	if f == nil || f.Value.V != 2 || f.Verdict != work.Look {
		t.Fatalf("pins: %v", f)
	}
	side.Cuts[0].Face = piece.FaceB // on the other side of the wood
	if f := told(inWay(&b.p, nil), "slide"); f != nil {
		t.Errorf("holes of the far face: %v", f.Text)
	}
	row.For = "hinge plate of door"
	side.Cuts[0] = row
	if f := told(inWay(&b.p, nil), "slide"); f == nil || f.Verdict != work.Stop {
		t.Errorf("a plate: %v", f)
	}
}
