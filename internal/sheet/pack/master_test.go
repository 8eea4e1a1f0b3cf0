package pack

import (
	"testing"

	"pgregory.net/rapid"
)

// TestMaster: three of 40 and three of 35 on 100 go two to a stick, so three
// sticks; the program cannot do with less, as no stick takes three.
func TestMaster(t *testing.T) {
	b := &bins{capacity: 100, sizes: []int64{40, 35}, counts: []int{3, 3}}
	m := newMaster(b, 1<<30)
	r, ok := m.solve(b.counts, 0)
	if !ok || r.value < 3-1e-6 || r.value > 3+1e-6 {
		t.Errorf("%v %v", r, ok)
	}
}

// TestKnapsacksAgree: the table and the plain search find fills of one worth.
func TestKnapsacksAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.Int64Range(10, 80).Draw(t, "room")
		n := rapid.IntRange(1, 9).Draw(t, "sizes")
		var sizes []int64
		var counts []int
		var worth []float64
		for range n {
			sizes = append(sizes, rapid.Int64Range(1, room).Draw(t, "size"))
			counts = append(counts, rapid.IntRange(0, 5).Draw(t, "count"))
			worth = append(worth, float64(rapid.IntRange(0, 50).Draw(t, "worth")))
		}
		k := newKnapsack(sizes, counts, worth)
		p, v := k.fill(room, 0)
		table := newKnapsack(sizes, counts, worth).newTable(room, 1)
		if got := table.fill(); got != v {
			t.Fatalf("%g by the table, %g by the search", got, v)
		}
		for _, p := range []pattern{p, table.pattern(table.room)} {
			left, sum := room, 0.0
			for _, q := range p {
				left -= sizes[q.size] * int64(q.n)
				sum += worth[q.size] * float64(q.n)
				if q.n > counts[q.size] {
					t.Fatalf("%d of %d", q.n, counts[q.size])
				}
			}
			if left < 0 || sum != v {
				t.Fatalf("a fill is worth %g and leaves %d, want %g", sum, left, v)
			}
		}
	})
}
