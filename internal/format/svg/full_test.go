package svg

import (
	"strings"
	"testing"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// A full-size sheet has one ink, no paper and no halo, is not scaled, and has
// the square to measure; a page is nothing but its leaf.
func TestFullSizeHasOneInk(t *testing.T) {
	l := leaf.Leaf{Key: "a", Title: "A template", Alt: "in words", W: 500, H: 300, FullSize: true, Items: []leaf.Item{
		leaf.Path{Line: leaf.Saw, Accent: true, Fill: leaf.Paper, Segs: []leaf.Seg{{Op: leaf.Move, P: r2.Vec{X: 10, Y: 10}}, {Op: leaf.To, P: r2.Vec{X: 490, Y: 10}}}},
		leaf.Text{At: r2.Vec{X: 20, Y: 20}, S: "words", Halo: true, Accent: true},
	}}
	full := string(Render(l))
	for _, no := range []string{leaf.AccentTone, leaf.PaperTone, "leaf-ground", "leaf-halo", "leaf-accent"} {
		if strings.Contains(full, no) {
			t.Errorf("a full-size sheet has %q in it", no)
		}
	}
	for _, want := range []string{`width="500mm"`, `viewBox="0 0 500 `, "M10 26h480", "A template", "100 mm wide and 100 mm high"} {
		if !strings.Contains(full, want) {
			t.Errorf("a full-size sheet lacks %q", want)
		}
	}
	page := string(Page(leaf.Leaf{Title: "Labels", W: 210, H: 297}))
	if !strings.Contains(page, `width="210mm" height="297mm" viewBox="0 0 210 297"`) || strings.Contains(page, "<text") {
		t.Errorf("a page is not its leaf alone: %s", page)
	}
}
