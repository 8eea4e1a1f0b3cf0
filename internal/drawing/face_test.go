package drawing

import (
	"math"
	"strings"
	"testing"

	pieces "rodwork/examples"
	"rodwork/internal/leaf"
	"rodwork/internal/plan"
)

// A bare face is as wide to its height as the piece, and holds no words, so
// that it can be laid over a picture; the other has its dimensions.
func TestFace(t *testing.T) {
	piece, shop := pieces.Main()
	p, remarks := plan.Make(t.Context(), plan.Source{PieceFile: "p", Piece: piece, ShopFile: "s", Shop: shop}, plan.Options{})
	if p == nil || remarks.HasErrors() {
		t.Fatal(remarks)
	}
	bare, ok := Face(p, Options{}, true)
	if want := p.Piece.Width.V / p.Piece.Height.V; !ok || math.Abs(bare.W/bare.H-want) > 1e-9 {
		t.Errorf("%.3f × %.3f, want as 1 to %.4f", bare.W, bare.H, want)
	}
	told, _ := Face(p, Options{}, false)
	words := map[bool]int{}
	for _, l := range []leaf.Leaf{bare, told} {
		for _, it := range l.Items {
			if _, ok := it.(leaf.Text); ok {
				words[l.Key == bare.Key]++
			}
		}
		if !strings.Contains(l.Alt, "1460 mm wide") || !strings.Contains(l.Alt, "2 doors") {
			t.Errorf("told as %q", l.Alt)
		}
	}
	if words[true] != 0 || words[false] < 8 {
		t.Errorf("%d words on the bare face, %d on the other", words[true], words[false])
	}
	if _, ok := Face(&plan.Plan{}, Options{}, true); ok {
		t.Error("a face of nothing")
	}
}
