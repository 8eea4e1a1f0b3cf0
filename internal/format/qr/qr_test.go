package qr

import (
	"strings"
	"testing"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// The blocks cover every dark module once, and no light one.
func TestBlocksAreTheModules(t *testing.T) {
	for _, text := range []string{"rodwork:7c1e/part/4", "A", strings.Repeat("x", Longest)} {
		m, err := Modules(text)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[[2]int]int{}
		for _, b := range blocks(m) {
			for y := b.y0; y < b.y1; y++ {
				for x := b.x0; x < b.x1; x++ {
					seen[[2]int{x, y}]++
				}
			}
		}
		for y, row := range m {
			for x, dark := range row {
				n := seen[[2]int{x, y}]
				if dark && n != 1 || !dark && n != 0 {
					t.Fatalf("%q: module %d, %d is dark %v and covered %d times", text, x, y, dark, n)
				}
			}
		}
		for i := range 4 {
			for x := range m {
				if m[i][x] || m[x][i] || m[len(m)-1-i][x] || m[x][len(m)-1-i] {
					t.Fatalf("%q: the quiet zone is not quiet", text)
				}
			}
		}
	}
}

func TestPathFillsItsSquare(t *testing.T) {
	p, err := Path("rodwork:7c1e/part/4", r2.Vec{X: 10, Y: 20}, 29)
	if err != nil {
		t.Fatal(err)
	}
	b := p.Box()
	if p.Fill != leaf.Solid || b.Min.X < 10 || b.Min.Y < 20 || b.Max.X > 39 || b.Max.Y > 49 {
		t.Errorf("%v, fill %q", b, p.Fill)
	}
	if again, _ := Path("rodwork:7c1e/part/4", r2.Vec{X: 10, Y: 20}, 29); len(again.Segs) != len(p.Segs) {
		t.Error("two runs differ")
	}
}

func TestTextsThatAreNotTaken(t *testing.T) {
	for _, s := range []string{"", strings.Repeat("x", Longest+1)} {
		if _, err := Modules(s); err == nil {
			t.Errorf("%d bytes were taken", len(s))
		}
	}
}
