package compile

import (
	"math"
	"strings"
	"testing"

	"rodwork/internal/piece"
)

func jointOf(t *testing.T, p *piece.Piece, id string) *piece.Joint {
	t.Helper()
	for i := range p.Joints {
		if p.Joints[i].ID == id {
			return &p.Joints[i]
		}
	}
	t.Fatalf("no joint %q", id)
	return nil
}

func holesFor(q *piece.Part, id string) []piece.Cut {
	var out []piece.Cut
	for _, c := range q.Cuts {
		if strings.HasSuffix(c.For, "s of "+id) {
			out = append(out, c)
		}
	}
	return out
}

// A frame's dowels by hand: rails of 12 take dowels of 6, two in 80 mm, 20 mm
// from the edges; in the post's face the hole leaves more than 4 mm of 17.7.
func TestDowelsOfAFrame(t *testing.T) {
	p, r := fromText(t, table, nil)
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	j := jointOf(t, p, "rail, top left end / post, front left")
	g := j.Pegs
	if g == nil || g.Kind != "dowel" || g.Count != 2 || g.Diameter.V != 6 || g.Length.V != 30 || g.InA.V != 13 || g.InB.V != 19 {
		t.Fatalf("%+v", g)
	}
	end := holesFor(p.Part("rail, top left end"), j.ID)
	face := holesFor(p.Part("post, front left"), j.ID)
	if len(end) != 1 || len(face) != 1 || end[0].Face != piece.EndLow || face[0].Face != piece.FaceB {
		t.Fatalf("%+v\n%+v", end, face)
	}
	exactly(t, "the first dowel", end[0].X0.V, 20)
	exactly(t, "its height over the inner face", end[0].Y0.V, 6)
	exactly(t, "from one to the next", end[0].StepX.V, 40)
	exactly(t, "the first in the post", face[0].X0.V, 600-17.7-80+20)
	exactly(t, "across the post", face[0].Y0.V, 60-3-6)
	if n := len(p.Fittings); n == 0 || p.Fittings[0].What != "dowel 6 × 30" {
		t.Errorf("%+v", p.Fittings)
	}
}

// Loose tenons are as thick as the shop's bit nearest to a third, their mortises
// longer by a millimetre at each end and wider by the fit.
func TestLooseTenons(t *testing.T) {
	p, r := fromText(t, strings.Replace(table, "joint: dowel", "joint: loose tenon", 1), nil)
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	j := jointOf(t, p, "rail, top front / post, front left")
	if g := j.Pegs; g == nil || g.Kind != "loose tenon" || g.Count != 1 || g.Diameter.V != 6 || g.Wide.V != 60 {
		t.Fatalf("%+v", j.Pegs)
	}
	for _, id := range []string{j.A, j.B} {
		cs := holesFor(p.Part(id), j.ID)
		if len(cs) != 1 || cs[0].Kind != piece.Mortise {
			t.Fatalf("%s: %+v", id, cs)
		}
		exactly(t, "a mortise's length", cs[0].X1.V-cs[0].X0.V, 62)
		exactly(t, "a mortise's width", cs[0].Y1.V-cs[0].Y0.V, 6.1)
	}
}

const cupboard = `rodwork: 1
piece: Cupboard
stock: {shell: birch ply 18, panels: birch ply 18, back: birch ply 6}
body:
  kind: box
  width: 900
  height: 600
  depth: 320
  corners:
    top left: {square: dowel, runs through: side}
    top right: {square: loose tenon, runs through: top}
    bottom left: {square: screw, runs through: side}
    bottom right: {square: rabbet, runs through: side}
inside: {bays: [{name: a}, {name: b, levels: [{name: low}, {name: high}]}]}
back: {set: rabbet, depth: 8}
joints:
  divider / top: {kind: dowel, count: 3, diameter: 6}
  divider / bottom: {kind: screw}
  board / side: {kind: dowel}
  board / divider: {kind: loose tenon}
`

// Between panels: what is wished is drilled, the panels are as long as the clear
// height, and no two of them share wood.
func TestPeggedPanels(t *testing.T) {
	p, r := fromText(t, cupboard, nil)
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	apartAndMet(t, p)
	exactly(t, "the divider", p.Part("divider").Length.V, 600-2*17.7)
	for id, want := range map[string]string{"top / left side": "dowel", "right side / top": "loose tenon", "bottom / left side": "screw", "divider / top": "dowel",
		"divider / bottom": "screw", "board over low / right side": "dowel", "board over low / divider": "loose tenon"} {
		j := jointOf(t, p, id)
		if j.Pegs == nil || j.Pegs.Kind != want || j.Pegs.Count < 2 {
			t.Errorf("%s: %+v", id, j.Pegs)
		}
	}
	if g := jointOf(t, p, "divider / top").Pegs; g.Count != 3 || g.Diameter.V != 6 {
		t.Errorf("%+v", g)
	}
	if g := jointOf(t, p, "divider / bottom").Pegs; g.Head != "bottom" || g.Length.V != 50 || math.Abs(g.InA.V-17.7) > 1e-9 || math.Abs(g.InB.V-32.3) > 1e-9 {
		t.Errorf("%+v", g)
	}
	for code, c := range map[string][2]string{
		"no-pegs":       {"divider / top: {kind: dowel, count: 3, diameter: 6}", "divider / top: {kind: dowel, diameter: 17}"},
		"out-of-bounds": {"count: 3", "count: 99"},
		"unknown-name":  {"board / side", "bord / side"},
	} {
		if _, r := fromText(t, strings.Replace(cupboard, c[0], c[1], 1), nil); !r.has(code) {
			t.Errorf("%s: %v", code, r.texts)
		}
	}
}

