package template

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/draw"
	_ "image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"rodwork/internal/format/dxf"
	"rodwork/internal/format/pdf"
	"rodwork/internal/format/svg"
	"rodwork/internal/geom/planar"
	"rodwork/internal/noskip"
)

// judge reads files with a general DXF library and gives back each closed
// outline, with what its audit finds.
const judge = `
import json, sys
import ezdxf
out = []
for name in sys.argv[1:]:
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    loops = []
    for e in doc.modelspace():
        if e.dxf.layer != "outline of part":
            continue
        if e.dxftype() == "LWPOLYLINE":
            loops.append([[p[0], p[1], p[2]] for p in e.get_points("xyb")])
        elif e.dxftype() == "CIRCLE":
            c, r = e.dxf.center, e.dxf.radius
            loops.append([[c[0] - r, c[1], 1], [c[0] + r, c[1], 1]])
    out.append({"bad": [str(e.message) for e in audit.errors + audit.fixes], "units": doc.units, "loops": loops})
json.dump(out, sys.stdout)
`

// TestMachinesReadTheSameOutline has every sheet of every example read by an
// independent reader: nothing to mend, and the same outline within 1e-6 mm.
func TestMachinesReadTheSameOutline(t *testing.T) {
	python := noskip.Program(t, "/usr/bin/python3", "python3")
	if exec.Command(python, "-c", "import ezdxf").Run() != nil {
		noskip.Skip(t, "python3-ezdxf, an independent reader of DXF, is not installed")
	}
	dir := t.TempDir()
	args := []string{"-c", judge}
	var want []Sheet
	for _, name := range names(t) {
		for _, s := range Make(planOf(t, name), tools) {
			b, err := dxf.Bytes(s.Drawing())
			if err != nil {
				t.Fatal(err)
			}
			file := filepath.Join(dir, fmt.Sprintf("%s-%s.dxf", name, s.Key))
			if err := os.WriteFile(file, b, 0o600); err != nil {
				t.Fatal(err)
			}
			args, want = append(args, file), append(want, s)
		}
	}
	cmd := exec.Command(python, args...)
	cmd.Env = append(os.Environ(), "HOME="+dir)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, errs.String())
	}
	var got []struct {
		Bad   []string
		Units int
		Loops [][][3]float64
	}
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	for i, s := range want {
		if len(got[i].Bad) > 0 || got[i].Units != 4 {
			t.Errorf("%s: %q, units %d", s.Key, got[i].Bad, got[i].Units)
		}
		loops := on(s, Outline)
		if len(loops) != len(got[i].Loops) {
			t.Errorf("%s: %d outlines, %d were read", s.Key, len(loops), len(got[i].Loops))
			continue
		}
		for k, l := range loops {
			back := make(planar.Loop, len(got[i].Loops[k]))
			for j, v := range got[i].Loops[k] {
				back[j] = planar.Vertex{P: pt(v[0], v[1]), Bulge: v[2]}
			}
			if d := away(l, back); d > 1e-6 {
				t.Errorf("%s: outline %d comes back %g mm away", s.Key, k, d)
			}
		}
	}
}

// away is how far the corners and middles of one loop lie from the other.
func away(a, b planar.Loop) float64 {
	worst := 0.0
	for _, e := range a.Edges() {
		for k := range 5 {
			at := e.At(float64(k) / 4)
			lo, hi := 0.0, 10.0
			for range 40 {
				mid := (lo + hi) / 2
				if (planar.Region{{Outer: b}}).OnEdge(at, mid) {
					hi = mid
				} else {
					lo = mid
				}
			}
			worst = max(worst, hi)
		}
	}
	return worst
}

// scale is how many pixels a millimetre has in the pictures that are measured.
const scale = 4.0

// TestPrintsMeasure rasterises a sheet of 500 × 60 mm as SVG and as PDF with two
// programs that are not ours, and measures it on the pictures: 0.1 mm in 500.
func TestPrintsMeasure(t *testing.T) {
	rsvg, poppler := noskip.Program(t, "rsvg-convert"), noskip.Program(t, "pdftoppm")
	dir := t.TempDir()
	s := Sheet{Key: "rule", Title: "A rule", DX: 1, DY: 1}
	s.rect(Outline, 0, 0, 500, 60)
	l := s.Leaf()
	whole, err := pdf.FullSize(l)
	if err != nil {
		t.Fatal(err)
	}
	dpi := fmt.Sprint(25.4 * scale)
	for _, c := range []struct {
		file, out string
		data      []byte
		cmd       []string
	}{
		{"a.svg", "a.png", svg.Render(l), []string{rsvg, "--dpi-x", dpi, "--dpi-y", dpi, "--background-color", "white", "--output"}},
		{"b.pdf", "b.png", whole, []string{poppler, "-png", "-gray", "-r", dpi, "-singlefile"}},
	} {
		in, out := filepath.Join(dir, c.file), filepath.Join(dir, c.out)
		if err := os.WriteFile(in, c.data, 0o600); err != nil {
			t.Fatal(err)
		}
		args := append(c.cmd[1:], out, in)
		if c.cmd[0] == poppler {
			args = append(c.cmd[1:], in, filepath.Join(dir, "b"))
		}
		if b, err := exec.Command(c.cmd[0], args...).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v: %s", c.file, err, b)
		}
		img := picture(t, out)
		for _, m := range []struct {
			what      string
			want, got float64
		}{{"length", 500, spread(img, true)}, {"width", 60, spread(img, false)}} {
			if off := math.Abs(m.got - m.want); off > 0.1*max(m.want, 250)/500 {
				t.Errorf("%s: its %s measures %.3f, it is %.3f", c.file, m.what, m.got, m.want)
			}
		}
	}
}

func picture(t *testing.T, file string) *image.Gray {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, _, err := image.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	grey := image.NewGray(image.Rectangle{Max: img.Bounds().Size()})
	draw.Draw(grey, grey.Rect, img, img.Bounds().Min, draw.Src)
	return grey
}

// spread finds the two lines with most ink that run across the picture's x, or
// its y, and returns how far apart their middles are, mm.
func spread(img *image.Gray, alongX bool) float64 {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	cols, rows := make([]float64, w), make([]float64, h)
	for y := range h {
		for x, v := range img.Pix[y*img.Stride : y*img.Stride+w] {
			ink := 1 - float64(v)/255
			cols[x] += ink
			rows[y] += ink
		}
	}
	sums := cols
	if !alongX {
		sums = rows
	}
	first := heaviest(sums, -1)
	second := heaviest(sums, first)
	return math.Abs(middle(sums, first)-middle(sums, second)) / scale
}

// heaviest is the index with most ink, at least 50 mm away from another.
func heaviest(sums []float64, but int) int {
	best := -1
	for i, s := range sums {
		if but >= 0 && math.Abs(float64(i-but)) < 50*scale {
			continue
		}
		if best < 0 || s > sums[best] {
			best = i
		}
	}
	return best
}

// middle is the centre of the ink about an index, in pixels: what stands beside
// the line (level lines that end in it) is taken off.
func middle(sums []float64, at int) float64 {
	const half = 6
	lo, hi := max(0, at-half), min(len(sums)-1, at+half)
	base := math.Inf(1)
	for i := lo; i <= hi; i++ {
		base = min(base, sums[i])
	}
	var ink, moment float64
	for i := max(lo, at-3); i <= min(hi, at+3); i++ {
		v := sums[i] - base
		ink += v
		moment += v * (float64(i) + 0.5)
	}
	return moment / ink
}
