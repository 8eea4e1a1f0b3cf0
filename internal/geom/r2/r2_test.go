package r2

import (
	"math"
	"testing"
)

func TestTurn(t *testing.T) {
	a := Vec{3, 4}
	if got := a.Turn(math.Pi / 2).Sub(a.Left()).Len(); got > 1e-15*5 {
		t.Errorf("a quarter turn is off by %g", got)
	}
	if a.Cross(a.Left()) != 25 || a.Dot(a.Left()) != 0 {
		t.Error("the left of a vector is square to it, on its left")
	}
	if (Vec{}).Unit() != (Vec{}) || math.Abs(a.Unit().Len()-1) > 1e-15 {
		t.Error("unit vectors")
	}
}

func TestBox(t *testing.T) {
	e := EmptyBox()
	if e.Size().X >= 0 || e.Touches(Box{Max: Vec{1, 1}}) {
		t.Error("an empty box has no size and touches nothing")
	}
	b := e.With(Vec{1, 2}).With(Vec{-3, 7})
	if b != (Box{Vec{-3, 2}, Vec{1, 7}}) || !b.Holds(Vec{1, 7}) || b.Holds(Vec{1.1, 7}) {
		t.Errorf("box %v", b)
	}
	side := Box{Vec{1, 2}, Vec{5, 7}}
	if b.Overlaps(side) || !b.Touches(side) || !b.Grown(0.1).Overlaps(side) {
		t.Error("boxes side by side touch and don't overlap")
	}
}
