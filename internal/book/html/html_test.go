package html

import (
	"bytes"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"rodwork/internal/book"
	"rodwork/internal/book/sample"
	"rodwork/internal/say"
)

// element is one start tag of the page, with the text inside it.
type element struct {
	name  string
	attrs map[string]string
	text  string
}

// parse reads the page as XML and returns its elements in order.
func parse(t interface{ Fatalf(string, ...any) }, page []byte) []element {
	d := xml.NewDecoder(bytes.NewReader(page))
	var out []element
	var open []int
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return out
		}
		if err != nil {
			t.Fatalf("the page is not well formed: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			e := element{name: tok.Name.Local, attrs: map[string]string{}}
			for _, a := range tok.Attr {
				e.attrs[a.Name.Local] = a.Value
			}
			open = append(open, len(out))
			out = append(out, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			for _, i := range open {
				switch out[i].name {
				case "html", "head", "style", "body", "main", "section": // too much to be of use
				default:
					out[i].text += string(tok)
				}
			}
		}
	}
}

func find(es []element, ok func(element) bool) []element {
	var out []element
	for _, e := range es {
		if ok(e) {
			out = append(out, e)
		}
	}
	return out
}

func TestStructure(t *testing.T) {
	b := sample.Book("Seed shelf")
	es := parse(t, Render(b))
	count := func(name string) int { return len(find(es, func(e element) bool { return e.name == name })) }
	if count("h1") != 1 || count("main") != 1 || count("nav") != 1 || count("header") != 1 {
		t.Error("the page wants one title and one each of its landmarks")
	}
	if got := count("h2"); got != len(b.Chapters)+1 { // and the contents'
		t.Errorf("%d second headings for %d chapters", got, len(b.Chapters))
	}
	seen := map[string]bool{}
	for _, e := range es {
		id := e.attrs["id"]
		if id != "" && seen[id] {
			t.Errorf("id %q twice", id)
		}
		seen[id] = true
	}
	for _, e := range es {
		if h := e.attrs["href"]; strings.HasPrefix(h, "#") && !seen[h[1:]] && h != "#b-check" {
			t.Errorf("link to %q leads nowhere", h)
		}
		for _, ref := range strings.Fields(e.attrs["aria-labelledby"]) {
			if !seen[ref] {
				t.Errorf("aria-labelledby %q names nothing", ref)
			}
		}
		if e.name == "th" && e.attrs["scope"] == "" {
			t.Errorf("table head %q without scope", e.text)
		}
	}
	for _, c := range b.Chapters {
		for _, bl := range c.Blocks {
			if !seen[anchor(bl.BlockID())] {
				t.Errorf("block %q is not on the page", bl.BlockID())
			}
		}
	}
}

func TestLiveAndComputedValues(t *testing.T) {
	es := parse(t, Render(sample.Book("Seed shelf")))
	live := find(es, func(e element) bool { return e.attrs["class"] == "v" && e.attrs["data-path"] == "sizes.width" })
	if len(live) != 1 || live[0].text != "620\u00a0mm" || live[0].attrs["data-id"] != "piece/width" {
		t.Errorf("the written width: %+v", live)
	}
	computed := find(es, func(e element) bool { return e.attrs["class"] == "c" && e.attrs["data-id"] == "shelf/width" })
	if len(computed) != 1 || computed[0].attrs["data-path"] != "" {
		t.Errorf("the computed depth: %+v", computed)
	}
	choice := find(es, func(e element) bool { return e.attrs["data-path"] == "stock.panels" })
	if len(choice) != 1 || choice[0].text != "birch ply 18" {
		t.Errorf("the chosen stock: %+v", choice)
	}
}

func TestFormulasAreMarked(t *testing.T) {
	b := sample.Book("Seed shelf")
	b.Formulas = map[string]string{"sizes.width": `2 * "a" + 20`}
	es := find(parse(t, Render(b)), func(e element) bool { return e.attrs["data-path"] == "sizes.width" && e.name == "b" })
	if len(es) == 0 || es[0].attrs["class"] != "v formula" || es[0].attrs["title"] != `2 * "a" + 20` {
		t.Errorf("the width, a formula: %+v", es)
	}
}

func TestFindingsSayTheirVerdict(t *testing.T) {
	es := parse(t, Render(sample.Book("Seed shelf")))
	asides := find(es, func(e element) bool { return e.name == "aside" })
	if len(asides) != 2 {
		t.Fatalf("%d findings, want 2", len(asides))
	}
	for i, word := range []string{"stop", "not covered"} {
		if !strings.Contains(asides[i].text, word) {
			t.Errorf("finding %d does not say %q: %q", i, word, asides[i].text)
		}
	}
}

