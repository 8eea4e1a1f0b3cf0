package book_test

import (
	"slices"
	"strings"
	"testing"

	"rodwork/internal/book"
)

// Parts that fit on no sheet are named where the money is: no sum has them.
func TestWhatFitsNoSheetIsNamedBesideTheSum(t *testing.T) {
	for width, wanted := range map[string]bool{"1460": false, "5000": true} {
		b := book.Make(planOf(t, width), book.Options{})
		said := false
		for _, c := range b.Chapters {
			said = said || c.Key == "buy" && slices.ContainsFunc(c.Blocks, func(x book.Block) bool { return strings.HasSuffix(x.BlockID(), "on-no-sheet") })
		}
		if said != wanted {
			t.Errorf("%s wide: said %v, want %v", width, said, wanted)
		}
	}
}
