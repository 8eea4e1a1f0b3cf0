package design_test

import (
	"strings"
	"testing"

	"rodwork/internal/design"
)

func TestListText(t *testing.T) {
	piece, shop := load(t, "main")
	d, remarks := design.Resolve("p", piece, "s", shop)
	if remarks.HasErrors() {
		t.Fatal(remarks)
	}
	lines, inShop := strings.Split(string(piece), "\n"), strings.Split(string(shop), "\n")
	for path, want := range map[string]string{"fronts.0.hang on": "[side, divider]", "fronts.0.at": "[80, -153]", "body.open": "[front]",
		"fronts": "", "fronts.0": "", "sizes.width": "", "nosuch": ""} {
		if got := design.ListText(lines, d.Places, path); got != want {
			t.Errorf("%s: %q", path, got)
		}
	}
	if got := design.ListText(inShop, d.Shop.Places, "stock.birch ply 6.thickness.readings"); got != "[6.37, 6.42, 6.44, 6.38, 6.40, 6.36, 6.43, 6.40]" {
		t.Errorf("readings: %q", got)
	}
	if got := design.ListText(lines[:3], d.Places, "fronts.0.at"); got != "" {
		t.Errorf("past the end of the text: %q", got)
	}
	if w, ok := d.Wants("fronts.0.gap"); !ok || !w.Amount || w.Min != 0.3 && w.Max == 0 {
		t.Errorf("a gap: %+v", w)
	}
	if w, ok := d.Shop.Wants("saws.track saw.grind"); !ok || strings.Join(w.Words, " ") != "flat bevel" {
		t.Errorf("a grind: %+v", w)
	}
	if _, ok := d.Wants("fronts.0.nosuch"); ok {
		t.Error("something is wanted where nothing can stand")
	}
}
