package book_test

import (
	"bytes"
	"context"
	"reflect"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/book"
	"rodwork/internal/plan"
)

func planOf(t *testing.T, width string) *plan.Plan {
	t.Helper()
	piece, shop := examples.Main()
	piece = bytes.Replace(piece, []byte("width: 1460 "), []byte("width: "+width+" "), 1)
	p, remarks := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if remarks.HasErrors() {
		t.Fatal(remarks)
	}
	return p
}

func figuresOf(b *book.Book) map[string]book.Figure {
	out := map[string]book.Figure{}
	for _, c := range b.Chapters {
		for _, x := range c.Blocks {
			if f, ok := x.(book.Figure); ok {
				out[f.BlockID()] = f
			}
		}
	}
	return out
}

// A book for a reader who waits has every word anew, the figures in sight anew,
// and the others as they were, marked as behind: never an old one as a new.
func TestFiguresBehind(t *testing.T) {
	old := book.Make(planOf(t, "1460"), book.Options{})
	p := planOf(t, "1500")
	whole := figuresOf(book.Make(p, book.Options{}))
	was := figuresOf(old)
	for _, sight := range []string{"", "front-and-end", "sections", "picture", "exploded", "strip-1", "sheet-"} {
		b := book.Make(p, book.Options{Old: old, Draw: func(id string) bool { return sight != "" && strings.Contains(id, sight) }})
		got := figuresOf(b)
		fresh := 0
		for id, f := range got {
			want := was[id]
			if !f.Behind {
				want = whole[id]
				fresh++
			}
			if sight != "" && strings.Contains(id, sight) && f.Behind {
				t.Errorf("%q in sight, but %s is behind", sight, id)
			}
			if !reflect.DeepEqual(f.Leaf, want.Leaf) || f.Number == 0 {
				t.Errorf("%q in sight: %s is neither the old figure nor the new", sight, id)
			}
		}
		if len(got) != len(whole) || sight == "" && fresh > 0 || sight != "" && (fresh == 0 || fresh > 8) {
			t.Errorf("%q in sight: %d figures, %d of them anew", sight, len(got), fresh)
		}
	}
}

// What takes long to reckon is that of the older book where it is out of sight,
// and that of this plan where any of it is in sight; the other words are anew.
func TestLongSectionsBehind(t *testing.T) {
	old := book.Make(planOf(t, "1460"), book.Options{})
	p := planOf(t, "1500")
	ids := func(b *book.Book) (all []string) {
		for _, c := range b.Chapters {
			for _, x := range c.Blocks {
				all = append(all, x.BlockID())
			}
		}
		return all
	}
	hidden := book.Make(p, book.Options{Old: old, Draw: func(string) bool { return false }})
	sight := book.Make(p, book.Options{Old: old, Draw: func(id string) bool { return id == "test/fit list" }})
	if !reflect.DeepEqual(ids(hidden), ids(sight)) {
		t.Error("the blocks stand in another order where they are out of sight")
	}
	find := func(b *book.Book, id string) book.Block {
		for _, c := range b.Chapters {
			for _, x := range c.Blocks {
				if x.BlockID() == id {
					return x
				}
			}
		}
		t.Fatalf("no %s", id)
		return nil
	}
	if !reflect.DeepEqual(find(hidden, "test/fit list"), find(old, "test/fit list")) {
		t.Error("out of sight it was reckoned anew")
	}
	if reflect.DeepEqual(find(sight, "test/fit list"), find(old, "test/fit list")) {
		t.Error("in sight it is still the older one")
	}
	if reflect.DeepEqual(find(hidden, "piece/size"), find(old, "piece/size")) {
		t.Error("a plain sentence is old")
	}
}
