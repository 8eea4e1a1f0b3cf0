package expr_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/expr"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

type bench map[string]expr.Value

func (b bench) Value(n string) (expr.Value, bool) { v, ok := b[n]; return v, ok }
func (b bench) Call(fn, arg string) (expr.Value, string, bool) {
	v, ok := b[fn+"("+arg+")"]
	return v, "It was not measured.", ok
}

func length(v float64) expr.Value { return expr.Value{Num: trace.Const(v), Dim: units.Length} }

var values = bench{
	"width": length(1460), "gap": length(2.5), "gap side": length(3), "turn": length(140),
	"shelves": {Num: trace.Const(3), Dim: units.Count}, "thickness(shell)": length(17.7),
}

var scope = &expr.Scope{
	Names: []string{"width", "gap", "gap side", "turn", "shelves"},
	Calls: map[string][]string{"thickness": {"shell", "panels"}}, BareUnit: "mm", Currency: "EUR",
}

func TestFormulas(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		dim  units.Dim
	}{
		{"width", 1460, units.Length}, {"width - 2*gap", 1455, units.Length}, {"gap side", 3, units.Length},
		{"gap + gap side", 5.5, units.Length}, {"3/4 in", 19.05, units.Length}, {"1 1/2 in + 1 mm", 39.1, units.Length},
		{"width/4", 365, units.Length}, {"1/2 * width", 730, units.Length}, {"thickness(shell)/3", 5.9, units.Length},
		{"min(width, 1 m)", 1000, units.Length}, {"max(1, 2, 3)", 3, units.None}, {"-(gap + 1 mm)", -3.5, units.Length},
		{"width / 2 in", 1460 / 50.8, units.None}, {"floor(width / 32 mm)", 45, units.None},
		{"(width - gap) / (shelves + 1)", 364.375, units.Length}, {"2 − 3 × 4", -10, units.None}, {"3 x", 3, units.Count},
		{"10 - 2 - 3", 5, units.None}, {"12 / 2 / 3", 2, units.None}, {"abs(2 mm - 5 mm)", 3, units.Length},
		{`4' 6 1/2" - 1/2"`, 1371.6, units.Length}, {"89 EUR * 2", 178, units.Money}, {"5 kg / (2 m)", 0.0025, units.MassPerLength},
		{"-165", -165, units.None}, {"- width", -1460, units.Length}, {"round(2.5)", 3, units.None}, {"ceil(0.1)", 1, units.None},
	} {
		f, ps := expr.Parse(c.text, scope)
		if len(ps) > 0 {
			t.Errorf("%q: %+v", c.text, ps)
			continue
		}
		v, ok, ps := f.Eval(scope, values)
		if !ok || math.Abs(v.Num.V-c.want) > 1e-9 || v.Dim != c.dim {
			t.Errorf("%q = %v %v %v %+v, want %v %v", c.text, v.Num.V, v.Dim, ok, ps, c.want, c.dim)
		}
	}
}

func TestProblems(t *testing.T) {
	for _, c := range []struct {
		text, code, nearest, mend string
		from, to                  int
	}{
		{"widht - gap", "unknown-name", "width", "width", 0, 5}, {"gap sid", "unknown-name", "gap side", "gap side", 0, 7},
		{"width - 2", "dimension", "", "2 mm", 8, 9}, {"width + 2 kg", "dimension", "", "", 0, 12},
		{"thicknes(shell)", "unknown-function", "thickness", "thickness", 0, 8},
		{"thickness(shel)", "unknown-name", "shell", "shell", 10, 14}, {"width -", "formula", "", "", 6, 7},
		{"(width", "formula", "", "", 0, 6}, {"width)", "formula", "", "", 5, 6}, {"2,5 mm", "decimal-comma", "", ".", 1, 2}, {"1,460", "decimal-comma", "", "1460", 0, 5},
		{"2 gap", "formula", "", "2 * gap", 0, 5}, {"18 mmm", "unknown-unit", "mm", "mm", 3, 6}, {"width / 0", "division", "", "", 8, 9},
		{"floor(width)", "dimension", "", "", 6, 11}, {"min(width)", "arguments", "", "", 0, 10}, {"mm", "unit-alone", "", "", 0, 2},
		{"3 USD", "currency", "", "", 0, 5}, {"width # 2", "formula", "", "", 6, 7}, {"", "formula", "", "", 0, 0},
		{"thickness(panels)", "not-known", "", "", 0, 17}, {"min(width, 2)", "dimension", "", "", 11, 12}, {"width width", "unknown-name", "", "", 0, 11},
	} {
		f, ps := expr.Parse(c.text, scope)
		if f != nil && len(ps) == 0 {
			_, _, ps = f.Eval(scope, values)
		}
		if len(ps) != 1 {
			t.Errorf("%q: %d problems %+v", c.text, len(ps), ps)
			continue
		}
		if p := ps[0]; p.Code != c.code || p.Nearest != c.nearest || p.Mend != c.mend || p.From != c.from || p.To != c.to {
			t.Errorf("%q: %+v", c.text, p)
		}
	}
}

