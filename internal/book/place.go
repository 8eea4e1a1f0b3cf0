package book

import (
	"slices"
	"strings"

	"rodwork/internal/work"
)

// chapterOf returns the chapter that a finding is shown in: its own where the
// book has it; a finding of no known chapter stands by the piece as a whole.
func chapterOf(f work.Finding) string {
	switch f.Chapter {
	case "brief", "piece", "shell", "inside", "fronts", "before", "buy", "cut", "test", "bend", "join", "finish", "assemble",
		"hang", "living", "check":
		return f.Chapter
	}
	return "piece"
}

// withFindings puts the chapter's findings after the blocks that cause them.
// Several at one block stand
// gravest first.
func (w *writer) withFindings(key string, blocks []Block) []Block {
	at := map[string][]Finding{}
	for _, f := range w.p.Findings {
		if chapterOf(f) != key {
			continue
		}
		beside := w.besideWhich(f, blocks)
		f.Title, f.Text = upper(f.Title), capital(f.Text)
		at[beside] = append(at[beside], Finding{ID: ID("finding/" + f.ID), Finding: f, Rule: w.rules[f.Rule], Beside: beside})
	}
	for _, fs := range at { // each sorted by itself: no order shows
		slices.SortStableFunc(fs, func(a, b Finding) int { return gravity[a.Finding.Verdict] - gravity[b.Finding.Verdict] })
	}
	var out []Block
	for _, f := range at[""] { // a chapter without any block
		out = append(out, f)
	}
	for _, b := range blocks {
		out = append(out, b)
		for _, f := range at[b.BlockID()] {
			out = append(out, f)
		}
	}
	return out
}

// besideWhich returns the id of the block that best shows what the finding is
// about. Paragraphs win over tables and figures that show the same.
func (w *writer) besideWhich(f work.Finding, blocks []Block) string {
	best, score := "", -1
	for _, b := range blocks {
		if !takesFindings(b) {
			continue
		}
		s := w.match(f, b)
		if s > score {
			best, score = b.BlockID(), s
		}
	}
	if score <= 0 {
		best = ""
		for _, b := range blocks {
			if takesFindings(b) {
				return b.BlockID()
			}
		}
	}
	return best
}

// takesFindings leaves out blocks that a finding would be lost beside.
func takesFindings(b Block) bool {
	switch b.(type) {
	case Paragraph, Table, Steps:
		return true
	}
	return false
}

// match scores how well a block shows the finding's path (exactly 5, a place
// above it 4, below it 3) or its part (2); a paragraph has half a point more.
func (w *writer) match(f work.Finding, b Block) int {
	s := 0
	for _, a := range w.about[b.BlockID()] {
		switch {
		case f.Path != "" && a == f.Path:
			s = max(s, 10)
		case f.Path != "" && a != "" && under(f.Path, a):
			s = max(s, 8)
		case f.Path != "" && a != "" && under(a, f.Path):
			s = max(s, 6)
		case f.Part != "" && a == f.Part:
			s = max(s, 4)
		}
	}
	if _, ok := b.(Paragraph); ok && s > 0 {
		s++
	}
	return s
}

// under reports whether path is the place above or lies in it: "body.bend.saw"
// is under "body.bend" and under itself.
func under(path, above string) bool {
	return path == above || strings.HasPrefix(path, above+".")
}
