package bound

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/sheet"
)

// TestLiftsKeepSticks: whatever goes on one stick as it is still goes on it
// when lifted.
func TestLiftsKeepSticks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Int64Range(5, 60).Draw(t, "capacity")
		p := sheet.Problem{Stocks: []sheet.Stock{{Length: c, Width: c, Available: sheet.Unlimited}}}
		for _, x := range rapid.SliceOfN(rapid.Int64Range(1, c), 1, 8).Draw(t, "lengths") {
			p.Parts = append(p.Parts, sheet.Part{Length: x, Width: rapid.Int64Range(1, c).Draw(t, "width"), Copies: 1,
				Grain: sheet.Grain(rapid.IntRange(0, 1).Draw(t, "grain"))})
		}
		f := newFrame(p)
		plain, lifted := f.copiesOf(false), f.copiesOf(false)
		f.lift(lifted)
		ways := 1
		for _, o := range plain {
			ways *= len(o.lies) + 1
		}
		for w := range ways { // each copy is off the stick, or on it in one way
			before, after := int64(0), int64(0)
			for i, o := range plain {
				k := w % (len(o.lies) + 1)
				w /= len(o.lies) + 1
				if k > 0 {
					before += o.lies[k-1].DX
					after += lifted[i].lies[k-1].DX
				}
			}
			if before <= c && after > c {
				t.Fatalf("%d went on, lifted %d do not: %v, %v", before, after, plain, lifted)
			}
		}
	})
}

// TestLift: beside 7 of 10 there is only a 2, so the 7 is as good as 8; a 9 has
// the stick for itself.
func TestLift(t *testing.T) {
	p := sheet.Problem{Stocks: []sheet.Stock{{Length: 10, Width: 1, Available: sheet.Unlimited}}}
	for _, x := range []int64{7, 9, 2} {
		p.Parts = append(p.Parts, sheet.Part{Length: x, Width: 1, Grain: sheet.Along, Copies: 1})
	}
	f := newFrame(p)
	all := f.copiesOf(false)
	lifts := f.lift(all)
	want := []sheet.Lift{{Part: 0, To: 8}, {Part: 1, To: 10}}
	if !slices.Equal(lifts, want) {
		t.Errorf("lifts %v, want %v", lifts, want)
	}
}
