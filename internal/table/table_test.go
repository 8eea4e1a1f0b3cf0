package table_test

import (
	"testing"

	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

func TestCheck(t *testing.T) {
	whole := func() table.Table {
		tb := table.Table{Key: "k", Caption: "c", Columns: []table.Column{table.Names("part"), table.Numbers("length", units.Length)}}
		tb.Add(table.T("shelf"), table.Q(say.Len(600, 1)))
		return tb
	}
	for _, c := range []struct {
		name string
		mar  func(*table.Table)
		bad  bool
	}{
		{"whole", func(*table.Table) {}, false},
		{"no rows", func(tb *table.Table) { tb.Rows = nil }, false},
		{"no key", func(tb *table.Table) { tb.Key = "" }, true},
		{"no caption", func(tb *table.Table) { tb.Caption = "" }, true},
		{"short row", func(tb *table.Table) { tb.Add(table.T("side")) }, true},
		{"long row", func(tb *table.Table) { tb.Add(table.T("a"), table.T("b"), table.T("c")) }, true},
	} {
		tb := whole()
		c.mar(&tb)
		if err := tb.Check(); (err != nil) != c.bad {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestEmptyCell(t *testing.T) {
	for _, c := range []table.Cell{table.T("x"), table.Count(0), table.S(say.F("x")), table.Marked("look", "look")} {
		if c.Empty() {
			t.Errorf("%+v is not empty", c)
		}
	}
	if !(table.Cell{}).Empty() || !table.T("").Empty() {
		t.Error("nothing is something")
	}
}
