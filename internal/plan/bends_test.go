package plan

import (
	"context"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
)

// shells are the pieces that show the ways to bend, beside the commands' tests.
const shells = "../cli/testdata/bends/"

func bent(t testing.TB, name string) Source {
	t.Helper()
	read := func(name string) []byte {
		b, err := os.ReadFile(shells + name)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	return Source{PieceFile: name, Piece: read(name), ShopFile: "shop.yaml", Shop: read("shop.yaml")}
}

// A strip that turns both ways ends where its flats and circles lead, and weighs
// what its solid does, less its kerfs.
func TestStripsThatTurnBothWays(t *testing.T) {
	for _, name := range []string{"s-curve.yaml", "kerfs-outside.yaml"} {
		p := made(t, bent(t, name))
		q := p.Piece.Part("screen")
		if q == nil || len(q.Bends) != 2 || !q.Bends[1].Left || q.Bends[0].Left {
			t.Fatalf("%s: %+v", name, q)
		}
		s, c := math.Sincos(50 * math.Pi / 180)
		// Face A turns right on 180 mm, then left on what is inside: 180 − 12.
		x := 12 + 120 + 180*s + 60*c + 168*s + 120
		z := 20 + 180*(1-c) + 60*s + 168*(1-c)
		end := piece.Place(q, q.Length.V, 0, q.Thick.V)
		if math.Abs(end.X-x) > 1e-6 || math.Abs(end.Z-z) > 1e-6 {
			t.Errorf("%s: face A ends at %.3f, %.3f; want %.3f, %.3f", name, end.X, end.Z, x, z)
		}
		body, err := piece.Solid(q, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range p.Masses {
			whole, at := body.Volume()*q.Stock.Density.V, body.Centroid()
			if off := (r3.Vec{X: l.X.V, Y: l.Y.V, Z: l.Z.V}).Sub(at).Len(); l.Part != "screen" || l.Mass.V > whole || l.Mass.V < 0.7*whole || off > 6 {
				t.Errorf("%s: %s weighs %.3f of %.3f kg, its centre is %.2f mm off", name, l.Part, l.Mass.V, whole, off)
			}
		}
		if face := q.Bends[1].Face; (face == piece.FaceA) != (name == "s-curve.yaml") {
			t.Errorf("%s: the second bend is kerfed in face %s", name, face)
		}
	}
}

// A laminated shell is as thick as its plies, and has a blank for each.
func TestPliesLieOnTheLayouts(t *testing.T) {
	p := made(t, bent(t, "laminated.yaml"))
	q := p.Piece.Part("shell")
	if q == nil || math.Abs(q.Thick.V-18) > 1e-9 || q.Plies != 12 || q.Bends[0].Stack == nil {
		t.Fatalf("%+v", q)
	}
	n := 0
	for _, l := range p.Layouts {
		for _, s := range l.Sheets {
			for _, x := range s.Placements {
				if x.Part == "shell" {
					n++
				}
			}
		}
	}
	if n != 12 {
		t.Errorf("%d blanks for twelve plies", n)
	}
	if got, want := q.Bends[0].Length.V, math.Pi/2*(140-9); math.Abs(got-want) > 1e-9 {
		t.Errorf("the bend takes %g of the strip, want %g", got, want)
	}
}

// With a stock for formers they lie on its layouts, and with an inner ply that
// does too; the piece keeps its own parts.
func TestFormersLieOnTheLayouts(t *testing.T) {
	src := bent(t, "twelve.yaml")
	text := strings.Replace(string(src.Piece), "back: birch ply 6}", "back: birch ply 6, formers: birch ply 18, lining: bending ply 1.5}", 1)
	text = strings.Replace(text, "skin: 1.6}", "skin: 1.6, inner ply: lining, fill: glue, bent: soaked}", 1)
	before := len(made(t, src).Piece.Parts)
	src.Piece = []byte(text)
	p := made(t, src)
	on := map[string]int{}
	for _, l := range p.Layouts {
		for _, s := range l.Sheets {
			for _, x := range s.Placements {
				on[x.Part]++
			}
		}
	}
	for _, a := range p.Aids {
		if on[a.ID] != a.Count || !a.Chosen {
			t.Errorf("%s: %d of %d lie on the layouts", a.ID, on[a.ID], a.Count)
		}
	}
	if len(p.Aids) != 5 || len(p.Piece.Parts) != before { // a former, blocks, cauls for both bends; two inner plies
		t.Errorf("%d aids, %d parts; without them %d", len(p.Aids), len(p.Piece.Parts), before)
	}
}

// Any strip is planned, or refused with a remark: nothing panics.
func TestAnyStripIsBornOrRefused(t *testing.T) {
	src := bent(t, "s-curve.yaml")
	head, _, _ := strings.Cut(string(src.Piece), "    run:")
	rapid.Check(t, func(t *rapid.T) {
		var run strings.Builder
		run.WriteString("    run:\n")
		for range rapid.IntRange(1, 6).Draw(t, "stretches") {
			if rapid.Bool().Draw(t, "flat") {
				fmt.Fprintf(&run, "      - {flat: %.1f}\n", rapid.Float64Range(1, 300).Draw(t, "long"))
				continue
			}
			fmt.Fprintf(&run, "      - {turn: %s, radius: %.1f, angle: %.1f, kerfs on: %s}\n", rapid.SampledFrom([]string{"left", "right"}).Draw(t, "turn"),
				rapid.Float64Range(20, 400).Draw(t, "radius"), rapid.Float64Range(3, 350).Draw(t, "angle"), rapid.SampledFrom([]string{"inside", "outside"}).Draw(t, "on"))
		}
		way := rapid.SampledFrom([]string{"way: kerfed, skin: 1.6", "way: cold", "way: laminated, plies: 3"}).Draw(t, "way")
		text := strings.Replace(head, "way: kerfed, skin: 1.6", way, 1) + run.String()
		text = strings.Replace(text, "width: 760", "width: 6000", 1)
		if rapid.Bool().Draw(t, "facing") {
			text = strings.Replace(text, "turn: level", "turn: facing", 1)
		}
		now := src
		now.Piece = []byte(text)
		p, ds := Make(context.Background(), now, Options{})
		if p == nil && len(ds) == 0 {
			t.Error("neither a plan nor a remark")
		}
	})
}
