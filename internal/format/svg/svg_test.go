package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

var update = flag.Bool("update", false, "write the golden files anew")

func v(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

func seg(op leaf.Op, x, y float64) leaf.Seg { return leaf.Seg{Op: op, P: v(x, y)} }

// sample has one of each thing that a leaf can hold.
func sample() leaf.Leaf {
	return leaf.Leaf{
		Key: "sample", Title: "A sample", Right: "ply 18", Caption: "One of each.", Alt: "Lines, arcs and words.", W: 210, H: 40,
		Items: []leaf.Item{
			leaf.Path{Line: leaf.Visible, Segs: []leaf.Seg{seg(leaf.Move, 10, 10), seg(leaf.To, 30, 10), seg(leaf.To, 30, 20.126), {Op: leaf.Close}}},
			leaf.Path{Line: leaf.Hidden, Segs: []leaf.Seg{seg(leaf.Move, 10, 12), seg(leaf.To, 30, 12)}},
			leaf.Path{Line: leaf.Visible, Segs: []leaf.Seg{seg(leaf.Move, 40, 10), {Op: leaf.Arc, P: v(50, 20), R: 10, Left: true}}},
			leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: []leaf.Seg{seg(leaf.Move, 12, 11), seg(leaf.To, 14, 11), seg(leaf.To, 14, 13), {Op: leaf.Close}}},
			leaf.Path{Line: leaf.Saw, Accent: true, Segs: []leaf.Seg{seg(leaf.Move, 60, 5), seg(leaf.To, 60, 35)}},
			leaf.Path{Fill: leaf.Solid, Segs: []leaf.Seg{seg(leaf.Move, 70, 5), seg(leaf.To, 71, 5), seg(leaf.To, 70.5, 7), {Op: leaf.Close}}},
			leaf.Path{Line: leaf.Dots, Segs: []leaf.Seg{seg(leaf.Move, 80, 5), seg(leaf.To, 90, 5)}},
			leaf.Text{At: v(20, 30), S: "736.4 < 751.1 & \"so\" on", Size: leaf.Name, Anchor: leaf.Middle, Halo: true},
			leaf.Text{At: v(5, 30), S: "grain", Italic: true, Up: true},
			leaf.Text{At: v(100, 30), S: "A", Strong: true, Accent: true, Anchor: leaf.End},
		},
	}
}

func TestGolden(t *testing.T) {
	for name, got := range map[string][]byte{"plate.svg": Render(sample()), "inline.svg": Inline(sample(), "f1-")} {
		path := filepath.Join("testdata", name)
		if *update {
			if err := os.MkdirAll("testdata", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s changed; look at it and write it anew with -update\n%s", name, got)
		}
	}
}

// wellFormed reads the whole document and returns its words.
func wellFormed(b []byte) (string, error) {
	var words strings.Builder
	d := xml.NewDecoder(bytes.NewReader(b))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return words.String(), nil
		}
		if err != nil {
			return "", err
		}
		switch tok := tok.(type) {
		case xml.CharData:
			words.Write(tok)
		case xml.StartElement:
			if tok.Name.Local == "script" || tok.Name.Local == "image" || tok.Name.Local == "a" || tok.Name.Local == "foreignObject" {
				return "", errors.New("element " + tok.Name.Local)
			}
			for _, a := range tok.Attr {
				if strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "style" || a.Name.Local == "href" {
					return "", errors.New("attribute " + a.Name.Local)
				}
			}
		}
	}
}

func FuzzHostileWords(f *testing.F) {
	f.Add(`<script>alert(1)</script>`, `" onload="x`)
	f.Add("]]>\x00\x1f￾", `--><svg/onload=1>`)
	f.Add("\xff\xfe\xc3(", "' or '")
	f.Fuzz(func(t *testing.T, s, id string) {
		l := sample()
		l.Title, l.Alt, l.Caption, l.Right = s, s, s, s
		l.Items = append(l.Items, leaf.Text{S: s})
		for _, b := range [][]byte{Render(l), Inline(l, id)} {
			if _, err := wellFormed(b); err != nil {
				t.Fatalf("%v in %q", err, b)
			}
		}
	})
}

func TestSameBytes(t *testing.T) {
	want := Render(sample())
	for range 20 {
		if !bytes.Equal(Render(sample()), want) {
			t.Fatal("the same leaf gave other bytes")
		}
	}
}

func TestNumbersAreShort(t *testing.T) {
	l := sample()
	l.Items = append(l.Items, leaf.Path{Line: leaf.Visible, Segs: []leaf.Seg{seg(leaf.Move, 1.0/3, 2.0/3), seg(leaf.To, 1e9, -1e9), {Op: leaf.Arc, P: v(1, 1), R: 1.0 / 7}}})
	if m := regexp.MustCompile(`\d+\.\d{3,}|[eE][+-]\d|NaN|Inf`).FindString(string(Inline(l, "x"))); m != "" {
		t.Errorf("found %q", m)
	}
}

// TestNothingAddsUp walks a thousand steps of a third of a hundredth: relative
// steps must not gather their rounding.
func TestNothingAddsUp(t *testing.T) {
	segs := []leaf.Seg{seg(leaf.Move, 0, 5)}
	for i := range 1000 {
		segs = append(segs, seg(leaf.To, float64(i+1)*0.00333, 5))
	}
	w := &writer{}
	w.data(segs)
	sum := 0
	for _, n := range regexp.MustCompile(`h(-?[\d.]+)`).FindAllStringSubmatch(w.b.String(), -1) {
		switch n[1] {
		case "0":
		case ".01":
			sum++
		default:
			t.Fatalf("a step of %s", n[1])
		}
	}
	if sum != 333 {
		t.Errorf("the run is %d hundredths long, want 333", sum)
	}
}

func TestPaperHidesOnlyWhatCameBefore(t *testing.T) {
	s := string(Inline(sample(), "x"))
	before, after := strings.Index(s, `M10 12`), strings.Index(s, `M60 5`)
	cover := strings.Index(s, `leaf-paper`)
	if before < 0 || after < 0 || !(before < cover && cover < after) {
		t.Errorf("hidden line at %d, paper at %d, saw line at %d", before, cover, after)
	}
	if strings.Index(s, "<text") < strings.LastIndex(s, "<path") {
		t.Error("a line lies over the words")
	}
}
