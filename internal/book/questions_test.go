package book_test

import (
	"context"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/book"
	"rodwork/internal/plan"
)

// question is one of docs/questions.md: what a maker asks, the answer, and the
// words of the book that give it.
type question struct {
	number        int
	ask, answer   string
	chapter, said string
}

// fewest is how many questions the list has at least.
const fewest = 60

var (
	asked  = regexp.MustCompile(`^### (\d+)\. (.+)$`)
	quoted = regexp.MustCompile(`^> ([^:]+): (.+)$`)
	bold   = regexp.MustCompile(`\*\*([^*]+)\*\*`)
)

// readQuestions reads the list.
func readQuestions(t *testing.T) []question {
	t.Helper()
	text, err := os.ReadFile("../../docs/questions.md")
	if err != nil {
		t.Fatal(err)
	}
	var out []question
	for _, l := range strings.Split(string(text), "\n") {
		if m := asked.FindStringSubmatch(l); m != nil {
			n, _ := strconv.Atoi(m[1])
			out = append(out, question{number: n, ask: m[2]})
			continue
		}
		if len(out) == 0 || strings.HasPrefix(l, "#") {
			continue
		}
		q := &out[len(out)-1]
		if m := quoted.FindStringSubmatch(l); m != nil {
			q.chapter, q.said = m[1], m[2]
		} else {
			q.answer = strings.TrimSpace(q.answer + " " + l)
		}
	}
	return out
}

// chapterTexts are the chapters' words by their title, the cells of a row with
// a bar between them.
func chapterTexts(b *book.Book) map[string]string {
	out := map[string]string{}
	for _, c := range b.Chapters {
		var lines []string
		for _, bl := range c.Blocks {
			lines = append(lines, blockText(b, bl)...)
		}
		out[c.Title] = strings.Join(lines, "\n")
	}
	return out
}

func blockText(b *book.Book, bl book.Block) []string {
	switch bl := bl.(type) {
	case book.Heading:
		return []string{bl.Text}
	case book.Paragraph:
		return []string{b.Plain(bl.Text)}
	case book.Finding:
		out := []string{bl.Finding.Title + ": " + b.Plain(bl.Finding.Text)}
		for _, m := range bl.Finding.Mends {
			out = append(out, b.Plain(m.Text))
		}
		return out
	case book.Caution:
		out := []string{bl.Title}
		for _, s := range bl.Text {
			out = append(out, b.Plain(s))
		}
		return out
	case book.Steps:
		out := []string{bl.Title}
		for _, s := range bl.Steps {
			line := strconv.Itoa(s.Number) + ". " + b.Plain(s.Text)
			for _, n := range s.Notes {
				line += " (" + b.Plain(n) + ")"
			}
			out = append(out, line)
		}
		return out
	case book.Table:
		out := []string{bl.Table.Caption}
		for _, r := range bl.Table.Rows {
			var row []string
			for i, c := range r.Cells {
				switch {
				case c.Q != nil:
					row = append(row, b.PrintedIn(*c.Q, bl.Table.Columns[i]))
				case len(c.Say) > 0:
					row = append(row, b.Plain(c.Say))
				default:
					row = append(row, c.Text)
				}
			}
			out = append(out, strings.Join(row, " | "))
		}
		return append(out, bl.Table.Note)
	}
	return nil
}

// The answers of the list stand in the book of the demo, word for word, in the
// chapter that they are said to stand in, and each value of an answer is one of
// those words.
func TestQuestionsAreAnswered(t *testing.T) {
	qs := readQuestions(t)
	if len(qs) < fewest {
		t.Errorf("%d questions, not %d", len(qs), fewest)
	}
	texts := chapterTexts(book.Make(demo(t), book.Options{}))
	for i, q := range qs {
		if q.number != i+1 {
			t.Errorf("question %d is numbered %d", i+1, q.number)
		}
		text, ok := texts[q.chapter]
		if !ok {
			t.Errorf("question %d: no chapter %q", q.number, q.chapter)
		} else if !strings.Contains(text, q.said) {
			t.Errorf("question %d, %s: ‘%s’ does not say %q", q.number, q.ask, q.chapter, q.said)
		}
		values := bold.FindAllStringSubmatch(q.answer, -1)
		if len(values) == 0 {
			t.Errorf("question %d has no value in its answer", q.number)
		}
		for _, v := range values {
			if !strings.Contains(q.said, v[1]) {
				t.Errorf("question %d: %q is not among %q", q.number, v[1], q.said)
			}
		}
	}
}

// The answers hang on the piece: with other stock, another turn and other sizes
// most of them are no longer true.
func TestQuestionsHangOnThePiece(t *testing.T) {
	piece, shop := examples.Main()
	other := strings.NewReplacer("width: 1460", "width: 1400", "height: 860", "height: 840", "depth: 400", "depth: 410", "turn: 140", "turn: 130",
		"gap: 2.5 ", "gap: 2.0 ", "plinth: 100", "plinth: 96", "kerfs: 36", "kerfs: 34", "skin: 1.6", "skin: 1.7", "youngest: 4", "youngest: 5",
		"count: 40", "count: 30", "coats: 2", "coats: 3", "at: [80,", "at: [85,", "finger hole 30", "finger hole 32", "skirting: {height: 95", "skirting: {height: 90", "pitch: 32", "pitch: 25").Replace(string(piece))
	barn := strings.NewReplacer("[17.62, 17.68, 17.71, 17.75, 17.70, 17.66, 17.78, 17.70]", "[18.02, 18.08]", "mean: 2.20", "mean: 2.40",
		"diameter: 15.95", "diameter: 15.80", "diameter: 12.00", "diameter: 12.10", "snug: 0.1", "snug: 0.2", "sliding: 0.3", "sliding: 0.4",
		"92 EUR", "95 EUR", "open time: 9", "open time: 8", "reach: 1200", "reach: 1250", "cup depth: 12.6", "cup depth: 12").Replace(string(shop))
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: []byte(other), ShopFile: "shop.yaml", Shop: []byte(barn)}, plan.Options{})
	if p == nil {
		t.Fatalf("no plan: %+v", ds)
	}
	texts := chapterTexts(book.Make(p, book.Options{}))
	gone := 0
	qs := readQuestions(t)
	for _, q := range qs {
		if !strings.Contains(texts[q.chapter], q.said) {
			gone++
		}
	}
	if gone < len(qs)*3/4 {
		t.Errorf("only %d of %d answers change with the piece", gone, len(qs))
	}
}