// The page asks for nothing from anywhere.
func TestSelfContained(t *testing.T) {
	page := Render(sample.Book("Seed shelf"))
	es := parse(t, page)
	for _, e := range es {
		switch e.name {
		case "script", "link", "iframe", "object", "embed", "img", "form":
			t.Errorf("element %q has no business here", e.name)
		}
		for k, v := range e.attrs {
			if strings.HasPrefix(k, "on") || k == "style" || k == "src" {
				t.Errorf("attribute %s=%q", k, v)
			}
			if k == "href" && !strings.HasPrefix(v, "#") {
				t.Errorf("link out of the page: %q", v)
			}
		}
	}
	for _, m := range regexp.MustCompile(`url\([^)]{0,30}`).FindAll(page, -1) {
		if !bytes.HasPrefix(m, []byte("url(data:font/woff2;base64,")) {
			t.Errorf("the style loads %s…", m)
		}
	}
	if !bytes.Contains(page, []byte("default-src &#39;none&#39;")) {
		t.Error("no policy in the page")
	}
	if len(page) > 400_000 {
		t.Errorf("an almost empty book takes %d bytes", len(page))
	}
}

func TestHostileNames(t *testing.T) {
	for _, name := range []string{`<script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, `' onmouseover='x`, `]]>&amp;<!--`,
		"שולחן \u202eabc", "a\x00b\x1bc\xffd", strings.Repeat("Wardrobe", 1250), "", "</style></title><body>"} {
		page := Render(sample.Book(name))
		es := parse(t, page)
		if n := find(es, func(e element) bool { return e.name == "script" || e.name == "img" }); len(n) != 0 {
			t.Errorf("name %.30q became an element", name)
		}
		for _, e := range es {
			if e.attrs["onerror"] != "" || e.attrs["onmouseover"] != "" {
				t.Errorf("name %.30q became an attribute", name)
			}
		}
		if name == "" || strings.ContainsAny(name, "\x00\x1b") || !utf8.ValidString(name) {
			continue
		}
		if got := find(es, func(e element) bool { return e.name == "h1" })[0].text; got != name {
			t.Errorf("title %.40q, want %.40q", got, name)
		}
	}
	if page := Render(sample.Book("שולחן")); !bytes.Contains(page, []byte("<bdi>שולחן</bdi>")) {
		t.Error("a name from right to left is not set apart")
	}
}

// Any text survives escaping, but for what XML can't hold.
func TestEscapeRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "s")
		es := parse(t, []byte(`<p a="`+escape(s)+`">`+words(s)+`</p>`))
		want := strings.Map(func(r rune) rune {
			switch {
			case r == '\n' || r == '\t' || r == '\r':
				return ' '
			case r < 0x20 || r >= 0x7f && r < 0xa0 || r == 0xfffe || r == 0xffff:
				return '\ufffd'
			}
			return r
		}, s)
		if es[0].text != want || es[0].attrs["a"] != want {
			t.Fatalf("%q came back as %q and %q", want, es[0].text, es[0].attrs["a"])
		}
	})
}

// Two ids never share an anchor, and an anchor is plain ASCII.
func TestAnchors(t *testing.T) {
	plain := regexp.MustCompile(`^b-[A-Za-z0-9_.-]*$`)
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.StringMatching(`[ab2 /_.é-]{0,6}`).Draw(t, "a")
		b := rapid.StringMatching(`[ab2 /_.é-]{0,6}`).Draw(t, "b")
		if !plain.MatchString(anchor(a)) {
			t.Fatalf("anchor %q", anchor(a))
		}
		if a != b && anchor(a) == anchor(b) {
			t.Fatalf("%q and %q share the anchor %q", a, b, anchor(a))
		}
	})
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(Render(sample.Book("Seed shelf")), Render(sample.Book("Seed shelf"))) {
		t.Error("the same book gave other bytes")
	}
}

// A chapter may have findings and nothing else.
func TestChapterOfFindingsOnly(t *testing.T) {
	b := &book.Book{Title: "x", Lead: say.F("y"), Chapters: []book.Chapter{{Key: "cut", Number: 1, Title: "Cut",
		Blocks: sample.Book("x").Chapters[0].Blocks[1:3]}}}
	if n := find(parse(t, Render(b)), func(e element) bool { return e.name == "aside" }); len(n) != 2 {
		t.Errorf("%d findings, want 2", len(n))
	}
}

func BenchmarkRender(b *testing.B) {
	bk := sample.Book("Seed shelf")
	for b.Loop() {
		Render(bk)
	}
}
