package template

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/format/dxf"
	"rodwork/internal/format/svg"
	"rodwork/internal/geom/planar"
	"rodwork/internal/leaf"
	"rodwork/internal/mech/rout"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// planOf makes the plan of an example by the name of its folder.
func planOf(t testing.TB, name string) *plan.Plan {
	t.Helper()
	read := func(path ...string) []byte {
		b, err := os.ReadFile(filepath.Join(append([]string{"..", "..", "examples"}, path...)...))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	shop := name
	if _, err := os.Stat(filepath.Join("..", "..", "examples", name, "shop.yaml")); err != nil {
		shop = "main"
	}
	p, remarks := plan.Make(t.Context(), plan.Source{PieceFile: "piece.yaml", Piece: read(name, "piece.yaml"),
		ShopFile: "shop.yaml", Shop: read(shop, "shop.yaml")}, plan.Options{})
	if remarks.HasErrors() {
		t.Fatal(remarks)
	}
	return p
}

// names lists the examples.
func names(t testing.TB) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join("..", "..", "examples", "*", "piece.yaml"))
	if err != nil || len(found) == 0 {
		t.Fatal(err, found)
	}
	for i, f := range found {
		found[i] = filepath.Base(filepath.Dir(f))
	}
	return found
}

func sheetOf(t testing.TB, sheets []Sheet, key string) Sheet {
	t.Helper()
	for _, s := range sheets {
		if s.Key == key {
			return s
		}
	}
	t.Fatalf("no sheet %q", key)
	return Sheet{}
}

// on returns the loops of a layer.
func on(s Sheet, l Layer) []planar.Loop {
	var out []planar.Loop
	for _, q := range s.Lines {
		if q.Layer == l {
			out = append(out, q.Loop)
		}
	}
	return out
}

var tools = Options{Bush: 17, BushLength: 9.5}

func TestSheetsOfTheExamples(t *testing.T) {
	for _, name := range names(t) {
		p := planOf(t, name)
		keys := map[string]bool{}
		sheets := Make(p, tools)
		for i, s := range sheets {
			if keys[s.Key] || s.Title == "" || s.Alt == "" || len(s.Lines) == 0 || len(s.Facts) == 0 {
				t.Errorf("%s: sheet %q is twice there, or lacks something: %q, %q", name, s.Key, s.Title, s.Alt)
			}
			keys[s.Key] = true
			l := s.Leaf()
			b := l.Box()
			if b.Min.X < 0 || b.Min.Y < 0 || b.Max.X > l.W || b.Max.Y > l.H || !l.FullSize {
				t.Errorf("%s: %s: drawn from %v to %v on %g × %g", name, s.Key, b.Min, b.Max, l.W, l.H)
			}
			drawn := map[Layer]bool{}
			for _, q := range s.Lines {
				drawn[q.Layer] = true
			}
			for _, m := range s.Legend {
				if !drawn[m.Layer] {
					t.Errorf("%s: %s: the legend tells of %q, which is not drawn", name, s.Key, m.Layer)
				}
			}
			again := Make(p, tools)[i]
			if !bytes.Equal(svg.Render(l), svg.Render(again.Leaf())) {
				t.Errorf("%s: %s: two runs differ", name, s.Key)
			}
		}
	}
}

// Layers are whole words: no depth, tool or side of a cut is packed into them.
func TestLayersAreWords(t *testing.T) {
	for _, l := range layers {
		for word := range strings.FieldsSeq(string(l)) {
			if strings.Trim(word, "abcdefghijklmnopqrstuvwxyz") != "" && l != Square {
				t.Errorf("layer %q", l)
			}
		}
	}
}

// The template for the bush lies everywhere (D − d)/2 inside the outline, the
// line of the jigsaw 2.5 outside.
func TestLinesKeepTheirDistance(t *testing.T) {
	p := planOf(t, "main")
	for _, key := range []string{"shape-15", "shape-8", "shape-7"} {
		s := sheetOf(t, Make(p, tools), key)
		part := region(on(s, Outline))
		o := (17.0 - 12) / 2
		for _, c := range []struct {
			loops []planar.Loop
			want  float64
			most  float64 // a mitred corner of the jigsaw's line stands off further
		}{{append(on(s, Outside), on(s, Inside)...), o, o + 1e-6}, {on(s, Saw), rout.Proud, rout.Proud * planar.MitreLimit}} {
			if len(c.loops) != len(on(s, Outline)) {
				t.Errorf("%s: %d lines beside %d outlines", key, len(c.loops), len(on(s, Outline)))
			}
			for _, l := range c.loops {
				for i := range l {
					for k := range 5 {
						at := l.Edge(i).At(float64(k) / 4)
						if part.OnEdge(at, c.want-1e-6) {
							t.Errorf("%s: %v is nearer to the outline than %g", key, at, c.want)
						}
						if !part.OnEdge(at, c.most) {
							t.Errorf("%s: %v is further from the outline than %g", key, at, c.most)
						}
					}
				}
			}
		}
	}
}

