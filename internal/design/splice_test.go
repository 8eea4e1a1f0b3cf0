package design_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/design"
)

const spliced = `rodwork: 1
piece: A box   # for pears
sizes: {width: 500, height: "300 mm"}  # outside
stock:
  shell: birch ply 18
body:
  kind: bent shell
  # the sizes
  width: width      # as above
  height: height
  depth: 250
  corners:
    top left: {radius: 140}
  bend: kerfed
shelves:
  - {in: inside, on: pins}
  - in: inside
    fixed at: 100   # low

base: {}
back:
  set: rabbet
# the end
`

func TestSplice(t *testing.T) {
	for _, c := range []struct{ path, text, was, now string }{
		{"sizes.width", "48 1/2 in", "{width: 500,", "{width: 48 1/2 in,"},
		{"sizes.height", "min(2, 3) * 1 m", `"300 mm"`, `'min(2, 3) * 1 m'`},
		{"body.width", "width - 2 mm", "width: width      # as", "width: width - 2 mm      # as"},
		{"body.corners.top left.radius", "150", "radius: 140", "radius: 150"},
		{"body.bend", "laminated", "bend: kerfed", "bend: laminated"},
		{"body.bend.way", "cold", "bend: kerfed", "bend: cold"},
		{"body.bend.skin", "1.6", "bend: kerfed", "bend: {way: kerfed, skin: 1.6}"},
		{"shelves.0.count", "2", "on: pins}", "on: pins, count: 2}"},
		{"shelves.1.count", "2", "fixed at: 100   # low\n", "fixed at: 100   # low\n    count: 2\n"},
		{"shelves.0.edging.height", "30", "on: pins}", "on: pins, edging: {height: 30}}"},
		{"base.kind", "none", "base: {}", "base: {kind: none}"},
		{"back.depth", "8", "  set: rabbet\n", "  set: rabbet\n  depth: 8\n"},
		{"finish.coats", "2", "# the end\n", ""},
		{"piece", "Bench: the 2nd", "A box   # for", "'Bench: the 2nd'   # for"},
		{"body.open", "[front]", "  bend: kerfed\n", "  bend: kerfed\n  open: [front]\n"},
	} {
		got, err := design.Splice("f", []byte(spliced), c.path, c.text)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		want := strings.Replace(spliced, c.was, c.now, 1)
		if c.path == "finish.coats" {
			want = strings.Replace(spliced, "  set: rabbet\n", "  set: rabbet\nfinish: {coats: 2}\n", 1)
		}
		if string(got) != want {
			t.Errorf("%s:\n%s", c.path, got)
		}
	}
}

func TestSpliceRefuses(t *testing.T) {
	for _, c := range []struct{ path, text string }{
		{"sizes.widht", "3"}, {"body", "3"}, {"shelves.7.count", "1"}, {"shelves", "none"}, {"body.nonsense", "1"},
		{"sizes.width", "a\nb: 1"}, {"sizes.width", ""}, {"piece.first", "x"}, {"", "x"}, {"sizes.width", "{"},
	} {
		got, err := design.Splice("f", []byte(spliced), c.path, c.text)
		var se *design.SpliceError
		if c.text == "{" { // a text that is no YAML goes into quotes, and is for Resolve to refuse
			if err != nil || !strings.Contains(string(got), "'{'") {
				t.Error(err)
			}
			continue
		}
		if !errors.As(err, &se) || got != nil {
			t.Errorf("%s = %q gives %q, %v", c.path, c.text, got, err)
		}
	}
}

// Whatever is written at whatever path of the sideboard: exactly that path
// changes, a second writing of the old text gives the old file, and what does
// not lie on the line stays byte for byte.
func TestSpliceChangesOnePath(t *testing.T) {
	piece, shop := load(t, "main")
	d, _ := design.Resolve("p", piece, "s", shop)
	var paths []design.Written
	paths = append(paths, d.Written...)
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.SampledFrom(paths).Draw(t, "value")
		text := rapid.SampledFrom([]string{"17.5", "48 1/2 in", "min(2, 3) * 1 mm", "a # b", "it's", `say "x"`, "- 3", "x: y", "[1, 2]", "é", "{", "4' 6 1/2\""}).Draw(t, "text")
		if strings.HasSuffix(w.Path, "pull") {
			return
		}
		out, err := design.Splice("p", piece, w.Path, text)
		if err != nil {
			t.Fatalf("%s = %q: %v", w.Path, text, err)
		}
		was, now := strings.Split(string(piece), "\n"), strings.Split(string(out), "\n")
		for i := range was {
			if i != w.At.Start.Line-1 && was[i] != now[i] {
				t.Fatalf("line %d changed", i+1)
			}
		}
		back, err := design.Splice("p", out, w.Path, w.Text)
		if err != nil || string(back) != string(piece) {
			t.Fatalf("%s: not the old file: %v", w.Path, err)
		}
	})
}

func FuzzSplice(f *testing.F) {
	f.Add(spliced, "sizes.width", "3 mm")
	f.Add("a: [1, 2]", "a.0", "x")
	f.Fuzz(func(t *testing.T, src, path, text string) {
		out, err := design.Splice("f", []byte(src), path, text)
		if err == nil && out == nil {
			t.Fatal("neither text nor error")
		}
	})
}

// A new text where a habit stood before: the value becomes the file's own.
func TestSpliceWhereAHabitStood(t *testing.T) {
	piece, shop := load(t, "plain-box")
	before, _ := design.Resolve("p", piece, "s", shop)
	out, err := design.Splice("p", piece, "fronts.0.gap", "3")
	if err != nil {
		t.Fatal(err)
	}
	after, remarks := design.Resolve("p", out, "s", shop)
	if remarks.HasErrors() || before.Fronts[0].Gap.V != 2.5 || after.Fronts[0].Gap.V != 3 {
		t.Error(fmt.Sprint(remarks), before.Fronts[0].Gap.V, after.Fronts[0].Gap.V)
	}
}
