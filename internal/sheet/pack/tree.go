package pack

import (
	"math"

	"rodwork/internal/sheet"
)

// A layout in search is a tree of strips. A split parts its rectangle along one
// axis into any number of kids, whose splits are along the other axis; so a
// split's kids may stand in any order, and its free stretches are always swept
// together into one. All sizes are those of the enlarged model: part + kerf.

const none = int32(-1)

type kind uint8

const (
	dead kind = iota // not in use
	free
	part
	split
)

type node struct {
	l, w                int64 // extent along the sheet's length and width
	value               int64 // of a free node: see worth
	parent, first, next int32
	item                int32
	sheet               int32
	kind                kind
	axis                sheet.Axis
	turned              bool
}

type openSheet struct {
	stock int32
	root  int32 // none where the sheet was closed
}

// tree is all open sheets, and which items are still out.
type tree struct {
	nodes  []node
	spare  []int32
	sheets []openSheet
	used   []int // sheets open, by stock
	weight int64 // of all open sheets: see job.weight
	out    []int32
}

func (t *tree) copyFrom(s *tree) {
	t.nodes = append(t.nodes[:0], s.nodes...)
	t.spare = append(t.spare[:0], s.spare...)
	t.sheets = append(t.sheets[:0], s.sheets...)
	t.used = append(t.used[:0], s.used...)
	t.out = append(t.out[:0], s.out...)
	t.weight = s.weight
}

func (t *tree) alloc(n node) int32 {
	if k := len(t.spare); k > 0 {
		i := t.spare[k-1]
		t.spare = t.spare[:k-1]
		t.nodes[i] = n
		return i
	}
	t.nodes = append(t.nodes, n)
	return int32(len(t.nodes) - 1)
}

func (t *tree) release(i int32) {
	t.nodes[i].kind = dead
	t.spare = append(t.spare, i)
}

// open starts a sheet of the stock and returns its root, all free.
func (t *tree) open(j *job, stock int32) int32 {
	s := int32(len(t.sheets))
	for i := range t.sheets {
		if t.sheets[i].root == none {
			s = int32(i)
			break
		}
	}
	if s == int32(len(t.sheets)) {
		t.sheets = append(t.sheets, openSheet{})
	}
	k := j.stocks[stock]
	root := t.alloc(node{l: k.l, w: k.w, value: j.worth(k.l, k.w), kind: free,
		parent: none, first: none, next: none, item: none, sheet: s})
	t.sheets[s] = openSheet{stock, root}
	t.used[stock]++
	t.weight += k.weight
	return root
}

// worth is what a free rectangle is worth: its area to the power 1.25, so that
// one large remainder is worth more than two of half its size (the reference
// literature takes 1.2; roots of roots are the same on every machine).
func (j *job) worth(l, w int64) int64 {
	a := float64((l * w) >> j.shift)
	return int64(a * math.Sqrt(math.Sqrt(a)))
}

// trial is one way to put an item in a free leaf: a by b, first cut along axis.
type trial struct {
	leaf   int32
	a, b   int64
	axis   sheet.Axis
	turned bool
	loss   int64 // worth that is lost
}

// try returns the better of the two first cuts for an a by b item in the leaf;
// ok is false where it does not fit. Where the saw's reach is obeyed, cuts beyond
// it are a loss.
func (j *job) try(n *node, a, b int64) (loss int64, axis sheet.Axis, ok bool) {
	if j.obey && a <= n.l && b <= n.w {
		return j.tryWithin(n, a, b)
	}
	if a > n.l || b > n.w {
		return 0, 0, false
	}
	switch {
	case a == n.l:
		return n.value - j.worth(a, n.w-b), sheet.Y, true
	case b == n.w:
		return n.value - j.worth(n.l-a, b), sheet.X, true
	}
	cross := j.worth(n.l-a, n.w) + j.worth(a, n.w-b)
	rip := j.worth(n.l, n.w-b) + j.worth(n.l-a, b)
	if rip >= cross {
		return n.value - rip, sheet.Y, true
	}
	return n.value - cross, sheet.X, true
}

