package label

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/format/svg"
	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/noskip"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

func example(t *testing.T) *plan.Plan {
	t.Helper()
	text, shop := examples.Main()
	p, remarks := plan.Make(t.Context(), plan.Source{PieceFile: "piece.yaml", Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if remarks.HasErrors() {
		t.Fatal(remarks)
	}
	return p
}

func TestEveryPartHasALabel(t *testing.T) {
	p := example(t)
	labels := Labels(p, "")
	if len(labels) != len(p.Piece.Parts) {
		t.Fatalf("%d labels for %d parts", len(labels), len(p.Piece.Parts))
	}
	for i, q := range p.Piece.Parts {
		l := labels[i]
		if l.Number != q.Number || l.Name != q.Name || l.Stock != q.Stock.Name || l.Grain != q.Grain || l.Size == "" || l.Face == "" {
			t.Errorf("part %d: %+v", q.Number, l)
		}
		if want := fmt.Sprintf("rodwork:7c1e/part/%d", q.Number); l.Place != want {
			t.Errorf("place %q, want %q", l.Place, want)
		}
		if l.Marked != (q.Show != "") {
			t.Errorf("part %d shows %q, marked %v", q.Number, q.Show, l.Marked)
		}
	}
	if got := Labels(p, units.Inch)[0].Size; !strings.Contains(got, "in") {
		t.Errorf("in inches %q", got)
	}
}

// What the bend is made on has labels too: the demo's former, blocks and cauls.
func TestAidsHaveLabels(t *testing.T) {
	p := example(t)
	labels := Aids(p, "")
	if len(labels) != len(p.Aids) || len(labels) < 3 {
		t.Fatalf("%d labels for %d aids", len(labels), len(p.Aids))
	}
	if l := labels[0]; l.Mark != "F1" || l.Place != "" || l.Note != "4 like it · radius 122.3, 90°" || l.Size == "" {
		t.Errorf("%+v", l)
	}
}

// Nothing of a label leaves its field, on either paper; crosses stand on its
// corners.
func TestLabelsKeepToTheirFields(t *testing.T) {
	long := strings.Repeat("a very long name of a part ", 8)
	l := Label{Number: 123, Name: long, Size: "1234.5 × 1234.5 × 123.4 mm", Stock: long, Note: long, Face: long, Marked: true, Grain: piece.AlongWidth, Place: Place("0123456789abcdef", 123)}
	for _, s := range []Sheet{A4, Letter, {W: 200, H: 200, Columns: 1, Rows: 1, LabelW: leastW, LabelH: leastH}} {
		if err := s.check(); err != nil {
			t.Fatal(err)
		}
		o := s.place(s.Columns*s.Rows - 1)
		items, err := s.draw(l, o)
		if err != nil {
			t.Fatal(err)
		}
		field := r2.Box{Min: o, Max: o.Add(r2.Vec{X: s.LabelW, Y: s.LabelH})}
		for _, it := range items[1:] { // the first is the crosses
			b := leaf.Leaf{Items: []leaf.Item{it}}.Box()
			if b.Min.X < field.Min.X || b.Min.Y < field.Min.Y || b.Max.X > field.Max.X || b.Max.Y > field.Max.Y {
				t.Errorf("%.1f × %.1f: %+v leaves its label", s.LabelW, s.LabelH, it)
			}
		}
	}
}

func TestSheetsThatCannotBe(t *testing.T) {
	p := example(t)
	for name, change := range map[string]func(*Sheet){
		"no columns": func(s *Sheet) { s.Columns = 0 }, "off the page": func(s *Sheet) { s.Rows = 9 },
		"on each other": func(s *Sheet) { s.StepY = 20 }, "too small": func(s *Sheet) { s.LabelH = 12 },
	} {
		s := A4
		change(&s)
		if _, err := Make(p, Options{Sheet: s}); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// A reader of codes that is not ours finds every part's place on the printed
// pages.
func TestCodesAreRead(t *testing.T) {
	zbar, raster := noskip.Program(t, "zbarimg"), noskip.Program(t, "rsvg-convert")
	p := example(t)
	dir := t.TempDir()
	for _, sheet := range []Sheet{A4, Letter} {
		pages, err := Make(p, Options{Sheet: sheet})
		if err != nil {
			t.Fatal(err)
		}
		var got, want []string
		for i, page := range pages[:(len(p.Piece.Parts)-1)/(sheet.Columns*sheet.Rows)+1] { // what bends are made on has no code
			in, out := filepath.Join(dir, "page.svg"), filepath.Join(dir, fmt.Sprintf("page-%d.png", i))
			if err := os.WriteFile(in, svg.Page(page), 0o600); err != nil {
				t.Fatal(err)
			}
			if b, err := exec.Command(raster, "--dpi-x", "200", "--dpi-y", "200", "--background-color", "white", "--output", out, in).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, b)
			}
			b, err := exec.Command(zbar, "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", out).Output()
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, strings.Fields(string(b))...)
		}
		for _, q := range p.Piece.Parts {
			want = append(want, Place("7c1e", q.Number))
		}
		sort.Strings(got)
		sort.Strings(want)
		if g, w := strings.Join(got, " "), strings.Join(want, " "); g != w {
			t.Errorf("read %s\nwant %s", g, w)
		}
	}
}
