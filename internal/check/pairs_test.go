package check_test

import (
	"context"
	"os"
	"strings"
	"testing"

	"rodwork/internal/export"
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// pairRow is one row of testdata/pairs/pairs.txt.
type pairRow struct{ name, base, text, sound, past, stops string }

func pairRows(t *testing.T) []pairRow {
	t.Helper()
	src, err := os.ReadFile("testdata/pairs/pairs.txt")
	if err != nil {
		t.Fatal(err)
	}
	var out []pairRow
	for line := range strings.Lines(string(src)) {
		line = strings.TrimRight(line, "\n")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		c := strings.Split(line, " |")
		if len(c) != 6 {
			t.Fatalf("%q has %d columns", line, len(c))
		}
		for i := range c {
			c[i] = strings.ReplaceAll(strings.TrimPrefix(c[i], " "), `\n`, "\n")
		}
		out = append(out, pairRow{c[0], c[1], c[2], c[3], c[4], c[5]})
	}
	return out
}

// made is the plan of a base with one text replaced.
func made(t *testing.T, base, was, now string) *plan.Plan {
	t.Helper()
	read := func(name string) string {
		b, err := os.ReadFile("testdata/pairs/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	src := read(base + ".yaml")
	if !strings.Contains(src, was) {
		t.Fatalf("%s has no %q", base, was)
	}
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: []byte(strings.Replace(src, was, now, 1)),
		ShopFile: "shop.yaml", Shop: []byte(read("shop.yaml"))}, plan.Options{})
	if p == nil || ds.HasErrors() {
		t.Fatalf("%s with %q: %v", base, now, ds)
	}
	return p
}

// Each sound piece says stop nowhere; its twin says it, in the finding that the
// table names.
func TestPairs(t *testing.T) {
	rows := pairRows(t)
	seen := map[string]bool{}
	for _, r := range rows {
		if seen[r.name] {
			t.Errorf("%s stands twice", r.name)
		}
		seen[r.name] = true
		t.Run(r.name, func(t *testing.T) {
			t.Parallel()
			for _, f := range made(t, r.base, r.text, r.sound).Findings {
				if f.Verdict == work.Stop {
					t.Errorf("sound, and %s says stop: %s", f.ID, export.Text(f.Text, units.MM))
				}
			}
			var near []string
			for _, f := range made(t, r.base, r.text, r.past).Findings {
				if !strings.HasPrefix(f.ID, r.stops) {
					continue
				}
				if f.Verdict == work.Stop {
					t.Logf("%s: %s", f.ID, export.Text(f.Text, units.MM))
					return
				}
				near = append(near, string(f.Verdict)+" "+f.ID+": "+export.Text(f.Text, units.MM))
			}
			t.Errorf("past the limit, and nothing of %s says stop:\n%s", r.stops, strings.Join(near, "\n"))
		})
	}
	if len(rows) < 40 {
		t.Errorf("only %d pairs", len(rows))
	}
}
