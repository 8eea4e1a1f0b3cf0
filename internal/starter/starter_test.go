package starter

import (
	"context"
	"flag"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/examples"
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

func shopText() []byte {
	_, shop := examples.Main()
	return shop
}

func usualOf(f Form, sys units.System) Answers {
	a := Answers{Kind: f.Kind, Width: f.Width.Usual, Height: f.Height.Usual, Depth: f.Depth.Usual, System: sys, Sheet: "birch ply 18", Floor: "boards", Wall: "stud"}
	if f.Holds {
		a.Holds = []Hold{{f.Thing, f.Count}}
	}
	return a
}

// sound demands that a text is read without a remark and that nothing stops it,
// by a plan of its own.
func sound(t interface {
	Errorf(string, ...any)
}, text string) *plan.Plan {
	p, remarks := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: []byte(text), ShopFile: "shop.yaml", Shop: shopText()}, plan.Options{})
	for _, r := range remarks {
		t.Errorf("%s: %s. %s\n%s", r.At, r.Summary, r.Detail, text)
	}
	if p == nil {
		t.Errorf("no plan of\n%s", text)
		return nil
	}
	for _, f := range p.Findings {
		if f.Verdict == work.Stop {
			t.Errorf("%s: %s\n%s", f.Title, f.Verdict, text)
		}
	}
	return p
}

// What each kind begins with is sound as it stands, in millimetres and in
// inches, and holds all that it is for.
func TestEachKindBeginsSound(t *testing.T) {
	for _, f := range Forms() {
		for _, sys := range []units.System{units.MM, units.Inch} {
			t.Run(string(f.Kind)+" "+string(sys), func(t *testing.T) {
				b, err := Begin(t.Context(), usualOf(f, sys), shopText())
				if err != nil {
					t.Fatal(err)
				}
				for _, s := range b.Said {
					if strings.Contains(s, "came out sound") {
						t.Error(s)
					}
				}
				p := sound(t, b.Text)
				if p == nil {
					return
				}
				if !HoldsAll(p) {
					t.Errorf("%v", p.Fits)
				}
				lid := 0.0 // stands out over the sides and the front
				if f.Kind == LidBox || f.Kind == Bench {
					lid = 30
				}
				for _, c := range []struct{ is, asked float64 }{{p.Piece.Width.V, b.Answers.Width}, {p.Piece.Height.V, b.Answers.Height}} {
					if d := c.is - c.asked; d < -0.2 || d > lid+0.2 {
						t.Errorf("%.1f, asked for %.1f", c.is, c.asked)
					}
				}
			})
		}
	}
}

// Whatever is asked for, what comes of it is sound, and a size that was not
// kept is told.
func TestAllThatIsAskedComesOutSound(t *testing.T) {
	if err := flag.Set("rapid.nofailfile", "true"); err != nil { // checks change: an old failure is none of today's
		t.Fatal(err)
	}
	set := flag.Lookup("rapid.checks")
	if set != nil && set.Value.String() == "100" {
		if err := flag.Set("rapid.checks", "24"); err != nil { // each makes many plans
			t.Fatal(err)
		}
		defer func() { _ = flag.Set("rapid.checks", "100") }()
	}
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(Forms()).Draw(t, "form")
		size := func(name string, r Range) float64 {
			return rapid.Float64Range(r.Least*0.8, r.Most*1.2).Draw(t, name)
		}
		a := Answers{Kind: f.Kind, Width: size("width", f.Width), Height: size("height", f.Height), Depth: size("depth", f.Depth),
			System:   rapid.SampledFrom([]units.System{units.MM, units.Inch}).Draw(t, "system"),
			Holds:    []Hold{{rapid.SampledFrom(Things()).Draw(t, "thing").Name, rapid.IntRange(1, 300).Draw(t, "count")}},
			Youngest: rapid.SampledFrom([]float64{0, 2, 4, 9}).Draw(t, "youngest"),
			Floor:    rapid.SampledFrom(Floors).Draw(t, "floor"), Wall: rapid.SampledFrom(Walls).Draw(t, "wall"),
			Sheet: rapid.SampledFrom([]string{"birch ply 18", "birch ply 12"}).Draw(t, "sheet"),
			Turn:  rapid.SampledFrom([]float64{0, 0, 120, 180}).Draw(t, "turn")}
		b, err := Begin(context.Background(), a, shopText())
		if err != nil {
			t.Fatal(err)
		}
		if !b.Sound {
			t.Errorf("not sound: %v", b.Said)
		}
		sound(t, b.Text)
		kept := math.Abs(b.Answers.Width-a.Width) < 1 && math.Abs(b.Answers.Height-a.Height) < 1 && math.Abs(b.Answers.Depth-a.Depth) < 1
		if !kept && len(b.Said) == 0 {
			t.Error("another size was taken, and nothing said of it")
		}
	})
}

