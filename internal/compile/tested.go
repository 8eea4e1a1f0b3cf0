package compile

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/mech/learn"
)

// kerfIn is the width of a saw's kerf in a stock: as a test piece of that stock
// measured it, as long as it is not stale, else as the shop file has it of the
// saw. Sheets fuzz, so that the same blade cuts wider in one than in another.
func (b *builder) kerfIn(saw *design.Saw, stock *design.Stock) design.Spread {
	if t, _ := b.d.Shop.BendTest(saw.Name, stock.Name); t != nil && t.Kerf != nil && t.Kerf.Mean.V > 0 {
		return *t.Kerf
	}
	return saw.Kerf
}

// hinge is what a test piece that is not stale tells of the length of the hinge
// under a kerf, w + β·h: β between two bounds. Both are nought where nothing
// was measured, or where it contradicts what can be: then it is as if untested.
func (b *builder) hinge(saw *design.Saw, stock *design.Stock) (low, high float64) {
	t, _ := b.d.Shop.BendTest(saw.Name, stock.Name)
	if t == nil || t.Once == nil || t.Twice == nil || t.Kerf == nil || t.Double == nil || t.Skin == nil {
		return 0, 0
	}
	m := func(s *design.Spread) learn.Measured {
		return learn.Measured{Mean: s.Mean.V, SD: s.SD.V, N: s.Readings}
	}
	_, low, high, ok := learn.Hinge{Kerf: m(t.Kerf), Double: m(t.Double), Skin: m(t.Skin), Once: m(t.Once), Twice: m(t.Twice)}.Beta()
	if !ok || high <= 0 || low >= mostBeta {
		return 0, 0
	}
	return math.Max(low, 0), math.Min(high, mostBeta)
}

// mostBeta is as long as a hinge is thought to be: past it the readings are
// taken to be wrong.
const mostBeta = 4
