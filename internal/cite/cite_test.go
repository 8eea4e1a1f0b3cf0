package cite_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"rodwork/internal/cite"
)

// sound returns a complete rule; tests spoil a copy of it.
func sound() *cite.Rule {
	return &cite.Rule{
		ID: "TEST-01", Title: "Halving", Question: "How much is half?", Formula: "y = x/n",
		Symbols: []cite.Symbol{
			{Letter: "x", Name: "whole", Meaning: "what is shared", Unit: "mm", Min: 0, Max: 100, Why: "a test"},
			{Letter: "n", Name: "parts", Meaning: "into how many", Unit: "1", Min: 1, Max: 10, Why: "a test", Whole: true, Optional: true, Else: "2"},
		},
		Sources:  []cite.Source{{Text: "division", Label: cite.Derived}},
		Assumes:  []string{"even parts"},
		Accuracy: "exact", Remedies: []string{"a smaller whole"},
		Example: cite.Example{In: map[string]float64{"whole": 9}, Out: map[string]float64{"part": 4.5}, From: "by hand"},
		Eval: func(in map[string]float64) []cite.Result {
			n, ok := in["parts"]
			if !ok {
				n = 2
			}
			v := in["whole"] / n
			if in["whole"] == 77 {
				v = math.Inf(1)
			}
			return []cite.Result{{Name: "part", Unit: "mm", Value: v}}
		},
	}
}

func TestRunChecksFirst(t *testing.T) {
	r := sound()
	out, err := r.Run(map[string]float64{"whole": 100, "parts": 10})
	if v, ok := cite.Value(out, "part"); err != nil || !ok || v != 10 {
		t.Fatalf("%v %v", out, err)
	}
	if _, ok := cite.Value(out, "rest"); ok {
		t.Error("a result that the rule does not give")
	}
	for _, in := range []map[string]float64{{"whole": 0}, {"whole": 100}, {"whole": 1, "parts": 1}} {
		if _, err := r.Run(in); err != nil {
			t.Errorf("%v at the edge of its range: %v", in, err)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), -1e-9, 100.0001} {
		var re *cite.RangeError
		if out, err := r.Run(map[string]float64{"whole": v}); !errors.As(err, &re) || out != nil || re.Symbol != "whole" {
			t.Errorf("%g: %v %v", v, out, err)
		}
	}
	var we *cite.WholeError
	if _, err := r.Run(map[string]float64{"whole": 1, "parts": 2.5}); !errors.As(err, &we) {
		t.Errorf("half a part: %v", err)
	}
	var me *cite.MissingError
	if _, err := r.Run(nil); !errors.As(err, &me) || me.Symbol.Name != "whole" {
		t.Errorf("nothing given: %v", err)
	}
	var ne *cite.NameError
	if _, err := r.Run(map[string]float64{"whole": 1, "pats": 3}); !errors.As(err, &ne) || ne.Nearest != "parts" {
		t.Errorf("misspelt: %v", err)
	}
	if _, err := r.Run(map[string]float64{"whole": 1, "qqqqqqqq": 3}); !errors.As(err, &ne) || !strings.Contains(err.Error(), "whole, parts") {
		t.Errorf("unknown: %v", err)
	}
	var no *cite.NoNumberError
	if _, err := r.Run(map[string]float64{"whole": 77}); !errors.As(err, &no) {
		t.Errorf("an infinite result got out: %v", err)
	}
}

func TestUnboundedSymbolStillRefusesNaN(t *testing.T) {
	r := sound()
	r.Symbols[0].Min, r.Symbols[0].Max, r.Symbols[0].Why = 0, 0, "the source gives none"
	if err := r.Complete(); err != nil {
		t.Error(err)
	}
	if _, err := r.Run(map[string]float64{"whole": 1e9}); err != nil {
		t.Error(err)
	}
	if _, err := r.Run(map[string]float64{"whole": math.NaN()}); err == nil {
		t.Error("NaN passed")
	}
}

func TestCompleteNamesWhatLacks(t *testing.T) {
	if err := sound().Complete(); err != nil {
		t.Fatal(err)
	}
	for want, spoil := range map[string]func(*cite.Rule){
		"no question":        func(r *cite.Rule) { r.Question = "" },
		"no formula":         func(r *cite.Rule) { r.Formula = "" },
		"no accuracy":        func(r *cite.Rule) { r.Accuracy = "" },
		"no assumptions":     func(r *cite.Rule) { r.Assumes = nil },
		"no remedies":        func(r *cite.Rule) { r.Remedies = nil },
		"no symbols":         func(r *cite.Rule) { r.Symbols = nil },
		"no source":          func(r *cite.Rule) { r.Sources = nil },
		"no function":        func(r *cite.Rule) { r.Eval = nil },
		"no example":         func(r *cite.Rule) { r.Example.Out = nil },
		"place the example":  func(r *cite.Rule) { r.Example.From = "" },
		"lacks a letter":     func(r *cite.Rule) { r.Symbols[0].Unit = "" },
		"twice":              func(r *cite.Rule) { r.Symbols[1].Name = "whole" },
		"has no reason":      func(r *cite.Rule) { r.Symbols[0].Why = "" },
		"may be left out":    func(r *cite.Rule) { r.Symbols[1].Else = "" },
		"the place in it":    func(r *cite.Rule) { r.Sources[0].Label = cite.Read },
		"has no label":       func(r *cite.Rule) { r.Sources[0].Label = "" },
		"lacks its words":    func(r *cite.Rule) { r.Sources[0].Text = "" },
		"gives part = 4.5":   func(r *cite.Rule) { r.Example.Out["part"] = 4.6 },
		"does not give":      func(r *cite.Rule) { r.Example.Out["rest"] = 1 },
		"does not run":       func(r *cite.Rule) { r.Example.In["whole"] = 200 },
		"neither a range":    func(r *cite.Rule) { r.Symbols[0].Max, r.Symbols[0].Why = 0, "" },
		"rule : no id":       func(r *cite.Rule) { r.ID = "" },
		"the range is empty": func(r *cite.Rule) { r.Symbols[0].Min = 200 },
		"result part has no": func(r *cite.Rule) {
			r.Eval = func(map[string]float64) []cite.Result { return []cite.Result{{Name: "part", Value: 4.5}} }
		},
	} {
		r := sound()
		spoil(r)
		if err := r.Complete(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q, got %v", want, err)
		}
	}
}

func TestSheetKeepsTheRulesOrder(t *testing.T) {
	s := sound().Sheet()
	if len(s.Symbols) != 2 || s.Symbols[0].Name != "whole" || s.Symbols[1].Else != "2" {
		t.Errorf("symbols %+v", s.Symbols)
	}
	if len(s.Results) != 1 || s.Results[0] != (cite.ResultRow{Name: "part", Unit: "mm"}) {
		t.Errorf("results %+v", s.Results)
	}
	if len(s.Example) != 2 || !s.Example[0].In || s.Example[1].Value != 4.5 {
		t.Errorf("example %+v", s.Example)
	}
	if got := (cite.Source{Text: "A text", Locator: "p. 3", Label: cite.Read}).Place(); got != "A text, p. 3 (read)" {
		t.Error(got)
	}
}
