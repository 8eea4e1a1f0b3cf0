package check_test

import (
	"os"
	"strings"
	"testing"

	"rodwork/internal/export"
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// rackOf is the finding on racking of a plan.
func rackOf(t *testing.T, p *plan.Plan) work.Finding {
	t.Helper()
	for _, f := range p.Findings {
		if f.ID == "rack" {
			t.Log(export.Text(f.Text, units.MM))
			return f
		}
	}
	t.Fatal("nothing is said of racking")
	return work.Finding{}
}

// A seam in the top, glued over a tongue, leaves the shell nearly as stiff: its
// back takes the push either way.
func TestSeamHardlyRacks(t *testing.T) {
	const open = "  open: [front]\n"
	src, err := os.ReadFile("testdata/pairs/bent.yaml")
	if err != nil {
		t.Fatal(err)
	}
	i, j := strings.Index(string(src), open)+len(open), strings.Index(string(src), "back: {")
	rails := "rails:\n  - {at: top back, height: 70, follow: shell}\n"
	was := string(src)[i:j] + "back: {set: rabbet, depth: 8}\n" + rails
	bare := "back: {set: rabbet, depth: 8}\n" // one bay, no rail, no doors
	for _, inside := range []string{was, bare} {
		whole := rackOf(t, made(t, "bent", was, inside))
		for _, seam := range []string{"{on: top, at: 300, joint: loose tongue}", "{on: top, at: 300, joint: butt}", "{on: top, at: 640, joint: butt}"} {
			asGood(t, seam, rackOf(t, made(t, "bent", was, "  seams: ["+seam+"]\n"+inside)), whole)
		}
	}
}

// A closed shell leans as little with its seam on top as with one below.
func TestClosedShellWithItsSeamAbove(t *testing.T) {
	const was = "    bottom left: {square: rabbet, runs through: side}\n    bottom right: {square: rabbet, runs through: side}\n"
	const bent = "    bottom left: {radius: turn}\n    bottom right: {radius: turn}\n"
	below := rackOf(t, made(t, "bent", was, bent+"  seams: [{on: bottom, at: 300, joint: butt}]\n"))
	asGood(t, "above", rackOf(t, made(t, "bent", was, bent+"  seams: [{on: top, at: 300, joint: butt}]\n")), below)
}

func asGood(t *testing.T, seam string, f, whole work.Finding) {
	t.Helper()
	if f.Verdict != whole.Verdict || f.Value.V > whole.Value.V+0.1 || f.Value.V < whole.Value.V-1e-3 {
		t.Errorf("%s: %s, %.2f mm; without it %s, %.2f", seam, f.Verdict, f.Value.V, whole.Verdict, whole.Value.V)
	}
}
