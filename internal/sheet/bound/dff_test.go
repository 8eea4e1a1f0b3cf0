package bound

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/sheet"
)

// TestNoStickWeighsMore: whatever lengths are drawn together into one stick,
// no function lets them weigh more than 1. Counting is asked of lengths at hand
// only, so what is drawn is a choice of those.
func TestNoStickWeighsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Int64Range(2, 120).Draw(t, "capacity")
		hand := rapid.SliceOfN(rapid.Int64Range(1, c), 1, 12).Draw(t, "lengths")
		slices.Sort(hand)
		room := c
		var on []int
		for _, i := range rapid.Permutation(indexes(len(hand))).Draw(t, "order") {
			if hand[i] <= room {
				room -= hand[i]
				on = append(on, i)
			}
		}
		at := once(each(hand))
		for _, f := range functions(c, each(hand), 1000) {
			sum := int64(0)
			for _, i := range on {
				k, _ := slices.BinarySearch(at, hand[i])
				sum += f.num[k]
			}
			if sum > f.den {
				t.Fatalf("%v of capacity %d: %d of %d", f.f, c, sum, f.den)
			}
		}
	})
}

// each makes every length a copy of its own.
func each(hand []int64) [][]int64 {
	var out [][]int64
	for _, x := range hand {
		out = append(out, []int64{x})
	}
	return out
}

func indexes(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// TestWeights has values worked by hand for a capacity of 100.
func TestWeights(t *testing.T) {
	hand := []int64{20, 30, 34, 50, 51, 80}
	for _, c := range []struct {
		f    sheet.Func
		x    int64
		want float64
	}{
		{sheet.Func{Family: sheet.Identity}, 34, 0.34},
		{sheet.Func{Family: sheet.Rounding, Param: 1}, 51, 1},            // ⌊1.02⌋/1
		{sheet.Func{Family: sheet.Rounding, Param: 1}, 50, 0.5},          // 2·50/100 is whole
		{sheet.Func{Family: sheet.Rounding, Param: 2}, 34, 0.5},          // ⌊1.02⌋/2
		{sheet.Func{Family: sheet.Rounding, Param: 2}, 30, 0},            // ⌊0.9⌋/2
		{sheet.Func{Family: sheet.Threshold, Param: 30}, 20, 0},          // under 30
		{sheet.Func{Family: sheet.Threshold, Param: 30}, 80, 1},          // over 70
		{sheet.Func{Family: sheet.Division, Param: 30}, 34, 1. / 3},      // ⌊34/30⌋ of ⌊100/30⌋
		{sheet.Func{Family: sheet.Division, Param: 30}, 80, 1},           // what is left of 20 is ⌊20/30⌋
		{sheet.Func{Family: sheet.Counting, Param: 30}, 30, 0.5},         // of 30, 34, 50 two go in 100
		{sheet.Func{Family: sheet.Counting, Param: 30}, 51, 0.5},         // one of them goes in the 49 beside it
		{sheet.Func{Family: sheet.Slope, Param: 30}, 34, 1. / 3},         // one of three thirties, and 4 is under what 100 leaves, 10
		{sheet.Func{Family: sheet.Slope, Param: 30}, 50, 0.5},            // one, and 10 of the 20 above it: 1.5 of 3
		{sheet.Func{Family: sheet.Rounding, Param: 2, Floor: 30}, 80, 1}, // over 70 is 100
		{sheet.Func{Family: sheet.Rounding, Param: 2, Floor: 35}, 34, 0}, // under 35 is nothing
		{sheet.Func{Family: sheet.Counting, Param: 20}, 51, 2. / 3},      // 20, 30, 34 in 100; 20 in 49
	} {
		at, den := pick(c.f, 100, each(hand))
		if got := float64(at(c.x)) / float64(den); got < c.want-1e-12 || got > c.want+1e-12 {
			t.Errorf("%v of %d: %g, want %g", c.f, c.x, got, c.want)
		}
	}
}

// TestCost: three parts of nearly a sheet each, sheets of 60 and of 100 for
// twice as much: by area two large ones are as cheap as can be.
func TestCost(t *testing.T) {
	p := sheet.Problem{
		Stocks: []sheet.Stock{{Length: 200, Width: 100, Price: 100, Available: sheet.Unlimited}, {Length: 100, Width: 100, Price: 60, Available: sheet.Unlimited}},
		Parts:  []sheet.Part{{Length: 100, Width: 100, Copies: 3}},
	}
	if got := Cost(p, 2); got != 150 {
		t.Errorf("cost %d, want 1.5 large sheets, 150", got)
	}
	p.Stocks[0].Available = 1
	if got := Cost(p, 2); got != 160 {
		t.Errorf("cost %d, want one large and one small sheet, 160", got)
	}
}
