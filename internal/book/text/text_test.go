package text

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/book/sample"
	"rodwork/internal/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestGolden(t *testing.T) {
	for _, c := range []struct {
		file   string
		width  int
		system units.System
	}{{"sample-72.txt", 72, units.MM}, {"sample-34.txt", 34, units.MM}, {"sample-inch.txt", 80, units.Inch}} {
		t.Run(c.file, func(t *testing.T) {
			b := sample.Book("Seed shelf")
			b.System = c.system
			got := Render(b, Options{Width: c.width})
			path := filepath.Join("testdata", c.file)
			if *update {
				if err := os.WriteFile(path, got, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if string(got) != string(want) {
				t.Errorf("text differs from %s (run with -update to accept):\n%s", path, got)
			}
		})
	}
}

// No line is longer than the terminal, whatever the width and the names are.
func TestLinesFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(leastWidth, 200).Draw(t, "width")
		name := rapid.StringN(0, 300, -1).Draw(t, "name")
		out := string(Render(sample.Book(name), Options{Width: width}))
		for _, l := range strings.Split(out, "\n") {
			if n := columns(l); n > width {
				t.Fatalf("a line of %d columns for a width of %d: %q", n, width, l)
			}
		}
	})
}

// Nothing that a file says may steer the terminal.
func TestNoControls(t *testing.T) {
	out := string(Render(sample.Book("a\x1b[2Jb\u202ec\x00d\x9be\nf"), Options{}))
	for _, r := range out {
		if r != '\n' && (r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0x202e) {
			t.Fatalf("control character %q in the text", r)
		}
	}
	if !strings.Contains(out, "a?[2Jb?c?d?e f") {
		t.Errorf("the name is not shown with its controls replaced:\n%s", out[:80])
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  string
	}{
		{"", 10, ""},
		{"one two three", 7, "one two|three"},
		{"longerthanwidth x", 6, "longer|thanwi|dth x"},
		{"木工 木工", 5, "木工|木工"},
		{"e\u0301e\u0301e\u0301 f", 5, "e\u0301e\u0301e\u0301 f"},
	} {
		if got := strings.Join(wrap(c.in, c.width), "|"); got != c.want {
			t.Errorf("wrap(%q, %d) = %q, want %q", c.in, c.width, got, c.want)
		}
	}
}

// Wrapping loses no word that fits and adds nothing.
func TestWrapKeeps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-zé木 ]{0,120}`).Draw(t, "s")
		w := rapid.IntRange(2, 40).Draw(t, "w")
		bare := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		if got := bare(strings.Join(wrap(s, w), "")); got != bare(s) {
			t.Fatalf("wrap lost or added: %q from %q", got, s)
		}
	})
}

func TestChapters(t *testing.T) {
	out := string(Chapters(sample.Book("Seed shelf"), Options{}, "cut"))
	if !strings.Contains(out, "Fit the guard") || strings.Contains(out, "Seed shelf") {
		t.Errorf("not the one chapter:\n%s", out)
	}
}
