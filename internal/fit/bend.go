package fit

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/mech/spread"
	"rodwork/internal/piece"
)

// blade adds the width of a saw's kerf: its mean, which is the same in every
// kerf of a strip, and how one kerf differs from the next. A fresh test of the
// saw in the stock goes before what the shop file has of the saw.
func (in Input) blade(c *causes, saw *design.Saw, s *design.Stock, kerfs int) (mean, own int) {
	sp, path, from := saw.Kerf, saw.Path+".kerf", readings(saw.Kerf)
	if fresh, _ := in.Design.Shop.BendTest(saw.Name, s.Name); fresh != nil && fresh.Kerf != nil {
		sp, path, from = *fresh.Kerf, fresh.Path+".kerf", "a test piece, "+fresh.Measured
	}
	o := Origin{Path: path, Measured: sp.Readings > 1, From: from}
	mean = c.add(spread.Cause{Name: "mean width of the blade’s kerf", Mean: sp.Mean.V, SD: standardError(sp)}, o)
	own = c.add(spread.Cause{Name: "kerf from kerf", SD: sp.SD.V, Times: kerfs}, o)
	return mean, own
}

// mouth is whether all kerfs stay open: the narrowest is asked.
func (in Input) mouth(q *piece.Part, b piece.Bend, saw *design.Saw) Fit {
	p := b.Plan
	n := p.Count
	f := Fit{ID: "mouth/" + q.ID + "/" + b.Corner, Kind: Mouth, Parts: []string{q.ID}, Corner: b.Corner, Path: b.Path,
		Title: "the narrowest kerf mouth of the bend, " + b.Corner, Limits: spread.Limits{Tight: 0, Loose: inf(1), Gap: inf(1)}}
	var c causes
	thick := c.thickness(in, q.Stock, n)
	mean, own := in.blade(&c, saw, q.Stock, n)
	depth := c.add(spread.Cause{Name: "depth of cut", SD: saw.Depth.SD.V, Times: n}, Origin{Path: saw.Path + ".depth spread", Measured: saw.Depth.SD.V > 0, From: "the shop file"})
	layers, skin, riding := p.Spec.Layers, p.Spec.Skin, saw.DepthFrom != "show face"
	f.Stack = spread.Fit{Causes: c.list, Seed: spread.SeedOf(f.ID), Of: func(x []float64) spread.Outcome {
		least := math.Inf(1)
		for i := range n {
			t := thick(x, i)
			h := skin + x[depth+i]
			if riding { // the saw takes its depth from the kerfed face
				h += t - p.Spec.Thick
			}
			y := bend.Neutral(layers, math.Max(h, 0.05))
			least = math.Min(least, x[mean]+x[own+i]-p.Alpha*(t-y))
		}
		return spread.Outcome{Tight: least, Loose: least, Gap: least}
	}}
	f.Origins = c.origins
	return f
}

// shut is the angle at which the bend would stop if it was shut kerf by kerf,
// rad. It asks nothing: it tells why shut kerfs set no angle.
func (in Input) shut(q *piece.Part, b piece.Bend, saw *design.Saw) Fit {
	p := b.Plan
	n := p.Count
	f := Fit{ID: "shut/" + q.ID + "/" + b.Corner, Kind: Shut, Parts: []string{q.ID}, Corner: b.Corner, Path: b.Path,
		Title: "the angle of the bend were its kerfs shut, " + b.Corner, Limits: spread.Open()}
	var c causes
	thick := c.thickness(in, q.Stock, 1)
	mean, own := in.blade(&c, saw, q.Stock, n)
	f.Stack = spread.Fit{Causes: c.list, Seed: spread.SeedOf(f.ID), Of: func(x []float64) spread.Outcome {
		sum := 0.0
		arm := thick(x, 0) - p.NeutralY
		for i := range n {
			sum += (x[mean] + x[own+i]) / arm
		}
		return spread.Outcome{Tight: sum, Loose: sum, Gap: sum}
	}}
	f.Origins = c.origins
	return f
}
