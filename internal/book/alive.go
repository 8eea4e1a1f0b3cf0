package book

import "rodwork/internal/say"

// Shown is a value as the book shows it at a path: a quantity, or a word.
type Shown struct {
	Q    *say.Quantity
	Word string
}

// Alive lists by their paths the values that the book shows as such: those that
// its reader may change where they stand. Of several places the first counts.
func (b *Book) Alive() map[string]Shown {
	out := map[string]Shown{}
	one := func(path string, s Shown) {
		if _, done := out[path]; !done && path != "" {
			out[path] = s
		}
	}
	all := func(s say.Sentence) {
		for _, sp := range s {
			if sp.Q != nil {
				one(sp.Q.Path, Shown{Q: sp.Q})
			} else {
				one(sp.Path, Shown{Word: sp.Text})
			}
		}
	}
	for _, c := range b.Chapters {
		for _, block := range c.Blocks {
			switch x := block.(type) {
			case Paragraph:
				all(x.Text)
			case Finding:
				all(x.Finding.Text)
			case Steps:
				for _, st := range x.Steps {
					all(st.Text)
					for _, n := range st.Notes {
						all(n)
					}
				}
			case Table:
				for _, r := range x.Table.Rows {
					for _, cell := range r.Cells {
						all(cell.Say)
						if cell.Q != nil {
							one(cell.Q.Path, Shown{Q: cell.Q})
						}
					}
				}
			}
		}
	}
	return out
}
