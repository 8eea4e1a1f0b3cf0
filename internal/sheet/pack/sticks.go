package pack

import (
	"cmp"
	"context"
	"slices"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/bound"
)

// firstNodes is the work of the complete search for effort 0; each unit of
// effort pays for sheet.Effort nodes more.
const firstNodes = 50_000

// Sticks returns what to cut from each stick: first and best fit by falling
// length, then, where these do not meet the bound, a complete search that
// fills one stick at a time, for as long as the effort lasts. The error is what
// StickProblem.Validate says, or that of the context.
func Sticks(ctx context.Context, p sheet.StickProblem, effort int) (sheet.StickAnswer, error) {
	if err := p.Validate(); err != nil {
		return sheet.StickAnswer{}, err
	}
	if err := ctx.Err(); err != nil {
		return sheet.StickAnswer{}, err
	}
	b := newBins(p)
	best := b.fit(false)
	if other := b.fit(true); len(other) < len(best) {
		best = other
	}
	var a sheet.StickAnswer
	a.F, a.Sum, a.Least = bound.Sticks(p)
	nodes := firstNodes + int64(min(max(effort, 0), 1<<30))*sheet.Effort
	for len(best) > a.Least {
		better, complete := b.fewer(ctx, len(best)-1, &nodes)
		if err := ctx.Err(); err != nil {
			return sheet.StickAnswer{}, err
		}
		if better == nil {
			if complete {
				a.Least, a.Searched = len(best), true
			}
			break
		}
		best = better
	}
	a.Proven = len(best) <= a.Least
	a.Sticks = b.sticks(best)
	return a, nil
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

// packing is a complete search for a number of sticks. A stick takes the
// longest length that is left, and then every set of others that cannot be
// added to (a stick that could take more need not be looked at: what it could
// take may be moved there), fullest first by the order of the search.
type packing struct {
	*bins
	ctx   context.Context
	left  []int // of each size
	done  []fill
	sum   int64 // of what is left
	limit int
	nodes *int64
}

// fewer looks for a packing in n sticks. It is complete if it found one, or
// went through all; else it ran out of nodes.
func (b *bins) fewer(ctx context.Context, n int, nodes *int64) (found []fill, complete bool) {
	s := &packing{bins: b, ctx: ctx, left: slices.Clone(b.counts), limit: n, nodes: nodes}
	for k, size := range b.sizes {
		s.sum += size * int64(b.counts[k])
	}
	if s.next() {
		return s.done, true
	}
	return nil, *nodes > 0 && ctx.Err() == nil
}

// next fills the next stick and those after it.
func (s *packing) next() bool {
	if s.sum == 0 {
		return true
	}
	if s.sum > int64(s.limit-len(s.done))*s.capacity {
		return false
	}
	longest := slices.IndexFunc(s.left, func(n int) bool { return n > 0 })
	f := make(fill, len(s.sizes))
	s.take(f, longest, 1)
	if s.add(f, longest, s.capacity-s.sizes[longest]) {
		return true
	}
	s.take(f, longest, -1)
	return false
}

func (s *packing) take(f fill, k, n int) {
	f[k] += n
	s.left[k] -= n
	s.sum -= int64(n) * s.sizes[k]
}

// add goes on filling f with sizes from k on, room being left.
func (s *packing) add(f fill, k int, room int64) bool {
	if *s.nodes--; *s.nodes <= 0 || *s.nodes%4096 == 0 && s.ctx.Err() != nil {
		*s.nodes = min(*s.nodes, 0)
		return false
	}
	for k < len(s.sizes) && (s.left[k] == 0 || s.sizes[k] > room) {
		k++
	}
	if k == len(s.sizes) {
		if s.canAdd(room) {
			return false
		}
		s.done = append(s.done, slices.Clone(f))
		if s.next() {
			return true
		}
		s.done = s.done[:len(s.done)-1]
		return false
	}
	most := min(int64(s.left[k]), room/s.sizes[k])
	for n := most; n >= 0; n-- {
		s.take(f, k, int(n))
		ok := s.add(f, k+1, room-n*s.sizes[k])
		if ok {
			return true
		}
		s.take(f, k, -int(n))
		if *s.nodes <= 0 {
			return false
		}
	}
	return false
}

// canAdd tells whether a length that is left would still go in.
func (s *packing) canAdd(room int64) bool {
	for k := len(s.sizes) - 1; k >= 0; k-- {
		if s.left[k] > 0 {
			return s.sizes[k] <= room
		}
	}
	return false
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
