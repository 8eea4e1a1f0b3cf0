package pack

import (
	"cmp"
	"context"
	"slices"
)

// The other search goes by strips: a beam that fills sheet after sheet (after
// Fontan and Libralesso, 'An anytime tree search algorithm for two-dimensional
// two- and three-staged guillotine packing problems', arXiv 2004.02603, 2020). A
// sheet is parted into strips, a strip into columns, a column into items one on
// the other; what is too narrow for its column is trimmed. Items are put one by
// one, always behind the last: on the column, in a new column, in a new strip,
// on a new sheet. Of all that can come of the layouts at hand only the most
// promising are gone on with, as many as the beam is wide; then all is done
// again with a beam twice as wide. It wins where items are long and may be
// turned, and its layouts are such as a maker likes to saw.

// beamGuide is how promising a layout is, less is better: the share of waste
// behind the front, over the mean area of the items put so far, so that the
// large ones go first.
type beamGuide struct {
	base  float64 // added to the share of waste: with it, large items count more
	cross bool    // the first cuts are cross cuts, not rips
}

var beamGuides = []beamGuide{{0, false}, {0, true}, {0.1, false}, {0.1, true}}

const (
	mostWide    = 1 << 13 // bounds the memory of a beam
	offerTrials = 3       // an offer takes as long as so many trials in a tree
)

// A front is where the next item may go: behind what stands, in a sheet whose
// strips run along x. Its column is [x0, x1) of the strip [y0, y1), full up to
// top.
type front struct{ y0, y1, x0, x1, top int64 }

// area is what lies behind the front.
func (f front) area(l int64) int64 {
	return f.y0*l + f.x0*(f.y1-f.y0) + (f.x1-f.x0)*(f.top-f.y0)
}

// within tells whether all room before g is before f as well.
func (f front) within(g front) bool {
	if f.y1 <= g.y0 {
		return true
	}
	return f.y0 <= g.y0 && f.y1 <= g.y1 && f.x1 <= g.x1 && (f.x1 <= g.x0 || f.x0 <= g.x0 && f.top <= g.top)
}

// step is a layout: the one before it, and one item more.
type step struct {
	before int32 // index of a step, none for the first
	kind   int32 // of the item: index in beam.kinds
	lie    int8
	deep   int8  // 0 on a new sheet, 1 in a new strip, 2 in a new column, 3 on the column
	bin    int32 // index in beam.bins of the sheet in hand, none for the first
	n      int32 // items put
	front
	closed int64 // area of the sheets before the one in hand
	weight int64
	used   int64  // area of the items
	hash   uint64 // of the items that are in, whatever their order
}

// thing is a number of like items.
type thing struct {
	ways  [2][][2]int64 // how it lies, along and across the strips, where they are rips and cross cuts
	items []int32
	area  int64
	sign  uint64
}

// beam is the search by strips for a layout that weighs no more than limit.
type beam struct {
	j      *job
	kinds  []thing
	total  int64
	limit  int64
	rounds int // done: each with the next guide, each full turn with a wider beam

	guide  beamGuide
	bins   []int32 // stocks in the order in which they are opened
	budget int64   // waste that a layout within the limit can have
	steps  []step
	level  []int32
	heap   []child // the most promising of the next level, no more than most
	most   int
	order  int32
	counts []int32 // of each kind
	left   []int32 // of each kind, for the layout in hand
	way    int     // 0 where strips are rips, 1 where they are cross cuts
}

// child is what may come of a layout.
type child struct {
	guide float64
	order int32 // breaks ties, so that the result does not hang on the heap
	step
}

func newBeam(j *job) *beam {
	b := &beam{j: j}
	at := map[[2]int64]int{}
	for i, it := range j.items {
		key := [2]int64{it.lies[0].DX, it.lies[0].DY}
		if len(it.lies) > 1 {
			key = [2]int64{min(key[0], key[1]), -max(key[0], key[1])} // < 0: free to turn
		}
		k, ok := at[key]
		if !ok {
			k = len(b.kinds)
			at[key] = k
			b.kinds = append(b.kinds, thing{area: it.area, sign: mixed(uint64(k) + 1)})
		}
		b.kinds[k].items = append(b.kinds[k].items, int32(i))
		b.total += it.area
	}
	for k := range b.kinds {
		q := &b.kinds[k]
		for _, lie := range j.items[q.items[0]].lies {
			q.ways[0] = append(q.ways[0], [2]int64{lie.DX, lie.DY})
			q.ways[1] = append(q.ways[1], [2]int64{lie.DY, lie.DX})
		}
		b.counts = append(b.counts, int32(len(q.items)))
	}
	b.left = make([]int32, len(b.counts))
	return b
}

