package starter

import (
	"context"
	"fmt"
	"math"
	"strings"

	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// Begun is a piece to start from.
type Begun struct {
	Text    string
	Plan    *plan.Plan
	Answers Answers  // as they were taken
	Said    []string // what was chosen otherwise than asked, and why
	Sound   bool     // no error, and no check says stop
}

// The names of the two files in remarks.
const (
	pieceFile = "piece.yaml"
	shopFile  = "shop.yaml"
)

// Begin writes a piece file that the answers ask for and that is sound. It
// fails only where the context ends.
func Begin(ctx context.Context, a Answers, shop []byte) (Begun, error) {
	g := goodsOf(shopFile, shop)
	a, f, said := settle(a)
	first, err := best(ctx, a, f, g, shop)
	if err != nil {
		return Begun{}, err
	}
	found := first
	for i := 0; i < len(nearer) && !found.Sound && !a.Traced(); i++ {
		if found, err = best(ctx, nearer[i].of(a, f), f, g, shop); err != nil {
			return Begun{}, err
		}
	}
	if found.Sound && !first.Sound {
		b := found.Answers
		said = append(said, fmt.Sprintf("Nothing of that size came out sound (%s). The nearest that does is %s wide, %s high and %s deep.",
			why(first.Plan), shown(b.Width, a.System), shown(b.Height, a.System), shown(b.Depth, a.System)))
	} else if !found.Sound {
		found = first
	}
	found.Said = append(said, found.Said...)
	return found, nil
}

// step is how sizes are changed until a piece is sound: as shares of what was
// asked for; 0 is the size that the kind begins with.
type step struct{ width, height, depth float64 }

var nearer = []step{
	{1, 1, 1.12}, {1, 0.92, 1}, {0.92, 1, 1}, {1, 0.92, 1.12}, {1, 1, 1.3}, {1, 0.82, 1}, {0.8, 1, 1}, {1, 0.82, 1.15}, {0.7, 0.9, 1},
	{1, 0.7, 1.1}, {0.6, 0.8, 1.1}, {0.6, 0.6, 1}, {0, 0.6, 0}, {0, 0, 0},
}

// of returns the answers with their sizes changed, within what the kind can be.
func (s step) of(a Answers, f Form) Answers {
	size := func(asked, share float64, r Range) float64 {
		if share == 0 {
			return snap(r.Usual, a.System)
		}
		return snap(within(asked*share, r), a.System)
	}
	a.Width, a.Height, a.Depth = size(a.Width, s.width, f.Width), size(a.Height, s.height, f.Height), size(a.Depth, s.depth, f.Depth)
	if s == (step{}) {
		a.Holds, a.Turn = nil, 0
		if f.Holds {
			a.Holds = []Hold{{f.Thing, f.Count}}
		}
	}
	return a
}

// best tries the ways of building in their order, and takes the first that is
// sound; where none is, the one that the fewest checks stop.
func best(ctx context.Context, a Answers, f Form, g goods, shop []byte) (Begun, error) {
	var found Begun
	least := math.MaxInt
	asked := way{sheet: g.sheetOf(a.Sheet), turn: a.Turn}
	for _, w := range ways(a, f, g) {
		if err := ctx.Err(); err != nil {
			return Begun{}, err
		}
		s := &script{a: a, f: f, g: g, w: w}
		text := s.text()
		if w.edged && s.shelves == 0 {
			continue // there is nothing to put a strip before
		}
		p, remarks := plan.Make(ctx, plan.Source{PieceFile: pieceFile, Piece: []byte(text), ShopFile: shopFile, Shop: shop}, plan.Options{})
		n := 1000
		if p != nil && !remarks.HasErrors() {
			n = stops(p) + len(remarks)
		}
		if n < least {
			least = n
			found = Begun{Text: text, Plan: p, Answers: a, Said: told(a, asked, w), Sound: n == 0}
		}
		if n == 0 {
			break
		}
	}
	return found, ctx.Err()
}

// span is the clear width that a bay begins with, mm.
const span = 760.0

// ways are the ways of building, in the order in which they are tried.
func ways(a Answers, f Form, g goods) []way {
	asked := way{bays: 1, sheet: g.sheetOf(a.Sheet), turn: a.Turn}
	switch {
	case len(a.Uprights) > 0:
		asked.bays = len(a.Uprights) + 1
	case f.Traced && !a.Traced():
		asked.bays = max(1, int(math.Ceil((a.Width-2*asked.sheet.thick)/span)))
	case a.Kind == Chest && a.Width > 800:
		asked.bays = 2
	}
	inner := asked
	var all []way
	for range 4 {
		all = append(all, inner)
		if f.Traced && g.edging != "" {
			edged := inner
			edged.edged = true
			all = append(all, edged)
		}
		if !f.Traced || a.Traced() || a.Width/float64(inner.bays+1) < 220 {
			break
		}
		inner.bays++
	}
	thick := all
	for s, ok := g.thicker(asked.sheet); ok; s, ok = g.thicker(s) {
		for _, w := range thick {
			w.sheet = s
			all = append(all, w)
		}
	}
	if a.Turn > 0 {
		for _, w := range all[:len(all):len(all)] {
			w.turn = 0
			all = append(all, w)
		}
	}
	return all
}

// stops counts the findings that keep a piece from being sound. What is not
// covered is told in the book, and is for the maker to judge.
func stops(p *plan.Plan) int {
	n := 0
	for _, f := range p.Findings {
		if f.Verdict == work.Stop {
			n++
		}
	}
	return n
}

// told says what was chosen otherwise than asked.
func told(a Answers, asked, w way) []string {
	var said []string
	if w.sheet.name != asked.sheet.name {
		said = append(said, fmt.Sprintf("%s is too thin for it: %s was taken.", upper(asked.sheet.name), w.sheet.name))
	}
	if asked.turn > 0 && w.turn == 0 {
		said = append(said, "Bent corners did not come out sound at this size and of this sheet: they were left square.")
	}
	if w.edged {
		said = append(said, "Each shelf has a strip of solid wood before it, so that it does not sag.")
	}
	return said
}

// why names what stops a piece.
func why(p *plan.Plan) string {
	if p == nil {
		return "it cannot be built so"
	}
	for _, f := range p.Findings {
		if f.Verdict == work.Stop {
			return "stop: " + f.Title
		}
	}
	return "it cannot be built so"
}

func upper(s string) string { return strings.ToUpper(s[:min(1, len(s))]) + s[min(1, len(s)):] }