// Every hole of every joint lies in wood on both sides, clear of all else that is
// cut from its part.
func TestPegsKeepClear(t *testing.T) {
	for _, text := range []string{table, cupboard, strings.Replace(table, "joint: dowel", "joint: lap", 1)} {
		p, r := fromText(t, strings.Replace(text, "rails: birch ply 12", "rails: birch ply 18", 1), nil)
		if p == nil {
			t.Fatal(r.texts)
		}
		for _, q := range p.Parts {
			for i := range q.Cuts {
				for k := range i {
					a, b := &q.Cuts[k], &q.Cuts[i]
					if a.Kind == piece.Notch || a.For == b.For || !strings.Contains(a.For+b.For, "s of ") {
						continue
					}
					if w := piece.Between(q, a, b); w < 0.4-1e-6 {
						t.Errorf("%s: %s (%s) and %s (%s) leave %.2f", q.ID, a.ID, a.For, b.ID, b.For, w)
					}
				}
			}
		}
	}
}

// A lapped frame: rails run over the posts and give half, the top lies on rails.
func TestLappedFrame(t *testing.T) {
	text := strings.Replace(strings.Replace(table, "joint: dowel", "joint: lap", 1), "rails: birch ply 12", "rails: birch ply 18", 1)
	text = strings.ReplaceAll(text, "top ends, height: 80", "top ends, height: 80, set back: 0")
	text = strings.ReplaceAll(text, "bottom ends, height: 40", "bottom ends, height: 40, set back: 0")
	p, r := fromText(t, text, nil)
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	apartAndMet(t, p)
	exactly(t, "a lapped rail", p.Part("rail, top front").Length.V, 800-2*20)
	laps := 0
	for _, j := range p.Joints {
		if j.Kind == "lap" {
			laps++
			exactly(t, j.ID, j.Depth.V, 17.7/2)
		}
	}
	if laps != 4 {
		t.Errorf("%d laps", laps)
	}
	if _, r := fromText(t, strings.Replace(table, "joint: dowel", "joint: lap", 1), nil); !r.has("no-lap") {
		t.Errorf("rails of 12 on posts of 18: %v", r.texts)
	}
}

// A frame's shelf lies on its low rails, notched round the posts; its back on the
// posts or in them.
func TestFrameShelfAndBack(t *testing.T) {
	with := func(more string) string {
		return strings.Replace(strings.Replace(table, "rails: birch ply 12}", "rails: birch ply 12, back: birch ply 6}", 1), "body:", more+"\nbody:", 1)
	}
	p, r := fromText(t, with("shelves: [{in: inside, fixed at: 160}]\nback: on"), nil)
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	apartAndMet(t, p)
	shelf := p.Part("shelf")
	exactly(t, "the shelf's height", shelf.Origin[1].V, 160)
	exactly(t, "its length, to the rails' outer faces", shelf.Length.V, 800-2*20-2*3)
	exactly(t, "the back", p.Part("back").Length.V, 800-2*20)
	if len(p.Spaces) != 1 || p.Spaces[0].Floor != "shelf" {
		t.Errorf("%+v", p.Spaces)
	}
	for code, text := range map[string]string{
		"shelf-outside": with("shelves: [{in: inside, fixed at: 300}]"),
		"no-rails":      strings.Replace(with("shelves: [{in: inside, fixed at: 160}]"), "      - {at: bottom ends, height: 40, up: 120}\n", "", 1),
		"not-yet":       with("shelves: [{in: inside, on: pins}]"),
		"rail-in-way":   with("back: {set: rabbet, depth: 10}"),
	} {
		if _, r := fromText(t, text, nil); !r.has(code) {
			t.Errorf("%s: %v", code, r.texts)
		}
	}
}

// Drawers with finger joints: fingers and sockets add up to the box's height, and
// no two parts share wood.
func TestFingerJoints(t *testing.T) {
	p, r := fromFile(t, "chest", func(s string) string {
		return strings.ReplaceAll(s, "run: side slide 350", "box: {joint: finger}, run: side slide 350")
	})
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	apartAndMet(t, p)
	side, end := p.Part("thread box, left side"), p.Part("thread box, front")
	cut := func(q *piece.Part) (sum float64) {
		for _, c := range q.Cuts {
			if c.Kind == piece.Notch && c.X0.V == 0 {
				sum += c.Y1.V - c.Y0.V
			}
		}
		return sum
	}
	n := 0
	for _, c := range append(append([]piece.Cut(nil), side.Cuts...), end.Cuts...) {
		if c.Kind == piece.Notch && c.X0.V == 0 {
			n++
		}
	}
	// Each of the n − 1 borders between fingers is open by half the clearance.
	if got, want := cut(side)+cut(end), side.Width.V+float64(n-1)*0.1/2; math.Abs(got-want) > 1e-9 || n%2 == 0 {
		t.Errorf("%d fingers: sockets of %.3f in all, want %.3f", n, got, want)
	}
}
