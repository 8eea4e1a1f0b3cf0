package dryfit

import (
	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// openShare is what a glue-up may take of the open time: warm or dry air, or a
// thirsty edge, shortens what the label says (common practice, no source).
const openShare = 0.8

// Hands: a part longer or heavier than this is brought in by two people, mm and
// kg (common practice).
const (
	twoLong  = 1200.0
	twoHeavy = 12.0
)

// clock reckons glue-ups for one piece and one shop.
type clock struct {
	s    *search
	d    *design.Design
	glue design.Glue
	rate design.Rates
}

// newClock returns a clock; ok is false where the shop has no glue.
func newClock(s *search, d *design.Design) (c clock, ok bool) {
	if d == nil || d.Shop == nil || len(d.Shop.Glues) == 0 {
		return clock{}, false
	}
	return clock{s, d, d.Shop.Glues[0], d.Shop.Rates}, true
}

// limit is the open time less the margin, s.
func (c clock) limit() trace.Num { return c.glue.Open.Scale(openShare) }

// up reckons one glue-up.
func (c clock) up(number int, steps []work.Step) work.GlueUp {
	g := work.GlueUp{Number: number, Limit: c.limit(), Dry: c.glue.ClampTime, Hands: 1}
	heavy, clamps, brought := 0.0, 0, 0
	for _, st := range steps {
		g.Area = g.Area.Add(area(c.s.p, st.Joints))
		g.Parts = append(g.Parts, st.Part)
		if len(st.Joints) > 0 {
			brought++
		}
		if q := c.s.p.Part(st.Part); q != nil {
			heavy += q.Mass.V
			if q.Length.V > twoLong || q.Mass.V > twoHeavy {
				g.Hands = 2
			}
		}
	}
	if heavy > 2*twoHeavy {
		g.Hands = 2
	}
	g.Rows = c.s.rows(steps)
	deal(g.Rows, c.d.Shop)
	for _, r := range g.Rows {
		clamps += r.Count
	}
	g.Glue = g.Area.Mul(c.glue.Spread)
	g.Spread = g.Area.Scale(1e-6).Mul(c.rate.SpreadPerM2)
	g.Close, g.Clamp = c.rate.Part.Scale(float64(brought)), c.rate.Clamp.Mul(trace.Step(float64(clamps), g.Area))
	g.Total = g.Spread.Add(g.Close).Add(g.Clamp)
	return g
}

// long tells whether some steps are too much for one glue-up.
func (c clock) long(steps []work.Step) bool {
	return c.glue.Open.V > 0 && c.up(0, steps).Total.V > c.limit().V
}

// all reckons the glue-ups of an order, from the first.
func (c clock) all(steps []work.Step) []work.GlueUp {
	var out []work.GlueUp
	for n := 1; ; n++ {
		var mine []work.Step
		for _, s := range steps {
			if s.Group == n {
				mine = append(mine, s)
			}
		}
		if len(mine) == 0 {
			return out
		}
		out = append(out, c.up(n, mine))
	}
}

// area is the traced area of the glued ones among some joints, mm².
func area(p *piece.Piece, ids []string) trace.Num {
	var out trace.Num
	for _, id := range ids {
		for i := range p.Joints {
			if j := &p.Joints[i]; j.ID == id && j.Glued {
				out = out.Add(j.Area)
			}
		}
	}
	return out
}
