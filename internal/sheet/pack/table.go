package pack

import "slices"

// table is the knapsack by dynamic programming: what is the most worth in each
// room, with bundles of 1, 2, 4 … of a size taken one after the other. It takes
// a sure time, where knapsack may go astray.
type table struct {
	k       *knapsack
	unit    int64
	room    int
	bundles []term // index in knapsack, number
	best    []float64
	taken   [][]uint64 // for each bundle, in which rooms it was taken
}

// mostCells bounds a table, in bundles times rooms.
const mostCells = 60_000_000

// newTable is nil where the table would be too large.
func (k *knapsack) newTable(room, unit int64) *table {
	t := &table{k: k, unit: unit, room: int(room / unit)}
	for i, c := range k.counts {
		for n, left := 1, min(int64(c), room/k.sizes[i]); left > 0; n *= 2 {
			b := min(n, int(left))
			t.bundles = append(t.bundles, term{i, b})
			left -= int64(b)
		}
	}
	if int64(len(t.bundles))*int64(t.room) > mostCells {
		return nil
	}
	return t
}

func (t *table) cells() int64 { return int64(len(t.bundles)) * int64(t.room) }

// fill computes the table and returns the most worth.
func (t *table) fill() float64 {
	t.best = make([]float64, t.room+1)
	for _, b := range t.bundles {
		size := int(t.k.sizes[b.size]/t.unit) * b.n
		worth := float64(float64(b.n) * t.k.worth[b.size])
		taken := make([]uint64, t.room/64+1)
		for c := t.room; c >= size; c-- {
			if v := t.best[c-size] + worth; v > t.best[c]+1e-13 {
				t.best[c] = v
				taken[c/64] |= 1 << (c % 64)
			}
		}
		t.taken = append(t.taken, taken)
	}
	return t.best[t.room]
}

// pattern is the fill that is worth most in a room of c units.
func (t *table) pattern(c int) pattern {
	counts := make([]int, len(t.k.sizes))
	for i := len(t.bundles) - 1; i >= 0; i-- {
		if t.taken[i][c/64]>>(c%64)&1 == 1 {
			b := t.bundles[i]
			counts[b.size] += b.n
			c -= int(t.k.sizes[b.size]/t.unit) * b.n
		}
	}
	return t.k.pattern(counts)
}

// patterns returns the best fill, after others worth more than floor in less
// room, up to most.
func (t *table) patterns(floor float64, most int) []pattern {
	var out []pattern
	last := 1e300
	for c := t.room; c > 0 && len(out) < most && t.best[c] > floor; c-- {
		if t.best[c] < last-1e-12 {
			out = append(out, t.pattern(c))
			last = t.best[c]
		}
	}
	slices.Reverse(out)
	return out
}
