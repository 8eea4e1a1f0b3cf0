package pdf

import (
	"bytes"
	"os"
	"testing"

	"rodwork/examples"
	"rodwork/internal/book"
	"rodwork/internal/book/sample"
	"rodwork/internal/plan"
)

func demo(t testing.TB) *book.Book {
	t.Helper()
	piece, shop := examples.Main()
	p, ds := plan.Make(t.Context(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	_ = ds
	return book.Make(p, book.Options{})
}

func render(t testing.TB, b *book.Book, opt Options) []byte {
	t.Helper()
	out, err := Render(b, opt)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestShow(t *testing.T) {
	b := demo(t)
	a := render(t, b, Options{})
	if !bytes.Equal(a, render(t, b, Options{})) {
		t.Error("two runs differ")
	}
	if dir := os.Getenv("RODWORK_SHOW"); dir != "" {
		os.WriteFile(dir+"/book.pdf", a, 0o644)
		os.WriteFile(dir+"/letter.pdf", render(t, b, Options{Paper: Letter}), 0o644)
		os.WriteFile(dir+"/sample.pdf", render(t, sample.Book("Seed shelf"), Options{}), 0o644)
	}
}

func BenchmarkDemo(b *testing.B) {
	bk := demo(b)
	for b.Loop() {
		render(b, bk, Options{})
	}
}
