package starter

import (
	"context"
	"math"

	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// Larger is a size with which a piece holds all that it is for.
type Larger struct {
	Field string // "width", "height" or "depth"
	Size  float64
}

// HoldsAll tells whether everything of the brief finds room.
func HoldsAll(p *plan.Plan) bool {
	if p == nil {
		return false
	}
	for _, f := range p.Fits {
		if f.Fits < f.Wanted {
			return false
		}
	}
	return true
}

// roomSteps is into how many steps the way to a kind's largest size is parted.
const roomSteps = 8

// Room looks for one larger size with which all of it finds room: first the
// width, then the height, then the depth, in steps to the largest that the kind
// has. ok is false where none does, or where nothing is wanting.
func Room(ctx context.Context, a Answers, shop []byte) (l Larger, ok bool, err error) {
	a, f, _ := settle(a)
	for _, s := range []struct {
		field string
		v     func(*Answers) *float64
		most  float64
	}{
		{"width", func(a *Answers) *float64 { return &a.Width }, f.Width.Most},
		{"height", func(a *Answers) *float64 { return &a.Height }, f.Height.Most},
		{"depth", func(a *Answers) *float64 { return &a.Depth }, f.Depth.Most},
	} {
		from := *s.v(&a)
		for i := 1; i <= roomSteps; i++ {
			b := a
			*s.v(&b) = round(from+(s.most-from)*float64(i)/roomSteps, s.most, a.System)
			found, err := best(ctx, b, f, goodsOf(shopFile, shop), shop)
			if err != nil {
				return Larger{}, false, err
			}
			if found.Sound && HoldsAll(found.Plan) {
				return Larger{s.field, *s.v(&b)}, true, nil
			}
		}
	}
	return Larger{}, false, nil
}

// round makes a size a round one: whole centimetres or half inches upwards.
func round(v, most float64, s units.System) float64 {
	to := 10.0
	if inches(s) {
		to = 12.7
	}
	if r := math.Ceil(v/to-1e-9) * to; r <= most {
		return r
	}
	return math.Floor(most/to) * to
}
