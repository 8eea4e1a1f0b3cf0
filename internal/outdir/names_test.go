package outdir

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestName(t *testing.T) {
	tests := []struct {
		number           int
		title, ext, want string
	}{
		{3, "divider between hymns and desk", ".svg", "03-divider-between-hymns-and-desk.svg"},
		{12, "Tür, links", ".svg", "12-tuer-links.svg"},
		{0, "CON", ".svg", "con-file.svg"},
		{0, "lpt1", "", "lpt1-file"},
		{7, "con", ".svg", "07-con.svg"},
		{4, "../../etc/passwd", ".svg", "04-etc-passwd.svg"},
		{5, "板", ".svg", "05-part.svg"},
		{6, "shelf.", ".svg", "06-shelf.svg"},
		{112, "½ in strip", ".svg", "112-1-2-in-strip.svg"},
	}
	for _, tt := range tests {
		if got := Name(tt.number, tt.title, tt.ext); got != tt.want {
			t.Errorf("Name(%d, %q, %q) = %q, want %q", tt.number, tt.title, tt.ext, got, tt.want)
		}
	}
}

func TestNamesAreValidAndUnique(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var names Names
		seen := map[string]bool{}
		n := rapid.IntRange(1, 40).Draw(t, "how many")
		for range n {
			title := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"shelf", "Shelf", "SHELF 2", "nul", "", strings.Repeat("long ", 40)})).Draw(t, "title")
			name := names.Name(rapid.IntRange(0, 3).Draw(t, "number"), title, ".svg")
			if err := CheckName(name); err != nil {
				t.Fatalf("%q: %v", title, err)
			}
			if key := strings.ToLower(name); seen[key] {
				t.Fatalf("%q given out twice", name)
			} else {
				seen[key] = true
			}
		}
	})
}

func TestCheckNameRefuses(t *testing.T) {
	for _, name := range []string{
		"", ".", "..", ".hidden", "a/b", `a\b`, "a:b", "a b", "ä.svg", "con", "CON.svg", "aux.tar.gz",
		"com1.txt", "LPT9", "end.", "tab\t", "nul\x00", "-rf", strings.Repeat("x", 121),
	} {
		if CheckName(name) == nil {
			t.Errorf("CheckName(%q) accepts it", name)
		}
	}
	for _, name := range []string{"book.html", "com.svg", "com10.svg", "console.svg", "01-a_b.json"} {
		if err := CheckName(name); err != nil {
			t.Errorf("CheckName(%q) = %v", name, err)
		}
	}
}