func TestDerivatives(t *testing.T) {
	var led trace.Ledger
	w := led.Var(100, trace.Input{})
	env := bench{"width": {Num: w, Dim: units.Length}, "gap": length(1)}
	f, _ := expr.Parse("(width - 2*gap) / 4 + width", scope)
	v, _, _ := f.Eval(scope, env)
	if d := v.Num.D(0); math.Abs(d-1.25) > 1e-12 {
		t.Error(d)
	}
}

func TestNames(t *testing.T) {
	for n, good := range map[string]bool{"width": true, "gap side": true, "t2": true, "mm": false, "in": false, "min": false,
		"EUR": false, "2t": false, "a  b": false, "a-b": false, "": false, "a ": false, "Höhe": true} {
		if got := expr.CheckName(n) == ""; got != good {
			t.Errorf("CheckName(%q) = %q", n, expr.CheckName(n))
		}
	}
}

// A formula built from a tree reads back to the value of the tree.
func TestRandomFormulas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, want := draw(t, 4)
		f, ps := expr.Parse(text, scope)
		if len(ps) > 0 {
			t.Fatalf("%q: %+v", text, ps)
		}
		v, ok, ps := f.Eval(scope, values)
		if ok && math.Abs(v.Num.V-want) > 1e-6*math.Max(1, math.Abs(want)) {
			t.Fatalf("%q = %v, want %v", text, v.Num.V, want)
		}
		for _, p := range ps {
			if p.Code != "division" && p.Code != "no-number" {
				t.Fatalf("%q: %+v", text, p)
			}
		}
	})
}

func draw(t *rapid.T, depth int) (string, float64) {
	if depth == 0 || rapid.Bool().Draw(t, "leaf") {
		leaf := rapid.SampledFrom([]string{"shelves", "2.5", "3/4 in / 1 in", "width / 1 mm"}).Draw(t, "atom")
		return "(" + leaf + ")", map[string]float64{"shelves": 3, "2.5": 2.5, "3/4 in / 1 in": 0.75, "width / 1 mm": 1460}[leaf]
	}
	a, x := draw(t, depth-1)
	b, y := draw(t, depth-1)
	switch op := rapid.SampledFrom([]string{"+", " - ", "*", " / "}).Draw(t, "op"); op {
	case "+":
		return "(" + a + op + b + ")", x + y
	case " - ":
		return "(" + a + op + b + ")", x - y
	case "*":
		return a + op + b, x * y
	default:
		return a + op + "(" + b + ")", x / y
	}
}

func FuzzFormula(f *testing.F) {
	for _, s := range []string{"width - 2*gap", "min(a, b)", "((((", "3/4 in", "thickness(shell)/3", "2,5", "1e9 m * 1e300 m", "-−-+width", "kerf(", "é ü"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		fo, ps := expr.Parse(s, scope)
		if fo == nil && len(ps) == 0 {
			t.Fatal("neither formula nor problem")
		}
		if fo != nil && len(ps) == 0 {
			v, ok, qs := fo.Eval(scope, values)
			ps = qs
			if ok && math.IsNaN(v.Num.V) {
				t.Fatal("NaN")
			}
		}
		n := len([]rune(s))
		for _, p := range ps {
			if p.From < 0 || p.To < p.From || p.To > n || p.Summary == "" || p.Code == "" {
				t.Fatalf("%q: %+v", s, p)
			}
		}
	})
}
