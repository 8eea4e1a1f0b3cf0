package expr

import (
	"fmt"
	"math"

	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// reckoner evaluates one formula.
type reckoner struct {
	f   *Formula
	sc  *Scope
	env Env
	out []Problem
}

// Eval reckons the formula. It reports false where no value came out: either
// with a problem, or because Env did not have a value.
func (f *Formula) Eval(sc *Scope, env Env) (Value, bool, []Problem) {
	r := &reckoner{f: f, sc: sc, env: env}
	v, ok := r.eval(f.root)
	if ok && (math.IsNaN(v.Num.V) || math.IsInf(v.Num.V, 0)) {
		from, to := f.root.span()
		r.out = append(r.out, Problem{Code: "no-number", From: from, To: to, Summary: "The formula gives no number",
			Detail: "It is too large, or nought over nought."})
		ok = false
	}
	return v, ok && len(r.out) == 0, r.out
}

func (r *reckoner) problem(n node, code, summary, detail string) {
	from, to := n.span()
	r.out = append(r.out, Problem{Code: code, From: from, To: to, Summary: summary, Detail: detail})
}

func (r *reckoner) eval(n node) (Value, bool) {
	switch n := n.(type) {
	case *literal:
		return Value{trace.Const(n.v), n.dim}, true
	case *name:
		return r.env.Value(n.name)
	case *unary:
		v, ok := r.eval(n.arg)
		if n.sign < 0 {
			v.Num = v.Num.Neg()
		}
		return v, ok
	case *binary:
		a, aok := r.eval(n.left)
		b, bok := r.eval(n.right)
		if !aok || !bok {
			return Value{}, false
		}
		return r.binary(n, a, b)
	case *call:
		return r.call(n)
	}
	panic("expr: unknown node")
}

func (r *reckoner) binary(n *binary, a, b Value) (Value, bool) {
	a.Dim, b.Dim = a.Dim.Plain(), b.Dim.Plain()
	switch n.op {
	case '+', '-':
		if a.Dim != b.Dim {
			r.mismatch(n, a, b)
			return Value{}, false
		}
		if n.op == '+' {
			return Value{a.Num.Add(b.Num), a.Dim}, true
		}
		return Value{a.Num.Sub(b.Num), a.Dim}, true
	case '*':
		return r.checked(n, Value{a.Num.Mul(b.Num), a.Dim.Mul(b.Dim)})
	}
	if b.Num.V == 0 {
		r.problem(n.right, "division", "A division by nought", "The divisor comes out as 0.")
		return Value{}, false
	}
	return r.checked(n, Value{a.Num.Div(b.Num), a.Dim.Div(b.Dim)})
}

func (r *reckoner) checked(n node, v Value) (Value, bool) {
	if !v.Dim.Reasonable() {
		r.problem(n, "dimension", "A product of too many units", "No quantity of a piece has such a dimension.")
		return Value{}, false
	}
	return v, true
}

// mismatch says that two values cannot be added, and mends the case of a plain
// number that wants a unit.
func (r *reckoner) mismatch(n *binary, a, b Value) {
	verb := map[rune]string{'+': "add", '-': "subtract"}[n.op]
	from, to := n.span()
	p := Problem{Code: "dimension", From: from, To: to, Summary: fmt.Sprintf("Cannot %s %s and %s", verb, a.Dim, b.Dim),
		Expected: "two values of one dimension"}
	for _, side := range []struct {
		n     node
		other units.Dim
	}{{n.left, b.Dim}, {n.right, a.Dim}} {
		l, ok := side.n.(*literal)
		if !ok || l.unit || side.other != units.Length || r.sc.BareUnit == "" {
			continue
		}
		text := string([]rune(r.f.Text)[l.from:l.to])
		p.From, p.To = l.from, l.to
		p.Mend, p.HasMend = text+" "+r.sc.BareUnit, true
		p.Detail = "Inside a formula a bare number is a plain number. Write " + p.Mend + "."
	}
	if p.Detail == "" {
		p.Detail = "Both sides of + and − must measure the same."
	}
	r.out = append(r.out, p)
}

func (r *reckoner) call(n *call) (Value, bool) {
	if n.named {
		v, why, ok := r.env.Call(n.fn, n.word)
		if !ok && why != "" {
			r.problem(n, "not-known", fmt.Sprintf("%s(%s) is not known", n.fn, n.word), why)
		}
		return v, ok
	}
	args := make([]Value, len(n.args))
	good := true
	for i, a := range n.args {
		v, ok := r.eval(a)
		v.Dim = v.Dim.Plain()
		args[i], good = v, good && ok
	}
	if !good {
		return Value{}, false
	}
	switch n.fn {
	case "min", "max":
		return r.extreme(n, args)
	case "abs":
		if args[0].Num.V < 0 {
			args[0].Num = args[0].Num.Neg()
		}
		return args[0], true
	}
	if args[0].Dim != units.None {
		r.problem(n.args[0], "dimension", fmt.Sprintf("%s of %s", n.fn, args[0].Dim),
			"Only a plain number can be rounded: divide by a unit first, as in floor(width / 1 mm) * 1 mm.")
		return Value{}, false
	}
	round := map[string]func(float64) float64{"floor": math.Floor, "ceil": math.Ceil, "round": math.Round}[n.fn]
	return Value{trace.Step(round(args[0].Num.V), args[0].Num), units.None}, true
}

func (r *reckoner) extreme(n *call, args []Value) (Value, bool) {
	pick := trace.Min
	if n.fn == "max" {
		pick = trace.Max
	}
	out := args[0]
	for i, v := range args[1:] {
		if v.Dim != out.Dim {
			r.problem(n.args[i+1], "dimension", fmt.Sprintf("%s of %s and %s", n.fn, out.Dim, v.Dim),
				"All values in the bracket must measure the same.")
			return Value{}, false
		}
		out.Num = pick(out.Num, v.Num)
	}
	return out, true
}
