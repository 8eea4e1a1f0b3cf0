package outside

import (
	"math"
	"testing"

	"rodwork/internal/cite"
)

func TestPublishedCases(t *testing.T) {
	cases, err := Cases()
	if err != nil {
		t.Fatal(err)
	}
	if len(cases) < 60 {
		t.Fatalf("only %d cases: the file was cut short", len(cases))
	}
	seen := map[string]bool{}
	for _, c := range cases {
		t.Run(c.ID, func(t *testing.T) {
			if seen[c.ID] {
				t.Fatal("two cases of this id")
			}
			seen[c.ID] = true
			r := Find(c.Rule)
			if r == nil {
				t.Fatalf("no rule %s", c.Rule)
			}
			v, err := c.Try(r)
			if err != nil {
				t.Fatal(err)
			}
			if !v.Holds {
				t.Errorf("%s = %.6g %s, printed %s (off by %.3g, tolerance %.3g)", c.Out, v.Got, c.Unit, c.Want, v.Off, c.Tol)
			}
			c.mustFailMoved(t, r)
			c.mustBeHonest(t)
		})
	}
}

// mustFailMoved demands that the case notices a rule that is off by twice the
// tolerance. A case whose print was cut off has its half unit on top.
func (c Case) mustFailMoved(t *testing.T, r *cite.Rule) {
	t.Helper()
	_, half, err := c.Printed()
	if err != nil {
		t.Fatal(err)
	}
	for _, by := range []float64{2 * (c.Tol + half), -2 * (c.Tol + half)} {
		by += math.Copysign(1e-12*math.Abs(by), by) // a case that lies at its very edge
		v, err := c.Try(Moved(r, by))
		if err != nil {
			t.Fatal(err)
		}
		if v.Holds {
			t.Errorf("the case still holds with the rule off by %g", by)
		}
	}
}

func (c Case) mustBeHonest(t *testing.T) {
	t.Helper()
	want, _, _ := c.Printed()
	if !(c.Tol > 0) {
		t.Error("no tolerance")
	}
	if limit := math.Max(1.001*c.HalfDigit(), 0.01*math.Abs(want)); c.Tol > limit && c.Wide == "" {
		t.Errorf("tolerance %g is wider than %g, and nothing says why", c.Tol, limit)
	}
	switch c.Label {
	case cite.Read, cite.Quoted, cite.FromMemory:
		if c.Locator == "" {
			t.Error("no place in the source")
		}
	case cite.Derived, cite.Practice:
		if c.Work == "" {
			t.Error("a case of our own does not say how it was worked")
		}
	default:
		t.Errorf("label %q", c.Label)
	}
	if c.Source == "" {
		t.Error("no source")
	}
}

// Every rule has at least one case.
func TestEveryRuleMeetsTheOutside(t *testing.T) {
	cases, err := Cases()
	if err != nil {
		t.Fatal(err)
	}
	has := map[string]bool{}
	for _, c := range cases {
		has[c.Rule] = true
	}
	for _, r := range Rules() {
		if !has[r.ID] {
			t.Errorf("no case for %s %s", r.ID, r.Title)
		}
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
	}
}

// Enough of the cases are of others: at least 60 that were read or quoted, from
// at least 20 sources, no more than four of one table.
func TestEnoughComesFromOutside(t *testing.T) {
	cases, err := Cases()
	if err != nil {
		t.Fatal(err)
	}
	counted, bySource := Counted(cases)
	t.Logf("%d counted, of %d cases, from %d sources", len(counted), len(cases), len(bySource))
	if len(counted) < 60 || len(bySource) < 20 {
		t.Errorf("%d count, from %d sources", len(counted), len(bySource))
	}
	for _, c := range counted {
		if c.Label != cite.Read && c.Label != cite.Quoted {
			t.Errorf("%s is %s", c.ID, c.Label)
		}
	}
}
