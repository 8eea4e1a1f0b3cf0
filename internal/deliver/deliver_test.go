package deliver_test

import (
	"bytes"
	"context"
	"io/fs"
	"math"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/deliver"
	"rodwork/internal/geom/solid"
	"rodwork/internal/judge"
	"rodwork/internal/lists"
	"rodwork/internal/outdir"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// every makes the plan of each example.
func every(t testing.TB) map[string]*plan.Plan {
	t.Helper()
	files, err := fs.Glob(examples.Files, "*/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]*plan.Plan{}
	for _, f := range files {
		text, err := examples.Files.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		_, shop := examples.Main()
		if own, err := examples.Files.ReadFile(path.Dir(f) + "/shop.yaml"); err == nil {
			shop = own
		}
		out[path.Dir(f)] = made(t, plan.Source{PieceFile: f, Piece: text, ShopFile: "shop.yaml", Shop: shop})
	}
	return out
}

// demo is the plan of the example piece.
func demo(t testing.TB) *plan.Plan {
	t.Helper()
	text, shop := examples.Main()
	return made(t, plan.Source{PieceFile: "piece.yaml", Piece: text, ShopFile: "shop.yaml", Shop: shop})
}

func made(t testing.TB, src plan.Source) *plan.Plan {
	t.Helper()
	p, remarks := plan.Make(context.Background(), src, plan.Options{})
	if remarks.HasErrors() || p == nil {
		t.Fatal(src.PieceFile, remarks)
	}
	return p
}

func write(t testing.TB, files ...outdir.File) []string {
	t.Helper()
	dir := t.TempDir()
	var names []string
	for _, f := range files {
		names = append(names, filepath.Join(dir, f.Name))
		if err := os.WriteFile(names[len(names)-1], f.Data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return names
}

// kernelSolid is what an independent kernel found.
type kernelSolid struct {
	Name        string
	Volume      float64
	Min, Max    [3]float64
	Faces, Open int
}

// An independent kernel reads each part with the volume that the piece has it
// with, alone and in its place.
func TestSTEP(t *testing.T) {
	p := demo(t)
	files, unwritten, err := deliver.STEP(p)
	if err != nil || len(unwritten) > 0 {
		t.Fatal(unwritten, err)
	}
	files, flats := apart(files)
	if len(files) != len(p.Piece.Parts)+1 || len(flats) != bent(p) {
		t.Fatalf("%d files for %d parts, and %d flat ones", len(files), len(p.Piece.Parts), len(flats))
	}
	var got []struct {
		Success bool
		Solids  []kernelSolid
	}
	// The assembly has every part; some of them once more by themselves.
	alone := []int{0, 3, 14}
	var asked []outdir.File
	for _, i := range alone {
		asked = append(asked, files[i])
	}
	judge.Node(t, "occt-import-js", "step.mjs", &got, write(t, append(append(asked, files[len(files)-1]), flats...)...)...)
	for k, i := range alone {
		if !got[k].Success || len(got[k].Solids) != 1 {
			t.Fatalf("%s: %+v", files[i].Name, got[k])
		}
		compare(t, p.Piece.Parts[i], got[k].Solids[0])
	}
	for k, q := range bentParts(p) {
		if s := got[len(alone)+1+k].Solids; len(s) != 1 {
			t.Errorf("%s, flat: %+v", q.ID, s)
		} else if want := flatVolume(q); math.Abs(s[0].Volume-want) > 2e-4*want || s[0].Open > 0 {
			t.Errorf("%s, flat: volume %.1f, want %.1f; %d open edges", q.ID, s[0].Volume, want, s[0].Open)
		}
	}
	assembly := got[len(alone)].Solids
	if len(assembly) != len(p.Piece.Parts) {
		t.Fatalf("%d solids in the assembly", len(assembly))
	}
	for i, q := range p.Piece.Parts {
		s := assembly[i]
		box := compare(t, q, s).Box()
		for k, d := range []float64{s.Min[0] - box.Min.X, s.Min[1] - box.Min.Y, s.Min[2] - box.Min.Z, s.Max[0] - box.Max.X, s.Max[1] - box.Max.Y, s.Max[2] - box.Max.Z} {
			if math.Abs(d) > 0.03 {
				t.Errorf("%s is %g mm off in the assembly (%d)", q.ID, d, k)
			}
		}
		if s.Name != q.Name {
			t.Errorf("part %s is called %q", q.ID, s.Name)
		}
	}
}

// apart parts the files of flat strips from the others.
func apart(files []outdir.File) (others, flats []outdir.File) {
	for _, f := range files {
		if strings.HasSuffix(f.Name, "-flat.step") {
			flats = append(flats, f)
		} else {
			others = append(others, f)
		}
	}
	return others, flats
}

func bentParts(p *plan.Plan) []*piece.Part {
	var out []*piece.Part
	for _, q := range p.Piece.Parts {
		if len(q.Bends) > 0 {
			out = append(out, q)
		}
	}
	return out
}

func bent(p *plan.Plan) int { return len(bentParts(p)) }

// flatVolume is the strip's sheet less its cuts, by the lists of cuts and kerfs:
// where a cut crosses a kerf it counts once.
func flatVolume(q *piece.Part) float64 {
	v := q.Length.V * q.Width.V * q.Thick.V
	for _, b := range q.Bends {
		v -= float64(len(b.Kerfs)) * b.Plan.Spec.Kerf * b.Depth.V * q.Width.V
	}
	for _, c := range q.Cuts {
		if c.Kind == piece.Hole || c.Kind == piece.HoleRow {
			v -= float64(max(1, c.Count)) * math.Pi / 4 * c.Diameter.V * c.Diameter.V * c.Depth.V
			continue
		}
		across := math.Min(c.Y1.V, q.Width.V) - math.Max(c.Y0.V, 0)
		v -= (math.Min(c.X1.V, q.Length.V) - math.Max(c.X0.V, 0)) * across * c.Depth.V
		for _, b := range q.Bends {
			for _, k := range b.Kerfs {
				if k.V > c.X0.V && k.V < c.X1.V {
					v += b.Plan.Spec.Kerf * across * math.Min(b.Depth.V, c.Depth.V)
				}
			}
		}
	}
	return v
}

// compare holds a solid of the kernel's against the part, and returns the body
// that the part has.
func compare(t *testing.T, q *piece.Part, s kernelSolid) solid.Body {
	t.Helper()
	body, err := piece.Solid(q, 0)
	if err != nil {
		t.Fatal(err)
	}
	bores, left := piece.Bores(q)
	want := body.Volume()
	for _, h := range bores {
		want -= math.Pi * h.Radius * h.Radius * h.Depth
	}
	if left > 0 {
		t.Errorf("%s: %d holes left out", q.ID, left)
	}
	if math.Abs(s.Volume-want) > 2e-4*want || s.Open > 0 {
		t.Errorf("%s: volume %.1f, want %.1f; %d open edges", q.ID, s.Volume, want, s.Open)
	}
	return body
}

// Every example, in space: the standard's validator finds nothing, and each
// part is a solid that STEP can hold.
func TestEveryExample(t *testing.T) {
	var scenes []outdir.File
	for name, p := range every(t) {
		f, err := deliver.GLB(p)
		if err != nil {
			t.Fatal(name, err)
		}
		scenes = append(scenes, outdir.File{Name: name + ".glb", Data: f})
		files, unwritten, err := deliver.STEP(p)
		if err != nil || len(unwritten) > 0 || len(files) != len(p.Piece.Parts)+1+bent(p) {
			t.Errorf("%s: %d files for %d parts; not written: %q, %v", name, len(files), len(p.Piece.Parts), unwritten, err)
		}
	}
	var got []struct {
		File                             string
		NumErrors, NumWarnings, NumInfos int
		Messages                         []struct{ Code, Message, Pointer string }
	}
	judge.Node(t, "gltf-validator", "glb.mjs", &got, write(t, scenes...)...)
	for _, r := range got {
		if r.NumErrors+r.NumWarnings+r.NumInfos > 0 {
			t.Errorf("%+v", r)
		}
	}
}

// The workbook, reopened, holds the very rows of the lists.
func TestXLSX(t *testing.T) {
	p := demo(t)
	f, err := deliver.XLSX(p, units.MM)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Sheets []struct {
			Name string
			Rows [][]any
		}
	}
	judge.Python(t, "openpyxl", "sheets.py", &got, write(t, outdir.File{Name: "lists.xlsx", Data: f})...)
	tables := lists.Make(p)
	if len(got.Sheets) != len(tables) {
		t.Fatalf("%d sheets for %d lists", len(got.Sheets), len(tables))
	}
	for i, tb := range tables {
		heads, rows := tb.Plain(units.MM)
		for j, h := range heads {
			if got.Sheets[i].Rows[0][j] != h {
				t.Errorf("%s: head %q, want %q", tb.Key, got.Sheets[i].Rows[0][j], h)
			}
		}
		for j, r := range rows {
			for k, v := range r {
				cell := got.Sheets[i].Rows[j+1][k]
				if v.IsNumber && cell != v.Number || !v.IsNumber && v.Text != "" && cell != v.Text {
					t.Errorf("%s, row %d, %s: %v, want %+v", tb.Key, j+1, heads[k], cell, v)
				}
			}
		}
	}
}

func TestSameBytes(t *testing.T) {
	all := func() []outdir.File {
		p := demo(t)
		files, _, err := deliver.STEP(p)
		if err != nil {
			t.Fatal(err)
		}
		x, err := deliver.XLSX(p, units.Inch)
		if err != nil {
			t.Fatal(err)
		}
		g, err := deliver.GLB(p)
		if err != nil {
			t.Fatal(err)
		}
		return append(append(files, deliver.CSV(p, units.MM)...), outdir.File{Name: "x", Data: x}, outdir.File{Name: "g", Data: g})
	}
	a, b := all(), all()
	for i := range a {
		if a[i].Name != b[i].Name || !bytes.Equal(a[i].Data, b[i].Data) {
			t.Errorf("%s differs", a[i].Name)
		}
	}
}

func BenchmarkAll(b *testing.B) {
	p := demo(b)
	b.Run("STEP", func(b *testing.B) {
		for b.Loop() {
			if _, _, err := deliver.STEP(p); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("GLB", func(b *testing.B) {
		for b.Loop() {
			if _, err := deliver.GLB(p); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("lists", func(b *testing.B) {
		for b.Loop() {
			deliver.CSV(p, units.MM)
			if _, err := deliver.XLSX(p, units.MM); err != nil {
				b.Fatal(err)
			}
		}
	})
}
