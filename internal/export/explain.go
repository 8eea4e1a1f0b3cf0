package export

import (
	"fmt"

	"rodwork/internal/plan"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Explain tells where numbers come from.
type Explain struct {
	PieceHead
	Values []Value `json:"values" doc:"named numbers, in the order in which they arose"`
	Inputs []Input `json:"inputs" doc:"what they come from: sizes, written values, the shop's measures and habits, constants of rules"`
}

// Value is one named number.
type Value struct {
	ID      string `json:"id" doc:"unique in the plan"`
	Title   string `json:"title" doc:"in words"`
	Value   Number `json:"value" doc:"in the unit below"`
	Unit    string `json:"unit" doc:"of the value, as in mm, kg, mm2, rad, or 1"`
	Formula string `json:"formula" doc:"that made it, in words"`
	Rule    string `json:"rule" doc:"id of the rule behind it, or empty"`
	From    []From `json:"from" doc:"inputs that move it with every small change"`
	Steps   []int  `json:"steps" doc:"ids of inputs that can move it only in steps"`
}

// From is one input of a value.
type From struct {
	Input  int    `json:"input" doc:"id of the input"`
	Change Number `json:"change_ratio" doc:"how much the value moves for each unit that the input moves"`
}

// Input is one leaf from which values come.
type Input struct {
	ID   int    `json:"id" doc:"its index in this list"`
	Kind string `json:"kind" doc:"size, field, shop, habit or rule"`
	Path string `json:"path" doc:"in the piece or shop file"`
	Text string `json:"text" doc:"as written, or the reason"`
	At   Range  `json:"at" doc:"where it is written"`
}

// ExplainOf makes the document of the values with the given ids; nil means all.
func ExplainOf(p *plan.Plan, ids []string) Explain {
	out := Explain{PieceHead: pieceHead("explain", p), Values: []Value{}, Inputs: []Input{}}
	if p.Ledger == nil {
		return out
	}
	wanted := map[string]bool{}
	for _, id := range ids {
		wanted[id] = true
	}
	for _, v := range p.Ledger.Values() {
		if ids == nil || wanted[v.ID] {
			out.Values = append(out.Values, valueOf(v))
		}
	}
	out.Inputs = each(p.Ledger.Inputs(), func(in trace.Input) Input {
		return Input{int(in.ID), string(in.Kind), in.Path, in.Text, rangeOf(in.At)}
	})
	return out
}

func valueOf(v trace.Value) Value {
	out := Value{ID: v.ID, Title: v.Title, Value: num(v.Num), Unit: Unit(v.Dim), Formula: v.Formula, Rule: v.Rule, From: []From{}}
	for _, id := range v.Num.Sources() {
		out.From = append(out.From, From{int(id), coarse(v.Num.D(id))})
	}
	out.Steps = each(v.Num.Steps(), func(id trace.InputID) int { return int(id) })
	return out
}

// Unit names the unit in which the model holds a quantity of the dimension.
func Unit(d units.Dim) string {
	if d.Count || d == units.None {
		return "1"
	}
	out := ""
	for _, b := range []struct {
		name string
		exp  int8
	}{
		{"N", d.Force}, {"kg", d.Mass}, {"mm", d.Length}, {"s", d.Time}, {"rad", d.Angle}, {"money", d.Money}, {"degC", d.Temp},
	} {
		switch {
		case b.exp == 0:
			continue
		case out != "":
			out += "."
		}
		out += b.name
		if b.exp != 1 {
			out += fmt.Sprint(b.exp)
		}
	}
	return out
}
