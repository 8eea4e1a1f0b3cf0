package brief

import (
	"math"
	"sort"

	"rodwork/internal/design"
	"rodwork/internal/trace"
)

// level is the room over one surface, for one setting of the shelves.
type level struct {
	room    int
	surface string    // part that carries it
	floor   trace.Num // absolute y that things stand on
	clear   trace.Num // height up to what is above
	back    trace.Num // absolute z
	front   trace.Num
	width   trace.Num
	room0   *room
}

// measures are the plain values of a level: the search tries thousands of
// levels, and only those that it chooses need to know where they come from.
type measures struct{ floor, clear, back, front, width float64 }

func (l level) plain() measures {
	return measures{l.floor.V, l.clear.V, l.back.V, l.front.V, l.width.V}
}

// holds is what a level takes of one thing.
type holds struct {
	row   int     // in one row, the width being free
	rows  int     // behind one another
	width float64 // of the row, with what the arcs leave
}

// settings returns every way in which the pinned shelves of a room can stand,
// as indices of holes; the way as built comes first, as an empty list of
// holes. A room without them has one setting.
func settings(r *room) [][]int {
	out := [][]int{nil}
	n := len(r.loose)
	if n == 0 || len(r.holes) < n {
		return out
	}
	const most = 4000 // settings of one room; beyond that every second hole is left out
	step := 1
	for choose(1+(len(r.holes)-1)/step, n) > most {
		step++
	}
	pick := make([]int, n)
	var walk func(k, from int)
	walk = func(k, from int) {
		if k == n {
			out = append(out, append([]int(nil), pick...))
			return
		}
		for h := from; h < len(r.holes); h += step {
			if k > 0 && r.holes[h].V-r.holes[pick[k-1]].V < r.loose[k-1].thick.V+r.loose[k].drop.V {
				continue
			}
			pick[k] = h
			walk(k+1, h+step)
		}
	}
	walk(0, 0)
	return out
}

func choose(n, k int) int {
	c := 1
	for i := range k {
		c = c * (n - i) / (i + 1)
		if c > 1<<30 || c < 0 {
			return 1 << 30
		}
	}
	return c
}

// underAt is the underside of the k-th pinned shelf in a setting.
func (r *room) underAt(set []int, k int) trace.Num {
	if set == nil {
		return r.loose[k].under
	}
	return r.holes[set[k]]
}

// levels divides a room by its shelves in one setting.
func (r *room) levels(index int, set []int) []level {
	all := append([]surface(nil), r.fixed...)
	for k, s := range r.loose {
		s.under = r.underAt(set, k)
		all = append(all, s)
	}
	sortSurfaces(all)
	s := r.space
	back, front := s.Min[2], s.Min[2].Add(s.Size[2])
	at := level{room: index, surface: r.floor, floor: s.Min[1], back: back, front: front, width: s.Size[0], room0: r}
	var out []level
	for _, f := range all {
		at.clear = f.under.Sub(f.drop).Sub(at.floor)
		out = append(out, at)
		at.surface, at.floor = f.part.ID, f.under.Add(f.thick)
		at.back, at.front = trace.Max(back, f.back), trace.Min(front, f.front)
	}
	at.clear = s.Min[1].Add(s.Size[1]).Sub(at.floor)
	return append(out, at)
}

// plainLevels is levels in plain values.
func (r *room) plainLevels(set []int) []measures {
	type bar struct{ under, thick, drop, back, front float64 }
	all := make([]bar, 0, len(r.fixed)+len(r.loose))
	for _, f := range r.fixed {
		all = append(all, bar{f.under.V, f.thick.V, f.drop.V, f.back.V, f.front.V})
	}
	for k, f := range r.loose {
		under := f.under.V
		if set != nil {
			under = r.holes[set[k]].V
		}
		all = append(all, bar{under, f.thick.V, f.drop.V, f.back.V, f.front.V})
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].under < all[j].under })
	s := r.space
	back, front := s.Min[2].V, s.Min[2].V+s.Size[2].V
	at := measures{floor: s.Min[1].V, back: back, front: front, width: s.Size[0].V}
	out := make([]measures, 0, len(all)+1)
	for _, f := range all {
		at.clear = f.under - f.drop - at.floor
		out = append(out, at)
		at.floor, at.back, at.front = f.under+f.thick, max(back, f.back), min(front, f.front)
	}
	at.clear = s.Min[1].V + s.Size[1].V - at.floor
	return append(out, at)
}

