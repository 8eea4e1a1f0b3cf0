package compile

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
)

// splayedTable builds the example with leaning posts, with an edit of its text.
func splayedTable(t *testing.T, old, now string) (*piece.Piece, *builderRemarks) {
	t.Helper()
	read := func(name string) []byte {
		b, err := os.ReadFile("../../examples/splayed-table/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	text := string(read("piece.yaml"))
	if old != "" && !strings.Contains(text, old) {
		t.Fatalf("no %q in the example", old)
	}
	d, ds := design.Resolve("piece.yaml", []byte(strings.Replace(text, old, now, 1)), "shop.yaml", read("shop.yaml"))
	out := &builderRemarks{}
	for _, x := range ds {
		out.add(x.Code, x.Summary+": "+x.Detail)
	}
	if ds.HasErrors() {
		return nil, out
	}
	p, more := Make(d, Options{})
	for _, x := range more {
		out.add(x.Code, x.Summary+": "+x.Detail)
	}
	return p, out
}

func bodyOf(t *testing.T, q *piece.Part) solid.Body {
	t.Helper()
	b, err := piece.Solid(q, 0)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Posts stand on the floor with all of their foot, carry the top with all of their
// head, hold a square section of stick, and lean as the file says in each view.
func TestLeaningPosts(t *testing.T) {
	p, r := splayedTable(t, "", "")
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	a, c := math.Tan(8*math.Pi/180), math.Tan(6*math.Pi/180)
	k := math.Sqrt(1 + a*a + c*c)
	top := p.Part("top")
	high := top.Origin[1].V
	for _, name := range []string{"rear left", "rear right", "front left", "front right"} {
		q := p.Part("post, " + name)
		b := bodyOf(t, q)
		box := b.Box()
		if math.Abs(box.Min.Y) > 1e-9 || math.Abs(box.Max.Y-high) > 1e-9 {
			t.Errorf("%s runs from %g to %g, not from 0 to %g", q.ID, box.Min.Y, box.Max.Y, high)
		}
		if want := 40 * q.Thick.V * k * high; math.Abs(b.Volume()-want) > 1e-6*want {
			t.Errorf("%s holds %g mm³, want %g", q.ID, b.Volume(), want)
		}
		if area, _, err := solid.Contact(b, bodyOf(t, top), 0.01); err != nil || math.Abs(area-40*q.Thick.V*k) > 1e-3 {
			t.Errorf("%s carries the top on %g mm², want %g (%v)", q.ID, area, 40*q.Thick.V*k, err)
		}
		// What the views show: the axis, by its slopes.
		if x := q.Pose.X; math.Abs(math.Abs(x.X/x.Y)-a) > 1e-9 || math.Abs(math.Abs(x.Z/x.Y)-c) > 1e-9 || x.X*float64(2*strings.Count(name, "left")-1) < 0 {
			t.Errorf("%s leans along %v", q.ID, x)
		}
		if v := q.Bevels[0]; math.Abs(v.Tilt.V-6*math.Pi/180) > 1e-9 || math.Abs(v.Mitre.V-math.Atan(a*math.Cos(6*math.Pi/180))) > 1e-9 ||
			math.Abs(v.Tilt.V-math.Asin(math.Abs(v.N.Z))) > 1e-9 || math.Abs(math.Tan(v.Mitre.V)-math.Abs(v.N.Y/v.N.X)) > 1e-9 {
			t.Errorf("%s: tilt %g, mitre %g by a plane %v", q.ID, v.Tilt.V, v.Mitre.V, v.N)
		}
		seen, err := piece.Seen(q)
		if err != nil || math.Abs(seen.Box().Size().X-q.Length.V) > 1e-6 {
			t.Errorf("%s is %g long between its long points, told %g (%v)", q.ID, seen.Box().Size().X, q.Length.V, err)
		}
	}
}

// Rails fill the room between leaning posts: both ends lie on them with the whole
// section, nothing is in anything.
func TestRailsBetweenLeaningPosts(t *testing.T) {
	for _, edit := range []string{"{across: 8, along: 6}", "{across: 14, along: 3}", "{along: 9}", "{across: 5}"} {
		p, r := splayedTable(t, "{across: 8, along: 6}", edit)
		if len(r.codes) > 0 {
			t.Fatalf("%s: %v", edit, r.texts)
		}
		for i, q := range p.Parts {
			for _, o := range p.Parts[:i] {
				if v, err := solid.Overlap(bodyOf(t, q), bodyOf(t, o)); err != nil || v > 1e-3 {
					t.Errorf("%s: %s and %s share %g mm³ (%v)", edit, q.ID, o.ID, v, err)
				}
			}
		}
		for _, j := range p.Joints {
			a, rail := p.Part(j.A), p.Part(j.B)
			if a.Role != piece.Post || rail.Role != piece.Rail {
				continue
			}
			area, _, err := solid.Contact(bodyOf(t, a), bodyOf(t, rail), 0.01)
			if section := rail.Thick.V * rail.Width.V; err != nil || area < section-1e-3 || area > 1.1*section || math.Abs(area-j.Area.V) > 1e-3 {
				t.Errorf("%s: %s lies on %s with %g mm² of %g, told %g (%v)", edit, rail.ID, a.ID, area, section, j.Area.V, err)
			}
		}
	}
}

func TestLeaningFramesRefused(t *testing.T) {
	for code, c := range map[string][2]string{
		"no-room": {"{at: top ends, height: 60}", "{at: top ends, height: 300}"},
		"not-yet": {"finish:", "back: on\nfinish:"},
	} {
		if _, r := splayedTable(t, c[0], c[1]); !r.has(code) {
			t.Errorf("%s: %v", code, r.texts)
		}
	}
}

const footstool = `rodwork: 1
piece: Stool
units: mm
sizes: {seat: 340, deep: 280, under: 400}
stock: {panels: birch ply 18, legs: birch ply 18}
body: {kind: none, width: seat, height: 60, depth: deep}
base: {kind: legs, height: under, width: 45, plane: %s, at: [5, -5], inset: 5, mirrored: yes, splay: {across: %d, along: %d}, joint: %s}
parts:
  - {name: seat, stock: panels, outline: "rect(seat, deep)", at: [0, under, 0], turn: level, fix: screwed}
`

// Pairs in either plane lean outwards both ways, stand within the seat's edges and
// are mirror images of each other.
func TestLegsThatLeanBothWays(t *testing.T) {
	for _, plane := range []string{"end", "front"} {
		p, r := fromText(t, fmt.Sprintf(footstool, plane, 10, 7, "screwed"), nil)
		if len(r.codes) > 0 {
			t.Fatal(plane, r.texts)
		}
		seat := bodyOf(t, p.Part("seat"))
		n := 0
		for _, q := range p.Parts {
			if q.Role != piece.Leg {
				continue
			}
			n++
			b := bodyOf(t, q)
			box := b.Box()
			if box.Min.X < 4 || box.Max.X > 336 || box.Min.Z < 4 || box.Max.Z > 276 || math.Abs(box.Min.Y) > 1e-9 {
				t.Errorf("%s: %s stands in %v", plane, q.ID, box)
			}
			mid := r3.Vec{X: 170, Y: 200, Z: 140}
			foot, head := q.Pose.At(r3.Vec{}), q.Pose.At(r3.Vec{X: q.Length.V})
			if out := func(v r3.Vec) float64 { return math.Abs(v.X - mid.X) }; out(foot) <= out(head) {
				t.Errorf("%s: %s leans inwards sideways", plane, q.ID)
			}
			if out := func(v r3.Vec) float64 { return math.Abs(v.Z - mid.Z) }; out(foot) <= out(head) {
				t.Errorf("%s: %s leans inwards forwards", plane, q.ID)
			}
			if math.Abs(math.Abs(q.Pose.X.X/q.Pose.X.Y)-math.Tan(10*math.Pi/180)) > 1e-9 {
				t.Errorf("%s: %s leans along %v", plane, q.ID, q.Pose.X)
			}
			if area, _, err := solid.Contact(b, seat, 0.01); err != nil || area < 45*17 {
				t.Errorf("%s: %s carries %g mm² (%v)", plane, q.ID, area, err)
			}
		}
		if n != 4 {
			t.Errorf("%s: %d legs", plane, n)
		}
	}
	if _, r := fromText(t, fmt.Sprintf(footstool, "end", 10, 7, "lap"), nil); !r.has("not-yet") {
		t.Error("lapped legs that lean both ways are not refused:", r.texts)
	}
}
