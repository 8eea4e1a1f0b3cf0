package r3

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestPoses(t *testing.T) {
	pose := rapid.Custom(func(t *rapid.T) Pose {
		f := func(name string) float64 { return rapid.Float64Range(-3, 3).Draw(t, name) }
		sa, ca := math.Sincos(f("a"))
		sb, cb := math.Sincos(f("b"))
		x, y := Vec{ca, sa, 0}, Vec{-sa * cb, ca * cb, sb}
		return Pose{Vec{f("x"), f("y"), f("z")}, x, y, x.Cross(y)}
	})
	rapid.Check(t, func(t *rapid.T) {
		p, q, v := pose.Draw(t, "p"), pose.Draw(t, "q"), Vec{1, -2, 3}
		if p.Local(p.At(v)).Sub(v).Len() > 1e-12 {
			t.Fatal("there and back is not the same place")
		}
		if p.Then(q).At(v).Sub(q.At(p.At(v))).Len() > 1e-12 {
			t.Fatal("one after the other is not both at once")
		}
		if d := math.Abs(p.Dir(v).Len() - v.Len()); d > 1e-12 {
			t.Fatalf("a pose stretches by %g", d)
		}
		if p.Moved(v).At(Vec{}).Sub(p.O.Add(v)).Len() > 1e-12 {
			t.Fatal("moved")
		}
	})
	if Identity().At(Vec{1, 2, 3}) != (Vec{1, 2, 3}) {
		t.Error("the identity moves things")
	}
}

func TestBox(t *testing.T) {
	b := EmptyBox().Union(Box{Vec{0, 1, 2}, Vec{3, 3, 3}}).Union(Box{Vec{-1, 2, 2}, Vec{0, 5, 9}})
	if b != (Box{Vec{-1, 1, 2}, Vec{3, 5, 9}}) || b.Size() != (Vec{4, 4, 7}) {
		t.Errorf("box %v", b)
	}
}