func region(loops []planar.Loop) planar.Region {
	var r planar.Region
	for _, l := range loops {
		r = append(r, planar.Shape{Outer: l})
	}
	return r
}

func TestFingerHoleGrowsForTheBush(t *testing.T) {
	s := sheetOf(t, Make(planOf(t, "main"), tools), "shape-15")
	holes := on(s, Inside)
	if len(holes) != 1 {
		t.Fatalf("%d openings", len(holes))
	}
	c, ok := dxf.Loop("", holes[0]).(dxf.Circle)
	if want := rout.Opening(30, 17, 12) / 2; !ok || math.Abs(c.Radius-want) > 1e-6 {
		t.Errorf("the finger hole's opening is %+v, want R %g", c, want)
	}
}

// Every kerf of the plan stands on strip and rod, at its place from the datum
// end, as wide as the saw cuts.
func TestKerfsStandWhereThePlanHasThem(t *testing.T) {
	p := planOf(t, "main")
	for _, key := range []string{"strip-1", "rod-1"} {
		s := sheetOf(t, Make(p, Options{}), key)
		b := p.Piece.Parts[0].Bends[0]
		kerfs, edges := on(s, Kerf), on(s, Edge)
		if len(kerfs) != len(b.Kerfs) || len(edges) != 2*len(b.Kerfs) {
			t.Fatalf("%s: %d kerfs and %d sides, the plan has %d", key, len(kerfs), len(edges), len(b.Kerfs))
		}
		for i, k := range b.Kerfs {
			lo, hi := edges[2*i][0].P.X, edges[2*i+1][0].P.X
			if kerfs[i][0].P.X != k.V || math.Abs(hi-lo-b.Plan.Spec.Kerf) > 1e-9 || math.Abs((lo+hi)/2-k.V) > 1e-9 {
				t.Errorf("%s: kerf %d at %g, from %g to %g", key, i+1, k.V, lo, hi)
			}
		}
		if marks := on(s, Tangent); len(marks) != 2 || marks[0][0].P.X != b.Start.V || marks[1][0].P.X != b.Start.V+b.Length.V {
			t.Errorf("%s: tangent points %v", key, marks)
		}
	}
}

// A template set off by its blocks drills every hole of every row.
func TestBlocksReachEveryRow(t *testing.T) {
	rows := 0
	var all []*group
	for _, name := range names(t) {
		all = append(all, groups(planOf(t, name).Piece.Parts)...)
	}
	for _, g := range all {
		first, off := g.least()
		for _, set := range g.settings() {
			if set.end < 0 || set.edge < 0 {
				t.Errorf("%s: blocks of %g and %g", g.what, set.end, set.edge)
			}
			for _, r := range set.rows {
				rows++
				y := off + set.edge
				if r.far {
					y = r.part.Width.V - y
				}
				at := r.cut.X0.V + min(0, float64(max(r.cut.Count, 1)-1)*r.cut.StepX.V)
				if math.Abs(first+set.end-at) > 0.01 || math.Abs(y-r.cut.Y0.V) > 0.01 {
					t.Errorf("%s in %s: drilled at %g, %g instead of %g, %g", g.what, r.part.Name, first+set.end, y, r.cut.X0.V, r.cut.Y0.V)
				}
				if r.cut.Count > g.count || r.cut.Count > 1 && math.Abs(math.Abs(r.cut.StepX.V)-g.pitch) > 5e-4 {
					t.Errorf("%s in %s: %d holes every %g", g.what, r.part.Name, r.cut.Count, r.cut.StepX.V)
				}
			}
		}
	}
	if rows < 16 {
		t.Errorf("%d rows; the main example alone has 16", rows)
	}
}

// part is a part of a made-up outline.
func part(outline planar.Region) *piece.Part {
	box := outline.Box()
	return &piece.Part{ID: "leg", Number: 1, Name: "leg", Outline: outline, Thick: trace.Num{V: 18},
		Length: trace.Num{V: box.Size().X}, Width: trace.Num{V: box.Size().Y}}
}

