package book_test

import (
	"bytes"
	"context"
	"os"
	"strings"
	"testing"

	"rodwork/internal/book"
	"rodwork/internal/fit"
	"rodwork/internal/plan"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// fitted plans the sideboard with a register of test pieces in its shop file.
func fitted(t *testing.T, tests string) (*plan.Plan, *book.Book) {
	t.Helper()
	piece, err := os.ReadFile("../../examples/main/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	shop, err := os.ReadFile("../../examples/main/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	shop = append(bytes.Split(shop, []byte("\ntests:"))[0], []byte("\n"+tests)...)
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if p == nil || ds.HasErrors() {
		t.Fatal(ds)
	}
	return p, book.Make(p, book.Options{System: units.MM})
}

// told is all the words of a chapter's paragraphs.
func told(t *testing.T, b *book.Book, key string) string {
	t.Helper()
	var out strings.Builder
	for _, bl := range chapterNamed(t, b, key).Blocks {
		if q, ok := bl.(book.Paragraph); ok {
			for _, sp := range q.Text {
				out.WriteString(sp.Text)
			}
			out.WriteString("\n")
		}
	}
	return out.String()
}

func tableNamed(t *testing.T, b *book.Book, chapter, key string) table.Table {
	t.Helper()
	for _, bl := range chapterNamed(t, b, chapter).Blocks {
		if q, ok := bl.(book.Table); ok && strings.HasPrefix(q.Table.Key, chapter+"/"+key) {
			return q.Table
		}
	}
	t.Fatalf("no table %s in %s", key, chapter)
	return table.Table{}
}

// The book has a row for each fit that asks something, figures of the test
// pieces and of the bend under its clamps, and says what was not tried.
func TestFitsAreTold(t *testing.T) {
	p, b := fitted(t, "")
	asked := 0
	for _, f := range fit.All(p.FitInput()) {
		if f.Kind != fit.Shut {
			asked++
		}
	}
	if rows := len(tableNamed(t, b, "test", "fit list").Rows); rows != asked || asked == 0 {
		t.Errorf("%d rows for %d fits", rows, asked)
	}
	if n := len(tableNamed(t, b, "bend", "clamps").Rows); n < 2 {
		t.Errorf("%d lines of clamps", n)
	}
	figures := map[string]bool{}
	for _, c := range b.Chapters {
		for _, bl := range c.Blocks {
			if f, ok := bl.(book.Figure); ok {
				figures[f.Leaf.Key] = true
			}
		}
	}
	for _, key := range []string{"clamped-1-top-left", "test-2-steps", "test-3-hinge"} {
		if !figures[key] {
			t.Errorf("no figure %s", key)
		}
	}
	if s := told(t, b, "test"); strings.Count(s, "Not tried yet") != len(p.Tests) {
		t.Errorf("%d tests, and it says\n%s", len(p.Tests), s)
	}
}

// A kerf that was measured in the very stock is the one that the book tells.
func TestTheTestedKerfIsTold(t *testing.T) {
	_, b := fitted(t, `tests:
  strip: {kind: bend, tool: track saw, stock: birch ply 18, measured: 2026-06-02, kerf: [2.31, 2.33, 2.32]}
`)
	for _, bl := range chapterNamed(t, b, "shell").Blocks {
		if q, ok := bl.(book.Paragraph); ok {
			for _, sp := range q.Text {
				if sp.Q != nil && sp.Q.Path == "tests.strip.kerf" && sp.Q.V == 2.32 {
					return
				}
			}
		}
	}
	t.Error("the shell’s sentence does not tell the kerf of the test")
}

// A test that counts is told with what it taught, a stale one with why.
func TestTestsAreTold(t *testing.T) {
	_, b := fitted(t, `tests:
  strip: {kind: bend, tool: track saw, stock: birch ply 18, measured: 2026-01-02, kerf: 2.2}
  slot: {kind: fit, tool: straight 16, stock: birch ply 18, measured: 2026-06-02, cut: housing, set: 17.80, slot: [17.87, 17.86, 17.88], feels: loose}
`)
	s := told(t, b, "test")
	for _, want := range []string{"Stale: it was tried on 2026-01-02, but the kerf of the track saw was measured after it", "Tried on 2026-06-02", "wider than they are set"} {
		if !strings.Contains(s, want) {
			t.Errorf("the book does not say %q:\n%s", want, s)
		}
	}
}
