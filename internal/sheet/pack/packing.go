package pack

import (
	"cmp"
	"context"
	"slices"
)

// packing is a complete search for a number of sticks. A stick takes the
// longest length that is left, and then every set of others that cannot be
// added to (a stick that could take more need not be looked at: what it could
// take may be moved there). What all sticks together may leave is known, which
// cuts the search short. It dives, taking sets as they come, most of the long
// lengths first; or it lists all sets for a stick and takes those that leave
// least first. Neither is better on all problems, so both are tried.
//
// What holds of the room that is left holds of any worth of lengths of which no
// stick carries more than carries: all sticks together may fall short of it by a
// known sum. With the prices of the linear program that sum is far smaller than
// the room.
type packing struct {
	*bins
	worth
	ctx   context.Context
	dive  bool
	left  []int // of each size
	done  []fill
	waste int64 // that may still be left on sticks
	short int64 // of what sticks carry, that they may still fall
	nodes *int64
	// cut is set where a list of fills was cut off: the search is then no proof
	// that there is no packing.
	cut bool
}

// worth is what each size is worth, and the most that a stick carries.
type worth struct {
	each    []int64
	carries int64
	rate    []float64 // the most by length of each size and those after it
}

// plainWorth makes each length worth itself.
func (b *bins) plainWorth() worth {
	return b.newWorth(b.sizes, b.capacity)
}

func (b *bins) newWorth(of []int64, carries int64) worth {
	w := worth{each: of, carries: carries, rate: make([]float64, len(of)+1)}
	for k := len(of) - 1; k >= 0; k-- {
		w.rate[k] = max(w.rate[k+1], float64(of[k])/float64(b.sizes[k]))
	}
	return w
}

// option is one way to fill a stick, what it leaves, and how much it falls short
// of what a stick carries.
type option struct {
	f           fill
	room, short int64
}

// mostOptions is how many ways to fill one stick are looked at.
const mostOptions = 5000

// search looks for a packing in n sticks. It is complete if it found one, or
// went through all; else it ran out of nodes.
func (b *bins) search(ctx context.Context, w worth, n int, nodes *int64, dive bool) (found []fill, complete bool) {
	s := &packing{bins: b, worth: w, ctx: ctx, dive: dive, left: slices.Clone(b.counts), nodes: nodes}
	s.waste, s.short = int64(n)*b.capacity, int64(n)*w.carries
	for k, size := range b.sizes {
		s.waste -= size * int64(b.counts[k])
		s.short -= w.each[k] * int64(b.counts[k])
	}
	if s.waste < 0 || s.short < 0 {
		return nil, true
	}
	if s.next() {
		return s.done, true
	}
	return nil, *nodes > 0 && !s.cut && ctx.Err() == nil
}

// next fills the next stick and those after it.
func (s *packing) next() bool {
	longest := slices.IndexFunc(s.left, func(n int) bool { return n > 0 })
	if longest < 0 {
		return true
	}
	f := make(fill, len(s.sizes))
	f[longest] = 1
	s.left[longest]--
	if s.dive {
		ok := s.add(f, longest, s.capacity-s.sizes[longest], s.carries-s.each[longest])
		if !ok {
			s.left[longest]++
		}
		return ok
	}
	var options []option
	s.list(f, longest, s.capacity-s.sizes[longest], s.carries-s.each[longest], &options)
	s.left[longest]++
	slices.SortStableFunc(options, func(a, b option) int { return cmp.Or(cmp.Compare(a.short, b.short), cmp.Compare(a.room, b.room)) })
	for _, o := range options {
		s.take(o, 1)
		if s.next() {
			return true
		}
		s.take(o, -1)
		if *s.nodes <= 0 {
			return false
		}
	}
	return false
}

func (s *packing) take(o option, sign int) {
	for k, n := range o.f {
		s.left[k] -= sign * n
	}
	s.waste -= int64(sign) * o.room
	s.short -= int64(sign) * o.short
	if sign > 0 {
		s.done = append(s.done, o.f)
	} else {
		s.done = s.done[:len(s.done)-1]
	}
}

// add goes on filling f with sizes from k on, room and short being left, and
// dives on to the next stick at once.
func (s *packing) add(f fill, k int, room, short int64) bool {
	if s.spent() {
		return false
	}
	for k < len(s.sizes) && (s.left[k] == 0 || s.sizes[k] > room) {
		k++
	}
	if s.hopeless(k, room, short) {
		return false
	}
	if k == len(s.sizes) {
		if s.canAdd(room) || room > s.waste {
			return false
		}
		s.waste, s.short = s.waste-room, s.short-short
		s.done = append(s.done, slices.Clone(f))
		if s.next() {
			return true
		}
		s.waste, s.short = s.waste+room, s.short+short
		s.done = s.done[:len(s.done)-1]
		return false
	}
	most := min(int64(s.left[k]), room/s.sizes[k])
	for n := most; n >= 0 && *s.nodes > 0; n-- {
		f[k] += int(n)
		s.left[k] -= int(n)
		if s.add(f, k+1, room-n*s.sizes[k], short-n*s.each[k]) {
			return true
		}
		f[k] -= int(n)
		s.left[k] += int(n)
	}
	return false
}

// hopeless tells whether a stick that falls short by so much, with the room to
// be filled with sizes from k on, will fall short by more than it may.
func (s *packing) hopeless(k int, room, short int64) bool {
	return float64(short)-s.rate[k]*float64(room) > float64(s.short)+1e-3
}

// spent takes one node, and tells whether there is none.
func (s *packing) spent() bool {
	if *s.nodes--; *s.nodes > 0 && *s.nodes%4096 == 0 && s.ctx.Err() != nil {
		*s.nodes = 0
	}
	return *s.nodes <= 0
}

// list adds all ways to go on filling f with sizes from k on, room and short
// being left.
func (s *packing) list(f fill, k int, room, short int64, out *[]option) {
	if s.spent() {
		return
	}
	if len(*out) >= mostOptions {
		s.cut = true
		return
	}
	for k < len(s.sizes) && (s.left[k] == 0 || s.sizes[k] > room) {
		k++
	}
	if s.hopeless(k, room, short) {
		return
	}
	if k == len(s.sizes) {
		if !s.canAdd(room) && room <= s.waste {
			*out = append(*out, option{slices.Clone(f), room, short})
		}
		return
	}
	most := min(int64(s.left[k]), room/s.sizes[k])
	for n := most; n >= 0; n-- {
		f[k] += int(n)
		s.left[k] -= int(n)
		s.list(f, k+1, room-n*s.sizes[k], short-n*s.each[k], out)
		f[k] -= int(n)
		s.left[k] += int(n)
	}
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
