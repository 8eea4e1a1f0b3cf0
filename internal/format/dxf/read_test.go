package dxf_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/format/dxf"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/noskip"
)

// judge reads files with a general DXF library, which is not ours, audits them
// and prints what it found.
const judge = `
import json, sys
import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode
out = []
for name in sys.argv[1:]:
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    r = {"errors": [str(e.message) for e in audit.errors], "fixes": [str(e.message) for e in audit.fixes],
         "version": doc.dxfversion, "units": doc.units, "measurement": doc.header["$MEASUREMENT"],
         "min": list(doc.header["$EXTMIN"]), "max": list(doc.header["$EXTMAX"]),
         "layers": [l.dxf.name for l in doc.layers], "colors": sorted({l.color for l in doc.layers}), "entities": []}
    for e in doc.modelspace():
        t = {"kind": e.dxftype(), "layer": e.dxf.layer, "points": [], "bulges": [], "numbers": [], "text": ""}
        if e.dxftype() == "LWPOLYLINE":
            t["points"] = [[p[0], p[1]] for p in e.get_points("xyb")]
            t["bulges"] = [p[2] for p in e.get_points("xyb")]
            t["closed"] = bool(e.closed)
        elif e.dxftype() == "CIRCLE":
            t["points"] = [list(e.dxf.center)[:2]]; t["numbers"] = [e.dxf.radius]
        elif e.dxftype() == "ARC":
            t["points"] = [list(e.dxf.center)[:2]]; t["numbers"] = [e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle]
        elif e.dxftype() == "LINE":
            t["points"] = [list(e.dxf.start)[:2], list(e.dxf.end)[:2]]
        elif e.dxftype() == "TEXT":
            t["points"] = [list(e.dxf.insert)[:2]]; t["text"] = decode_dxf_unicode(e.plain_text()); t["numbers"] = [e.dxf.height, e.dxf.rotation]
        r["entities"].append(t)
    out.append(r)
json.dump(out, sys.stdout)
`

type seen struct {
	Errors, Fixes      []string
	Version            string
	Units, Measurement int
	Min, Max           []float64
	Layers             []string
	Colors             []int
	Entities           []struct {
		Kind, Layer, Text string
		Points            [][2]float64
		Bulges, Numbers   []float64
		Closed            bool
	}
}

// read has the files read by the judge.
func read(t *testing.T, files ...[]byte) []seen {
	t.Helper()
	python := noskip.Program(t, "/usr/bin/python3", "python3")
	if exec.Command(python, "-c", "import ezdxf").Run() != nil {
		noskip.Skip(t, "python3-ezdxf, an independent reader of DXF, is not installed")
	}
	dir := t.TempDir()
	args := []string{"-c", judge}
	for i, f := range files {
		name := filepath.Join(dir, string(rune('a'+i%26))+string(rune('a'+i/26))+".dxf")
		if err := os.WriteFile(name, f, 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, name)
	}
	cmd := exec.Command(python, args...)
	cmd.Env = append(os.Environ(), "HOME="+dir)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("the reader fails: %v\n%s", err, errs.String())
	}
	var got []seen
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	for i, s := range got {
		if len(s.Errors)+len(s.Fixes) > 0 {
			t.Errorf("file %d: errors %q, fixes %q", i, s.Errors, s.Fixes)
		}
	}
	return got
}

