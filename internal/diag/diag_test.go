package diag

import (
	"strings"
	"testing"
	"testing/quick"
)

func TestNearest(t *testing.T) {
	known := []string{"width", "height", "depth", "set back", "above floor", "panels", "stock", "in"}
	for _, c := range []struct{ in, want string }{
		{"widht", "width"}, {"hieght", "height"}, {"Depth", "depth"}, {"set-back", "set back"},
		{"abve floor", "above floor"}, {"panls", "panels"}, {"zzz", ""}, {"stok", "stock"},
	} {
		if got := Nearest(c.in, known); got != c.want {
			t.Errorf("Nearest(%q) = %q, want %q", c.in, got, c.want)
		}
	}
}

func TestAlignmentIsAMetricOfSorts(t *testing.T) {
	ok := func(a, b string) bool {
		if len(a) > 60 || len(b) > 60 {
			return true
		}
		d := alignment(a, b)
		return d == alignment(b, a) && (d == 0) == (string([]rune(a)) == string([]rune(b))) && d <= max(len([]rune(a)), len([]rune(b)))
	}
	if err := quick.Check(ok, nil); err != nil {
		t.Error(err)
	}
}

func TestWriteShowsThePlace(t *testing.T) {
	src := "sizes:\n  width: 14O0\n"
	l := List{{Code: "number", Summary: "not a length", At: Range{"piece.yaml", Pos{2, 10}, Pos{2, 14}}, Offending: "14O0",
		Expected: "a length", Mend: &Edit{New: "1400"}}}
	var b strings.Builder
	if err := l.Write(&b, func(string) []byte { return []byte(src) }); err != nil {
		t.Fatal(err)
	}
	want := `piece.yaml:2:10: error: not a length
     2 |   width: 14O0
       |          ^^^^
  expected: a length
  mend:     1400
`
	if b.String() != want {
		t.Errorf("got\n%s\nwant\n%s", b.String(), want)
	}
}

func TestWriteSurvivesPlacesThatAreNotThere(t *testing.T) {
	for _, at := range []Range{{}, {"f", Pos{99, 1}, Pos{99, 2}}, {"f", Pos{1, 500}, Pos{1, 2}}, {"f", Pos{1, 1}, Pos{3, 1}}} {
		var b strings.Builder
		if err := (List{{Summary: "x", At: at}}).Write(&b, func(string) []byte { return []byte("abc\n") }); err != nil {
			t.Error(err)
		}
	}
}

func TestSortIsReadingOrder(t *testing.T) {
	l := List{{Code: "b", At: Range{"p", Pos{3, 1}, Pos{}}}, {Code: "a", At: Range{"p", Pos{1, 9}, Pos{}}}, {Code: "c", At: Range{"a", Pos{9, 9}, Pos{}}}}
	l.Sort()
	if l[0].Code != "c" || l[1].Code != "a" || l[2].Code != "b" {
		t.Errorf("order %v", l)
	}
}