// The same answers give the same text.
func TestTheSameAgain(t *testing.T) {
	a := usualOf(Forms()[0], units.MM)
	x, err := Begin(t.Context(), a, shopText())
	if err != nil {
		t.Fatal(err)
	}
	y, err := Begin(t.Context(), a, shopText())
	if err != nil || x.Text != y.Text {
		t.Error("another text")
	}
}

// What was drawn over a picture stands in the file as drawn.
func TestTraced(t *testing.T) {
	a := usualOf(Forms()[0], units.MM)
	a.Holds = nil
	a.Uprights = []float64{500, 20, 505}
	a.Levels = []Level{{Bay: 0, At: 450}, {Bay: 1, At: 300}, {Bay: 1, At: 550}, {Bay: 9, At: 300}}
	b, err := Begin(t.Context(), a, shopText())
	if err != nil {
		t.Fatal(err)
	}
	p := sound(t, b.Text)
	if p == nil {
		return
	}
	middle := map[string]float64{}
	for _, q := range p.Piece.Parts {
		if q.Role == "divider" {
			middle["divider"] = q.Pose.O.X
		}
	}
	if x := middle["divider"]; math.Abs(x-500) > 10 {
		t.Errorf("the upright stands at %.1f", x)
	}
	if n := strings.Count(b.Text, "fixed at:"); n != 3 {
		t.Errorf("%d shelves of 3:\n%s", n, b.Text)
	}
}

// A size with room for all of it is found, and has it.
func TestRoom(t *testing.T) {
	f, _ := FormOf(Bookcase)
	a := usualOf(f, units.MM)
	a.Holds = []Hold{{"novel", 190}}
	a.Width = 500
	b, err := Begin(t.Context(), a, shopText())
	if err != nil || HoldsAll(b.Plan) {
		t.Fatalf("all find room at once, %v", err)
	}
	l, ok, err := Room(t.Context(), a, shopText())
	if err != nil || !ok || l.Field != "width" || l.Size <= a.Width {
		t.Fatalf("%+v %v %v", l, ok, err)
	}
	a.Width = l.Size
	if b, err = Begin(t.Context(), a, shopText()); err != nil || !HoldsAll(b.Plan) {
		t.Errorf("%v of %v", b.Plan.Fits, l)
	}
}

// A name from outside cannot become anything but a name.
func FuzzName(f *testing.F) {
	for _, s := range []string{"Reading corner", "yes", "a: b", "'", "# x", "- x", "\n\nrodwork: 2", "{", "[", "&a", "*a", "!x", "1", "1e5", "~", "Ω", "\u2028x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, name string) {
		a := usualOf(Forms()[4], units.MM)
		a.Holds = nil
		a.Name = name
		s := &script{a: a, f: Forms()[4], g: goods{}, w: way{bays: 1, sheet: sheet{"birch ply 18", 18, 17.7}}}
		s.head()
		s.line("stock: {shell: birch ply 18}")
		s.line("body: {kind: box, width: 500, height: 300, depth: 250}")
		p, remarks := plan.Make(t.Context(), plan.Source{PieceFile: "p", Piece: []byte(s.b.String()), ShopFile: "s", Shop: shopText()}, plan.Options{})
		if remarks.HasErrors() || p == nil {
			t.Errorf("%q: %v\n%s", name, remarks, s.b.String())
		}
	})
}
