package book_test

import (
	"context"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rodwork/examples"
	"rodwork/internal/book"
	"rodwork/internal/design"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/trace"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// demo is the plan of the piece that the program shows.
func demo(t testing.TB) *plan.Plan {
	t.Helper()
	piece, shop := examples.Main()
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if p == nil {
		t.Fatalf("the demo makes no plan: %+v", ds)
	}
	return p
}

// plans are the plans of every example; those without a shop file of their own
// use the demo's shop.
func plans(t testing.TB) map[string]*plan.Plan {
	t.Helper()
	out := map[string]*plan.Plan{}
	files, err := fs.Glob(examples.Files, "*/piece.yaml")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, f := range files {
		piece, _ := examples.Files.ReadFile(f)
		_, shop := examples.Main()
		if own, err := examples.Files.ReadFile(path.Dir(f) + "/shop.yaml"); err == nil {
			shop = own
		}
		p, ds := plan.Make(context.Background(), plan.Source{PieceFile: f, Piece: piece, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
		if p == nil {
			t.Fatalf("%s makes no plan: %+v", f, ds)
		}
		out[f] = p
	}
	return out
}

// sentences returns every sentence of the book, those of tables too.
func sentences(b *book.Book) []say.Sentence {
	out := []say.Sentence{b.Lead}
	for _, c := range b.Chapters {
		for _, bl := range c.Blocks {
			switch bl := bl.(type) {
			case book.Paragraph:
				out = append(out, bl.Text)
			case book.Finding:
				out = append(out, bl.Finding.Text)
			case book.Caution:
				out = append(out, bl.Text...)
			case book.Steps:
				for _, s := range bl.Steps {
					out = append(append(out, s.Text), s.Notes...)
				}
			case book.Table:
				out = append(out, cells(bl.Table)...)
			}
		}
	}
	return out
}

func cells(t table.Table) []say.Sentence {
	var out []say.Sentence
	for _, r := range t.Rows {
		for _, c := range r.Cells {
			switch {
			case c.Q != nil:
				out = append(out, say.Sentence{{Q: c.Q}})
			case len(c.Say) > 0:
				out = append(out, c.Say)
			default:
				out = append(out, say.Sentence{{Text: c.Text}})
			}
		}
	}
	return out
}

func TestChaptersInTheOrderOfTheWork(t *testing.T) {
	b := book.Make(demo(t), book.Options{})
	want := []string{"brief", "piece", "shell", "inside", "fronts", "before", "buy", "cut", "test", "bend", "join",
		"finish", "assemble", "hang", "living", "check", "sources"}
	var got []string
	for i, c := range b.Chapters {
		got = append(got, c.Key)
		if c.Number != i+1 || c.Title == "" || len(c.Blocks) == 0 {
			t.Errorf("chapter %q: number %d, title %q, %d blocks", c.Key, c.Number, c.Title, len(c.Blocks))
		}
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestIDsAreUniqueAndTablesWhole(t *testing.T) {
	for name, p := range plans(t) {
		t.Run(name, func(t *testing.T) { idsAreUniqueAndTablesWhole(t, p) })
	}
}

func idsAreUniqueAndTablesWhole(t *testing.T, p *plan.Plan) {
	b := book.Make(p, book.Options{})
	seen := map[string]bool{}
	figures := 0
	for _, c := range b.Chapters {
		for _, bl := range c.Blocks {
			id := bl.BlockID()
			if id == "" || seen[id] {
				t.Errorf("block id %q is empty or used twice", id)
			}
			seen[id] = true
			switch bl := bl.(type) {
			case book.Table:
				if err := bl.Table.Check(); err != nil {
					t.Error(err)
				}
			case book.Figure:
				figures++
				if bl.Number != figures || bl.Leaf.Alt == "" || bl.Leaf.Title == "" {
					t.Errorf("figure %q: number %d of %d, title %q, alt %q", id, bl.Number, figures, bl.Leaf.Title, bl.Leaf.Alt)
				}
			}
		}
	}
}

// Every finding stands once beside a block of its chapter, and once in the list
// of all; every part is in a parts list; every size and every fitting is shown.
func TestNothingIsLeftOut(t *testing.T) {
	for name, p := range plans(t) {
		t.Run(name, func(t *testing.T) { nothingIsLeftOut(t, p) })
	}
}

func nothingIsLeftOut(t *testing.T, p *plan.Plan) {
	b := book.Make(p, book.Options{})
	beside, listed, rows := map[string]int{}, map[string]int{}, map[string]int{}
	blocks := map[string]bool{}
	for _, c := range b.Chapters {
		for _, bl := range c.Blocks {
			blocks[bl.BlockID()] = true
			switch bl := bl.(type) {
			case book.Finding:
				beside[bl.Finding.ID]++
				if bl.Beside != "" && !blocks[bl.Beside] {
					t.Errorf("finding %q stands beside %q, which is not before it", bl.Finding.ID, bl.Beside)
				}
			case book.Table:
				for _, r := range bl.Table.Rows {
					if bl.Table.Key == "check/findings" || bl.Table.Key == "check/fine" {
						listed[r.ID]++
					} else {
						rows[r.ID]++
					}
				}
			}
		}
	}
	for _, f := range p.Findings {
		if beside[f.ID] != 1 || listed[f.ID] != 1 {
			t.Errorf("finding %q: beside a block %d times, listed %d times", f.ID, beside[f.ID], listed[f.ID])
		}
	}
	for _, q := range p.Piece.Parts {
		if rows[q.ID] != 1 {
			t.Errorf("part %q is %d times in the parts lists", q.ID, rows[q.ID])
		}
	}
	for _, j := range p.Piece.Joints {
		if rows[j.ID] != 1 {
			t.Errorf("joint %q is %d times in the book", j.ID, rows[j.ID])
		}
	}
	live := map[string]bool{}
	for _, s := range sentences(b) {
		for _, sp := range s {
			if sp.Q != nil {
				live[sp.Q.Path] = true
			}
		}
	}
	for _, s := range p.Design.Sizes {
		if !live[s.Path] {
			t.Errorf("size %q is nowhere in the book as a value that can be changed", s.Path)
		}
	}
}

// A value that says it may be changed at a path has a path that the files have.
func TestLivePathsLeadSomewhere(t *testing.T) {
	for name, p := range plans(t) {
		t.Run(name, func(t *testing.T) { livePathsLeadSomewhere(t, p) })
	}
}

func livePathsLeadSomewhere(t *testing.T, p *plan.Plan) {
	n := 0
	habits := map[string]bool{} // filled in by the shop: not written, but may be
	for _, in := range p.Ledger.Inputs() {
		habits[in.Path] = true
	}
	for _, s := range sentences(book.Make(p, book.Options{})) {
		for _, sp := range s {
			at := sp.Path
			if sp.Q != nil {
				at = sp.Q.Path
			}
			if at == "" {
				continue
			}
			n++
			_, inPiece := p.Design.Places[at]
			_, inShop := p.Design.Shop.Places[at]
			if !inPiece && !inShop && !habits[at] {
				t.Errorf("path %q leads nowhere", at)
			}
		}
	}
	if n < 15 {
		t.Errorf("only %d values that can be changed", n)
	}
}

// A ledger id on a quantity names a value that is that number.
func TestLedgerIDsAreThatValue(t *testing.T) {
	p := demo(t)
	n := 0
	for _, s := range sentences(book.Make(p, book.Options{})) {
		for _, sp := range s {
			if sp.Q == nil || sp.Q.ID == "" {
				continue
			}
			n++
			if v, ok := p.Ledger.Find(sp.Q.ID); !ok || v.Num.V != sp.Q.V {
				t.Errorf("%q is said to be %v", sp.Q.ID, sp.Q.V)
			}
		}
	}
	if n < 100 {
		t.Errorf("only %d values have their name in the ledger", n)
	}
}

// The book never says that something meets a standard or a law.
func TestNeverSaysComplies(t *testing.T) {
	banned := regexp.MustCompile(`(?i)\b(compl(y|ies|iant|iance)|certified|conforms?)\b`)
	for name, p := range plans(t) {
		b := book.Make(p, book.Options{})
		for _, s := range sentences(b) {
			if m := banned.FindString(b.Plain(s)); m != "" {
				t.Errorf("%s: %q in %q", name, m, b.Plain(s))
			}
		}
		for _, r := range p.Rules { // as the book, the terminal and the documents print them
			for _, s := range append([]string{r.Title, r.Question, r.Accuracy}, append(r.Assumes, r.Remedies...)...) {
				if m := banned.FindString(s); m != "" {
					t.Errorf("rule %s: %q in %q", r.ID, m, s)
				}
			}
		}
	}
}

func TestSameBookTwice(t *testing.T) {
	p := demo(t)
	a, b := book.Make(p, book.Options{}), book.Make(p, book.Options{})
	for i := range a.Chapters {
		for k, bl := range a.Chapters[i].Blocks {
			if bl.BlockID() != b.Chapters[i].Blocks[k].BlockID() {
				t.Fatalf("chapter %d, block %d: %q and %q", i, k, bl.BlockID(), b.Chapters[i].Blocks[k].BlockID())
			}
		}
	}
}

// A plan of which almost nothing is known makes a book all the same.
func TestBarePlan(t *testing.T) {
	for _, p := range []*plan.Plan{{}, {Design: &design.Design{Name: "Nothing yet"}, Ledger: &trace.Ledger{}}} {
		b := book.Make(p, book.Options{})
		if b.Title == "" || len(b.Chapters) != 17 || b.System != units.MM {
			t.Errorf("title %q, %d chapters, system %q", b.Title, len(b.Chapters), b.System)
		}
	}
}

func TestLeadTellsTheWorst(t *testing.T) {
	for _, c := range []struct {
		verdicts []work.Verdict
		want     string
	}{
		{[]work.Verdict{work.Fine, work.Stop, work.Look}, "Don’t cut yet: 1 finding says stop."},
		{[]work.Verdict{work.Stop, work.Stop}, "Don’t cut yet: 2 findings say stop."},
		{[]work.Verdict{work.Look, work.NotCovered}, "No finding says stop. 2 wait for your decision before the first cut."},
		{[]work.Verdict{work.Look}, "No finding says stop. 1 waits for your decision before the first cut."},
		{[]work.Verdict{work.Fine}, "Every check that was made says fine."},
		{nil, "No check was made: nothing here has been proved."},
	} {
		p := &plan.Plan{}
		for _, v := range c.verdicts {
			p.Findings = append(p.Findings, work.Finding{Verdict: v})
		}
		b := book.Make(p, book.Options{})
		if got := b.Plain(b.Lead); got != c.want {
			t.Errorf("%v: %q, want %q", c.verdicts, got, c.want)
		}
	}
}

// The list of all findings has the gravest first.
func TestGravestFirst(t *testing.T) {
	p := demo(t)
	order := []string{"stop", "look", "not covered", "fine"}
	for _, c := range book.Make(p, book.Options{}).Chapters {
		for _, bl := range c.Blocks {
			tb, ok := bl.(book.Table)
			if !ok || tb.Table.Key != "check/findings" {
				continue
			}
			last := 0
			for _, r := range tb.Table.Rows {
				at := slices.Index(order, r.Cells[0].Text)
				if at < last {
					t.Errorf("%q comes after %q", r.Cells[0].Text, order[last])
				}
				last = at
			}
		}
	}
}

func BenchmarkMake(b *testing.B) {
	p := demo(b)
	for b.Loop() {
		book.Make(p, book.Options{})
	}
}
