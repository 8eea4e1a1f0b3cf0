package pdf

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/noskip"
)

func v(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

func straight(l leaf.Line, a, b r2.Vec) leaf.Path {
	return leaf.Path{Line: l, Segs: []leaf.Seg{{Op: leaf.Move, P: a}, {Op: leaf.To, P: b}}}
}

// strip is a leaf at full size: a rounded frame with two upright lines that are
// 500 apart, at 100 and 600.
func strip() leaf.Leaf {
	return leaf.Leaf{Key: "strip", Title: "A strip with a round end", Right: "birch ply 18", Caption: "Seen from the inside.", Alt: "A strip.", W: 900, H: 420,
		Items: []leaf.Item{
			leaf.Path{Line: leaf.Cut, Segs: []leaf.Seg{{Op: leaf.Move, P: v(10, 10)}, {Op: leaf.To, P: v(690, 10)},
				{Op: leaf.Arc, P: v(690, 410), R: 200}, {Op: leaf.To, P: v(10, 410)}, {Op: leaf.Close}}},
			straight(leaf.Hatch, v(100, 60), v(100, 360)), straight(leaf.Hatch, v(600, 60), v(600, 360)),
			leaf.Path{Line: leaf.Centre, Accent: true, Segs: []leaf.Seg{{Op: leaf.Move, P: v(10, 210)}, {Op: leaf.To, P: v(890, 210)}}},
			leaf.Text{At: v(350, 208), S: "⌀ 35 · 500 · Ärmel ½″ ☐", Size: leaf.Name, Anchor: leaf.Middle, Halo: true},
			leaf.Text{At: v(98, 210), S: "up 300", Size: leaf.Name, Anchor: leaf.Middle, Up: true, Italic: true},
		}}
}

func made(t testing.TB) func([]byte, error) string {
	return func(data []byte, err error) string {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return name
	}
}

func TestSameBytes(t *testing.T) {
	a, err := Tiled(strip(), A4)
	if err != nil {
		t.Fatal(err)
	}
	if b, _ := Tiled(strip(), A4); !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
}

// dots per mm of the pictures that are measured: 508 to the inch.
const dots = 20.0

// darkRuns rasterises one row of a page, y mm from its top, between two places,
// and returns the middles of what is dark there, mm from the page's left.
func darkRuns(t *testing.T, file string, page int, y, from, to float64) []float64 {
	t.Helper()
	n := strconv.Itoa(page)
	arg := func(mm float64) string { return strconv.Itoa(int(math.Round(mm * dots))) }
	out, err := exec.Command(noskip.Program(t, "pdftoppm"), "-gray", "-r", "508", "-f", n, "-l", n, "-x", arg(from), "-y", arg(y),
		"-W", arg(to-from), "-H", "1", file).Output()
	if err != nil {
		t.Fatal(err)
	}
	var w, h, most int
	if _, err := fmt.Sscanf(string(out[:min(len(out), 40)]), "P5\n%d %d\n%d", &w, &h, &most); err != nil || h != 1 {
		t.Fatalf("no picture: %v", err)
	}
	row := out[len(out)-w:]
	var middles []float64
	sum, weight := 0.0, 0.0
	for i, p := range append(row, 255) {
		if dark := float64(255 - p); dark > 0 {
			sum, weight = sum+dark*(float64(i)+0.5), weight+dark
		} else if weight > 0 {
			middles = append(middles, from+sum/weight/dots)
			sum, weight = 0, 0
		}
	}
	return middles
}

// A full-size page, measured on its picture: a tenth of a millimetre in 500.
func TestFullSizeMeasures(t *testing.T) {
	file := made(t)(FullSize(strip()))
	at := darkRuns(t, file, 1, bigMargin+8+100, bigMargin+50, bigMargin+650)
	if len(at) != 2 {
		t.Fatalf("lines at %v", at)
	}
	if d := at[1] - at[0]; math.Abs(d-500) > 0.05 {
		t.Errorf("500 mm measure %.3f", d)
	}
	if math.Abs(at[0]-bigMargin-100) > 0.05 {
		t.Errorf("the first line is at %.3f", at[0])
	}
	square := darkRuns(t, file, 1, bigMargin+8+420+10+4, 1, bigMargin+108)
	if len(square) != 2 || math.Abs(square[1]-square[0]-100) > 0.05 {
		t.Errorf("the square of 100 mm: %v", square)
	}
}

// Tiles, measured on their pictures: a line stands where its tile's place says,
// and the join's rings on both sheets at one place of the leaf.
func TestTilesMeasure(t *testing.T) {
	l := strip()
	file := made(t)(Tiled(l, A4))
	tl := tile(l, A4)
	if tl.cols != 5 || tl.rows != 2 || tl.count() != 10 {
		t.Fatalf("%d × %d, %d used", tl.cols, tl.rows, tl.count())
	}
	at := darkRuns(t, file, 2, tileMargin+80, tileMargin+50, tileMargin+150)
	if len(at) != 1 || math.Abs(at[0]-tileMargin-100) > 0.05 {
		t.Errorf("on A1 the line at 100 is at %v", at)
	}
	// The line at 600 is on the fourth tile, page 5.
	b := tl.window(0, 3)
	want := 600 - b.Min.X + tileMargin
	at = darkRuns(t, file, 5, tileMargin+70, want-15, want+15)
	if len(at) != 1 || math.Abs(at[0]-want) > 0.05 {
		t.Errorf("on A4 the line at 600 is at %v, not %.2f", at, want)
	}
	// The join of A1 and A2: seen on both, over the leaf at the same place.
	right := darkRuns(t, file, 2, tileMargin+1, tileMargin+tl.w-8, tileMargin+tl.w-2)
	left := darkRuns(t, file, 3, tileMargin+1, tileMargin+2, tileMargin+8)
	if len(right) != 1 || len(left) != 1 {
		t.Fatalf("joins at %v and %v", right, left)
	}
	if d := (right[0] + tl.window(0, 0).Min.X) - (left[0] + tl.window(0, 1).Min.X); math.Abs(d) > 0.05 {
		t.Errorf("the join is off by %.3f", d)
	}
	sq := tileMargin + (tl.h-square)/2 + 4
	at = darkRuns(t, file, 3, sq, tileMargin+(tl.w-square)/2-2, tileMargin+(tl.w+square)/2+2)
	if len(at) != 2 || math.Abs(at[1]-at[0]-100) > 0.05 {
		t.Errorf("the square of 100 mm: %v", at)
	}
}

func TestReadersFindNoFault(t *testing.T) {
	check, other, text := noskip.Program(t, "qpdf"), noskip.Program(t, "mutool"), noskip.Program(t, "pdftotext")
	files := []string{made(t)(FullSize(strip())), made(t)(Tiled(strip(), A4)), made(t)(Tiled(strip(), Letter))}
	for _, f := range files {
		if out, err := exec.Command(check, "--check", f).CombinedOutput(); err != nil {
			t.Errorf("%v\n%s", err, out)
		}
		out, err := exec.Command(other, "show", f, "trailer/Root/ViewerPreferences/PrintScaling").CombinedOutput()
		if err != nil || strings.TrimSpace(string(out)) != "/None" {
			t.Errorf("%v, %s", err, out)
		}
		words, err := exec.Command(text, f, "-").Output()
		if err != nil || !strings.Contains(string(words), "⌀ 35 · 500 · Ärmel ½″ ☐") {
			t.Errorf("%v: the words are not read as written: %q", err, words)
		}
	}
}

// A sheet that would be too large says so instead of taking for ever.
func TestTooLarge(t *testing.T) {
	for _, size := range []float64{6000, 1e9, math.Inf(1), math.NaN()} {
		l := strip()
		l.W = size
		if _, err := FullSize(l); err == nil {
			t.Errorf("%g is one page", size)
		}
		l.H = size
		if _, err := Tiled(l, A4); err == nil {
			t.Errorf("%g is tiled", size)
		}
	}
}

// Every cubic that stands for an arc lies on the circle.
func TestArcsAreRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(1, 2000).Draw(t, "r")
		a0, turn := rapid.Float64Range(0, 6.3).Draw(t, "from"), rapid.Float64Range(0.01, 6.2).Draw(t, "turn")
		left := rapid.Bool().Draw(t, "left")
		dir := 1.0
		if left {
			dir = -1
		}
		on := func(a float64) r2.Vec { return v(2500+r*math.Cos(a), 2500+r*math.Sin(a)) }
		p := New(Info{}).AddPage(5000, 5000)
		f := frame{p, 0, 0, 1}
		f.path([]leaf.Seg{{Op: leaf.Move, P: on(a0)}, {Op: leaf.Arc, P: on(a0 + dir*turn), R: r, Left: left, Large: turn > math.Pi}})
		var at [2]float64
		for line := range strings.Lines(p.buf.String()) {
			var c [6]float64
			if n, _ := fmt.Sscan(line, &c[0], &c[1], &c[2], &c[3], &c[4], &c[5]); n == 6 {
				for _, u := range []float64{0.25, 0.5, 0.75, 1} {
					bez := func(i int) float64 {
						w := 1 - u
						return w*w*w*at[i] + 3*w*w*u*c[i] + 3*w*u*u*c[2+i] + u*u*u*c[4+i]
					}
					x, y := bez(0)/perMM, 5000-bez(1)/perMM
					if off := math.Hypot(x-2500, y-2500) - r; math.Abs(off) > 2e-4 {
						t.Fatalf("off by %g at radius %g", off, r)
					}
				}
				at = [2]float64{c[4], c[5]}
			} else if n == 2 {
				at = [2]float64{c[0], c[1]}
			}
		}
	})
}

