package drawing

import (
	"bytes"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/format/svg"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares a small drawing with the one that was looked at and kept.
func golden(t *testing.T, name string, h float64, draw func(p *pen)) {
	t.Helper()
	p := &pen{}
	draw(p)
	got := svg.Render(leaf.Leaf{Key: name, Title: name, Alt: "A part of a drawing.", W: 210, H: h, Items: p.items})
	path := filepath.Join("testdata", name+".svg")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s changed; look at it and write it anew with -update\n%s", path, got)
	}
}

func TestGoldens(t *testing.T) {
	golden(t, "running", 50, func(p *pen) {
		p.rect(leaf.Visible, boxOf(40, 5, 140, 20))
		p.running(axis{Line: 25.5, Edge: 20, Lo: 12, Hi: 198}, []place{
			{at: 40, text: "0", origin: true}, {at: 41.5, text: "17.7"}, {at: 90, text: "502.3"}, {at: 91, text: "512.1"}, {at: 140, text: "1460"}})
		p.running(axis{Upright: true, Line: 34, Edge: 40, Lo: 0, Hi: 30}, []place{{at: 20, text: "0", origin: true}, {at: 5, text: "150"}})
	})
	golden(t, "marks", 60, func(p *pen) {
		p.grain(pt(40, 10), 20, false, "grain")
		p.grain(pt(70, 14), 20, true, "grain")
		p.datum(pt(90, 20), 1, -1)
		p.line(leaf.Visible, pt(105, 5), pt(105, 25))
		p.showFace(pt(105, 12), pt(1, 0))
		p.flag(pt(130, 15), pt(0, 1), 7)
		p.flag(pt(150, 12), pt(-1, 0), 12)
		p.hole(pt(170, 12), 1.5)
		p.zigzag(pt(180, 5), pt(180, 25))
		p.leader(pt(30, 40), pt(36, 34), "R 140", leaf.Name)
		p.point(pt(70, 44), pt(76, 38), "skirting 95 × 16")
		p.across(110, 130, 36, 40, "pitch 9.13", false)
		p.across(150, 152, 36, 40, "kerf 2.20", false)
		p.upright(34, 50, 180, 186, "17.70")
	})
	golden(t, "scale-bar", 20, func(p *pen) {
		p.scaleBar(pt(20, 12), 1.0/12, 50, units.MM, "strip")
		p.scaleBar(pt(120, 12), 1.0/12, 50, units.Inch, "")
	})
	golden(t, "hatch", 30, func(p *pen) {
		p.hatch(leaf.Hatch, false, math.Pi/4, 1.7, corners(boxOf(20, 5, 50, 25)), corners(boxOf(30, 10, 40, 20)))
		p.hatch(leaf.Hatch, true, -math.Pi/4, 0.6, []r2.Vec{pt(70, 25), pt(85, 5), pt(100, 25)})
	})
}

// TestSpread: order kept, neighbours a gap apart, inside the bounds, what need
// not move does not, and no shift of any run of labels would bring them nearer.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.SliceOfN(rapid.Float64Range(20, 180), 1, 40).Draw(t, "at")
		slices.Sort(at)
		const lo, hi, gap = 10.0, 200.0, 3.5
		to := spread(at, gap, lo, hi)
		cost := func(xs []float64) (sum float64) {
			for i := range xs {
				sum += (xs[i] - at[i]) * (xs[i] - at[i])
			}
			return sum
		}
		for i := range to {
			if to[i] < lo-1e-9 || to[i] > hi+1e-9 {
				t.Fatalf("label %d at %v, out of %v … %v", i, to[i], lo, hi)
			}
			if i > 0 && to[i]-to[i-1] < gap-1e-9 {
				t.Fatalf("labels %d and %d are %v apart", i-1, i, to[i]-to[i-1])
			}
		}
		for i := range to { // a small shift of a run must not be both allowed and better
			for j := i; j < len(to); j++ {
				for _, d := range []float64{-0.01, 0.01} {
					moved := slices.Clone(to)
					for k := i; k <= j; k++ {
						moved[k] += d
					}
					allowed := moved[0] >= lo && moved[len(moved)-1] <= hi &&
						(i == 0 || moved[i]-moved[i-1] >= gap) && (j == len(to)-1 || moved[j+1]-moved[j] >= gap)
					if allowed && cost(moved) < cost(to)-1e-6 {
						t.Fatalf("labels %d to %d would stand better by %v", i, j, d)
					}
				}
			}
		}
	})
}