// mixed spreads the bits of a number (the finaliser of splitmix64).
func mixed(x uint64) uint64 {
	x *= 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// width is how many layouts the next round goes on with: each full turn of the
// guides half as many again.
func (b *beam) width() int {
	w := 2.0
	for range b.rounds / len(beamGuides) {
		w *= 1.5
	}
	return int(min(w, mostWide))
}

// spent tells whether a wider beam is not to be had.
func (b *beam) spent() bool { return b.width() == mostWide }

// cost is about how many trials the next round takes.
func (b *beam) cost() int64 {
	n := int64(len(b.j.items))
	return offerTrials * int64(b.width()) * n * n * int64(len(b.j.items[0].lies))
}

// round runs the next beam. It returns a layout of all items, or nil. It counts
// its trials in the job.
func (b *beam) round(ctx context.Context) *tree {
	b.start()
	width := b.width()
	b.most = 2 * width
	b.rounds++
	for n := 0; n < len(b.j.items); n++ {
		if ctx.Err() != nil {
			return nil
		}
		b.heap, b.order = b.heap[:0], 0
		for _, at := range b.level {
			b.grow(at)
		}
		b.choose(width)
		if len(b.level) == 0 {
			return nil
		}
	}
	return b.tree(b.level[0])
}

func (b *beam) start() {
	b.guide = beamGuides[b.rounds%len(beamGuides)]
	b.way = 0
	if b.guide.cross {
		b.way = 1
	}
	pref := preferences[b.rounds/len(beamGuides)%len(preferences)]
	b.bins = b.bins[:0]
	for _, s := range b.j.preferred(pref) {
		for range min(b.j.stocks[s].available, len(b.j.items)) {
			b.bins = append(b.bins, s)
		}
	}
	b.budget = b.waste()
	b.steps = append(b.steps[:0], step{before: none, bin: none})
	b.level = append(b.level[:0], 0)
}

// waste is the waste of a layout that weighs as much as the limit, where all
// sheets are alike; else there is no bound.
func (b *beam) waste() int64 {
	if len(b.bins) == 0 {
		return 0
	}
	s := b.j.stocks[b.bins[0]]
	for _, k := range b.bins {
		if t := b.j.stocks[k]; t.l != s.l || t.w != s.w || t.weight != s.weight {
			return 1 << 62
		}
	}
	if s.weight == 0 || b.limit/s.weight > int64(len(b.bins)) {
		return 1 << 62
	}
	return b.limit/s.weight*s.l*s.w - b.total
}

// extents of a stock along the strips and across them.
func (b *beam) extents(s int32) (l, w int64) {
	k := b.j.stocks[s]
	if b.guide.cross {
		return k.w, k.l
	}
	return k.l, k.w
}

// grow offers the heap all that can come of a layout. A new sheet is opened only
// where nothing goes on the one in hand.
func (b *beam) grow(at int32) {
	copy(b.left, b.counts)
	for i := at; b.steps[i].before != none; i = b.steps[i].before {
		b.left[b.steps[i].kind]--
	}
	s := b.steps[at]
	s.before = at
	s.n++
	any := false
	if s.bin != none {
		l, w := b.extents(b.bins[s.bin])
		for k, n := range b.left {
			if n > 0 && b.onSheet(&s, int32(k), l, w) {
				any = true
			}
		}
	}
	if any {
		return
	}
	for k, n := range b.left {
		if n > 0 {
			b.onNext(&s, int32(k))
		}
	}
}

// onSheet offers an item on the column, in a new column and in a new strip of
// the sheet in hand, and tells whether it goes there.
func (b *beam) onSheet(s *step, kind int32, l, w int64) bool {
	any := false
	of := b.offerOf(s, kind)
	f := s.front
	for i, e := range b.kinds[kind].ways[b.way] {
		x, y := e[0], e[1]
		if f.x0+x <= l && f.top+y <= w {
			any = true
			b.offer(of, int8(i), 3, s.bin, front{f.y0, max(f.y1, f.top+y), f.x0, max(f.x1, f.x0+x), f.top + y}, l)
			if f.x0+x <= f.x1 && f.top+y <= f.y1 {
				continue // it costs no room before the front
			}
		}
		if f.x1+x <= l && f.y0+y <= w {
			any = true
			b.offer(of, int8(i), 2, s.bin, front{f.y0, max(f.y1, f.y0+y), f.x1, f.x1 + x, f.y0 + y}, l)
		}
		if x <= l && f.y1+y <= w {
			any = true
			b.offer(of, int8(i), 1, s.bin, front{f.y1, f.y1 + y, 0, x, f.y1 + y}, l)
		}
	}
	return any
}

// onNext offers an item on the next sheet that takes it.
func (b *beam) onNext(s *step, kind int32) {
	of := b.offerOf(s, kind)
	if s.bin != none {
		k := b.j.stocks[b.bins[s.bin]]
		of.closed += k.l * k.w
	}
	for i, e := range b.kinds[kind].ways[b.way] {
		for bin := s.bin + 1; int(bin) < len(b.bins); bin++ {
			l, w := b.extents(b.bins[bin])
			if e[0] > l || e[1] > w {
				continue
			}
			with := of
			if with.weight += b.j.stocks[b.bins[bin]].weight; with.weight <= b.limit {
				b.offer(with, int8(i), 0, bin, front{0, e[1], 0, e[0], e[1]}, l)
			}
			break
		}
	}
}

// offering is what all offers of one item to one layout have in common.
type offering struct {
	s                    *step
	kind                 int32
	used, closed, weight int64
	scale                float64 // one over the mean area of the items put
}

func (b *beam) offerOf(s *step, kind int32) offering {
	used := s.used + b.kinds[kind].area
	return offering{s, kind, used, s.closed, s.weight, float64(s.n) / float64(used)}
}

// offer puts a layout with one item more into the heap, if it is promising.
func (b *beam) offer(of offering, lie, deep int8, bin int32, f front, l int64) {
	b.j.trials += offerTrials
	area := of.closed + f.area(l)
	waste := area - of.used
	if waste > b.budget {
		return
	}
	b.order++
	guide := (b.guide.base + float64(waste)/float64(area)) * of.scale
	if len(b.heap) == b.most && guide >= b.heap[0].guide {
		return
	}
	c := child{guide, b.order, *of.s}
	c.kind, c.lie, c.deep, c.bin = of.kind, lie, deep, bin
	c.front, c.closed, c.weight, c.used = f, of.closed, of.weight, of.used
	c.hash += b.kinds[of.kind].sign
	b.push(c)
}

// worse tells whether a is less promising than c.
func (a *child) worse(c *child) bool {
	return a.guide > c.guide || a.guide == c.guide && a.order > c.order
}

// push keeps the most promising ones; the worst of them is at the top.
func (b *beam) push(c child) {
	h := b.heap
	if len(h) < b.most {
		h = append(h, c)
		for i := len(h) - 1; i > 0 && h[i].worse(&h[(i-1)/2]); i = (i - 1) / 2 {
			h[i], h[(i-1)/2] = h[(i-1)/2], h[i]
		}
		b.heap = h
		return
	}
	h[0] = c
	for i := 0; ; {
		k := 2*i + 1
		if k >= len(h) {
			return
		}
		if k+1 < len(h) && h[k+1].worse(&h[k]) {
			k++
		}
		if !h[k].worse(&h[i]) {
			return
		}
		h[i], h[k] = h[k], h[i]
		i = k
	}
}

// choose makes the next level of the most promising ones. Of two with the same
// items one falls away if the other leaves no less room.
func (b *beam) choose(width int) {
	slices.SortFunc(b.heap, func(a, c child) int { return cmp.Or(cmp.Compare(a.guide, c.guide), cmp.Compare(a.order, c.order)) })
	b.level = b.level[:0]
	like := make(map[uint64][]int32, len(b.heap))
next:
	for i := range b.heap {
		s := &b.heap[i].step
		for _, k := range like[s.hash] {
			if o := &b.steps[k]; o.weight <= s.weight && o.bin <= s.bin && (o.bin < s.bin || o.within(s.front)) {
				continue next
			}
		}
		k := int32(len(b.steps))
		b.steps = append(b.steps, *s)
		like[s.hash] = append(like[s.hash], k)
		if b.level = append(b.level, k); len(b.level) == width {
			return
		}
	}
}
