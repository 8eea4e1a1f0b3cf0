package pdf

import (
	"bytes"
	"os"
	"testing"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

func v(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

// strip is a leaf at full size: a frame of 900 × 420 with a cross 500 apart.
func strip() leaf.Leaf {
	line := func(a, b r2.Vec) leaf.Path {
		return leaf.Path{Line: leaf.Cut, Segs: []leaf.Seg{{Op: leaf.Move, P: a}, {Op: leaf.To, P: b}}}
	}
	return leaf.Leaf{Key: "strip", Title: "A strip with a round end", Right: "birch ply 18", Caption: "Seen from the inside.", Alt: "A strip.", W: 900, H: 420,
		Items: []leaf.Item{
			leaf.Path{Line: leaf.Cut, Segs: []leaf.Seg{{Op: leaf.Move, P: v(10, 10)}, {Op: leaf.To, P: v(690, 10)},
				{Op: leaf.Arc, P: v(690, 410), R: 200}, {Op: leaf.To, P: v(10, 410)}, {Op: leaf.Close}}},
			line(v(100, 60), v(100, 360)), line(v(600, 60), v(600, 360)),
			leaf.Path{Line: leaf.Centre, Accent: true, Segs: []leaf.Seg{{Op: leaf.Move, P: v(10, 210)}, {Op: leaf.To, P: v(890, 210)}}},
			leaf.Text{At: v(350, 208), S: "⌀ 35 · 500 · Ärmel ½″ ☐", Size: leaf.Name, Anchor: leaf.Middle, Halo: true},
			leaf.Text{At: v(98, 210), S: "up 300", Size: leaf.Name, Anchor: leaf.Middle, Up: true, Italic: true},
		}}
}

func TestSameBytes(t *testing.T) {
	a, err := Tiled(strip(), A4)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := Tiled(strip(), A4)
	if !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
	if dir := os.Getenv("RODWORK_SHOW"); dir != "" {
		os.WriteFile(dir+"/tiled.pdf", a, 0o644)
		c, err := FullSize(strip())
		if err != nil {
			t.Fatal(err)
		}
		os.WriteFile(dir+"/full.pdf", c, 0o644)
	}
}