// shapeOf is the sheet of a made-up outline in a shop with two bits.
func shapeOf(outline planar.Region, opt Options) Sheet {
	bit := func(name string, dia, length float64) *design.Bit {
		return &design.Bit{Name: name, Diameter: trace.Num{V: dia}, Length: trace.Num{V: length}}
	}
	shop := &design.ShopFile{Bits: []*design.Bit{bit("thin", 6, 12), bit("middle", 8, 25), bit("stout", 12, 30)}}
	opt.System = units.MM
	m := &maker{p: &plan.Plan{Piece: &piece.Piece{}, Design: &design.Design{Shop: shop}}, opt: opt}
	return m.shape(part(outline))
}

// notched is a board of 300 × 200 whose notch has inside corners of radius r.
func notched(t *testing.T, r float64) planar.Region {
	t.Helper()
	c := func(x, y, round float64) planar.Corner { return planar.Corner{P: pt(x, y), Round: round} }
	l, err := planar.Rounded(c(0, 0, 0), c(100, 0, 0), c(100, 60, r), c(200, 60, r), c(200, 0, 0), c(300, 0, 0), c(300, 200, 40), c(0, 200, 0))
	if err != nil {
		t.Fatal(err)
	}
	return planar.Region{{Outer: l}}
}

func TestBitForTheCorner(t *testing.T) {
	for _, c := range []struct {
		r       float64
		opt     Options
		says    string
		finding bool
	}{
		{20, Options{}, "stout, ⌀ 12.00 mm", false},
		{6, Options{}, "stout, ⌀ 12.00 mm", false},
		{5, Options{}, "middle, ⌀ 8.00 mm", false},
		{20, Options{Bush: 14}, "middle, ⌀ 8.00 mm", false},
		{3, Options{}, "do not reach through 18.0 mm", true},
		{2, Options{}, "none of the shop’s bits is as thin as that", true},
		{0, Options{}, "square it with a chisel", true},
		{5, Options{Bit: 12, Bush: 17}, "does not go into the inside corner of R 5.0", true},
	} {
		s := shapeOf(notched(t, c.r), c.opt)
		if facts := strings.Join(s.Facts, "\n"); !strings.Contains(facts, c.says) {
			t.Errorf("R %g, %+v: not said %q:\n%s", c.r, c.opt, c.says, facts)
		}
		if got := len(s.Findings) > 0; got != c.finding {
			t.Errorf("R %g, %+v: findings %v", c.r, c.opt, s.Findings)
		}
		for _, f := range s.Findings {
			if f.Rule != rout.RuleCorner.ID || f.Part != "leg" || len(f.Text) == 0 {
				t.Errorf("R %g: finding %+v", c.r, f)
			}
		}
	}
}

func TestTightest(t *testing.T) {
	if c, ok := tightest(notched(t, 7)); !ok || math.Abs(c.radius-7) > 1e-9 {
		t.Errorf("notch of R 7: %v, %v", c, ok)
	}
	if c, ok := tightest(notched(t, 0)); !ok || c.radius != 0 {
		t.Errorf("sharp notch: %v, %v", c, ok)
	}
	if _, ok := tightest(planar.Rect(0, 0, 10, 10)); ok {
		t.Error("a rectangle has an inside corner")
	}
	ring := planar.Of(planar.Circle(pt(0, 0), 50), planar.Circle(pt(0, 0), 20))
	if c, ok := tightest(ring); !ok || math.Abs(c.radius-20) > 1e-9 {
		t.Errorf("ring: %v, %v", c, ok)
	}
}

// A part that is narrower than the offset has no template, and the sheet says
// so; a bush that the bit does not go through is said, too.
func TestTemplatesThatCannotBe(t *testing.T) {
	sliver := planar.Region{{Outer: planar.Polygon(pt(0, 0), pt(200, 0), pt(200, 8), pt(0, 6))}}
	s := shapeOf(sliver, Options{Bush: 30, Bit: 8})
	if len(on(s, Outside)) > 0 || !strings.Contains(strings.Join(s.Facts, "\n"), "too narrow") {
		t.Errorf("a sliver has the template %v: %q", on(s, Outside), s.Facts)
	}
	s = shapeOf(notched(t, 20), Options{Bush: 8, Bit: 12})
	if len(on(s, Outside)) > 0 || !strings.Contains(strings.Join(s.Facts, "\n"), "does not let the bit") {
		t.Errorf("a bit goes through a narrower bush: %q", s.Facts)
	}
}

func TestWrapKeepsEveryWord(t *testing.T) {
	s := strings.Repeat("a few words, a longword ", 30)
	lines := wrap(s, 60)
	if strings.Join(lines, " ") != strings.Join(strings.Fields(s), " ") {
		t.Error("words were lost")
	}
	for _, l := range lines {
		if leaf.Width(l, leaf.Name, false, false) > 60 {
			t.Errorf("%q is too long", l)
		}
	}
}