// place carries out a trial and returns the free leaves that it made (none or
// its own leaf, and at most one more).
func (t *tree) place(j *job, item int32, tr trial) [2]int32 {
	made := [2]int32{none, none}
	leaf := tr.leaf
	block := t.slice(j, leaf, tr.axis, tr.a, tr.b)
	if block != leaf {
		made[0] = leaf
		if t.nodes[leaf].kind == split { // the leaf became a split: its free kid
			made[0] = t.nodes[t.nodes[leaf].first].next
		}
	}
	other := sheet.X + sheet.Y - tr.axis
	n := t.nodes[block]
	if n.l != tr.a || n.w != tr.b {
		inner := t.slice(j, block, other, tr.a, tr.b)
		made[1] = t.nodes[t.nodes[block].first].next
		block = inner
	}
	p := &t.nodes[block]
	p.kind, p.item, p.turned = part, item, tr.turned
	return made
}

// slice parts a free node along the axis so that a block of extent a (along X)
// or b (along Y) comes first, and returns the block; a node of that extent is
// its own block.
func (t *tree) slice(j *job, leaf int32, axis sheet.Axis, a, b int64) int32 {
	n := t.nodes[leaf]
	bl, bw, fl, fw := a, n.w, n.l-a, n.w
	if axis == sheet.Y {
		bl, bw, fl, fw = n.l, b, n.l, n.w-b
	}
	if fl == 0 || fw == 0 {
		return leaf
	}
	block := node{l: bl, w: bw, kind: free, first: none, next: none, item: none, sheet: n.sheet}
	if p := n.parent; p != none && t.nodes[p].axis == axis {
		block.parent, block.next = p, t.nodes[p].first
		i := t.alloc(block)
		t.nodes[p].first = i
		m := &t.nodes[leaf]
		m.l, m.w, m.value = fl, fw, j.worth(fl, fw)
		return i
	}
	rest := t.alloc(node{l: fl, w: fw, value: j.worth(fl, fw), kind: free,
		parent: leaf, first: none, next: none, item: none, sheet: n.sheet})
	block.parent, block.next = leaf, rest
	i := t.alloc(block)
	m := &t.nodes[leaf]
	m.kind, m.axis, m.first = split, axis, i
	return i
}

// clear empties a part or split: its items go out, its room is swept together
// with free room beside it, and a sheet left empty is closed.
func (t *tree) clear(j *job, i int32) {
	t.drop(i, false)
	for {
		n := &t.nodes[i]
		n.kind, n.first, n.item = free, none, none
		p := n.parent
		if p == none {
			t.close(j, i)
			return
		}
		t.sweep(p, i)
		if n.next != none || t.nodes[p].first != i {
			n.value = j.worth(n.l, n.w)
			return
		}
		t.release(i)
		i = p
	}
}

// sweep takes the other free kid of p, if there is one, into kid i.
func (t *tree) sweep(p, i int32) {
	before := none
	for k := t.nodes[p].first; k != none; before, k = k, t.nodes[k].next {
		if k == i || t.nodes[k].kind != free {
			continue
		}
		if t.nodes[p].axis == sheet.X {
			t.nodes[i].l += t.nodes[k].l
		} else {
			t.nodes[i].w += t.nodes[k].w
		}
		if before == none {
			t.nodes[p].first = t.nodes[k].next
		} else {
			t.nodes[before].next = t.nodes[k].next
		}
		t.release(k)
		return
	}
}

// drop puts the items below i out and releases the nodes below it, and i itself
// if self is set.
func (t *tree) drop(i int32, self bool) {
	n := t.nodes[i]
	if n.kind == part {
		t.out = append(t.out, n.item)
	}
	if n.kind == split {
		for k := n.first; k != none; {
			next := t.nodes[k].next
			t.drop(k, true)
			k = next
		}
	}
	if self {
		t.release(i)
	}
}

func (t *tree) close(j *job, root int32) {
	s := &t.sheets[t.nodes[root].sheet]
	t.used[s.stock]--
	t.weight -= j.stocks[s.stock].weight
	s.root = none
	t.release(root)
}

// leaves returns all free leaves, in the order of their nodes.
func (t *tree) leaves(buf []int32) []int32 {
	buf = buf[:0]
	for i := range t.nodes {
		if t.nodes[i].kind == free {
			buf = append(buf, int32(i))
		}
	}
	return buf
}
