package pack

import (
	"cmp"
	"slices"

	"rodwork/internal/sheet"
)

// A first layout is made by insertion into the tree (after Fleszar, 'Three
// insertion heuristics and a justification improvement heuristic for
// two-dimensional bin packing with guillotine cuts', Computers & Operations
// Research 40, 2013): the items come in some order, and each goes where the
// worth of all free rectangles falls least. Several orders are taken, and the
// best result is kept.

// order is a way to sort items: larger key first.
type order func(it item) int64

var orders = []order{
	func(it item) int64 { return it.area },
	func(it item) int64 { return max(it.lies[0].DX, it.lies[0].DY) },
	func(it item) int64 { return it.lies[0].DY },
	func(it item) int64 { return it.lies[0].DX },
	func(it item) int64 { return it.lies[0].DX + it.lies[0].DY },
	func(it item) int64 { return min(it.lies[0].DX, it.lies[0].DY) },
	func(it item) int64 { return abs(it.lies[0].DX-it.lies[0].DY) + it.area>>20 },
}

func abs(v int64) int64 { return max(v, -v) }

// preference is the order in which stocks are opened.
type preference func(a, b stock) int

var preferences = []preference{
	func(a, b stock) int { return cmp.Compare(a.rate(), b.rate()) }, // cheap by area
	func(a, b stock) int { return cmp.Compare(a.l*a.w, b.l*b.w) },   // small
	func(a, b stock) int { return cmp.Compare(b.l*b.w, a.l*a.w) },   // large
}

// preferred returns the stocks in the order of the preference, offcuts first.
func (j *job) preferred(pref preference) []int32 {
	ids := make([]int32, len(j.stocks))
	for i := range ids {
		ids[i] = int32(i)
	}
	slices.SortStableFunc(ids, func(a, b int32) int {
		x, y := j.stocks[a], j.stocks[b]
		if x.offcut != y.offcut {
			if x.offcut {
				return -1
			}
			return 1
		}
		return pref(x, y)
	})
	return ids
}

// construct inserts all items in the order; those for which no stock is left
// stay out. A sheet's first cut is a rip if so wished.
func (j *job) construct(by order, stocks []int32, rip bool) *tree {
	seq := make([]int32, len(j.items))
	for i := range seq {
		seq[i] = int32(i)
	}
	slices.SortStableFunc(seq, func(a, b int32) int {
		return cmp.Or(cmp.Compare(by(j.items[b]), by(j.items[a])), cmp.Compare(j.items[b].area, j.items[a].area))
	})
	t := j.newTree()
	var leaves []int32
	for _, i := range seq {
		tr, ok := j.best(t, leaves, i)
		if !ok {
			root := t.openFor(j, i, stocks)
			if root == none {
				t.out = append(t.out, i)
				continue
			}
			leaves = append(leaves, root)
			tr, _ = j.best(t, leaves[len(leaves)-1:], i)
			if rip && tr.b < t.nodes[root].w {
				tr.axis = sheet.Y
			}
		}
		leaves = replace(leaves, tr.leaf, t.place(j, i, tr))
	}
	return t
}

// openFor opens the first of the stocks that is left and takes the item.
func (t *tree) openFor(j *job, i int32, stocks []int32) int32 {
	for _, s := range stocks {
		if t.used[s] < j.stocks[s].available && j.fits(i, s) {
			return t.open(j, s)
		}
	}
	return none
}

// best returns the trial of item i that loses least worth, the earliest leaf at
// a tie.
func (j *job) best(t *tree, leaves []int32, i int32) (best trial, ok bool) {
	for _, leaf := range leaves {
		n := &t.nodes[leaf]
		for _, lie := range j.items[i].lies {
			j.trials++
			loss, axis, fits := j.try(n, lie.DX, lie.DY)
			if fits && (!ok || loss < best.loss) {
				best, ok = trial{leaf, lie.DX, lie.DY, axis, lie.Turned, loss}, true
			}
		}
	}
	return best, ok
}

// replace takes the leaf that was filled off the list and puts what it left in.
func replace(leaves []int32, old int32, made [2]int32) []int32 {
	if i := slices.Index(leaves, old); i >= 0 {
		leaves = slices.Delete(leaves, i, i+1)
	}
	for _, m := range made {
		if m != none {
			leaves = append(leaves, m)
		}
	}
	return leaves
}
