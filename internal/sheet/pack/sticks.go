package pack

import (
	"cmp"
	"context"
	"slices"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/bound"
)

// firstNodes is the work of the complete search for effort 0; each unit of
// effort pays for sheet.Effort nodes more. The linear program has firstProducts,
// and eachProducts more.
const (
	firstNodes    = 50_000
	firstProducts = 20_000_000
	eachProducts  = 20_000_000
)

// Sticks returns what to cut from each stick: first and best fit by falling
// length; then, where these do not meet the bound, a complete search that fills
// one stick at a time; then the linear program of sticks, which gives a better
// bound, and ways of filling that are rounded to whole sticks; and again the
// complete search, by the program's prices. All for as long as the effort and
// the context last. The error is what StickProblem.Validate says.
func Sticks(ctx context.Context, p sheet.StickProblem, effort int) (sheet.StickAnswer, error) {
	if err := p.Validate(); err != nil {
		return sheet.StickAnswer{}, err
	}
	effort = min(max(effort, 0), 1<<20)
	b := newBins(p)
	w := &sticks{bins: b, ctx: ctx, best: b.fit(false)}
	if other := b.fit(true); len(other) < len(w.best) {
		w.best = other
	}
	w.F, w.Sum, w.Least = bound.Sticks(p)
	nodes := firstNodes + int64(effort)*sheet.Effort
	w.search(b.plainWorth(), firstNodes)
	if len(w.best) > w.Least {
		w.program(firstProducts+int64(effort)*eachProducts, nodes)
	}
	w.Proven = len(w.best) <= w.Least
	w.Sticks = b.sticks(w.best)
	return w.StickAnswer, nil
}

// sticks is a stick problem on its way to an answer.
type sticks struct {
	*bins
	sheet.StickAnswer
	ctx  context.Context
	best []fill
}

// search looks for fewer sticks, one number after the other, each with its share
// of the nodes.
func (s *sticks) search(w worth, nodes int64) {
	for n := s.Least; n < len(s.best); n++ {
		share := nodes / int64(len(s.best)-n)
		nodes -= share
		rest := share - share/2
		share /= 2
		better, complete := s.bins.search(s.ctx, w, n, &share, true)
		if better == nil && !complete {
			better, complete = s.bins.search(s.ctx, w, n, &rest, false)
		}
		if better != nil {
			s.best = better
		} else if complete && n == s.Least {
			s.Least, s.Searched = n+1, true
		}
	}
}

// bins is a stick problem made ready: like lengths together, longest first, all
// enlarged by the kerf.
type bins struct {
	p        sheet.StickProblem
	capacity int64
	sizes    []int64 // distinct, falling
	counts   []int
	of       [][]sheet.Piece // the pieces of each size
}

// fill is one stick: how many of each size.
type fill []int

func newBins(p sheet.StickProblem) *bins {
	b := &bins{p: p, capacity: p.Usable() + p.Kerf}
	type one struct {
		size  int64
		piece sheet.Piece
	}
	var all []one
	for i, q := range p.Lengths {
		for c := range q.Copies {
			all = append(all, one{q.Length + p.Kerf, sheet.Piece{Length: i, Copy: c}})
		}
	}
	slices.SortStableFunc(all, func(a, b one) int { return cmp.Compare(b.size, a.size) })
	for _, o := range all {
		if k := len(b.sizes); k == 0 || b.sizes[k-1] != o.size {
			b.sizes, b.counts, b.of = append(b.sizes, o.size), append(b.counts, 0), append(b.of, nil)
		}
		k := len(b.sizes) - 1
		b.counts[k]++
		b.of[k] = append(b.of[k], o.piece)
	}
	return b
}

// fit is first fit, or best fit, by falling length.
func (b *bins) fit(best bool) []fill {
	var out []fill
	var left []int64
	for k, size := range b.sizes {
		for range b.counts[k] {
			at := -1
			for i, r := range left {
				if r >= size && (at < 0 || best && r < left[at]) {
					at = i
					if !best {
						break
					}
				}
			}
			if at < 0 {
				at = len(left)
				left, out = append(left, b.capacity), append(out, make(fill, len(b.sizes)))
			}
			left[at] -= size
			out[at][k]++
		}
	}
	return out
}

// sticks lays the fills out, the longest pieces first on each stick, and the
// stick with most left at the end.
func (b *bins) sticks(fills []fill) []sheet.Stick {
	taken := make([]int, len(b.sizes))
	var out []sheet.Stick
	for _, f := range fills {
		at := b.p.EndTrim
		var st sheet.Stick
		for k, n := range f {
			for range n {
				piece := b.of[k][taken[k]]
				taken[k]++
				piece.At = at
				at += b.sizes[k]
				st.Pieces = append(st.Pieces, piece)
			}
		}
		st.Left = max(b.p.Stick-b.p.EndTrim-at, 0)
		out = append(out, st)
	}
	slices.SortStableFunc(out, func(a, b sheet.Stick) int { return cmp.Compare(a.Left, b.Left) })
	return out
}
