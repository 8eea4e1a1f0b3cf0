package making

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Ways compares the ways to make each bend: kerfed, of thin plies, and of one
// thin sheet bent cold, by the radius that they allow, the time, the money and
// what can go wrong. Bends that are alike are compared once.
func Ways(p *piece.Piece, d *design.Design) []work.BendWay {
	var out []work.BendWay
	type key struct{ radius, angle, width float64 }
	seen := map[key]bool{}
	for _, q := range p.Parts {
		for i := range q.Bends {
			b := &q.Bends[i]
			k := key{round(b.Radius.V), round(b.Angle.V), round(q.Width.V)}
			if b.Length.V <= 0 || q.Stock == nil || seen[k] {
				continue
			}
			seen[k] = true
			w := weigher{d: d, q: q, b: b}
			for _, way := range []func() (work.BendWay, bool){w.kerfed, w.laminated, w.cold} {
				if x, ok := way(); ok {
					x.Part, x.Corner = q.ID, b.Corner
					x.Picked = x.Way == b.Way || x.Way == design.Kerfed && b.Way == ""
					out = append(out, x)
				}
			}
		}
	}
	return out
}

// weigher compares the ways to make one bend.
type weigher struct {
	d *design.Design
	q *piece.Part
	b *piece.Bend
}

// waiting is how long what is glued under strain stays on its former, s: a day.
const waiting = 24 * 3600.0

// share is what a length of the strip costs of a stock, in n sheets.
func (w weigher) share(s *design.Stock, n int) float64 {
	area := (s.Length.V - 2*s.Trim.V) * (s.Width.V - 2*s.Trim.V)
	if area <= 0 {
		return 0
	}
	return s.Price.V * float64(n) * w.q.Length.V * w.q.Width.V / area
}

// cutTime is the time to saw a length, s.
func (w weigher) cutTime(mm float64) float64 { return w.d.Shop.Rates.CutPerMetre.V * mm / 1000 }

// kerfed is the bend as it is planned, or as it would be with the shop's saw in
// the sheet whose thickness is nearest to the strip's.
func (w weigher) kerfed() (work.BendWay, bool) {
	plan, st := w.b.Plan, w.q.Stock
	if plan.Count == 0 {
		st = w.nearestSheet()
		if st == nil || len(w.d.Shop.Saws) == 0 {
			return work.BendWay{}, false
		}
		saw := w.d.Shop.Saws[0]
		var err error
		plan, err = bend.New(bend.Spec{Thick: st.Thickness.Mean.V, Skin: st.FaceVeneer.V + w.d.Shop.Habits.Skin.V, Kerf: saw.Kerf.Mean.V, KerfSD: saw.Kerf.SD.V,
			Radius: w.b.Radius.V, Angle: w.b.Angle.V, Width: w.q.Width.V, GrainAlong: true, FaceVeneer: st.FaceVeneer.V,
			LeastRib: w.d.Shop.Habits.LeastRib.V, LeastMouth: w.d.Shop.Habits.LeastMouth.V})
		if err != nil {
			return work.BendWay{}, false
		}
	}
	out := work.BendWay{Way: design.Kerfed, Stock: st.Name, Count: plan.Count, Work: w.cutTime(float64(plan.Count) * w.q.Width.V),
		Cost: w.share(st, 1), Least: leastKerfed(plan.Spec)}
	out.Verdict, out.Why = worstOf(plan.Verdicts())
	return out, true
}

func (w weigher) nearestSheet() *design.Stock {
	var best *design.Stock
	for _, s := range w.d.Shop.Stocks {
		if s.Kind == design.Plywood && !s.Stick && s.Thickness.Mean.V >= 9 &&
			(best == nil || math.Abs(s.Thickness.Mean.V-w.q.Thick.V) < math.Abs(best.Thickness.Mean.V-w.q.Thick.V)-1e-9) {
			best = s
		}
	}
	return best
}

