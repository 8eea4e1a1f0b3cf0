package book_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"rodwork/internal/book"
	"rodwork/internal/units"
)

// Each glue-up of the demo has its rehearsal sheet: it begins at nought, runs on
// and not back, and ends when the clock says that the last clamp is on.
func TestEachGlueUpHasItsRehearsal(t *testing.T) {
	p := demo(t)
	b := book.Make(p, book.Options{System: units.MM})
	at := func(s string) float64 {
		var m, sec int
		if _, err := fmt.Sscanf(s, "%d:%d", &m, &sec); err != nil {
			t.Fatalf("%q is no time", s)
		}
		return float64(60*m + sec)
	}
	found := 0
	for _, c := range b.Chapters {
		for _, x := range c.Blocks {
			tab, ok := x.(book.Table)
			if !ok || !strings.HasPrefix(tab.Table.Key, "assemble/rehearsal ") {
				continue
			}
			rows, now := tab.Table.Rows, 0.0
			if at(rows[0].Cells[0].Text) != 0 {
				t.Errorf("%s begins at %s", tab.Table.Key, rows[0].Cells[0].Text)
			}
			for _, r := range rows {
				if next := at(r.Cells[0].Text); next < now {
					t.Errorf("%s runs back to %v", tab.Table.Key, next)
				} else {
					now = next
				}
			}
			if total := p.GlueUps[found].Total.V; math.Abs(now-total) > 0.5 {
				t.Errorf("%s ends at %v, the clock at %v", tab.Table.Key, now, total)
			}
			found++
		}
	}
	if found == 0 || found != len(p.GlueUps) {
		t.Errorf("%d sheets for %d glue-ups", found, len(p.GlueUps))
	}
}
