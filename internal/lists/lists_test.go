package lists_test

import (
	"context"
	"io/fs"
	"math"
	"path"
	"testing"

	"rodwork/examples"
	"rodwork/internal/lists"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/table"
	"rodwork/internal/template"
	"rodwork/internal/units"
)

// plans makes the plan of each example.
func plans(t testing.TB) map[string]*plan.Plan {
	t.Helper()
	files, err := fs.Glob(examples.Files, "*/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]*plan.Plan{}
	for _, f := range files {
		text, err := examples.Files.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		_, shop := examples.Main()
		if own, err := examples.Files.ReadFile(path.Dir(f) + "/shop.yaml"); err == nil {
			shop = own
		}
		p, remarks := plan.Make(context.Background(), plan.Source{PieceFile: f, Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
		if remarks.HasErrors() || p == nil {
			t.Fatal(f, remarks)
		}
		out[path.Dir(f)] = p
	}
	return out
}

// column returns a column of a list as values, by its head without the unit.
func column(t testing.TB, tables []table.Table, key, head string) []table.Value {
	t.Helper()
	for _, tb := range tables {
		if tb.Key != key {
			continue
		}
		_, rows := tb.Plain(units.MM)
		for i, c := range tb.Columns {
			if c.Head == head {
				var out []table.Value
				for _, r := range rows {
					out = append(out, r[i])
				}
				return out
			}
		}
	}
	t.Fatalf("no column %q in a list %q", head, key)
	return nil
}

// Each list is a table in good order, with a key of its own, no empty column
// head and no two alike.
func TestListsAreInOrder(t *testing.T) {
	for name, p := range plans(t) {
		seen := map[string]bool{}
		for _, tb := range lists.Make(p) {
			if err := tb.Check(); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			if seen[tb.Key] || len(tb.Rows) == 0 {
				t.Errorf("%s: list %q is there twice, or empty", name, tb.Key)
			}
			seen[tb.Key] = true
			heads := map[string]bool{}
			for _, c := range tb.Columns {
				if c.Head == "" || heads[c.Head] {
					t.Errorf("%s: list %q has a column %q, without a name or with another's", name, tb.Key, c.Head)
				}
				heads[c.Head] = true
			}
			// What stands under a unit is in that unit, or nothing.
			_, rows := tb.Plain(units.MM)
			for i, r := range rows {
				for j, v := range r {
					if c := tb.Columns[j]; c.Dim.Plain() != units.None && !v.IsNumber && v.Text != "" {
						t.Errorf("%s: list %q, row %d, %s holds the text %q", name, tb.Key, i+1, c.Head, v.Text)
					}
				}
			}
		}
	}
}

// Nothing of the plan is lost: as many rows as there are things, and the sums
// of the lists are those of the plan.
func TestNothingIsLost(t *testing.T) {
	for name, p := range plans(t) {
		ls := lists.Make(p)
		holes, cuts, kerfs := 0, 0, 0
		for _, q := range p.Piece.Parts {
			for _, c := range q.Cuts {
				if c.Kind == piece.Hole || c.Kind == piece.HoleRow {
					holes += max(1, c.Count)
				} else {
					cuts++
				}
			}
			for _, b := range q.Bends {
				kerfs += len(b.Kerfs)
			}
		}
		for _, want := range []struct {
			key, head string
			n         int
		}{{"parts", "part", len(p.Piece.Parts)}, {"holes", "x", holes}, {"cuts", "x from", cuts}, {"kerfs", "kerf", kerfs},
			{"joints", "joint", len(p.Piece.Joints)}, {"findings", "says", len(p.Findings) + len(template.Findings(template.Make(p, template.Options{})))}, {"steps", "step", len(p.Order)}} {
			if want.n == 0 {
				continue
			}
			if got := len(column(t, ls, want.key, want.head)); got != want.n {
				t.Errorf("%s: %d rows of %s, want %d", name, got, want.key, want.n)
			}
		}
		mass := 0.0
		for _, v := range column(t, ls, "parts", "mass") {
			mass += v.Number
		}
		var fittings float64
		for _, m := range p.Masses {
			if p.Piece.Part(m.Part) == nil {
				fittings += m.Mass.V
			}
		}
		if math.Abs(mass+fittings-p.Mass.V) > 1e-6*p.Mass.V {
			t.Errorf("%s: parts weigh %g kg, the piece %g", name, mass, p.Mass.V)
		}
		if v := column(t, ls, "buy", "what is missing costs"); math.Abs(v[len(v)-1].Number-p.Cost.V) > 1e-6 {
			t.Errorf("%s: the sum is %v, want %g", name, v[len(v)-1], p.Cost.V)
		}
	}
}

// The kerfs of the demo, by hand: 36 of them, the first half a pitch after the
// tangent point, evenly spaced.
func TestKerfsOfTheDemo(t *testing.T) {
	p := plans(t)["main"]
	ls := lists.Make(p)
	at := column(t, ls, "kerfs", "centre, from the datum end")
	start, pitch := column(t, ls, "bends", "starts at")[0].Number, column(t, ls, "bends", "pitch")[0].Number
	if len(at) != 36 {
		t.Fatalf("%d kerfs", len(at))
	}
	for i, v := range at {
		if want := start + (float64(i)+0.5)*pitch; math.Abs(v.Number-want) > 1e-6 {
			t.Errorf("kerf %d lies at %g, want %g", i+1, v.Number, want)
		}
	}
}
