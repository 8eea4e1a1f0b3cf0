package dxf

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

func TestFullCirclesAreCircles(t *testing.T) {
	c := planar.Circle(r2.Vec{X: 3, Y: 4}, 17.5)
	for _, l := range []planar.Loop{c, c.Reverse()} {
		got, ok := Loop("hole", l).(Circle)
		if !ok || got.Radius != 17.5 || got.Center.Sub(r2.Vec{X: 3, Y: 4}).Len() > 1e-9 {
			t.Errorf("%v became %+v", l, got)
		}
	}
	lens := planar.Loop{{P: r2.Vec{}, Bulge: 0.4}, {P: r2.Vec{X: 10}, Bulge: 0.4}}
	if _, ok := Loop("hole", lens).(Polyline); !ok {
		t.Error("a lens became a circle")
	}
}

func TestSameBytes(t *testing.T) {
	d := Drawing{Entities: []Entity{Text{Layer: "Words", S: "a", Height: 2}, Line{Layer: "words", B: r2.Vec{X: 1}}}}
	a, err := Bytes(d)
	if err != nil {
		t.Fatal(err)
	}
	b, _ := Bytes(d)
	if !bytes.Equal(a, b) {
		t.Error("two runs differ")
	}
	if n := strings.Count(strings.ToLower(string(a)), "acdblayertablerecord\n  2\nwords"); n != 1 {
		t.Errorf("%d layers of one name", n)
	}
	for _, r := range string(a) {
		if r > '~' {
			t.Fatalf("%q is not ASCII", r)
		}
	}
}

func TestNoNumberThatIsNone(t *testing.T) {
	for _, e := range []Entity{
		Line{A: r2.Vec{X: math.NaN()}}, Circle{Radius: math.Inf(1)}, Circle{}, Arc{Radius: -1}, Text{S: "x"},
		Polyline{Loop: planar.Loop{{Bulge: math.NaN()}, {}}}, Polyline{},
	} {
		if _, err := Bytes(Drawing{Entities: []Entity{e}}); err == nil {
			t.Errorf("%#v was written", e)
		}
	}
}

func FuzzWordsKeepTheFile(f *testing.F) {
	f.Add("plain", "words")
	f.Add("0\nEOF\n%%c", "a|b\n0")
	f.Fuzz(func(t *testing.T, s, layer string) {
		b, err := Bytes(Drawing{Note: s, Entities: []Entity{Text{Layer: layer, S: s, Height: 1}}})
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSuffix(string(b), "\n"), "\n")
		if len(lines)%2 != 0 || lines[len(lines)-1] != "EOF" {
			t.Fatalf("%d lines, the last %q: a group has a code and a value", len(lines), lines[len(lines)-1])
		}
		for i := 0; i < len(lines); i += 2 {
			if strings.Trim(lines[i], " 0123456789") != "" {
				t.Fatalf("line %d is no code: %q", i+1, lines[i])
			}
		}
	})
}
