package xlsx_test

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/format/xlsx"
	"rodwork/internal/judge"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

func parts() table.Table {
	t := table.Table{Key: "parts", Caption: "Parts: all of them [in one long list]", Note: "Finished sizes.", Columns: []table.Column{
		table.Numbers("no.", units.Count), table.Names("part"), table.Numbers("length", units.Length), table.Numbers("mass", units.Mass)}}
	t.Add(table.Count(1), table.T("shelf & <side>"), table.Q(say.Len(620.25, 1)), table.Q(say.Kg(1.5, 2)))
	t.Add(table.Count(2), table.T("=1+1"), table.Q(say.Len(-12, 1)), table.T("look"))
	t.Rows = append(t.Rows, table.Row{Total: true, Cells: []table.Cell{{}, table.T("together"), {}, table.Q(say.Kg(1.5, 2))}})
	return t
}

func book() xlsx.Book {
	empty := table.Table{Key: "none", Caption: "Parts: all of them [in one long list", Columns: []table.Column{table.Words("nothing")}}
	return xlsx.Book{Title: "Seed shelf & more", System: units.MM, Tables: []table.Table{parts(), empty}}
}

func render(t testing.TB, b xlsx.Book) []byte {
	t.Helper()
	out, err := xlsx.Render(b)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

type sheets struct {
	Title  string
	Sheets []struct {
		Name, Frozen, Titles string
		Rows                 [][]any
		Kinds, Formats       [][]string
		Widths               []float64
	}
}

func reopen(t testing.TB, b xlsx.Book) sheets {
	t.Helper()
	file := filepath.Join(t.TempDir(), "book.xlsx")
	if err := os.WriteFile(file, render(t, b), 0o600); err != nil {
		t.Fatal(err)
	}
	var got sheets
	judge.Python(t, "openpyxl", "sheets.py", &got, file)
	return got
}

// A general library opens the workbook and sees numbers as numbers, texts as
// texts, and the head that stays.
func TestAnIndependentReader(t *testing.T) {
	got := reopen(t, book())
	if got.Title != "Seed shelf & more" || len(got.Sheets) != 2 {
		t.Fatalf("%q with %d sheets", got.Title, len(got.Sheets))
	}
	s := got.Sheets[0]
	if s.Name != "Parts  all of them  in one long" || got.Sheets[1].Name != "Parts  all of them  in one lo 2" {
		t.Errorf("names %q, %q", s.Name, got.Sheets[1].Name)
	}
	if s.Frozen != "A2" || s.Titles != "$1:$1" && s.Titles != "1:1" {
		t.Errorf("frozen %q, on every page %q", s.Frozen, s.Titles)
	}
	want := [][]any{
		{"no.", "part", "length (mm)", "mass (kg)"},
		{1.0, "shelf & <side>", 620.25, 1.5},
		{2.0, "=1+1", -12.0, "look"},
		{nil, "together", nil, 1.5},
		{nil, nil, nil, nil},
		{"Finished sizes.", nil, nil, nil},
	}
	if !reflect.DeepEqual(s.Rows, want) {
		t.Errorf("got  %v\nwant %v", s.Rows, want)
	}
	if f := s.Formats[1]; f[0] != "0" || f[2] != "0.0" || f[3] != "0.00" {
		t.Errorf("formats %q", f)
	}
	for i, row := range s.Kinds {
		for j, k := range row {
			if k == "f" || want[i][j] == "=1+1" && k != "inlineStr" && k != "s" {
				t.Errorf("cell %d, %d is of kind %q", i, j, k)
			}
		}
	}
	if want := []float64{6, 16, 13, 11}; !reflect.DeepEqual(s.Widths, want) {
		t.Errorf("widths %v, want %v", s.Widths, want)
	}
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(render(t, book()), render(t, book())) {
		t.Error("two runs differ")
	}
}

func TestRefusals(t *testing.T) {
	short := parts()
	short.Add(table.T("one cell"))
	wide := table.Table{Key: "k", Caption: "c", Columns: make([]table.Column, 1<<14+1)}
	for name, b := range map[string]xlsx.Book{
		"no table": {}, "a short row": {Tables: []table.Table{short}}, "too wide": {Tables: []table.Table{wide}},
	} {
		if _, err := xlsx.Render(b); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// Every file in the archive is well-formed XML, whatever the texts hold, and
// the names of sheets obey their rules.
func TestHostileTexts(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var b xlsx.Book
		b.Title = rapid.String().Draw(rt, "title")
		for range rapid.IntRange(1, 4).Draw(rt, "tables") {
			x := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"a", "A", "'", "A'\u00a0", strings.Repeat("b", 30) + "'\u00a0", "history", "a/b", "", "\xff", "_x0041_", "\x01", strings.Repeat("é", 40), strings.Repeat("𝔞", 20)})).Draw(rt, "text")
			tb := table.Table{Key: "k", Caption: x + " ", Note: x, Columns: []table.Column{table.Words(x)}}
			tb.Add(table.T(x))
			b.Tables = append(b.Tables, tb)
		}
		seen := map[string]bool{}
		for _, n := range namesIn(rt, render(t, b)) {
			units := 0
			for _, r := range n {
				units++
				if r > 0xffff {
					units++
				}
			}
			if n == "" || units > 31 || strings.ContainsAny(n, `[]:*?/\`) || strings.HasPrefix(n, "'") || strings.HasSuffix(n, "'") || seen[strings.ToLower(n)] {
				rt.Fatalf("a sheet's name is %q", n)
			}
			seen[strings.ToLower(n)] = true
		}
	})
}

// namesIn parses every file of the archive and returns the names of its sheets.
func namesIn(t *rapid.T, data []byte) []string {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(r)
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", f.Name, err)
			}
			if e, ok := tok.(xml.StartElement); ok && e.Name.Local == "sheet" {
				names = append(names, e.Attr[0].Value)
			}
		}
	}
	return names
}
