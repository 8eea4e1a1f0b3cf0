package csv_test

import (
	stdcsv "encoding/csv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/format/csv"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

func sample() table.Table {
	t := table.Table{Key: "parts", Caption: "Parts", Columns: []table.Column{
		table.Numbers("no.", units.Count), table.Names("part"), table.Numbers("length", units.Length), table.Words("note")}}
	t.Add(table.Count(1), table.T("shelf"), table.Q(say.Len(620.25, 1)), table.Cell{})
	t.Add(table.Count(2), table.T("=1+1"), table.Q(say.Len(-12, 1)), table.T(`3/4" ply, "good"`))
	t.Add(table.Count(3), table.T("42"), table.Q(say.Kg(2, 0)), table.T("a;=b"))
	return t
}

func TestRender(t *testing.T) {
	want := strings.Join([]string{
		`"no.","part","length (mm)","note"`,
		`1,"shelf",620.25,`,
		`2,"'=1+1",-12,"3/4"" ply, ""good"""`,
		`3,"42","2 kg","a;'=b"`,
		``,
	}, "\r\n")
	if got := string(csv.Render(sample(), units.MM)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got := string(csv.Render(sample(), units.Inch)); !strings.Contains(got, "1,\"shelf\",24.41929134,\r\n") {
		t.Errorf("in inches:\n%s", got)
	}
}

func TestEscape(t *testing.T) {
	tests := []struct{ in, want string }{
		{"shelf", "shelf"},
		{"", ""},
		{"=1+1", "'=1+1"},
		{"+3", "'+3"},
		{"-3", "'-3"},
		{"@cmd", "'@cmd"},
		{"  =x", "'  =x"},
		{"\t=x", "'\t'=x"},
		{"\rx", "'\rx"},
		{"＝x", "'＝x"},
		{"a;=b", "a;'=b"},
		{"a\n-b", "a\n'-b"},
		{"a-b", "a-b"},
		{"−3 mm", "−3 mm"}, // a minus sign, which is no hyphen
		{"'tis", "'tis"},
		{"'=x", "''=x"},
		{"a\x00b", "a\ufffdb"},
		{"a\xffb", "a\ufffdb"},
	}
	for _, tt := range tests {
		if got := csv.Escape(tt.in); got != tt.want {
			t.Errorf("%q becomes %q, want %q", tt.in, got, tt.want)
		}
	}
}

// text draws strings that are rich in what matters here.
var text = rapid.OneOf(rapid.String(), rapid.StringOfN(rapid.SampledFrom([]rune("=+-@\t\r\n;' ,\"a＝")), 0, 12, -1))

// Whatever a cell holds, no cell of the file begins a formula, and the text
// comes back.
func TestNothingRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := text.Draw(t, "text")
		tb := table.Table{Key: "k", Caption: "c", Columns: []table.Column{table.Words("a"), table.Words("b")}}
		tb.Add(table.T(in), table.T("z"))
		r := stdcsv.NewReader(strings.NewReader(string(csv.Render(tb, units.MM))))
		rows, err := r.ReadAll()
		if err != nil || len(rows) != 2 || rows[1][1] != "z" {
			t.Fatalf("read back as %q, %v", rows, err)
		}
		got := rows[1][0]
		for _, piece := range strings.FieldsFunc(got, func(r rune) bool { return strings.ContainsRune(";\t\n\r", r) }) {
			if p := strings.TrimLeft(piece, " \u00a0"); p != "" && strings.ContainsAny(p[:1], "=+-@") {
				t.Fatalf("%q would run", got)
			}
		}
		// Reading turns CR LF within quotes into LF, as the standard library says.
		want := strings.ReplaceAll(csv.Escape(in), "\r\n", "\n")
		if got != want {
			t.Fatalf("%q became %q", want, got)
		}
	})
}

func TestUnescape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := text.Draw(t, "text")
		clean := strings.Map(func(r rune) rune {
			if r < ' ' && !strings.ContainsRune("\t\r\n", r) || r == 0x7f {
				return '\ufffd'
			}
			return r
		}, strings.ToValidUTF8(in, "\ufffd"))
		if got := csv.Unescape(csv.Escape(in)); got != clean {
			t.Fatalf("%q came back as %q", in, got)
		}
	})
}
