package export

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"maps"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/examples"
	"rodwork/internal/cite"
	"rodwork/internal/diag"
	"rodwork/internal/plan"
)

var update = flag.Bool("update", false, "rewrite goldens")

const (
	schemaFile = "../../schema/output.schema.json"
	fieldsFile = "testdata/fields.txt"
)

func TestPublishedSchemaIsCurrent(t *testing.T) {
	if *update {
		if err := os.WriteFile(schemaFile, Schema(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(schemaFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, Schema()) {
		t.Errorf("%s is stale; go test ./internal/export -update", filepath.Base(schemaFile))
	}
}

// A field that was once published stays. The list is only ever added to: by
// -update for new fields, by nobody for others.
func TestNoFieldIsEverRemoved(t *testing.T) {
	b, err := os.ReadFile(fieldsFile)
	if err != nil && !*update {
		t.Fatal(err)
	}
	kept := strings.Fields(string(b))
	now := Fields()
	for _, f := range kept {
		if !slices.Contains(now, f) {
			t.Errorf("field %s was published and is gone", f)
		}
	}
	var added []string
	for _, f := range now {
		if !slices.Contains(kept, f) {
			added = append(added, f)
		}
	}
	if len(added) == 0 {
		return
	}
	if !*update {
		t.Fatalf("new fields %v are not in %s yet; go test ./internal/export -update", added, fieldsFile)
	}
	all := append(kept, added...)
	slices.Sort(all)
	if err := os.WriteFile(fieldsFile, []byte(strings.Join(all, "\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
}

// A number's unit is in its field's name, unless the name itself says that it
// is a count or money, or another field holds the unit.
func TestFieldNamesCarryUnits(t *testing.T) {
	var schema map[string]any
	if err := json.Unmarshal(Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	unit := regexp.MustCompile(`_(mm|mm2|kg|deg|ratio|xyz|count|cost|mm3|Nmm|s|rad)$`)
	free := map[string]string{
		"count": "a number of things", "price": "money", "cost": "money",
		"value": "its unit is beside it", "limit": "its unit is beside it", "min": "its unit is beside it", "max": "its unit is beside it",
	}
	for name, def := range schema["$defs"].(map[string]any) {
		for field, p := range def.(map[string]any)["properties"].(map[string]any) {
			p := p.(map[string]any)
			if items, ok := p["items"].(map[string]any); ok {
				p = items
			}
			types, _ := p["type"].([]any)
			if len(types) == 2 && !unit.MatchString(field) && free[field] == "" {
				t.Errorf("%s.%s is a number whose name tells no unit", name, field)
			}
		}
	}
}

// plans makes the plan of every example.
func plans(t *testing.T) map[string]*plan.Plan {
	t.Helper()
	out := map[string]*plan.Plan{}
	names, err := filepath.Glob("../../examples/*/piece.yaml")
	if err != nil || len(names) < 3 {
		t.Fatalf("examples: %v, %v", names, err)
	}
	_, shop := examples.Main()
	for _, n := range names {
		piece, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		mine := shop // but for a piece with a shop of its own
		if own, err := os.ReadFile(filepath.Join(filepath.Dir(n), "shop.yaml")); err == nil {
			mine = own
		}
		p, remarks := plan.Make(context.Background(), plan.Source{PieceFile: n, Piece: piece, ShopFile: "shop.yaml", Shop: mine}, plan.Options{})
		if remarks.HasErrors() {
			var b strings.Builder
			if err := remarks.Write(&b, nil); err != nil {
				t.Fatal(err)
			}
			t.Fatal(b.String())
		}
		out[n] = p
	}
	return out
}

func TestEveryDocumentFitsTheSchema(t *testing.T) {
	v, err := newValidator(Schema())
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	try := func(name string, doc any) {
		b, err := Bytes(doc)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if why := v.check(b); why != "" {
			t.Errorf("%s: %.600s", name, why)
		}
		var h Head
		if err := json.Unmarshal(b, &h); err != nil || h.Rodwork != Version {
			t.Errorf("%s: head %+v, %v", name, h, err)
		}
		seen[h.Document] = true
	}
	for name, p := range plans(t) {
		for _, doc := range []any{PartsOf(p), BendsOf(p), SheetsOf(p), StepsOf(p), BuyOf(p), CheckOf(p), ExplainOf(p, nil), AllOf(p)} {
			try(name, doc)
		}
	}
	try("empty plan", AllOf(&plan.Plan{}))
	try("rules", RulesOf(plan.Rules()))
	for _, r := range plan.Rules() {
		results, err := r.Run(r.Example.In)
		if err != nil {
			t.Errorf("%s: its own example: %v", r.ID, err)
		}
		try(r.ID, RuleRunOf(r, r.Example.In, results, nil))
	}
	try("rule outside", RuleRunOf(plan.Rules()[0], map[string]float64{}, nil, &cite.RangeError{}))
	try("diagnostics", DiagnosticsOf(diag.List{{Code: "x", Mend: &diag.Edit{New: "y"}}}))
	for _, d := range documents {
		if !seen[d.name] {
			t.Errorf("document %s was not tried", d.name)
		}
	}
}

// The validator is no rubber stamp: a document with a field taken away, added,
// or of another type does not fit.
func TestTheValidatorRefuses(t *testing.T) {
	v, err := newValidator(Schema())
	if err != nil {
		t.Fatal(err)
	}
	good, err := Bytes(PartsOf(&plan.Plan{}))
	if err != nil {
		t.Fatal(err)
	}
	if why := v.check(good); why != "" {
		t.Fatal(why)
	}
	for name, edit := range map[string]func(map[string]any){
		"lacking":  func(m map[string]any) { delete(m, "width_mm") },
		"unknown":  func(m map[string]any) { m["width_in"] = 1 },
		"type":     func(m map[string]any) { m["width_mm"] = "wide" },
		"null":     func(m map[string]any) { m["parts"] = nil },
		"document": func(m map[string]any) { m["document"] = "bends" },
	} {
		var m map[string]any
		if err := json.Unmarshal(good, &m); err != nil {
			t.Fatal(err)
		}
		edit(m)
		b, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		if v.check(b) == "" {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestNumber(t *testing.T) {
	tests := []struct {
		v    float64
		want string
	}{
		{0, "0"}, {math.Copysign(0, -1), "0"}, {17.7, "17.7"}, {1.0 / 3, "0.3333333333"}, {2440, "2440"},
		{321.30000000000001, "321.3"}, {0.1 + 0.2, "0.3"}, {-1e-12, "0"}, {1e-8, "1e-08"}, {4.7e-7, "4.7e-07"},
		{math.NaN(), "null"}, {math.Inf(-1), "null"}, {1e20, "1e+20"}, {123456789012, "123456789000"},
	}
	for _, tt := range tests {
		b, err := json.Marshal(Number(tt.v))
		if err != nil || string(b) != tt.want {
			t.Errorf("%g prints %s (%v), want %s", tt.v, b, err, tt.want)
		}
	}
}

// What is printed is within half of the tenth digit, is valid JSON, and does
// not move with the last bit of the arithmetic (but for the rare number that
// lies on the edge of rounding).
func TestNumberIsNearAndStable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e6, 1e6).Draw(t, "v")
		b, err := json.Marshal(Number(v))
		if err != nil {
			t.Fatal(err)
		}
		var back float64
		if err := json.Unmarshal(b, &back); err != nil {
			t.Fatal(err)
		}
		if math.Abs(back-v) > math.Max(nought, 1e-9*math.Abs(v)) {
			t.Fatalf("%g came back as %g", v, back)
		}
		again, err := json.Marshal(Number(back))
		if err != nil || !bytes.Equal(again, b) {
			t.Fatalf("%s prints as %s", b, again)
		}
	})
}

// Whoever reads a document can look up each rule that it names.
func TestNamedRulesExist(t *testing.T) {
	known := map[string]bool{"": true}
	for _, r := range plan.Rules() {
		known[r.ID] = true
	}
	missing := map[string]bool{}
	for _, p := range plans(t) {
		for _, f := range CheckOf(p).Findings {
			if !known[f.Rule] {
				missing[f.Rule+" (finding "+f.ID+")"] = true
			}
		}
		for _, v := range ExplainOf(p, nil).Values {
			if !known[v.Rule] {
				missing[v.Rule+" (value "+v.ID+")"] = true
			}
		}
	}
	for _, m := range slices.Sorted(maps.Keys(missing)) {
		t.Errorf("rule %s is named and not among the rules", m)
	}
}
