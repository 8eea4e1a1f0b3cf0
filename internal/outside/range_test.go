package outside

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/cite"
)

// At both ends of each symbol's range a rule gives a number, or says that the
// values together give none; a hair outside, and for NaN, it gives no number.
func TestRulesAtTheEndsOfTheirRanges(t *testing.T) {
	for _, r := range Rules() {
		for _, s := range r.Symbols {
			in := map[string]float64{}
			for k, v := range r.Example.In {
				in[k] = v
			}
			for _, edge := range []float64{s.Min, s.Max} {
				in[s.Name] = edge
				var none *cite.NoNumberError
				if _, err := r.Run(in); err != nil && !errors.As(err, &none) {
					t.Errorf("%s at %s = %g: %v", r.ID, s.Name, edge, err)
				}
			}
			out := 1e-6 * (1 + math.Abs(s.Max))
			for _, v := range []float64{s.Min - out, s.Max + out, math.NaN(), math.Inf(1), math.Inf(-1)} {
				in[s.Name] = v
				var re *cite.RangeError
				if got, err := r.Run(in); !errors.As(err, &re) || got != nil {
					t.Errorf("%s at %s = %g: %v %v", r.ID, s.Name, v, got, err)
				}
			}
		}
	}
}

// Anywhere inside its ranges a rule neither panics nor gives what is no number.
func TestRulesBearAnyCoveredValues(t *testing.T) {
	rules := Rules()
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.SampledFrom(rules).Draw(t, "rule")
		in := map[string]float64{}
		for _, s := range r.Symbols {
			if s.Optional && rapid.Bool().Draw(t, "left out "+s.Name) {
				continue
			}
			v := rapid.Float64Range(s.Min, s.Max).Draw(t, s.Name)
			if s.Whole {
				v = math.Round(v)
			}
			in[s.Name] = v
		}
		out, err := r.Run(in)
		var none *cite.NoNumberError
		if err != nil && !errors.As(err, &none) {
			t.Fatalf("%s %v: %v", r.ID, in, err)
		}
		for _, x := range out {
			if math.IsNaN(x.Value) || math.IsInf(x.Value, 0) {
				t.Errorf("%s %v: %+v", r.ID, in, x)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	f.Add(published[:1500])
	f.Add([]byte("- id: x\n  in: {a: 1}\n"))
	f.Add([]byte("- &a [*a]"))
	f.Add([]byte("! 00000000"))
	f.Fuzz(func(t *testing.T, src []byte) {
		cs, err := parse(src)
		if err != nil {
			return
		}
		for _, c := range cs {
			if _, _, err := c.Printed(); err != nil {
				continue
			}
			if r := Find(c.Rule); r != nil {
				_, _ = c.Try(r) // an error is an answer; a panic is not
			}
		}
	})
}
