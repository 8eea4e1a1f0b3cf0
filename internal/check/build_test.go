package check

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

func n(v float64) trace.Num { return trace.Const(v) }

func birch18() *design.Stock {
	return &design.Stock{Name: "birch ply 18", Kind: design.Plywood, Species: "birch", Layers: 13, FaceVeneer: n(1.1), InnerVeneer: n(1.4),
		Thickness: design.Spread{Mean: n(17.7)}, Density: n(685e-9)}
}

func ash() *design.Stock {
	return &design.Stock{Name: "ash 20", Kind: design.Solid, Species: "ash", Thickness: design.Spread{Mean: n(20)}, Stick: true}
}

// case1 is a piece with one shelf of a span over a floor: what sag needs.
func shelfOn(span, depth, kgPerM, edging float64) Input {
	d := &design.Design{Shop: &design.ShopFile{Stocks: []*design.Stock{birch18()}}, Roles: map[string]design.Role{"edging": {Name: "edging", Stock: ash()}}}
	d.Brief.Holds = []design.Thing{{What: "books"}}
	q := &piece.Part{ID: "shelf", Name: "shelf", Role: piece.Shelf, Stock: birch18(), Length: n(span), Width: n(depth), Thick: n(17.7),
		Grain: piece.AlongLength, Path: "shelves.0", Loose: true}
	q.Origin = [3]trace.Num{n(0), n(300), n(depth)}
	p := &piece.Piece{Parts: []*piece.Part{q}, Spaces: []piece.Space{{Name: "inside", Size: [3]trace.Num{n(span), n(600), n(depth)}, Shelves: []string{"shelf"}}}}
	if edging > 0 {
		e := &piece.Part{ID: "edging", Role: piece.Edging, Of: "shelf", Stock: ash(), Length: n(span), Width: n(edging), Thick: n(20)}
		e.Origin = [3]trace.Num{n(0), n(300 + 17.7 - edging), n(depth)}
		p.Parts = append(p.Parts, e)
	}
	return Input{Piece: p, Design: d, Loads: map[string]trace.Num{"shelf": n(kgPerM)}}
}

// find returns the finding with the id.
func find(fs []work.Finding, id string) *work.Finding {
	for i := range fs {
		if fs[i].ID == id {
			return &fs[i]
		}
	}
	return nil
}

// cabinet is a block of wood w × h × d on a plinth of its own front and rear,
// with one door; masses in kg.
func cabinet(w, h, d, setBack, body, door, content float64) Input {
	p := &piece.Piece{Width: n(w), Height: n(h), Depth: n(d)}
	add := func(id string, role piece.Role, x, y, z, lx, ly, lz float64) *piece.Part {
		q := &piece.Part{ID: id, Name: id, Role: role, Length: n(lx), Width: n(ly), Thick: n(lz), Pose: r3.Identity()}
		q.Origin = [3]trace.Num{n(x), n(y), n(z)}
		p.Parts = append(p.Parts, q)
		return q
	}
	add("body", piece.Side, 0, 100, 0, w, h-100, d)
	add("plinth, front", piece.Plinth, 0, 0, d-setBack-18, w, 100, 18)
	add("plinth, rear", piece.Plinth, 0, 0, 0, w, 100, 18)
	// A door stands with its length up and its width to the left of its datum.
	q := &piece.Part{ID: "door", Name: "door", Role: piece.Door, Length: n(h - 140), Width: n(w - 40), Thick: n(18),
		Pose: r3.Pose{X: r3.Vec{Y: 1}, Y: r3.Vec{X: -1}, Z: r3.Vec{Z: 1}}, Path: "fronts.0"}
	q.Origin = [3]trace.Num{n(w - 20), n(120), n(d - 18)}
	p.Parts = append(p.Parts, q)
	p.Joints = []piece.Joint{{ID: "door / body", Kind: "hinges", A: "body", B: "door", Enter: r3.Vec{X: -1}}}
	p.Fittings = []piece.Fitting{{What: "hinge", Kind: "hinge", Count: 2, On: "door", InHand: 2, Path: "fronts.0"}}
	age := n(4)
	in := Input{Piece: p, Design: &design.Design{Base: design.Base{Kind: "plinth", Height: n(100), SetBack: n(setBack)}, Shop: &design.ShopFile{}}}
	in.Design.Brief.Youngest = &age
	in.Masses = []work.MassLine{
		{Part: "body", Mass: n(body), X: n(w / 2), Y: n(h / 2), Z: n(d / 2)},
		{Part: "door", Mass: n(door), X: n(w / 2), Y: n(h / 2), Z: n(d - 9)},
	}
	if content > 0 {
		in.Contents = []work.MassLine{{Part: "body", Mass: n(content), X: n(w / 2), Y: n(h * 0.7), Z: n(d * 0.6)}}
	}
	return in
}

// bentStrip is a strip with one bend of the radius, cut with n kerfs.
func bentStrip(radius float64, kerfs int, skin float64) Input {
	var layers []bend.Layer
	for i := range 13 {
		l := bend.Layer{Thick: 1.4, E: 17500}
		if i%2 == 1 {
			l.E = 600
		}
		if i == 0 || i == 12 {
			l.Thick = 1.1
		}
		layers = append(layers, l)
	}
	plan, err := bend.New(bend.Spec{Thick: 17.6, Skin: skin, Kerf: 2.2, KerfSD: 0.03, Radius: radius, Angle: math.Pi / 2, Width: 400, Count: kerfs,
		Layers: layers, GrainAlong: true, LeastRib: 3, LeastMouth: 0.3, FaceVeneer: 1.1})
	if err != nil {
		panic(err)
	}
	q := &piece.Part{ID: "shell", Name: "shell", Role: piece.Strip, Length: n(1200), Width: n(400), Thick: n(17.6),
		Bends: []piece.Bend{{Corner: design.TopLeft, Start: n(600), Length: n(plan.Flat), Radius: n(radius), Plan: plan, Clear: n(plan.Clear),
			Mouth: n(plan.Mouth), StrainHigh: n(plan.StrainHigh), Facet: n(plan.Facet), Rib: n(plan.Rib), RailGap: n(plan.RailGap), Path: "body.corners.top left"}}}
	q.Run = []piece.Stretch{{X0: 0, X1: 600, Dir: r2.Vec{Y: 1}}}
	d := &design.Design{Shop: &design.ShopFile{}}
	return Input{Piece: &piece.Piece{Parts: []*piece.Part{q}}, Design: d}
}
