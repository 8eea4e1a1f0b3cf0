package check

import (
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/mech/season"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

func edged(round, chamfer float64, sharp ...string) *design.Edges {
	e := &design.Edges{Sharp: sharp, Path: "edges"}
	if r := n(round); round > 0 {
		e.Round = &r
	}
	if c := n(chamfer); chamfer > 0 {
		e.Chamfer = &c
	}
	return e
}

func TestEdges(t *testing.T) {
	for _, c := range []struct {
		name string
		e    *design.Edges
		want work.Verdict
	}{
		{"not said", nil, work.NotCovered},
		{"rounded as wanted", edged(2, 0), work.Fine},
		{"a hair less", edged(1.9, 0), work.Look},
		{"a chamfer", edged(0, 2), work.Fine},
		{"a lean chamfer", edged(0, 1), work.Look},
		{"doors left sharp", edged(3, 0, "door"), work.Look},
		{"what is not there left sharp", edged(3, 0, "lid"), work.Fine},
	} {
		in := cabinet(600, 900, 350, 20, 20, 4, 0)
		in.Design.Edges = c.e
		if f := edges(in); f.Verdict != c.want {
			t.Errorf("%s: %s, want %s", c.name, f.Verdict, c.want)
		}
	}
}

// What the room's air is said to be is what wood moves by.
func TestAirOfTheRoom(t *testing.T) {
	in := cabinet(600, 900, 350, 20, 20, 4, 0)
	q := &piece.Part{ID: "panel", Name: "panel", Role: piece.Free, Stock: ash(), Length: n(600), Width: n(300), Thick: n(20), Grain: piece.AlongLength}
	in.Piece.Parts = append(in.Piece.Parts, q)
	plain := find(moves(in), "season/panel").Value.V
	for _, c := range []struct{ dry, damp float64 }{{0.30, 0.65}, {0.40, 0.55}, {0.2, 0.8}} {
		in.Design.Brief.Air = &design.Air{Dry: trace.Const(c.dry), Damp: trace.Const(c.damp)}
		got := find(moves(in), "season/panel").Value.V
		want := plain * (season.Moisture(season.Room, c.damp) - season.Moisture(season.Room, c.dry)) /
			(season.Moisture(season.Room, 0.65) - season.Moisture(season.Room, 0.30))
		if got < want-1e-9 || got > want+1e-9 {
			t.Errorf("from %g to %g it moves %.3f, want %.3f", c.dry, c.damp, got, want)
		}
	}
}
