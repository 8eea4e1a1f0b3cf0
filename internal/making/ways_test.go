package making

import (
	"math"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// bent is a strip with one kerfed bend of 90° at 140 mm, in a shop of three
// sheets.
func bent(t testing.TB) (*piece.Piece, *design.Design) {
	t.Helper()
	n := trace.Const
	sheet := func(name string, thick float64) *design.Stock {
		return &design.Stock{Name: name, Kind: design.Plywood, Thickness: design.Spread{Mean: n(thick)}, Layers: 3, FaceVeneer: n(0.5), InnerVeneer: n(0.5),
			Length: n(2440), Width: n(1220), GrainAlong: "length", Price: n(60)}
	}
	d := &design.Design{Shop: &design.ShopFile{
		Stocks: []*design.Stock{sheet("board", 17.7), sheet("thin", 1.5), sheet("middling", 6)},
		Saws:   []*design.Saw{{Name: "saw", Kerf: design.Spread{Mean: n(2.2)}}},
		Glues:  []design.Glue{{Name: "glue", Open: n(2400), Spread: n(190e-9), Price: n(8.5)}},
		Rates:  design.Rates{CutPerMetre: n(120), SpreadPerM2: n(180)},
	}}
	p, err := bend.New(bend.Spec{Thick: 17.7, Skin: 1.6, Kerf: 2.2, Radius: 140, Angle: math.Pi / 2, Width: 300, Count: 36, GrainAlong: true,
		Layers: []bend.Layer{{Thick: 1.1, E: 17500}, {Thick: 1.4, E: 600}, {Thick: 1.4, E: 17500}}})
	if err != nil {
		t.Fatal(err)
	}
	q := &piece.Part{ID: "shell", Role: piece.Strip, Stock: d.Shop.Stocks[0], Thick: n(17.7), Length: n(1200), Width: n(300)}
	q.Bends = []piece.Bend{{Corner: "top left", Start: n(400), Length: n(p.Flat), Radius: n(140), Angle: n(math.Pi / 2), Plan: p, RailRadius: n(p.RailRadius)}}
	return &piece.Piece{Parts: []*piece.Part{q}}, d
}

// Each way is there once: kerfed as it is planned, of the sheet that bends best,
// and cold.
func TestWaysAreCompared(t *testing.T) {
	p, d := bent(t)
	ways := Ways(p, d)
	if len(ways) != 3 || !ways[0].Picked || ways[0].Count != 36 || ways[1].Way != design.Laminated || ways[2].Way != design.Cold {
		t.Fatalf("%+v", ways)
	}
	k, l, c := ways[0], ways[1], ways[2]
	if l.Stock != "thin" || l.Count != 12 || c.Stock != "thin" || c.Count != 1 {
		t.Errorf("plies %s × %d, cold %s × %d", l.Stock, l.Count, c.Stock, c.Count)
	}
	if math.Abs(k.Work-36*0.3*120) > 1e-6 {
		t.Errorf("36 kerfs of 300 mm take %g s", k.Work)
	}
	if k.Wait != 0 || l.Wait < 12*3600 || c.Wait != 0 {
		t.Errorf("on the former: %g, %g, %g s", k.Wait, l.Wait, c.Wait)
	}
	if !(c.Cost <= k.Cost && k.Cost < l.Cost) || c.Verdict != work.Look || l.Least > 140 || k.Least >= 140 {
		t.Errorf("%+v", ways)
	}
}

// A former's board is as its bend's inside is: its round has that radius, and it
// has straight legs before and behind.
func TestFormersFitTheirBends(t *testing.T) {
	p, d := bent(t)
	aids := Aids(p, d)
	if len(aids) != 3 || aids[0].Kind != "former" || aids[1].Kind != "spacer block" || aids[2].Kind != "caul" {
		t.Fatalf("%+v", aids)
	}
	f := aids[0]
	arcs := 0
	for _, l := range f.Outline.Loops() {
		for _, e := range l.Edges() {
			if e.IsArc() {
				arcs++
				if r := e.B.Sub(e.A).Len() / 2 / math.Sin(f.Angle.V/2); math.Abs(r-p.Parts[0].Bends[0].RailRadius.V) > 1e-6 {
					t.Errorf("the round has a radius of %g", r)
				}
			}
		}
	}
	if arcs != 1 || f.Outline.Area() <= 0 || f.Count < 2 {
		t.Errorf("%d arcs, area %g, %d boards", arcs, f.Outline.Area(), f.Count)
	}
	if w := float64(f.Count)*f.Thick.V + float64(f.Count-1)*aids[1].Length.V; math.Abs(w-300) > 1e-6 {
		t.Errorf("boards and blocks stand %g wide, the strip is 300", w)
	}
	for angle := 0.2; angle <= 2*math.Pi; angle += 0.37 {
		if a := formerShape(100, angle).Area(); !(a > 0) {
			t.Errorf("a former of %.2f rad has an area of %g", angle, a)
		}
	}
}

// An aid comes from an offcut as thick as its boards that holds all its pieces
// beside what it was promised to before. With a stock under 'formers' it lies on the layouts.
func TestAidsFindTheirWood(t *testing.T) {
	p, d := bent(t)
	offcuts := []work.Offcut{{Length: 700, Width: 600}, {Length: 400, Width: 300}, {Length: 320, Width: 200}}
	layouts := []work.Layout{{Stock: "board", Sheets: []work.SheetLayout{{Number: 1, Offcuts: offcuts}}}}
	area := map[*work.Offcut]float64{}
	for _, a := range PlaceAids(Aids(p, d), d, layouts, Set{}) {
		if a.At == nil || a.Stock != "board" || a.Sheet != 1 {
			t.Errorf("%s: %+v", a.ID, a.At)
			continue
		}
		area[a.At] += float64(a.Count) * a.Length.V * a.Width.V
		if area[a.At] > a.At.Length*a.At.Width {
			t.Errorf("%s: the offcut is promised twice", a.ID)
		}
	}
	if len(WithAids(p, Aids(p, d), d).Parts) != 1 {
		t.Error("aids from offcuts lie on the layouts")
	}
	d.Roles = map[string]design.Role{"formers": {Name: "formers", Stock: d.Shop.Stocks[2]}}
	with := WithAids(p, Aids(p, d), d)
	if len(with.Parts) != 4 || len(p.Parts) != 1 || with.Parts[1].Plies != Aids(p, d)[0].Count {
		t.Errorf("%d parts with aids, %d without", len(with.Parts), len(p.Parts))
	}
}

func BenchmarkWays(b *testing.B) {
	p, d := bent(b)
	for b.Loop() {
		Ways(p, d)
	}
}