func mustBytes(t *testing.T, d dxf.Drawing) []byte {
	t.Helper()
	b, err := dxf.Bytes(d)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestReadBack writes one of each entity and finds it again.
func TestReadBack(t *testing.T) {
	l, err := planar.Rounded(planar.Corner{}, planar.Corner{P: r2.Vec{X: 500}}, planar.Corner{P: r2.Vec{X: 500, Y: 300}, Round: 119.8}, planar.Corner{P: r2.Vec{Y: 300}})
	if err != nil {
		t.Fatal(err)
	}
	d := dxf.Drawing{Layers: []string{"cut outside", "cut inside", "kerf"}, Note: "a test ½", Entities: []dxf.Entity{
		dxf.Loop("cut outside", l),
		dxf.Loop("cut inside", planar.Circle(r2.Vec{X: 100, Y: 80}, 15)),
		dxf.Line{Layer: "kerf", A: r2.Vec{X: 1, Y: 2}, B: r2.Vec{X: 3, Y: -4.5}},
		dxf.Arc{Layer: "mark", Center: r2.Vec{X: 7}, Radius: 2, From: 0, To: math.Pi / 2},
		dxf.Text{Layer: "words", At: r2.Vec{X: 5, Y: 6}, S: "⌀ 35 ± 0.1", Height: 2.5, Align: dxf.Middle},
		dxf.Text{Layer: "words", S: "100 %%c \\U+0041 ^J a\nb;*", Height: 1.8, Turn: math.Pi / 2},
	}}
	got := read(t, mustBytes(t, d))[0]
	if got.Version != "AC1015" || got.Units != 4 || got.Measurement != 1 {
		t.Errorf("version %s, units %d, measurement %d", got.Version, got.Units, got.Measurement)
	}
	if len(got.Colors) != 1 || got.Colors[0] != 7 {
		t.Errorf("colours %v: nothing is told by colours", got.Colors)
	}
	if got.Max[0] != 500 || got.Max[1] != 300 || got.Min[1] != -4.5 {
		t.Errorf("extents %v to %v", got.Min, got.Max)
	}
	for _, want := range []string{"0", "cut outside", "cut inside", "kerf", "mark", "words"} {
		found := false
		for _, l := range got.Layers {
			found = found || l == want
		}
		if !found {
			t.Errorf("no layer %q among %q", want, got.Layers)
		}
	}
	kinds := ""
	for _, e := range got.Entities {
		kinds += e.Kind + " "
	}
	if kinds != "LWPOLYLINE CIRCLE LINE ARC TEXT TEXT " {
		t.Fatalf("entities %s", kinds)
	}
	if c := got.Entities[1]; c.Points[0] != [2]float64{100, 80} || math.Abs(c.Numbers[0]-15) > 1e-9 {
		t.Errorf("circle %+v", c)
	}
	if s := got.Entities[4].Text; s != "⌀ 35 ± 0.1" {
		t.Errorf("words %q", s)
	}
	if s := got.Entities[5].Text; s != `100 % %c \U+0041 ^J a b;*` {
		t.Errorf("hostile words come back as %q", s)
	}
}

// loopOf makes the loop of a polyline that was read.
func loopOf(points [][2]float64, bulges []float64) planar.Loop {
	l := make(planar.Loop, len(points))
	for i := range points {
		l[i] = planar.Vertex{P: r2.Vec{X: points[i][0], Y: points[i][1]}, Bulge: bulges[i]}
	}
	return l
}

// apart is the largest distance between two loops at like shares of like edges.
func apart(a, b planar.Loop) float64 {
	if len(a) != len(b) {
		return math.Inf(1)
	}
	worst := 0.0
	for i := range a {
		for k := range 9 {
			worst = max(worst, a.Edge(i).At(float64(k)/8).Sub(b.Edge(i).At(float64(k)/8)).Len())
		}
	}
	return worst
}

// TestSameOutline writes random outlines of lines and arcs: what the reader
// gives back lies within 1e-6 mm.
func TestSameOutline(t *testing.T) {
	gen := rapid.Custom(func(t *rapid.T) planar.Loop {
		n := rapid.IntRange(3, 12).Draw(t, "n")
		l := make(planar.Loop, n)
		for i := range l {
			r := rapid.Float64Range(100, 1500).Draw(t, "r")
			l[i].P = r2.Vec{X: r}.Turn(2 * math.Pi * float64(i) / float64(n)).Add(r2.Vec{X: 300, Y: -200})
			if rapid.Bool().Draw(t, "arc") {
				l[i].Bulge = rapid.Float64Range(-1.2, 1.2).Draw(t, "bulge")
			}
		}
		return l
	})
	var loops []planar.Loop
	var files [][]byte
	for i := range 20 {
		l := gen.Example(i)
		loops = append(loops, l)
		files = append(files, mustBytes(t, dxf.Drawing{Entities: []dxf.Entity{dxf.Polyline{Layer: "outline of part", Loop: l, Closed: true}}}))
	}
	for i, got := range read(t, files...) {
		e := got.Entities[0]
		if d := apart(loops[i], loopOf(e.Points, e.Bulges)); d > 1e-6 || !e.Closed {
			t.Errorf("outline %d comes back %g mm away, closed %v", i, d, e.Closed)
		}
	}
}

func TestEmptyDrawingIsSound(t *testing.T) {
	got := read(t, mustBytes(t, dxf.Drawing{}))[0]
	if len(got.Entities) != 0 {
		t.Errorf("%d entities", len(got.Entities))
	}
}
