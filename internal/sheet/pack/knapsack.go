package pack

import (
	"cmp"
	"slices"
)

// knapsack is sizes with what each is worth, the most worth by its length first.
type knapsack struct {
	sizes  []int64
	counts []int
	worth  []float64
	of     []int // size
	least  []int64
	now    []int
	best   []int
	value  float64
	nodes  int64
	enough int64 // nodes after which any fill above the floor will do; 0: never
	most   int64 // nodes in all; 0: no end
	floor  float64
	all    []pattern // each fill that was the best for a while
}

func newKnapsack(sizes []int64, counts []int, worth []float64) *knapsack {
	k := &knapsack{}
	var order []int
	for i := range sizes {
		if counts[i] > 0 && worth[i] > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(worth[b]*float64(sizes[a]), worth[a]*float64(sizes[b]))
	})
	for _, i := range order {
		k.of = append(k.of, i)
		k.sizes = append(k.sizes, sizes[i])
		k.counts = append(k.counts, counts[i])
		k.worth = append(k.worth, worth[i])
	}
	k.least = make([]int64, len(order)+1)
	k.least[len(order)] = 1 << 62
	for i := len(order) - 1; i >= 0; i-- {
		k.least[i] = min(k.least[i+1], k.sizes[i])
	}
	k.now = make([]int, len(order))
	return k
}

// fill returns the fill of the room that is worth most, if that is more than
// floor.
func (k *knapsack) fill(room int64, floor float64) (pattern, float64) {
	k.value, k.floor = floor, floor
	k.try(0, room, 0)
	return k.pattern(k.best), k.value
}

func (k *knapsack) pattern(counts []int) pattern {
	var p pattern
	for i, n := range counts {
		if n > 0 {
			p = append(p, term{k.of[i], n})
		}
	}
	return p
}

// try goes through all fills with the sizes from i on, but for those that
// cannot be worth more than the best, were the room filled at the best rate left.
func (k *knapsack) try(i int, room int64, value float64) {
	k.nodes++
	if value > k.value {
		k.value = value
		k.best = append(k.best[:0], k.now...)
		if k.enough > 0 {
			k.all = append(k.all, k.pattern(k.now))
		}
	}
	if k.enough > 0 && k.nodes > k.enough && k.value > k.floor || k.most > 0 && k.nodes >= k.most {
		return
	}
	for ; i < len(k.sizes) && room >= k.least[i]; i++ {
		if value+k.worth[i]*float64(room)/float64(k.sizes[i]) <= k.value+1e-12 {
			return
		}
		most := min(int64(k.counts[i]), room/k.sizes[i])
		for n := most; n > 0; n-- {
			k.now[i] = int(n)
			k.try(i+1, room-n*k.sizes[i], value+float64(float64(n)*k.worth[i]))
		}
		k.now[i] = 0
	}
}
