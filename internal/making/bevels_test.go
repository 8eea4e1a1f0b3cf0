package making

import (
	"math"
	"strings"
	"testing"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// leaner is a stick whose ends are sawn by planes with the normals given, out of
// the foot and out of the head.
func leaner(id string, foot, head r3.Vec) *piece.Part {
	q := part(id, 400, 40, 40)
	q.Rough = planar.Rect(-60, 0, 460, 40)
	q.Bevels = []piece.Bevel{piece.BevelOf("foot", r3.Identity(), r3.Vec{}, foot), piece.BevelOf("head", r3.Identity(), r3.Vec{X: 400}, head)}
	return q
}

func bevelled(us []work.SetUp) []work.SetUp {
	var out []work.SetUp
	for _, u := range us {
		if u.Kind == "bevel" {
			out = append(out, u)
		}
	}
	return out
}

// Parallel ends of a stick and of its mirror image are one set-up, the gauge to one
// side for the one and to the other for the other; another tilt is another.
func TestBevels(t *testing.T) {
	a := leaner("a", r3.Vec{X: -1, Y: 0.1, Z: 0.2}, r3.Vec{X: 1, Y: -0.1, Z: -0.2})
	b := leaner("b", r3.Vec{X: -1, Y: 0.1, Z: -0.2}, r3.Vec{X: 1, Y: -0.1, Z: 0.2})
	c := leaner("c", r3.Vec{X: -1, Y: 0.1, Z: 0.3}, r3.Vec{X: 1, Y: 0.1, Z: 0.3})
	all := setUps(a, b, c)
	us := bevelled(all)
	if len(us) != 2 || len(us[0].Cuts)+len(us[1].Cuts) != 6 {
		t.Fatalf("%+v", us)
	}
	for _, u := range all {
		if u.Kind == "outline" || u.Kind == "trim" {
			t.Errorf("a sawn stick is shaped or trimmed too: %+v", u)
		}
	}
	for _, u := range us {
		for _, c := range u.Cuts {
			side := strings.Contains(c.For, "gauge to one side")
			other := strings.Contains(c.For, "gauge to the other side")
			switch {
			case side == other, c.Part == "a" && !side, c.Part == "b" && !other:
				t.Errorf("%s: %s", c.Part, c.For)
			case strings.HasPrefix(c.For, "the head") && (c.Part == "c") == strings.Contains(c.For, "slide the stick"):
				t.Errorf("%s: %s", c.Part, c.For)
			}
		}
		n := r3.Vec{X: -1, Y: 0.1, Z: 0.2}
		if u.Cuts[0].Part == "c" {
			n.Z = 0.3
		}
		if math.Abs(math.Sin(u.Tilt.V)-n.Z/n.Len()) > 1e-9 || math.Abs(math.Tan(u.Mitre.V)-0.1) > 1e-9 {
			t.Errorf("tilt %g, mitre %g", u.Tilt.V, u.Mitre.V)
		}
	}
}

// A sawn stick's mass is that of what is left of it, at its centre.
func TestSawnBody(t *testing.T) {
	q := leaner("a", r3.Vec{X: -1, Y: 0.1, Z: 0.2}, r3.Vec{X: 1, Y: -0.1, Z: -0.2})
	b := bodyOf(&piece.Piece{Parts: []*piece.Part{q}}, q)
	if math.Abs(b.volume.V-400*1600) > 1e-3 {
		t.Errorf("%g mm³ between parallel ends 400 mm apart along the stick", b.volume.V)
	}
	// The middle of each lengthwise fibre lies where both planes are as far from it.
	if c := b.centre(); math.Abs(c[0].V-(200+0.1*20+0.2*20)) > 0.02 || math.Abs(c[1].V-20) > 1e-3 || math.Abs(c[2].V-20) > 1e-3 {
		t.Errorf("centre %v", c)
	}
}
