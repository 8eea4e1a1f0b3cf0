package book

import (
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// piece says what it is, how large and how heavy, and shows it.
func (w *writer) piece() {
	if len(w.pc.Parts) == 0 {
		w.say("none", say.F("The piece could not be built from its file yet; what is wrong with the file is told "+
			"where it was read."))
		return
	}
	width := w.at(w.pc.Width, "")
	width.Bare = false
	s := say.F("{} is {} wide, {} high and {} deep over all.", w.bookName(), width,
		w.at(w.pc.Height, ""), w.at(w.pc.Depth, ""))
	w.say("size", join(s, w.weight()), "body", "body.width", "body.height", "body.depth")
	w.say("made of", w.madeOf())
	w.say("base", w.baseSentence(), "base")
	w.say("finish", w.finishSentence(), "finish")
	w.say("sizes", w.otherSizes(), "sizes")
	w.leaves(w.views())
}

func (w *writer) bookName() say.Span {
	if w.d.Name == "" {
		return say.Span{Text: "The piece"}
	}
	return say.Name(w.d.Name)
}

func (w *writer) weight() say.Sentence {
	if w.p.Mass.V <= 0 {
		return nil
	}
	s := say.F("Empty it weighs {}", w.quantity(w.p.Mass, units.Mass, 1, "piece"))
	if w.p.Load.V > 0 {
		s = say.F("{}, and with all that the brief puts in, {}", s, w.quantity(w.p.Mass.Add(w.p.Load), units.Mass, 1, "piece"))
	}
	return say.F("{}.", s)
}

// madeOf counts the parts, and says of which stocks they are.
func (w *writer) madeOf() say.Sentence {
	var stocks []say.Sentence
	for _, g := range byStock(w.pc.Parts) {
		n := plural(len(g.parts), "part", "parts")
		stocks = append(stocks, say.F("{} of {}, {} thick by the calliper", n, w.stockChoice(g.stock),
			w.thickness(g.stock.Thickness.Mean, g.stock)))
	}
	return say.F("It has {}: {}.", plural(len(w.pc.Parts), "part", "parts"), list(stocks))
}

// stockChoice is a stock's name as the choice that a role of the piece file
// makes; the first role that takes it is the one to change.
func (w *writer) stockChoice(s *design.Stock) say.Span {
	path := ""
	for _, name := range sortedKeys(w.d.Roles) {
		if r := w.d.Roles[name]; r.Stock == s {
			path = "stock." + name
			break
		}
	}
	return say.Choice(s.Name, path)
}

// thickness is what the calliper says, to a hundredth.
func (w *writer) thickness(n trace.Num, s *design.Stock) say.Quantity {
	q := w.at(n, thicknessPath(s))
	q.Decimals = max(q.Decimals, onSteel)
	return q
}

func thicknessPath(s *design.Stock) string {
	if s.Path == "" {
		return ""
	}
	return s.Path + ".thickness"
}

func (w *writer) baseSentence() say.Sentence {
	b := w.d.Base
	switch b.Kind {
	case "", "none":
		return nil
	case "wall":
		return say.F("It hangs on the wall; the hanging rail and its screws are not computed.")
	}
	s := say.F("It stands on {}", w.baseWords())
	if b.Height.V > 0 {
		s = say.F("{} {} high", s, w.at(b.Height, "base.height"))
	}
	if b.SetBack.V > 0 {
		s = say.F("{}, set back by {}", s, w.at(b.SetBack, "base.set back"))
	}
	return say.F("{}.", s)
}

// baseWords name what it stands on: 'a plinth', '4 feet', 'its sides'.
func (w *writer) baseWords() say.Sentence {
	b := w.d.Base
	switch {
	case b.Kind == "sides":
		return say.F("its {}, which run down to the floor from a bottom", say.Choice(b.Kind, "base.kind"))
	case b.Kind == "feet" && b.Count > 0:
		return say.F("{} {}", number(b.Count), say.Choice(b.Kind, "base.kind"))
	case strings.HasSuffix(b.Kind, "s") || b.Kind == "feet":
		return say.Sentence{say.Choice(b.Kind, "base.kind")}
	}
	return say.Sentence{say.Choice(article(b.Kind), "base.kind")}
}

func (w *writer) finishSentence() say.Sentence {
	f := w.d.Finish
	if f.Kind == "" {
		return nil
	}
	s := say.F("Its finish is {}", say.Choice(f.Kind, "finish.kind"))
	if f.Coats > 0 {
		n := number(f.Coats)
		n.Path = "finish.coats"
		word := "coats"
		if f.Coats == 1 {
			word = "coat"
		}
		s = say.F("{}, {} {}", s, n, word)
	}
	if f.Before != "" {
		s = say.F("{}, put on before the {}", s, say.Choice(f.Before, "finish.before"))
	}
	return say.F("{}.", s)
}

// otherSizes names the sizes of the piece file that no sentence has shown yet,
// so that each one is in the book at least once.
func (w *writer) otherSizes() say.Sentence {
	var left []say.Sentence
	for _, s := range w.d.Sizes {
		if w.shown[s.Path] {
			continue
		}
		q := w.field(s.Num, s.Dim, s.Path)
		q.Path = s.Path
		q.Bare = s.Dim == units.Length || s.Dim.Count
		left = append(left, say.F("{} {}", say.Name(s.Name), q))
	}
	if len(left) == 0 {
		return nil
	}
	return say.F("Other sizes that its file names: {}.", list(left))
}

// stockGroup is the parts of one stock, in the order of their numbers.
type stockGroup struct {
	stock *design.Stock
	parts []*piece.Part
}

// byStock groups parts by stock, in the order in which the stocks first come.
func byStock(parts []*piece.Part) []stockGroup {
	var out []stockGroup
	at := map[*design.Stock]int{}
	for _, p := range parts {
		if p.Stock == nil {
			continue
		}
		i, ok := at[p.Stock]
		if !ok {
			i = len(out)
			at[p.Stock] = i
			out = append(out, stockGroup{stock: p.Stock})
		}
		out[i].parts = append(out[i].parts, p)
	}
	return out
}
