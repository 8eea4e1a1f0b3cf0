package leaf

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r2"
)

func TestWidth(t *testing.T) {
	// Read off the face's own table: digits are 0.497 em, a space 0.200 em.
	for _, c := range []struct {
		s    string
		want float64
	}{{"", 0}, {"0", 0.497 * 2.7}, {"1460", 4 * 0.497 * 2.7}, {" ", 0.2 * 2.7}, {"\u4e2d", 0.7 * 2.7}} {
		if got := Width(c.s, Note, false, false); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("Width(%q) = %v, want %v", c.s, got, c.want)
		}
	}
	if Width("rail", Name, false, true) <= Width("rail", Name, false, false) {
		t.Error("semibold is not wider than regular")
	}
}

func TestShortenFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		room := rapid.Float64Range(0, 60).Draw(t, "room")
		got := Shorten(s, Note, false, false, room)
		if Width(got, Note, false, false) > room && got != "" {
			t.Fatalf("%q is wider than %v", got, room)
		}
		if Width(s, Note, false, false) <= room && got != s {
			t.Fatalf("%q fits and was cut to %q", s, got)
		}
	})
}

func TestCaptionLinesKeepEveryWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.StringMatching(`[a-zé0-9.,]{1,170}`)).Draw(t, "words")
		lines := CaptionLines(strings.Join(words, " "))
		for _, l := range lines {
			if n := len([]rune(l)); n == 0 || n > MaxCaptionLine {
				t.Fatalf("a line of %d characters", n)
			}
		}
		if got, want := strings.ReplaceAll(strings.Join(lines, ""), " ", ""), strings.Join(words, ""); got != want {
			t.Fatalf("words lost: %q, want %q", got, want)
		}
	})
}

// TestArcCentre draws arcs by their angles and finds their centre again.
func TestArcCentre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := r2.Vec{X: rapid.Float64Range(-50, 50).Draw(t, "x"), Y: rapid.Float64Range(-50, 50).Draw(t, "y")}
		r := rapid.Float64Range(0.5, 80).Draw(t, "r")
		from := rapid.Float64Range(-3, 3).Draw(t, "from")
		turn := rapid.Float64Range(0.05, 6.2).Draw(t, "turn")
		left := rapid.Bool().Draw(t, "left")
		if math.Abs(turn-math.Pi) < 0.01 {
			turn = 3
		}
		to := from + turn
		if !left {
			to = from - turn
		}
		at := func(a float64) r2.Vec { return r2.Vec{X: c.X + r*math.Cos(a), Y: c.Y - r*math.Sin(a)} } // y down
		s := Seg{Op: Arc, P: at(to), R: r, Left: left, Large: turn > math.Pi}
		if d := ArcCentre(at(from), s).Sub(c).Len(); d > 1e-5*(1+r) {
			t.Fatalf("centre %v off", d)
		}
		box := Path{Segs: []Seg{{Op: Move, P: at(from)}, s}}.Box()
		for i := range 50 {
			p := at(from + (to-from)*float64(i)/49)
			if p.X < box.Min.X-1e-4 || p.X > box.Max.X+1e-4 || p.Y < box.Min.Y-1e-4 || p.Y > box.Max.Y+1e-4 {
				t.Fatalf("the arc leaves its box: %v of %v", p, box)
			}
		}
	})
}

func TestTextBox(t *testing.T) {
	base := Text{At: r2.Vec{X: 10, Y: 20}, S: "00", Size: Name}
	w, h := base.Width(), Name.Cap()
	for _, c := range []struct {
		anchor Anchor
		up     bool
		want   r2.Box
	}{
		{Start, false, r2.Box{Min: r2.Vec{X: 10, Y: 20 - h}, Max: r2.Vec{X: 10 + w, Y: 20}}},
		{End, false, r2.Box{Min: r2.Vec{X: 10 - w, Y: 20 - h}, Max: r2.Vec{X: 10, Y: 20}}},
		{Start, true, r2.Box{Min: r2.Vec{X: 10 - h, Y: 20 - w}, Max: r2.Vec{X: 10, Y: 20}}},
		{End, true, r2.Box{Min: r2.Vec{X: 10 - h, Y: 20}, Max: r2.Vec{X: 10, Y: 20 + w}}},
		{Middle, true, r2.Box{Min: r2.Vec{X: 10 - h, Y: 20 - w/2}, Max: r2.Vec{X: 10, Y: 20 + w/2}}},
	} {
		q := base
		q.Anchor, q.Up = c.anchor, c.up
		got := q.Box()
		if got.Min.Sub(c.want.Min).Len()+got.Max.Sub(c.want.Max).Len() > 1e-9 {
			t.Errorf("anchor %d, up %v: %v, want %v", c.anchor, c.up, got, c.want)
		}
	}
}

func TestPlate(t *testing.T) {
	l := Leaf{Title: "Sheet", Right: "ply", Caption: "One line.", W: 210, H: 50, Items: []Item{
		Path{Line: Visible, Segs: []Seg{{Op: Move, P: r2.Vec{X: 20, Y: 0}}, {Op: To, P: r2.Vec{X: 30, Y: 50}}}}}}
	p := Plate(l)
	if p.H <= l.H+titleBand {
		t.Errorf("the plate is %v high, no room for title and caption", p.H)
	}
	if got := p.Items[0].(Path).Segs[0].P.Y; got != titleBand {
		t.Errorf("the figure starts at %v, below the title it is %v", got, titleBand)
	}
	if l.Items[0].(Path).Segs[0].P.Y != 0 {
		t.Error("Plate changed the leaf that it was given")
	}
	for _, it := range p.Items {
		if q, ok := it.(Text); ok && (q.Box().Max.Y > p.H || q.Box().Max.X > p.W) {
			t.Errorf("%q lies off the plate", q.S)
		}
	}
}
