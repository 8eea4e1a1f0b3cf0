package fit

import (
	"fmt"
	"math"

	"rodwork/internal/design"
	"rodwork/internal/mech/spread"
	"rodwork/internal/work"
)

// window is what a fit may come out at, mm of clearance: under Low it does not go
// in as it should, over High it does not hold.
type window struct{ Low, High float64 }

// windows of the fits about their own clearances (common practice): snug is
// pushed in by hand up to a drag that a mallet still overcomes, and holds by
// itself up to a quarter of a millimetre.
var windows = map[string]window{
	"press": {-0.15, 0.05}, "snug": {0, 0.25}, "sliding": {0.1, 0.5}, "loose": {0.3, 1.2},
}

// Window returns the least and the greatest clearance of a fit by its name, mm;
// a shop whose own clearance of that fit is another has the window moved along.
func Window(fit string, clearance float64) (low, high float64) {
	usual := map[string]float64{"press": 0, "snug": 0.1, "sliding": 0.3, "loose": 0.8}
	w, ok := windows[fit]
	if !ok {
		w = windows["snug"]
		fit = "snug"
	}
	d := clearance - usual[fit]
	return w.Low + d, w.High + d
}

// slotPlaces are the places along a panel at which it binds or rattles.
const slotPlaces = 3

// slot is the fit of a test piece.
func (in Input) slot(t *work.TestPiece) Fit {
	shop := in.Design.Shop
	u := in.setUp(t.SetUp)
	f := Fit{ID: "slot/" + t.ID, Kind: Slot, Parts: t.For, Test: t,
		Title: fmt.Sprintf("%s in the %s, %s fit", in.names(t.For), u.Kind, t.Fit)}
	low, high := Window(t.Fit, in.clearance(u, t))
	f.Limits = spread.Limits{Tight: low, Loose: high, Gap: inf(1)}
	panel := stockOf(shop, t.Other)
	if panel == nil {
		panel = &design.Stock{Name: t.Other}
	}
	var c causes
	thick := c.thickness(in, panel, slotPlaces)
	cutter, off := in.cutter(&c, u, t)
	runs := max(u.Across, 1)
	fence := -1
	if runs > 1 {
		fence = c.add(spread.Cause{Name: "the fence between two runs", SD: shop.Spreads.Fence.V, Times: runs - 1}, in.habit("fence"))
	}
	want := t.Want.V + off
	f.Stack = spread.Fit{Causes: c.list, Seed: spread.SeedOf(f.ID), Of: func(x []float64) spread.Outcome {
		w := want + x[cutter]
		for k := range runs - 1 {
			w += x[fence+k]
		}
		thin, fat := math.Inf(1), math.Inf(-1)
		for k := range slotPlaces {
			v := thick(x, k)
			thin, fat = math.Min(thin, v), math.Max(fat, v)
		}
		return spread.Outcome{Tight: w - fat, Loose: w - thin, Gap: w - thin}
	}}
	f.Origins = c.origins
	return f
}

// clearance is that at which a fit feels as it should: as a fresh step test piece
// told, else as the shop has it.
func (in Input) clearance(u work.SetUp, t *work.TestPiece) float64 {
	if fresh, _ := in.Design.Shop.FitTest(u.Kind, u.With, t.Stock, t.Other); fresh != nil && fresh.Best != nil && fresh.Fit == t.Fit {
		return fresh.Best.V
	}
	return t.Clearance.V
}

// cutter adds what a slot's width is off by for the cutter's sake: as a fresh
// test of it measured, or as bits and blades are. It returns the variable, and
// how much wider than set a slot comes out on the mean.
func (in Input) cutter(c *causes, u work.SetUp, t *work.TestPiece) (at int, off float64) {
	if fresh, _ := in.Design.Shop.FitTest(u.Kind, u.With, t.Stock, t.Other); fresh != nil && fresh.Slot != nil && fresh.Set != nil {
		off = fresh.Slot.Mean.V - fresh.Set.V
		return c.add(spread.Cause{Name: "what the " + u.With + " cuts", SD: standardError(*fresh.Slot)},
			Origin{Path: fresh.Path + ".slot", Measured: true, From: "a test piece, " + fresh.Measured}), off
	}
	for _, s := range in.Design.Shop.Saws {
		if s.Name == u.With {
			return c.add(spread.Cause{Name: "the kerf of the " + s.Name, SD: math.Hypot(standardError(s.Kerf), s.Kerf.SD.V)},
				Origin{Path: s.Path + ".kerf", Measured: s.Kerf.Readings > 1, From: readings(s.Kerf)}), 0
		}
	}
	return c.add(spread.Cause{Name: "what the bit cuts against its diameter", SD: in.Design.Shop.Spreads.Bit.V}, in.habit("bit")), 0
}

func (in Input) setUp(n int) work.SetUp {
	for _, u := range in.SetUps {
		if u.Number == n {
			return u
		}
	}
	return work.SetUp{}
}

func stockOf(s *design.ShopFile, name string) *design.Stock {
	for _, k := range s.Stocks {
		if k.Name == name {
			return k
		}
	}
	return nil
}
