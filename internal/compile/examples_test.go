package compile

import (
	"math"
	"os"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
)

// fromFile builds an example, with or without an edit of its text.
func fromFile(t *testing.T, name string, edit func(string) string) (*piece.Piece, *builderRemarks) {
	t.Helper()
	read := func(n string) []byte {
		b, err := os.ReadFile("../../examples/" + n)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	src := string(read(name + "/piece.yaml"))
	if edit != nil {
		src = edit(src)
	}
	d, ds := design.Resolve("piece.yaml", []byte(src), "shop.yaml", read("main/shop.yaml"))
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

type builderRemarks struct {
	codes, texts []string
}

func (r *builderRemarks) add(code, text string) {
	r.codes, r.texts = append(r.codes, code), append(r.texts, text)
}

func (r *builderRemarks) has(code string) bool {
	for _, c := range r.codes {
		if c == code {
			return true
		}
	}
	return false
}

func sound1(t *testing.T, name string, edit func(string) string) *piece.Piece {
	t.Helper()
	p, r := fromFile(t, name, edit)
	for i, c := range r.codes {
		t.Errorf("%s: %s", c, r.texts[i])
	}
	if t.Failed() {
		t.FailNow()
	}
	return p
}

// apartAndMet checks that no two parts share wood, and that every glued or
// screwed joint's parts touch.
func apartAndMet(t *testing.T, p *piece.Piece) {
	t.Helper()
	ready := map[string]*solid.Ready{}
	for _, q := range p.Parts {
		body, err := piece.Solid(q, 0)
		if err != nil {
			t.Fatal(err)
		}
		if body.Volume() <= 0 {
			t.Errorf("%s has no volume", q.ID)
		}
		ready[q.ID] = solid.Prepare(body)
	}
	for i, a := range p.Parts {
		for _, b := range p.Parts[i+1:] {
			s, err := ready[a.ID].Overlap(ready[b.ID])
			if err != nil {
				t.Fatal(err)
			}
			if s.Reach > 0.02 {
				t.Errorf("%s and %s reach %.3f mm into each other at %.1f", a.ID, b.ID, s.Reach, s.Center)
			}
		}
	}
	for _, j := range p.Joints {
		if j.Kind == "hinges" || j.Kind == "pins" || j.Kind == "slides" || j.Kind == "housing" || j.Kind == "rabbet" || j.Kind == "groove" {
			continue // with play, or on hardware
		}
		ps, err := ready[j.A].Contact(ready[j.B], 0.02)
		if err != nil {
			t.Fatal(err)
		}
		area := 0.0
		for _, q := range ps {
			area += q.Area
		}
		if area < 20 {
			t.Errorf("joint %s (%s): its parts touch on %.1f mm²", j.ID, j.Kind, area)
		}
	}
}

func exactly(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s is %.5f, want %.5f", what, got, want)
	}
}

// The half-round table by hand: plates of 440 less two skins of 12; a strip of
// two runs of 380 − 220 − 12 and half a circle.
func TestHalfRoundTable(t *testing.T) {
	p := sound1(t, "half-round-table", nil)
	apartAndMet(t, p)
	strip := p.Part("shell")
	if len(strip.Bends) != 1 || !strip.InPlan() {
		t.Fatalf("the strip has %d bends", len(strip.Bends))
	}
	b := strip.Bends[0]
	exactly(t, "a run", b.Start.V, 380-220-12)
	exactly(t, "the strip", strip.Length.V, 2*148+b.Plan.Flat)
	exactly(t, "the strip's width", strip.Width.V, 480-17.7)
	exactly(t, "the bottom's length", p.Part("bottom").Length.V, 440-24)
	exactly(t, "the bottom's width", p.Part("bottom").Width.V, 380-12-12)
	exactly(t, "the shelf's length", p.Part("shelf inside").Length.V, 440-24+8)
	exactly(t, "the top's area", p.Part("top").Outline.Area(), 440*148+math.Pi/2*220*220)
	exactly(t, "the bottom's area", p.Part("bottom").Outline.Area(), 416*148+math.Pi/2*208*208)
	end := piece.Place(strip, strip.Length.V, 0, 12)
	exactly(t, "the strip's end, x", end.X, 0)
	exactly(t, "the strip's end, z", end.Z, 12)
	front := piece.Place(strip, strip.Length.V/2, 0, 12)
	exactly(t, "the strip's middle, z", front.Z, 380)
	exactly(t, "the strip's middle, y", front.Y, 480-17.7)
}

func TestOtherRoundTables(t *testing.T) {
	for name, edit := range map[string]func(string) string{
		"top in the strip":    swap("top: on ", "top: in "),
		"no window":           swap("window: {above: 60, below: 60, sides: 130}", ""),
		"back in a rabbet":    swap("back: on", "back: {set: rabbet, depth: 6}"),
		"no back":             swap("back: on\n", ""),
		"quarter rounds":      swap("radius: width / 2", "radius: 150", "radius: width / 2", "radius: 150"),
		"unlike corners":      swap("front left: {radius: width / 2}", "front left: {radius: 120}"),
		"both in, rabbet":     swap("top: on ", "top: in ", "back: on", "back: {set: rabbet, depth: 6}"),
		"two shelves, evenly": swap("fixed at: 200, set back: 0", "fixed at: evenly, count: 2, set back: 8"),
		"posts under it":      swap("base: none", "base: {kind: legs, height: 120, width: 40, plane: front, at: [190, -20], inset: 50}"),
	} {
		t.Run(name, func(t *testing.T) { apartAndMet(t, sound1(t, "half-round-table", edit)) })
	}
}

// The bench by hand: legs of 150 × 140, lapped to rails of 360 × 50.
func TestNurseryBench(t *testing.T) {
	p := sound1(t, "nursery-bench", nil)
	apartAndMet(t, p)
	n := 0
	for _, q := range p.Parts {
		if q.Role == piece.Leg {
			n++
			exactly(t, q.ID+"'s length", q.Length.V, 140)
			exactly(t, q.ID+"'s width", q.Width.V, 150)
		}
	}
	if n != 4 {
		t.Errorf("%d legs", n)
	}
	rail := p.Part("leg rail, left")
	exactly(t, "a rail's length", rail.Length.V, 360)
	if len(rail.Cuts) != 4 || rail.Cuts[2].Diameter.V != 2.6 || rail.Cuts[0].Kind != piece.Lap || math.Abs(rail.Cuts[0].Depth.V-17.7/2) > 1e-9 {
		t.Errorf("the rail's cuts are %v", rail.Cuts)
	}
	exactly(t, "the bench's height", p.Height.V, 140+230+17.7)
}

func TestOtherLegs(t *testing.T) {
	const base = "base: {kind: legs, height: leg height, outline: curved leg, plane: end, at: [90, -90], mirrored: yes, joint: lap, rail: {height: 50}}"
	for name, to := range map[string]string{
		"plain posts":          "base: {kind: legs, height: leg height, width: 50, at: [90, -90]}",
		"splayed in plane":     "base: {kind: legs, height: leg height, width: 50, at: [90, -90], splay: {along: 8}, joint: lap, rail: {height: 40}}",
		"from side to side":    "base: {kind: legs, height: leg height, outline: curved leg, plane: front, at: [20, -20], joint: lap, rail: {height: 50}}",
		"splayed across":       "base: {kind: legs, height: leg height, width: 60, plane: front, at: [20, -20], splay: {across: 10}}",
		"rails set in":         "base: {kind: legs, height: leg height, outline: curved leg, at: [90, -90], joint: lap, rail: {height: 50, inset: 30}}",
		"three pairs":          "base: {kind: legs, height: leg height, width: 45, at: [60, 460, -60]}",
		"one leg in the plane": "base: {kind: legs, height: leg height, outline: curved leg, at: [90, -90], mirrored: no, joint: lap, rail: {height: 50}}",
	} {
		t.Run(name, func(t *testing.T) { apartAndMet(t, sound1(t, "nursery-bench", swap(base, to))) })
	}
	// Legs that cross, lapped to each other, under a table of free parts.
	t.Run("crossed", func(t *testing.T) {
		p := sound1(t, "nursery-bench", swap(base, "base: {kind: legs, height: leg height, outline: crossed, at: [90, -90], joint: lap}",
			"  curved leg:", "  crossed: {corners: [{at: [0, 0]}, {at: [40, 0]}, {at: [360, leg height]}, {at: [320, leg height]}]}\n  curved leg:"))
		apartAndMet(t, p)
		laps := 0
		for _, j := range p.Joints {
			if j.Kind == "lap" {
				laps++
			}
		}
		if laps != 2 {
			t.Errorf("%d laps", laps)
		}
	})
}