func TestSpreadWhereThereIsNoRoom(t *testing.T) {
	to := spread([]float64{1, 2, 3, 4, 5}, 3.5, 0, 8)
	want := []float64{0, 2, 4, 6, 8}
	for i := range want {
		if math.Abs(to[i]-want[i]) > 1e-9 {
			t.Fatalf("%v, want %v", to, want)
		}
	}
}

// TestRunningTellsEachValueOnce: one label for each distinct value and none
// overlapping, whatever the places are.
func TestRunningTellsEachValueOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.SliceOfN(rapid.Float64Range(0.1, 1800), 1, 30).Draw(t, "mm")
		upright := rapid.Bool().Draw(t, "upright")
		k := ink{units.MM}
		places := []place{{at: 15, text: "0", origin: true}}
		want := map[string]bool{"0": true}
		for _, v := range mm {
			text := k.size(v, 1)
			want[text] = true
			places = append(places, place{at: 15 + v*0.1, text: text})
		}
		p := &pen{}
		p.running(axis{Upright: upright, Line: 100, Edge: 90, Lo: 10, Hi: 205}, places)
		var texts []leaf.Text
		for _, it := range p.items {
			if q, ok := it.(leaf.Text); ok {
				texts = append(texts, q)
			}
		}
		if len(texts) != len(want) {
			t.Fatalf("%d labels for %d values", len(texts), len(want))
		}
		for i, a := range texts {
			if !want[a.S] {
				t.Fatalf("%q was never asked for", a.S)
			}
			for _, b := range texts[:i] {
				if a.Box().Overlaps(b.Box()) {
					t.Fatalf("%q and %q overlap", a.S, b.S)
				}
			}
		}
	})
}

// TestHatchCoversItsField: parallel lines a step apart have a total length of
// the field's area over the step, less what the rim takes.
func TestHatchCoversItsField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(20, 80).Draw(t, "w"), rapid.Float64Range(20, 80).Draw(t, "h")
		angle := rapid.Float64Range(0, math.Pi).Draw(t, "angle")
		hole := boxOf(w/4, h/4, w/2, h/2)
		rings := [][]r2.Vec{corners(boxOf(0, 0, w, h)), corners(hole)}
		const step = 0.5
		segs := hatchLines(angle, step, rings)
		sum := 0.0
		for i := 0; i+1 < len(segs); i += 2 {
			a, b := segs[i].P, segs[i+1].P
			sum += b.Sub(a).Len()
			m := a.Lerp(b, 0.5)
			if m.X > hole.Min.X+1e-6 && m.X < hole.Max.X-1e-6 && m.Y > hole.Min.Y+1e-6 && m.Y < hole.Max.Y-1e-6 {
				t.Fatalf("a line through the hole at %v", m)
			}
		}
		area := w*h - hole.Size().X*hole.Size().Y
		if math.Abs(sum*step-area) > 0.03*area {
			t.Fatalf("lines cover %v, the field is %v", sum*step, area)
		}
	})
}

// TestFoldComesOut: the drawn bend turns by its angle and lies between the two
// radii at its middle, within the facet.
func TestFoldComesOut(t *testing.T) {
	q := strip()
	b := q.Bends[0]
	s, ok := stretchOf(q, b)
	if !ok {
		t.Fatal("no stretch for the bend")
	}
	f := fold(b, s, 30)
	if got, want := len(f.ribs), len(b.Kerfs)+1; got != want {
		t.Fatalf("%d straight stretches, want %d", got, want)
	}
	last := f.ribs[len(f.ribs)-1]
	if want := s.Dir.Turn(-s.Angle); last.dir.Sub(want).Len() > 1e-9 {
		t.Errorf("the bend ends in the direction %v, want %v", last.dir, want)
	}
	end := last.at(b.Plan, 0, 0)
	next := q.Run[2]
	if math.Abs(end.Y-next.From.Y) > 0.02 {
		t.Errorf("the top's outer face comes out at %.4f, want %.4f", end.Y, next.From.Y)
	}
	c := centre(s)
	for i, r := range f.ribs[1 : len(f.ribs)-1] {
		if got := r.at(b.Plan, r.length/2, 0).Sub(c).Len(); math.Abs(got-s.Radius) > 0.05 {
			t.Errorf("rib %d lies at radius %.3f", i, got)
		}
	}
}

