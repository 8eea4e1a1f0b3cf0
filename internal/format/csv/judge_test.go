package csv_test

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"rodwork/internal/format/csv"
	"rodwork/internal/judge"
	"rodwork/internal/units"
)

// Python's reader, told that what is not quoted is a number, sees the same.
func TestAnIndependentReader(t *testing.T) {
	file := filepath.Join(t.TempDir(), "parts.csv")
	if err := os.WriteFile(file, csv.Render(sample(), units.MM), 0o600); err != nil {
		t.Fatal(err)
	}
	var got struct{ Sheets []struct{ Rows [][]any } }
	judge.Python(t, "", "sheets.py", &got, file)
	want := [][]any{
		{"no.", "part", "length (mm)", "note"},
		{1.0, "shelf", 620.25, ""},
		{2.0, "'=1+1", -12.0, `3/4" ply, "good"`},
		{3.0, "42", "2 kg", "a;'=b"},
	}
	if !reflect.DeepEqual(got.Sheets[0].Rows, want) {
		t.Errorf("got  %q\nwant %q", got.Sheets[0].Rows, want)
	}
}
