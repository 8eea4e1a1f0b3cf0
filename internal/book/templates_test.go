package book

import (
	"context"
	"slices"
	"testing"

	"rodwork/examples"
	"rodwork/internal/plan"
	"rodwork/internal/template"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// What full-size templates find stands among the book's findings, and the plan
// itself stays as it was.
func TestTemplatesFindingsAreTold(t *testing.T) {
	text, err := examples.Files.ReadFile("half-round-table/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, shop := examples.Main()
	p, _ := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	found := template.Findings(template.Make(p, template.Options{}))
	if len(found) == 0 {
		t.Fatal("the templates of this example find nothing any more: take another")
	}
	before := len(p.Findings)
	told := withTemplates(p, units.MM).Findings
	for _, f := range found {
		if !slices.ContainsFunc(told, func(g work.Finding) bool { return g.ID == f.ID && g.Verdict == f.Verdict }) {
			t.Errorf("%s is not told", f.ID)
		}
	}
	if len(told) != before+len(found) || len(p.Findings) != before {
		t.Errorf("%d findings told, %d in the plan, which had %d", len(told), len(p.Findings), before)
	}
}
