package trace

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func vars(l *Ledger, vs ...float64) []Num {
	out := make([]Num, len(vs))
	for i, v := range vs {
		out[i] = l.Var(v, Input{Kind: Size, Path: "sizes.x"})
	}
	return out
}

func TestWhatCancelsIsNotNamed(t *testing.T) {
	var l Ledger
	v := vars(&l, 1460, 17.7)
	inner := v[0].Sub(v[1].Scale(2))
	back := inner.Add(v[1]).Add(v[1])
	if got := back.Sources(); !slices.Equal(got, []InputID{0}) {
		t.Errorf("sources of width - 2t + t + t = %v, want only the width", got)
	}
	if back.V != 1460 {
		t.Errorf("value %v", back.V)
	}
}

func TestMinDecidesInSteps(t *testing.T) {
	var l Ledger
	v := vars(&l, 3, 5)
	m := Min(v[0], v[1])
	if !slices.Equal(m.Sources(), []InputID{0}) || !slices.Equal(m.Steps(), []InputID{1}) {
		t.Errorf("min: sources %v steps %v", m.Sources(), m.Steps())
	}
}

func TestOwnMakesAFormulaAnInput(t *testing.T) {
	var l Ledger
	v := vars(&l, 860, 100)
	body := l.Own(v[0].Sub(v[1]), Input{Kind: Size, Path: "sizes.body"})
	if body.V != 760 || !slices.Equal(body.Sources(), []InputID{0, 1, 2}) || body.D(2) != 1 {
		t.Errorf("own: %v from %v", body.V, body.Sources())
	}
}

// Partials of random expressions agree with differences of the values.
func TestPartialsAgreeWithDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := randomFormula(t, 5)
		x := []float64{rapid.Float64Range(1, 9).Draw(t, "a"), rapid.Float64Range(1, 9).Draw(t, "b"), rapid.Float64Range(1, 9).Draw(t, "c")}
		var l Ledger
		n := f(vars(&l, x...))
		for i := range x {
			const h = 1e-5
			up, down := slices.Clone(x), slices.Clone(x)
			up[i] += h
			down[i] -= h
			var lu, ld Ledger
			want := (f(vars(&lu, up...)).V - f(vars(&ld, down...)).V) / (2 * h)
			if got := n.D(InputID(i)); math.Abs(got-want) > 1e-4*(1+math.Abs(want)) {
				t.Fatalf("d/dx%d = %v, differences say %v", i, got, want)
			}
		}
	})
}

// randomFormula draws a smooth formula of three numbers, built from the rules
// that Num knows.
func randomFormula(t *rapid.T, depth int) func([]Num) Num {
	if depth == 0 {
		i := rapid.IntRange(0, 2).Draw(t, "leaf")
		return func(v []Num) Num { return v[i] }
	}
	a, b := randomFormula(t, depth-1), randomFormula(t, rapid.IntRange(0, depth-1).Draw(t, "right"))
	switch rapid.IntRange(0, 5).Draw(t, "op") {
	case 0:
		return func(v []Num) Num { return a(v).Add(b(v)) }
	case 1:
		return func(v []Num) Num { return a(v).Sub(b(v)) }
	case 2:
		return func(v []Num) Num { return a(v).Sin().Mul(b(v).Cos()) }
	case 3:
		return func(v []Num) Num { s := b(v).Sin(); return a(v).Div(s.Mul(s).Plus(2)) }
	case 4:
		return func(v []Num) Num { s := a(v).Cos(); return s.Mul(s).Plus(1).Sqrt() }
	}
	return func(v []Num) Num { return a(v).Scale(0.5).Plus(1).Neg() }
}

func TestLiftFindsPartialsAndNothingElse(t *testing.T) {
	var l Ledger
	v := vars(&l, 2, 3, 4)
	n := Lift(func(x []float64) float64 { return x[0]*x[0]*x[1] + 0*x[2] }, v...)
	if !slices.Equal(n.Sources(), []InputID{0, 1}) {
		t.Fatalf("sources %v", n.Sources())
	}
	if math.Abs(n.D(0)-12) > 1e-6 || math.Abs(n.D(1)-4) > 1e-6 {
		t.Errorf("partials %v %v, want 12 and 4", n.D(0), n.D(1))
	}
}

func TestStepKeepsWhatItHangsOn(t *testing.T) {
	var l Ledger
	v := vars(&l, 10.4)
	n := Step(math.Ceil(v[0].V), v[0])
	if n.V != 11 || len(n.Sources()) != 0 || !slices.Equal(n.Steps(), []InputID{0}) {
		t.Errorf("step: %v %v %v", n.V, n.Sources(), n.Steps())
	}
	if s := n.Mul(Const(2)).Steps(); !slices.Equal(s, []InputID{0}) {
		t.Errorf("steps are lost in a product: %v", s)
	}
}

func TestRecordTwicePanics(t *testing.T) {
	var l Ledger
	l.Record(Value{ID: "a", Num: Const(1)})
	defer func() {
		if recover() == nil {
			t.Error("a second value of one id must panic")
		}
	}()
	l.Record(Value{ID: "a", Num: Const(2)})
}

func BenchmarkAdd(b *testing.B) {
	var l Ledger
	v := vars(&l, make([]float64, 40)...)
	a, c := Sum(v[:30]...), Sum(v[10:]...)
	for b.Loop() {
		_ = a.Add(c)
	}
}