// leastKerfed is the least radius, to 5 mm, at which the same blade and skin say
// no stop.
func leastKerfed(s bend.Spec) float64 {
	s.Count = 0
	fits := func(r float64) bool {
		s.Radius = r
		p, err := bend.New(s)
		if err != nil {
			return false
		}
		v, _ := worstOf(p.Verdicts())
		return v != work.Stop
	}
	lo, hi := math.Floor(s.Thick/5)*5, math.Ceil(s.Radius/5)*5
	for !fits(hi) {
		if lo, hi = hi, 2*hi; hi > 4000 {
			return 0
		}
	}
	for hi-lo > 5 {
		mid := math.Floor((lo+hi)/10) * 5 // between the two, on a 5
		if mid <= lo {
			break
		}
		if fits(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

func worstOf(vs []bend.Verdict) (work.Verdict, string) {
	out, why := work.Fine, ""
	rank := map[bend.Level]int{bend.Fine: 0, bend.Look: 1, bend.NotCovered: 2, bend.Stop: 3}
	level := bend.Fine
	for _, v := range vs {
		if rank[v.Level] > rank[level] || why == "" {
			level, why = v.Level, v.Why
		}
	}
	switch level {
	case bend.Stop:
		out = work.Stop
	case bend.NotCovered:
		out = work.NotCovered
	case bend.Look:
		out = work.Look
	}
	return out, why
}

// stack is the bend of n sheets of a stock.
func (w weigher) stack(s *design.Stock, n int) (bend.StackPlan, bool) {
	spec := bend.Stack{Ply: s.Thickness.Mean.V, Count: n, Radius: w.b.Radius.V, Angle: w.b.Angle.V, Width: w.q.Width.V, Length: w.q.Length.V,
		GrainAlong: true, Soaked: w.d.Body.Bend.Soaked}
	if gs := w.d.Shop.Glues; len(gs) > 0 {
		spec.OpenTime, spec.SpreadTime = gs[0].Open.V, w.d.Shop.Rates.SpreadPerM2.V*1e-6
	}
	p, err := bend.NewStack(spec)
	return p, err == nil
}

// laminated is the stack that comes nearest to the strip's thickness, of the
// sheet that bends best; of equals, the fewest plies.
func (w weigher) laminated() (work.BendWay, bool) {
	if s := w.b.Stack; s != nil && s.Stack.Count > 1 {
		return w.stacked(design.Laminated, w.q.Stock, s.Stack.Count)
	}
	return w.bestOf(func(s *design.Stock) (work.BendWay, bool) {
		n := int(w.q.Thick.V/s.Thickness.Mean.V + 0.5)
		if n < 2 {
			return work.BendWay{}, false
		}
		return w.stacked(design.Laminated, s, n)
	})
}

// cold is one sheet of the stock that bends best.
func (w weigher) cold() (work.BendWay, bool) {
	if s := w.b.Stack; s != nil && s.Stack.Count == 1 {
		return w.stacked(design.Cold, w.q.Stock, 1)
	}
	return w.bestOf(func(s *design.Stock) (work.BendWay, bool) { return w.stacked(design.Cold, s, 1) })
}

// bestOf tries every thin sheet of the shop.
func (w weigher) bestOf(try func(*design.Stock) (work.BendWay, bool)) (work.BendWay, bool) {
	var best work.BendWay
	found := false
	rank := map[work.Verdict]int{work.Fine: 0, work.Look: 1, work.NotCovered: 2, work.Stop: 3}
	for _, s := range w.d.Shop.Stocks {
		if s.Kind != design.Plywood || s.Stick || s.Thickness.Mean.V > 7 || s.Thickness.Mean.V <= 0 {
			continue
		}
		x, ok := try(s)
		if ok && (!found || rank[x.Verdict] < rank[best.Verdict] || rank[x.Verdict] == rank[best.Verdict] && x.Count < best.Count) {
			best, found = x, true
		}
	}
	return best, found
}

func (w weigher) stacked(way string, s *design.Stock, n int) (work.BendWay, bool) {
	p, ok := w.stack(s, n)
	if !ok {
		return work.BendWay{}, false
	}
	out := work.BendWay{Way: way, Stock: s.Name, Count: n, Cost: w.share(s, n),
		Work: p.GlueTime + w.cutTime(float64(n)*2*(w.q.Length.V+w.q.Width.V))}
	if n > 1 {
		out.Wait = waiting
		if gs := w.d.Shop.Glues; len(gs) > 0 {
			out.Cost += p.GlueArea * gs[0].Spread.V * gs[0].Price.V
		}
	}
	out.Least, _ = p.LeastOutside()
	out.Verdict, out.Why = worstOf(p.Verdicts())
	return out, true
}
