package pdf

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"rodwork/examples"
	"rodwork/internal/book"
	"rodwork/internal/book/sample"
	"rodwork/internal/noskip"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// demo is the book of the example piece; it and its pages are made once.
var (
	demo = sync.OnceValue(func() *book.Book {
		piece, shop := examples.Main()
		p, _ := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
		return book.Make(p, book.Options{})
	})
	demoPages = sync.OnceValues(func() ([]byte, error) { return Render(demo(), Options{}) })
)

func demoPDF(t testing.TB) []byte {
	t.Helper()
	out, err := demoPages()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func render(t testing.TB, b *book.Book, opt Options) []byte {
	t.Helper()
	out, err := Render(b, opt)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(demoPDF(t), render(t, demo(), Options{})) {
		t.Error("two runs differ")
	}
}

// file writes a document where a reader of it can find it.
func file(t testing.TB, data []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "book.pdf")
	if err := os.WriteFile(name, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// pages returns the text of each page, as an independent reader finds it.
func pages(t testing.TB, data []byte) []string {
	t.Helper()
	out, err := exec.Command(noskip.Program(t, "pdftotext"), "-layout", file(t, data), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

// squeezed is text without any space, so that line ends don't matter.
func squeezed(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u00a0", " ")), "")
}

func TestReadersFindNoFault(t *testing.T) {
	check, other := noskip.Program(t, "qpdf"), noskip.Program(t, "mutool")
	for name, data := range map[string][]byte{"demo": demoPDF(t),
		"sample": render(t, sample.Book("Seed shelf"), Options{Paper: Letter})} {
		path := file(t, data)
		if out, err := exec.Command(check, "--check", path).CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", name, err, out)
		}
		out, err := exec.Command(other, "show", path, "trailer/Root/ViewerPreferences/PrintScaling", "trailer/Root/Lang").CombinedOutput()
		if err != nil || !strings.HasPrefix(string(out), "/None") || !strings.Contains(string(out), "en") {
			t.Errorf("%s: %v, %s", name, err, out)
		}
	}
}

// Everything that the book says is on the pages, and the contents name the page
// that each chapter stands on.
func TestNothingIsLeftOut(t *testing.T) {
	b := demo()
	ps := pages(t, demoPDF(t))
	all := squeezed(strings.Join(ps, " "))
	has := func(s string) {
		t.Helper()
		if !strings.Contains(all, squeezed(s)) {
			t.Errorf("not on any page: %q", s)
		}
	}
	for _, c := range b.Chapters {
		line := regexp.MustCompile(`(?m)^ *` + strconv.Itoa(c.Number) + ` +` + regexp.QuoteMeta(c.Title) + `.* (\d+)$`).FindStringSubmatch(ps[0])
		if line == nil {
			t.Errorf("chapter %d is not in the contents", c.Number)
			continue
		}
		n, _ := strconv.Atoi(line[1])
		if n < 1 || n > len(ps) || !strings.Contains(squeezed(ps[n-1]), strconv.Itoa(c.Number)+squeezed(c.Title)) {
			t.Errorf("chapter %d is not on page %s", c.Number, line[1])
		}
		for _, bl := range c.Blocks {
			switch bl := bl.(type) {
			case book.Heading:
				has(bl.Text)
			case book.Table:
				has(bl.Table.Caption)
			case book.Figure:
				has(fmt.Sprintf("Fig. %d.", bl.Number))
			case book.Finding:
				has(string(bl.Finding.Verdict))
			case book.Caution:
				has("Caution: " + bl.Title)
			case book.Steps:
				has(bl.Title)
			case book.RuleNote:
				has(bl.Rule.ID)
			}
		}
	}
}

var wordBox = regexp.MustCompile(`<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)<`)

// No word hangs over the paper's edge or into the foot, on either paper.
func TestWordsStayOnThePage(t *testing.T) {
	prog := noskip.Program(t, "pdftotext")
	for paper, data := range map[Paper][]byte{A4: demoPDF(t), Letter: render(t, demo(), Options{Paper: Letter})} {
		w, h := 210/25.4*72, 297/25.4*72
		if paper == Letter {
			w, h = 612, 792
		}
		out, err := exec.Command(prog, "-bbox", file(t, data), "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, m := range wordBox.FindAllStringSubmatch(string(out), -1) {
			n++
			x0, _ := strconv.ParseFloat(m[1], 64)
			x1, _ := strconv.ParseFloat(m[3], 64)
			y1, _ := strconv.ParseFloat(m[4], 64)
			y0, _ := strconv.ParseFloat(m[2], 64)
			if end, foot := h-(footMargin-1)/25.4*72, h-44; y0 > end && y0 < foot {
				t.Errorf("%s: %q stands between the page's end and its foot", paper, m[5])
			}
			if x0 < 8 || x1 > w-8 || y1 > h-20 {
				t.Errorf("%s: %q at %s…%s, foot %s", paper, m[5], m[1], m[3], m[4])
			}
		}
		if n < 5000 {
			t.Errorf("%s: only %d words", paper, n)
		}
	}
}

// A heading is on the page of what follows it, wherever on the page it falls.
func TestHeadingsStayWithWhatFollows(t *testing.T) {
	long := say.F(strings.Repeat("a line of words that goes on for a while and then some, ", 6))
	for n := range 60 {
		var blocks []book.Block
		for i := range n {
			blocks = append(blocks, book.Paragraph{ID: book.ID(fmt.Sprint("x/p", i)), Text: say.F("One line.")})
		}
		var rows []table.Row
		for i := range 30 {
			rows = append(rows, table.Row{Cells: []table.Cell{table.Count(i)}})
		}
		blocks = append(blocks, book.Heading{ID: "x/h", Text: "A heading"}, book.Paragraph{ID: "x/after", Text: long},
			book.Heading{ID: "x/h2", Text: "Another"}, book.Table{ID: "x/table", Table: table.Table{Key: "x/table", Caption: "Rows",
				Columns: []table.Column{table.Numbers("no.", units.Count)}, Rows: rows}})
		b := &book.Book{Title: "T", System: units.MM, Chapters: []book.Chapter{{Key: "x", Number: 1, Title: "X", Blocks: blocks}}}
		s := newSetter(b, sizeOf(Options{}, b), nil, 0)
		s.book()
		for _, pair := range [][2]string{{"x/h", "x/after"}, {"x/h2", "x/table"}} {
			if s.seen[pair[0]] != s.seen[pair[1]] {
				t.Errorf("%d lines before: heading on page %d, what follows on %d", n, s.seen[pair[0]], s.seen[pair[1]])
			}
		}
	}
}

// Names may hold anything: no name breaks the document or takes it over.
func TestHostileNames(t *testing.T) {
	check := noskip.Program(t, "qpdf")
	for _, name := range []string{"", ")>>endobj", "<</S/JavaScript>>", "\\)\\", "\x00\xff\xfe", strings.Repeat("w", 5000), strings.Repeat("漢字 ", 1000),
		"שלום \u202e\u2066abc", "😀\u0301", "line\nend\r\n\tand"} {
		data := render(t, sample.Book(name), Options{})
		if out, err := exec.Command(check, "--check", file(t, data)).CombinedOutput(); err != nil {
			t.Errorf("%.20q: %s", name, out)
		}
		if bytes.Contains(data, []byte("JavaScript")) {
			t.Errorf("%.20q reached the file as it is", name)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.String().Draw(t, "name")
		b := sample.Book(name)
		if _, err := Render(b, Options{Paper: rapid.SampledFrom([]Paper{A4, Letter}).Draw(t, "paper")}); err != nil {
			t.Fatal(err)
		}
	})
}

// A row that no page holds goes over to the next instead of off the paper.
func TestRowTallerThanAPage(t *testing.T) {
	b := sample.Book("x")
	tall := table.Table{Key: "cut/tall", Caption: "Tall", Columns: []table.Column{table.Words("a"), table.Words("b")}}
	tall.Add(table.T(strings.Repeat("word ", 4000)), table.T("short"))
	b.Chapters[1].Blocks = append(b.Chapters[1].Blocks, book.Table{ID: "cut/tall", Table: tall})
	ps := pages(t, render(t, b, Options{}))
	n := strings.Count(strings.Join(ps, " "), "word")
	if n != 4000 {
		t.Errorf("%d words of 4000", n)
	}
	if len(ps) > 20 {
		t.Errorf("%d pages", len(ps))
	}
}

func TestPaper(t *testing.T) {
	for sys, want := range map[units.System]string{units.MM: "A4", units.Inch: "Letter"} {
		if got := sizeOf(Options{}, &book.Book{System: sys}).Name; got != want {
			t.Errorf("%s: %s", sys, got)
		}
	}
	if got := sizeOf(Options{Paper: A4}, &book.Book{System: units.Inch}).Name; got != "A4" {
		t.Error(got)
	}
}

func BenchmarkDemo(b *testing.B) {
	bk := demo()
	for b.Loop() {
		render(b, bk, Options{})
	}
}

// A book with nothing in it, or with odd things in it, is set all the same.
func TestOddBooks(t *testing.T) {
	odd := []book.Block{book.Heading{ID: "x/h"}, book.Paragraph{ID: "x/p"}, book.Table{ID: "x/t"}, book.Steps{ID: "x/s"},
		book.Figure{ID: "x/f"}, book.Caution{ID: "x/c"}, book.NotYet{ID: "x/n"}, book.Finding{ID: "x/finding"},
		book.Table{ID: "x/t2", Table: table.Table{Columns: []table.Column{table.Words("a"), table.Words("b")}, Rows: make([]table.Row, 40)}}}
	for _, b := range []*book.Book{{}, {Title: "x", Chapters: []book.Chapter{{}}}, {Chapters: []book.Chapter{{Key: "x", Blocks: odd}, {Key: "x", Blocks: odd[7:]}}}} {
		ps := pages(t, render(t, b, Options{}))
		if len(ps) > 5 {
			t.Errorf("%d pages of nothing", len(ps))
		}
	}
}

// Widths add up to what there is, no column is cut while all words have room,
// and narrow columns keep what they like.
func TestColumnsShareTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "n")
		least, most := make([]float64, n), make([]float64, n)
		for c := range n {
			least[c] = rapid.Float64Range(0, 40).Draw(t, "least")
			most[c] = least[c] + rapid.Float64Range(0, 100).Draw(t, "more")
		}
		width := rapid.Float64Range(10, 170).Draw(t, "width")
		if sum(most) <= width {
			return
		}
		got := share(least, most, width)
		if d := sum(got) - width; d > 1e-6 || d < -1e-6 {
			t.Fatalf("%v add up to %g of %g", got, sum(got), width)
		}
		for c := range got {
			if sum(least) <= width && got[c] < least[c]-1e-9 {
				t.Fatalf("column %d has %g, its longest word %g", c, got[c], least[c])
			}
		}
	})
}
