package outside_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"sort"
	"testing"

	"rodwork/internal/outside"
	"rodwork/internal/plan"
)

var update = flag.Bool("update", false, "write the generated pages")

const root = "../.."

// TestDocsAreCurrent demands that the generated pages are those on disk, and
// that no page of a rule that is gone lies about.
func TestDocsAreCurrent(t *testing.T) {
	pages, err := outside.Docs(plan.Rules())
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for p := range pages {
		paths = append(paths, p)
	}
	sort.Strings(paths)
	for _, p := range paths {
		file := filepath.Join(root, filepath.FromSlash(p))
		if *update {
			write(t, file, pages[p])
			continue
		}
		got, err := os.ReadFile(file)
		if err != nil || !bytes.Equal(got, pages[p]) {
			t.Errorf("%s is not current: go test ./internal/outside -update", p)
		}
	}
	old, err := filepath.Glob(filepath.Join(root, "docs", "rules", "*.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range old {
		if _, ok := pages["docs/rules/"+filepath.Base(file)]; !ok {
			t.Errorf("%s is the page of no rule", file)
		}
	}
}

func write(t *testing.T, file string, text []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestEveryRuleOfThePlanIsComplete holds the rules of the stages to what those
// of mechanics are held to.
func TestEveryRuleOfThePlanIsComplete(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range plan.Rules() {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
		if seen[r.ID] {
			t.Errorf("%s twice", r.ID)
		}
		seen[r.ID] = true
	}
	for _, r := range outside.Rules() {
		if !seen[r.ID] {
			t.Errorf("the plan does not know %s", r.ID)
		}
	}
}
