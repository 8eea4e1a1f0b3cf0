package drawing

import (
	"flag"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/format/svg"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/leaf"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

var figures = flag.String("figures", "", "write the figures as SVG and PNG into this folder, to be looked at")

func num(v float64) trace.Num { return trace.Const(v) }

var ply18 = &design.Stock{Name: "birch ply 18", Layers: 13, FaceVeneer: trace.Const(1.1), InnerVeneer: trace.Const(1.4)}

// bentPlan is a kerfed bend of 36 kerfs round a radius of 140.
func bentPlan() bend.Plan {
	const t, h, w, ro, n = 17.7, 1.6, 2.2, 140.0, 36
	theta := math.Pi / 2
	yn := 0.7
	alpha := theta / n
	rn := ro - yn
	s := w + 2*(rn-w/alpha)*math.Tan(alpha/2)
	p := bend.Plan{
		Spec:  bend.Spec{Thick: t, Skin: h, Kerf: w, Radius: ro, Angle: theta, Width: 400, Count: n, GrainAlong: true},
		Count: n, Alpha: alpha, NeutralY: yn, Rn: rn, Pitch: s, Flat: n * s, Depth: t - h,
		Mouth: w - alpha*(t-yn), Rib: s - w, InsidePitch: s - alpha*(t-yn),
		StrainLow: 0.0042, StrainHigh: 0.0098,
		RailRadius: (s-w)/(2*math.Tan(alpha/2)) + w/alpha - (t - yn),
		RailGap:    (s - w) * (s - w) / (8 * 122),
	}
	for i := range n {
		p.Positions = append(p.Positions, s*(float64(i)+0.5))
	}
	return p
}

func strip() *piece.Part {
	bp := bentPlan()
	start := 620.0
	var kerfs []trace.Num
	for _, x := range bp.Positions {
		kerfs = append(kerfs, num(start+x))
	}
	length := start + bp.Flat + 1320
	cut := func(id string, kind piece.CutKind, x0, y0, x1, y1, d float64) piece.Cut {
		return piece.Cut{ID: id, Kind: kind, Face: piece.FaceB, X0: num(x0), Y0: num(y0), X1: num(x1), Y1: num(y1), Depth: num(d), For: "joint " + id}
	}
	return &piece.Part{
		ID: "strip", Number: 1, Name: "shell strip", Role: piece.Strip, Stock: ply18,
		Length: num(length), Width: num(400), Thick: num(17.7), Grain: piece.AlongLength,
		BlankLength: num(length + 20), BlankWidth: num(400),
		Outline: rectRegion(length, 400),
		Cuts: []piece.Cut{
			cut("a", piece.Rabbet, 0, 0, 17.8, 400, 5.9),
			cut("b", piece.Housing, start+bp.Flat+360, 12, start+bp.Flat+377.8, 400, 5.9),
			cut("c", piece.Housing, start+bp.Flat+862.3, 12, start+bp.Flat+880.1, 400, 5.9),
			cut("d", piece.Rabbet, length-17.7, 0, length, 400, 5.9),
			cut("e", piece.Rabbet, 0, 393.6, length, 400, 8),
		},
		Bends: []piece.Bend{{Corner: "top left", Start: num(start), Length: num(bp.Flat), Radius: num(140), Angle: num(math.Pi / 2), Plan: bp, Kerfs: kerfs}},
		Show:  piece.FaceA,
		Run: []piece.Stretch{
			{X0: 0, X1: start, From: r2.Vec{X: 0, Y: 80}, Dir: r2.Vec{Y: 1}},
			{X0: start, X1: start + bp.Flat, From: r2.Vec{X: 0, Y: 700}, Dir: r2.Vec{Y: 1}, Radius: 140, Angle: math.Pi / 2},
			{X0: start + bp.Flat, X1: length, From: r2.Vec{X: 140, Y: 840}, Dir: r2.Vec{X: 1}},
		},
		Pose: r3.Identity(),
	}
}

func rectRegion(l, w float64) planar.Region {
	return planar.Region{{Outer: planar.Loop{{}, {P: r2.Vec{X: l}}, {P: r2.Vec{X: l, Y: w}}, {P: r2.Vec{Y: w}}}}}
}

func flat(n int, id, name string, l, w float64) *piece.Part {
	return &piece.Part{ID: id, Number: n, Name: name, Stock: ply18, Length: num(l), Width: num(w), Thick: num(17.7), Grain: piece.AlongLength, Outline: rectRegion(l, w), Pose: r3.Identity()}
}

// sideboard is a plan made by hand, with a strip, one sheet and two sticks.
func sideboard() *plan.Plan {
	st := strip()
	pc := &piece.Piece{Name: "Choir sideboard", Width: num(1460), Height: num(840), Depth: num(400), Parts: []*piece.Part{
		st, flat(2, "right", "right side", 751.1, 400), flat(3, "d1", "divider between scores and hymns", 736.4, 373.4),
		flat(4, "d2", "divider between hymns and desk", 736.4, 393.6), flat(5, "board", "tray board", 431.8, 393.6),
		flat(6, "bottom", "bottom", 1436.4, 393.6), flat(7, "e1", "edging of shelf 1", 480.6, 30), flat(8, "e2", "edging of shelf 2", 480.6, 30),
	}}
	y1, y2, y3 := 10.0, 412.2, 808.0
	sheet := work.SheetLayout{
		Number: 1, Stock: "birch ply 18", Length: 2440, Width: 1220, Trim: 8, Kerf: 2.2, GrainAlong: "length", Used: 0.83,
		Placements: []work.Placement{
			{Part: "strip", X: 10.2, Y: y1, Length: 2179.1, Width: 400},
			{Part: "bottom", X: 10.2, Y: y2, Length: 1436.4, Width: 393.6},
			{Part: "d2", X: 1448.8, Y: y2, Length: 736.4, Width: 393.6},
			{Part: "right", X: 10.2, Y: y3, Length: 751.1, Width: 400},
			{Part: "d1", X: 763.5, Y: y3, Length: 736.4, Width: 373.4},
			{Part: "board", X: 1502.1, Y: y3, Length: 431.8, Width: 393.6},
		},
		Offcuts: []work.Offcut{{X: 2191.5, Y: y1, Length: 248.5, Width: 400}, {X: 2187.4, Y: y2, Length: 252.6, Width: 393.6}, {X: 1936.1, Y: y3, Length: 503.9, Width: 400}},
		Cuts: []work.SheetCut{
			{Number: 1, X0: 0, Y0: 8.9, X1: 2440, Y1: 8.9, Fence: 8}, {Number: 2, X0: 9.1, Y0: 0, X1: 9.1, Y1: 1220, Fence: 8},
			{Number: 3, X0: 0, Y0: 411.1, X1: 2440, Y1: 411.1, Fence: 400}, {Number: 4, X0: 0, Y0: 806.9, X1: 2440, Y1: 806.9, Fence: 393.6},
			{Number: 5, X0: 0, Y0: 1209.1, X1: 2440, Y1: 1209.1, Fence: 400}, {Number: 6, X0: 2190.4, Y0: 10, X1: 2190.4, Y1: 411, Fence: 2179.1},
			{Number: 7, X0: 1447.7, Y0: y2, X1: 1447.7, Y1: 806, Fence: 1436.4}, {Number: 8, X0: 2186.3, Y0: y2, X1: 2186.3, Y1: 806, Fence: 736.4},
			{Number: 9, X0: 762.4, Y0: y3, X1: 762.4, Y1: 1208, Fence: 751.1}, {Number: 10, X0: 1501, Y0: y3, X1: 1501, Y1: 1208, Fence: 736.4},
			{Number: 11, X0: 1935, Y0: y3, X1: 1935, Y1: 1208, Fence: 431.8}, {Number: 12, X0: 763.5, Y0: y3 + 374.5, X1: 1500, Y1: y3 + 374.5, Fence: 373.4},
			{Number: 13, X0: 1502, Y0: y3 + 394.7, X1: 1934, Y1: y3 + 394.7, Fence: 393.6},
		},
	}
	sticks := []work.StickLayout{{Number: 1, Stock: "ash 20", Length: 2000, Kerf: 2.2, Left: 1020, Lengths: []work.Placement{{Part: "e1", X: 10, Length: 480.6}, {Part: "e2", X: 492.8, Length: 480.6}}}}
	return &plan.Plan{Piece: pc, Design: &design.Design{Name: "Choir sideboard", Base: design.Base{Kind: "plinth"}}, Layouts: []work.Layout{
		{Stock: "birch ply 18", Sheets: []work.SheetLayout{sheet}}, {Stock: "ash 20", Sticks: sticks}}}
}

// look writes the leaves to be looked at where -figures is set.
func look(t *testing.T, leaves []leaf.Leaf) {
	if *figures == "" {
		return
	}
	for _, l := range leaves {
		path := filepath.Join(*figures, l.Key+".svg")
		if err := os.WriteFile(path, svg.Render(l), 0o644); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("rsvg-convert", "-w", "1000", path, "-o", filepath.Join(*figures, l.Key+".png")).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
	}
}
