package replay_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/design"
	"rodwork/internal/dryfit"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/replay"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// block is an upright block of a piece made by hand.
func block(id string, lo, hi r3.Vec) *piece.Part {
	s := hi.Sub(lo)
	q := &piece.Part{ID: id, Name: id, Length: trace.Const(s.X), Width: trace.Const(s.Y), Thick: trace.Const(s.Z),
		Outline: planar.Rect(0, 0, s.X, s.Y), Pose: r3.Identity()}
	q.Pose.O = lo
	return q
}

// joined glues B to A; it comes in along the first way, or another.
func joined(a, b string, ways ...r3.Vec) piece.Joint {
	return piece.Joint{ID: b + " / " + a, Kind: "butt", A: a, B: b, Enter: ways[0], Also: ways[1:], Glued: true, Area: trace.Const(1e4)}
}

var six = []r3.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}}

// sawn cuts a block into many by planes that each run all through what is left:
// blocks made so can always be put together again.
func sawn(t *rapid.T) *piece.Piece {
	type box struct{ lo, hi r3.Vec }
	boxes := []box{{r3.Vec{}, r3.Vec{X: 900, Y: 600, Z: 300}}}
	for range rapid.IntRange(1, 7).Draw(t, "cuts") {
		i := rapid.IntRange(0, len(boxes)-1).Draw(t, "which")
		share := rapid.Float64Range(0.2, 0.8).Draw(t, "share")
		a, b := boxes[i], boxes[i]
		switch rapid.IntRange(0, 2).Draw(t, "axis") {
		case 0:
			a.hi.X = a.lo.X + share*(b.hi.X-b.lo.X)
			b.lo.X = a.hi.X
		case 1:
			a.hi.Y = a.lo.Y + share*(b.hi.Y-b.lo.Y)
			b.lo.Y = a.hi.Y
		default:
			a.hi.Z = a.lo.Z + share*(b.hi.Z-b.lo.Z)
			b.lo.Z = a.hi.Z
		}
		boxes[i] = a
		boxes = append(boxes, b)
	}
	p := &piece.Piece{}
	for i, b := range boxes {
		p.Parts = append(p.Parts, block(fmt.Sprint("block ", i), b.lo, b.hi))
	}
	for i := range boxes {
		for k := range i {
			if n, ok := faces(boxes[i].lo, boxes[i].hi, boxes[k].lo, boxes[k].hi); ok {
				p.Joints = append(p.Joints, joined(p.Parts[k].ID, p.Parts[i].ID, open(n)...))
			}
		}
	}
	return p
}

// faces tells whether two blocks lie on each other, and in which direction from
// the first to the second.
func faces(alo, ahi, blo, bhi r3.Vec) (r3.Vec, bool) {
	at := func(v r3.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }
	a0, a1, b0, b1 := at(alo), at(ahi), at(blo), at(bhi)
	for k := range 3 {
		u, v := (k+1)%3, (k+2)%3
		if min(a1[u], b1[u])-max(a0[u], b0[u]) < 1 || min(a1[v], b1[v])-max(a0[v], b0[v]) < 1 {
			continue
		}
		if a1[k]-b0[k] > -1e-6 && a1[k]-b0[k] < 1e-6 {
			return six[2*k], true
		}
		if b1[k]-a0[k] > -1e-6 && b1[k]-a0[k] < 1e-6 {
			return six[2*k+1], true
		}
	}
	return r3.Vec{}, false
}

// open lists the ways on to a flat face: onto it, or along it.
func open(n r3.Vec) []r3.Vec {
	out := []r3.Vec{n}
	for _, d := range six {
		if d.Dot(n) == 0 {
			out = append(out, d)
		}
	}
	return out
}

// What is declared possible replays on the wood without a part meeting another.
func TestSawnBlocksGoTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sawn(t)
		r := dryfit.Order(p, &design.Design{})
		if len(r.Stuck) > 0 {
			t.Fatalf("stuck: %v", r.Stuck)
		}
		faults, stats := replay.Solids(p, r.Steps)
		if len(faults) > 0 {
			t.Fatalf("%v", faults)
		}
		if len(p.Joints) > 0 && stats.Pairs == 0 {
			t.Fatal("nothing was looked at")
		}
	})
}

// A peg in a hole through a board is declared impossible across the hole, and so
// says the replay of an order that would bring it that way; along the hole both
// say yes.
func TestPegInABoard(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := rapid.Float64Range(20, 300).Draw(t, "x"), rapid.Float64Range(20, 100).Draw(t, "y")
		w := rapid.Float64Range(10, 80).Draw(t, "w")
		play := rapid.Float64Range(0, 0.3).Draw(t, "play")
		board := block("board", r3.Vec{}, r3.Vec{X: 400, Y: 200, Z: 18})
		at := trace.Const
		board.Cuts = []piece.Cut{{Kind: piece.Mortise, Face: piece.FaceA, X0: at(x), Y0: at(y), X1: at(x + w), Y1: at(y + w), Depth: at(18), Through: true}}
		peg := block("peg", r3.Vec{X: x + play, Y: y + play, Z: -5}, r3.Vec{X: x + w - play, Y: y + w - play, Z: 40})
		way := rapid.SampledFrom(six).Draw(t, "way")
		j := joined("board", "peg", way)
		j.Clearance = at(2 * play)
		p := &piece.Piece{Parts: []*piece.Part{board, peg}, Joints: []piece.Joint{j}}
		steps := []work.Step{{Number: 1, Part: "board", Move: "first"},
			{Number: 2, Part: "peg", Into: []string{"board"}, Joints: []string{j.ID}, Dir: [3]float64{way.X, way.Y, way.Z}, Group: 1}}
		if faults, _ := replay.Solids(p, steps); (len(faults) > 0) != (way.Z == 0) {
			t.Fatalf("along %v: %v", way, faults)
		}
	})
}

// A shelf that is longer than the opening between two rails at the front comes
// in by a tilt, and not straight: the legs are followed as they are told.
func TestLegsAreFollowed(t *testing.T) {
	rail := func(id string, x float64) *piece.Part {
		return block(id, r3.Vec{X: x, Z: 300}, r3.Vec{X: x + 40, Y: 400, Z: 318})
	}
	shelf := block("shelf", r3.Vec{X: 20, Y: 200}, r3.Vec{X: 580, Y: 218, Z: 290})
	p := &piece.Piece{Parts: []*piece.Part{rail("left", 0), rail("right", 560), shelf},
		Joints: []piece.Joint{joined("left", "shelf", r3.Vec{Z: -1}), joined("right", "left", r3.Vec{Y: -1}), joined("right", "shelf", r3.Vec{Z: -1})}}
	steps := []work.Step{{Number: 1, Part: "right"}, {Number: 2, Part: "left", Joints: []string{"left / right"}, Dir: [3]float64{0, -1, 0}},
		{Number: 3, Part: "shelf", Joints: []string{"shelf / left", "shelf / right"}, Dir: [3]float64{0, 0, -1}, Group: 1}}
	if faults, _ := replay.Solids(p, steps); len(faults) != 2 {
		t.Fatalf("straight: %v", faults)
	}
	steps[2].Legs = []work.Leg{{By: [3]float64{0, 0, -700}}, {About: [3]float64{300, 209, 145}, Axis: [3]float64{0, 0, 1}, Turn: -1.2}}
	if faults, _ := replay.Solids(p, steps); len(faults) != 0 {
		t.Fatalf("tilted: %v", faults)
	}
}