func TestInk(t *testing.T) {
	mm, in := ink{units.MM}, ink{units.Inch}
	for _, c := range []struct{ got, want string }{
		{mm.size(840, 1), "840"}, {mm.size(519.98, 1), "520.0"}, {mm.size(-0.01, 1), "0.0"}, {mm.size(-3.25, 2), "−3.25"},
		{mm.fine(17.7, 2), "17.70"}, {mm.by(736.4, 393.6), "736.4 × 393.6"},
		{in.size(25.4, 1), "1"}, {in.size(12.7, 1), "1/2"}, {in.size(-38.1, 1), "−1 1/2"}, {in.size(0.1, 1), "0"}, {in.size(25.4*63.999/64, 1), "1"},
		{deg(math.Pi/2, 2), "90°"}, {deg(math.Pi/72, 3), "2.5°"},
	} {
		if c.got != c.want {
			t.Errorf("printed %q, want %q", c.got, c.want)
		}
	}
}

func TestBarLength(t *testing.T) {
	for _, c := range []struct {
		most   float64
		sys    units.System
		length float64
		fields int
		label  string
	}{{600, units.MM, 500, 5, "500 mm"}, {499, units.MM, 200, 4, "200 mm"}, {1.9, units.MM, 1, 5, "1 mm"}, {0.12, units.MM, 0.1, 5, "0.1 mm"}, {600, units.Inch, 508, 4, "20 in"}} {
		length, fields, label := barLength(c.most, c.sys)
		if math.Abs(length-c.length) > 1e-9 || fields != c.fields || label != c.label {
			t.Errorf("up to %v %s: %v in %d fields, %q", c.most, c.sys, length, fields, label)
		}
	}
}

func TestFit(t *testing.T) {
	if k, n := fit(1860, 860, 158, 125); n != 12 || math.Abs(k-1.0/12) > 1e-12 {
		t.Errorf("1 : %v", n)
	}
	if k, _ := fit(1e6, 10, 100, 100); math.Abs(k*1e6-100) > 1e-6 {
		t.Errorf("a huge thing is drawn %v long", k*1e6)
	}
}

// TestFrame: a turned and mirrored frame is still a rigid picture.
func TestFrame(t *testing.T) {
	for _, f := range []frame{{K: 1}, {K: 1, Turn: true}, {K: 1, Turn: true, Mirror: true}, {K: 1, Down: true}, {K: 1, Mirror: true}} {
		a, b := f.xy(3, 4), f.xy(7, 1)
		if d := a.Sub(b).Len(); math.Abs(d-5) > 1e-12 {
			t.Errorf("%+v: a length of 5 is drawn %v", f, d)
		}
		// A quarter of a circle round the origin, anticlockwise in the part.
		e := f.edge(pt(10, 0), pt(0, 10), math.Tan(math.Pi/8))
		if c := leaf.ArcCentre(f.xy(10, 0), e); c.Len() > 1e-9 {
			t.Errorf("%+v: the arc's centre is drawn at %v", f, c)
		}
	}
	if got := (frame{K: 1, Turn: true}).xy(10, 2); got != pt(-2, -10) {
		t.Errorf("an upright's length runs to %v", got)
	}
}

// TestFlagsStandApart: no two flags of a sheet overlap, and none covers words.
func TestFlagsStandApart(t *testing.T) {
	for _, name := range examples {
		p := planOf(t, name)
		for _, l := range p.Layouts {
			for i := range l.Sheets {
				d := sheetOf(p.Piece, &l.Sheets[i], Options{})
				words := len(d.taken)
				d.cuts()
				for i, a := range d.taken[words:] {
					for _, b := range d.taken[words : words+i] {
						if inset(a, 0.4).Overlaps(inset(b, 0.4)) {
							t.Errorf("%s, %s, sheet %d: two flags at %.1f and %.1f", name, l.Stock, d.s.Number, a, b)
						}
					}
				}
			}
		}
	}
}

func TestLetterOf(t *testing.T) {
	var got []string
	for _, i := range []int{0, 25, 26, 51, 52, 701, 702} {
		got = append(got, letterOf(i))
	}
	if s := fmt.Sprint(got); s != "[A Z AA AZ BA ZZ AAA]" {
		t.Error(s)
	}
}

func TestNothingToDraw(t *testing.T) {
	p := sideboard()
	p.Piece = &piece.Piece{}
	p.Layouts = nil
	if got := All(p, Options{}); len(got) != 0 {
		t.Errorf("%d figures of nothing", len(got))
	}
}

func TestSameFigures(t *testing.T) {
	p := planOf(t, "main")
	want := All(p, Options{})
	for range 3 {
		for i, l := range All(p, Options{}) {
			if !bytes.Equal(svg.Render(l), svg.Render(want[i])) {
				t.Fatalf("%s came out otherwise", l.Key)
			}
		}
	}
}