// takes tells how much of a thing a level of the room takes.
func (r *room) takes(l measures, t design.Thing) holds {
	top := l.floor + t.Height.V
	depth := l.front - r.depthFrom(l, top)
	if t.Height.V+FingerAbove > l.clear || t.Depth.V > depth || t.Thickness.V <= 0 || t.Depth.V <= 0 {
		return holds{}
	}
	width := l.width - FingerAlong
	for _, a := range r.arcs {
		width -= a.loss(l.floor, top)
	}
	h := holds{row: whole(width / t.Thickness.V), rows: whole(depth / t.Depth.V), width: width}
	if h.row < 1 {
		return holds{}
	}
	return h
}

// depthFrom is the z behind which a thing that reaches up to top cannot go: the
// rear of the surface, or a rail that its head would meet.
func (r *room) depthFrom(l measures, top float64) float64 {
	z := l.back
	for _, b := range r.rails {
		if b.min[1].V < top+FingerAbove && b.max[1].V > l.floor {
			z = max(z, b.max[2].V)
		}
	}
	return z
}

// whole rounds down to a count, forgiving a hair (1e-9) under a whole number.
func whole(x float64) int {
	if math.IsNaN(x) || x < 0 {
		return 0
	}
	return int(math.Floor(min(x, 1e6) + 1e-9))
}

// put is a number of one thing in one level.
type put struct {
	thing, level int
	front, back  int // in the front row, and in the rows behind it
	rows         int
	rowLength    float64
}

// allotment is one way of putting the things in.
type allotment struct {
	counts []int
	behind int // things in rows behind the front one
	used   int // levels in use
	puts   []put
}

// better ranks allotments: more of the first thing, then of the second …; then
// fewer things behind others; then fewer levels.
func (a allotment) better(b allotment) bool {
	for i := range a.counts {
		if a.counts[i] != b.counts[i] {
			return a.counts[i] > b.counts[i]
		}
	}
	if a.behind != b.behind {
		return a.behind < b.behind
	}
	return a.used < b.used
}

// allot puts the things into the levels in the order of the brief. With deep
// set, each level is filled to its full depth before the next one is begun;
// otherwise all front rows are filled first.
func allot(levels []measures, takes [][]holds, things []design.Thing, deep bool) allotment {
	a := allotment{counts: make([]int, len(things))}
	used := make([]float64, len(levels))
	at := map[[2]int]int{} // (thing, level) → index in puts
	for i, t := range things {
		left := min(t.Count, 1e6)
		for _, l := range byHeight(levels) {
			h := takes[l][i]
			if left == 0 || h.row == 0 {
				continue
			}
			n := min(left, whole((h.width-used[l])/t.Thickness.V))
			if n <= 0 {
				continue
			}
			p := put{thing: i, level: l, front: n, rows: 1, rowLength: float64(n) * t.Thickness.V}
			if deep {
				p.front = min(n, (left+h.rows-1)/h.rows)
				p.back = min(left-p.front, p.front*(h.rows-1))
				p.rows = 1 + (p.back+p.front-1)/max(p.front, 1)
				p.rowLength = float64(p.front) * t.Thickness.V
			}
			used[l] += p.rowLength
			left -= p.front + p.back
			at[[2]int{i, l}] = len(a.puts)
			a.puts = append(a.puts, p)
		}
		for k := range a.puts {
			p := &a.puts[k]
			if p.thing != i || deep || left == 0 {
				continue
			}
			more := min(left, p.front*(takes[p.level][i].rows-1))
			p.back, p.rows, left = more, 1+(more+p.front-1)/p.front, left-more
		}
		a.counts[i] = min(t.Count, 1e6) - left
	}
	open := map[int]bool{}
	for _, p := range a.puts {
		a.behind += p.back
		open[p.level] = true
	}
	a.used = len(open)
	return a
}

// byHeight returns the indices of the levels, the lowest clear height first.
func byHeight(levels []measures) []int {
	ix := make([]int, len(levels))
	for i := range ix {
		ix[i] = i
	}
	sort.SliceStable(ix, func(a, b int) bool { return levels[ix[a]].clear < levels[ix[b]].clear-1e-6 })
	return ix
}
