package bound

import (
	"cmp"
	"slices"

	"rodwork/internal/sheet"
)

// mostRounding is the largest k of the rounding family that is tried, and
// floorRounding after a threshold.
const (
	mostRounding  = 60
	floorRounding = 8
)

// functions lists what is tried for capacity c and the lengths of each copy at
// hand: no more than about most of them, the plainest first. Of two that weigh
// alike the first stays, and one that weighs no length more than another goes.
func functions(c int64, lengths [][]int64, most int) []table {
	at := once(lengths)
	var out []table
	add := func(f sheet.Func) {
		if t, ok := eval(f, c, lengths, at); ok {
			out = append(out, t)
		}
	}
	add(sheet.Func{Family: sheet.Identity})
	if most <= 1 {
		return out
	}
	for k := int64(1); k <= 4; k++ {
		add(sheet.Func{Family: sheet.Rounding, Param: k})
	}
	params := divisors(at, c)
	share := most / 5
	spread(params, c/2, share, func(e int64) { add(sheet.Func{Family: sheet.Division, Param: e}) })
	spread(params, c/2, share, func(e int64) { add(sheet.Func{Family: sheet.Threshold, Param: e}) })
	spread(at, c/2, share, func(e int64) { add(sheet.Func{Family: sheet.Counting, Param: e}) })
	for k := int64(5); k <= min(mostRounding, int64(share)); k++ {
		add(sheet.Func{Family: sheet.Rounding, Param: k})
	}
	spread(params, c, share, func(e int64) { add(sheet.Func{Family: sheet.Slope, Param: e}) })
	spread(params, c/2, share/floorRounding, func(e int64) {
		for k := int64(1); k <= floorRounding; k++ {
			add(sheet.Func{Family: sheet.Rounding, Param: k, Floor: e})
		}
	})
	return undominated(out)
}

// undominated drops each table that weighs no length more than another does.
func undominated(ts []table) []table {
	values := make([][]float64, len(ts))
	total := make([]float64, len(ts))
	rank := make([]int, len(ts))
	for i, t := range ts {
		rank[i] = i
		for _, n := range t.num {
			v := float64(n) / float64(t.den) // equal fractions give equal values
			values[i] = append(values[i], v)
			total[i] += v
		}
	}
	slices.SortStableFunc(rank, func(a, b int) int { return cmp.Compare(total[b], total[a]) })
	var kept []int
	for _, i := range rank {
		if !slices.ContainsFunc(kept, func(k int) bool { return atLeast(values[k], values[i]) }) {
			kept = append(kept, i)
		}
	}
	slices.Sort(kept)
	out := make([]table, len(kept))
	for k, i := range kept {
		out[k] = ts[i]
	}
	return out
}

func atLeast(a, b []float64) bool {
	for k := range a {
		if a[k] < b[k] {
			return false
		}
	}
	return true
}

// divisors returns the parameters worth trying, sorted: the lengths, what they
// leave of the capacity, and simple parts of both.
func divisors(at []int64, c int64) []int64 {
	var ps []int64
	add := func(v int64) {
		if v >= 1 && v <= c {
			ps = append(ps, v)
		}
	}
	for _, x := range at {
		for _, v := range []int64{x, c - x} {
			add(v)
			add(v + 1)
			for j := int64(2); j <= 4; j++ {
				add(v / j)
				add(v/j + 1)
			}
		}
	}
	for j := int64(1); j <= 12; j++ {
		add(c / j)
		add(c/j + 1)
	}
	slices.Sort(ps)
	return slices.Compact(ps)
}

// once returns each length once, sorted.
func once(lengths [][]int64) []int64 {
	at := slices.Concat(lengths...)
	slices.Sort(at)
	return slices.Compact(at)
}

// spread calls add for up to n of the sorted parameters that are no more than
// limit, evenly taken.
func spread(params []int64, limit int64, n int, add func(int64)) {
	for len(params) > 0 && params[len(params)-1] > limit {
		params = params[:len(params)-1]
	}
	n = min(n, len(params))
	for i := range n {
		add(params[i*len(params)/n])
	}
}