// Any text in any place makes a document that can be written; what no face has
// is shown as unknown, not dropped.
func TestAnyWords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := New(Info{Title: rapid.String().Draw(t, "title"), Lang: "en)>>"})
		p := d.AddPage(rapid.Float64().Draw(t, "w"), rapid.Float64().Draw(t, "h"))
		p.Bookmark(rapid.Int().Draw(t, "level"), rapid.String().Draw(t, "mark"), rapid.Float64().Draw(t, "y"))
		p.Words(rapid.Float64().Draw(t, "x"), 10, Style{Face: Face(rapid.IntRange(0, int(faces)-1).Draw(t, "face")), Size: 4}, rapid.String().Draw(t, "s"))
		if _, err := d.Bytes(); err != nil {
			t.Fatal(err)
		}
	})
	for _, s := range []string{"漢", "😀", "ש"} {
		if rs := runs(Text, s); len(rs) != 1 || rs[0].letters[0] != unknown {
			t.Errorf("%s: %v", s, rs)
		}
	}
}

func TestFaces(t *testing.T) {
	for f := range faces {
		font := fonts[f]()
		if font.glyphs < 100 || len(font.cmap) < 100 {
			t.Errorf("%s: %d glyphs", faceNames[f], font.glyphs)
		}
		whole := len(font.tables["glyf"])
		if cut := font.cutDown([]uint16{5, 9, 40}); checksum(cut) != 0xb1b0afba || len(cut) > whole {
			t.Errorf("%s: cut down to %d of %d, sum %x", faceNames[f], len(cut), whole, checksum(cut))
		}
	}
	if got, want := Width(Table, 10, "0000"), 4*4.97; math.Abs(got-want) > 1e-9 {
		t.Errorf("four digits are %g long", got)
	}
	if Width(Text, 10, "To") >= Width(Text, 10, "T")+Width(Text, 10, "o") {
		t.Error("no kerning")
	}
}

// The widths that leaves were laid out with are those they are printed with.
func TestWidthsAgreeWithLeaves(t *testing.T) {
	for _, s := range []string{"1234.5", "shelf in scores", "⅝ × ½", "Über"} {
		want := leaf.Width(s, leaf.Name, false, false)
		if got := Width(Table, leaf.Name.EM(), s); math.Abs(got-want) > 0.05*want {
			t.Errorf("%s: %.3f here, %.3f there", s, got, want)
		}
	}
}

func FuzzFont(f *testing.F) {
	data, err := fontFiles.ReadFile("fonts/signs.ttf")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data[:2000], 10, byte(1))
	f.Fuzz(func(t *testing.T, head []byte, at int, with byte) {
		b := append(bytes.Clone(head), data[min(len(head), len(data)):]...)
		if at >= 0 && at < len(b) {
			b[at] = with
		}
		parseFont(b) // an error or not, but no panic
	})
}
