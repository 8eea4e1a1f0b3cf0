package table_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

func TestPlain(t *testing.T) {
	tb := table.Table{Key: "k", Caption: "c", Columns: []table.Column{
		table.Numbers("no.", units.Count), table.Names("part"), table.Numbers("length", units.Length),
		{Head: "share", Unit: "%", Align: table.Right}, table.Numbers("takes", units.Time), table.Numbers("turn", units.Angle)}}
	tb.Add(table.Count(4), table.Marked("look", "look"), table.Q(say.Len(19.05, 1)), table.Q(say.Num(0.45, 2)),
		table.Q(say.Quantity{V: 5400, Dim: units.Time}), table.Q(say.Angle(math.Pi/2, 0)))
	tb.Add(table.T(""), table.S(say.F("by {} off", say.Len(2, 0))), table.Q(say.Kg(2.4, 1)), table.S(say.F("{}", say.Num(-1, 0))),
		table.Q(say.Num(math.NaN(), 0)), table.Q(say.Angle(1e-12, 1)))
	heads, rows := tb.Plain(units.MM)
	if d := cmp.Diff([]string{"no.", "part", "length (mm)", "share (%)", "takes (min)", "turn (°)"}, heads); d != "" {
		t.Error(d)
	}
	number := func(v float64, decimals int) table.Value {
		return table.Value{Number: v, IsNumber: true, Decimals: decimals}
	}
	want := [][]table.Value{
		{number(4, 0), {Text: "look"}, number(19.05, 1), number(0.45, 2), number(90, 0), number(90, 0)},
		{{}, {Text: "by 2 mm off"}, {Text: "2.4 kg"}, number(-1, 0), {Text: "—"}, number(0, 1)},
	}
	if d := cmp.Diff(want, rows); d != "" {
		t.Error(d)
	}
	heads, rows = tb.Plain(units.Inch)
	if heads[2] != "length (in)" || rows[0][2] != number(0.75, 4) || rows[1][2].Text != "5.3 lb" {
		t.Errorf("in inches: %q, %v, %v", heads[2], rows[0][2], rows[1][2])
	}
}
