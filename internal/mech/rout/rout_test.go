package rout

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRulesAreComplete(t *testing.T) {
	ids := map[string]bool{}
	for _, r := range Rules {
		if err := r.Complete(); err != nil {
			t.Error(err)
		}
		if ids[r.ID] {
			t.Errorf("%s twice", r.ID)
		}
		ids[r.ID] = true
	}
}

// The two cases that were found worked: a hole of 6 in with a bush of 5/16 and
// a bit of 1/4 asks for 6 1/16 in; 8 × 4 in with 3/4 and 1/4 for 8 1/2 × 4 1/2.
func TestPublishedOpenings(t *testing.T) {
	const in = 25.4
	for _, c := range []struct{ finished, bush, bit, want float64 }{
		{6, 5. / 16, 1. / 4, 6 + 1./16}, {8, 3. / 4, 1. / 4, 8.5}, {4, 3. / 4, 1. / 4, 4.5},
	} {
		if got := Opening(c.finished*in, c.bush*in, c.bit*in); math.Abs(got-c.want*in) > 1e-9 {
			t.Errorf("%v in: %v in, want %v in", c.finished, got/in, c.want)
		}
	}
}

func TestBushMustHoldTheBit(t *testing.T) {
	for _, c := range [][2]float64{{6, 6}, {6, 8}, {0, 0}, {10, 0}, {math.NaN(), 3}, {10, math.NaN()}} {
		if _, err := Offset(c[0], c[1]); err == nil {
			t.Errorf("bush %v, bit %v: no error", c[0], c[1])
		}
	}
}

// A bush reaches into a template's corner exactly where the bit goes into the
// part's corner.
func TestCornersAskTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bit := rapid.Float64Range(1, 20).Draw(t, "bit")
		bush := bit + rapid.Float64Range(0.5, 20).Draw(t, "more")
		r := rapid.Float64Range(0, 40).Draw(t, "r")
		o, err := Offset(bush, bit)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(r-bit/2) < 1e-9 {
			return
		}
		bushGoes, bitGoes := r+o >= bush/2, LargestBit(r) >= bit
		if bushGoes != bitGoes {
			t.Fatalf("bush %v, bit %v, corner %v: %v and %v", bush, bit, r, bushGoes, bitGoes)
		}
		if got := Corner(r+o, bush, bit); bitGoes && math.Abs(got-r) > 1e-9 || !bitGoes && math.Abs(got-bit/2) > 1e-9 {
			t.Fatalf("corner %v, want %v", got, r)
		}
	})
}

func TestPasses(t *testing.T) {
	for _, c := range []struct {
		depth, bit float64
		count      int
	}{{17.7, 12, 6}, {3.175, 12, 1}, {3.2, 12, 2}, {6, 4, 3}, {0, 12, 0}, {5, 0, 0}} {
		n, each := Passes(c.depth, c.bit)
		if n != c.count || n > 0 && (math.Abs(each*float64(n)-c.depth) > 1e-9 || each > DeepestPass+1e-9 || each > c.bit/2+1e-9) {
			t.Errorf("depth %v, bit %v: %d passes of %v", c.depth, c.bit, n, each)
		}
	}
}
