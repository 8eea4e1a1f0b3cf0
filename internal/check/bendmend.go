package check

import (
	"fmt"
	"math"

	"rodwork/internal/mech/bend"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/work"
)

// trials are a bend planned anew with other kerfs, other radii, other skins,
// each judged once; every verdict looks for its mend among them.
type trials struct {
	bend             *piece.Bend
	was              []int // badness of the plan's verdicts, in their order
	count            []trial
	radius, thin, up []trial
}

// trial is one value tried and how the verdicts come out.
type trial struct {
	x   float64
	now []int
}

// mends offers the nearest change by which verdict k becomes fine, or at least
// better, and no other becomes worse.
func (t *trials) mends(k int, v bend.Verdict) []work.Mend {
	t.run()
	b := t.bend
	var out []work.Mend
	if n, ok := t.pick(t.count, k); ok {
		out = append(out, work.Mend{Text: say.F("cut {} kerfs instead of {}", int(n), b.Plan.Count), Path: "body.bend.kerfs", New: fmt.Sprint(int(n))})
	}
	if r, ok := t.pick(t.radius, k); ok {
		out = append(out, work.Mend{Text: say.F("turn the corner at {}", say.Len(r, 0)), Path: b.Path + ".radius", New: fmt.Sprintf("%.0f mm", r)})
	}
	for _, list := range [][]trial{t.thin, t.up} {
		if h, ok := t.pick(list, k); ok {
			out = append(out, work.Mend{Text: say.F("leave a skin of {}", say.Len(h, 1)), Path: "body.bend.skin", New: fmt.Sprintf("%.1f mm", h)})
		}
	}
	if v.Key == bend.KeyStrain {
		out = append(out, work.Mend{Text: say.F("bend a test strip of this batch, cut with this blade, and log what it does")})
	}
	return out
}

// run plans and judges everything that is tried: counts nearest first, larger
// radii, skins down and up in steps of 0.1 mm.
func (t *trials) run() {
	if t.was != nil {
		return
	}
	b := t.bend
	t.was = grades(b.Plan)
	for k := 1; k <= 60; k++ {
		d := (k + 1) / 2
		if k%2 == 0 {
			d = -d
		}
		n := b.Plan.Count + d
		t.count = t.with(t.count, float64(n), func(s *bend.Spec) { s.Count = n })
	}
	from := math.Round(b.Plan.Spec.Radius/5) * 5
	for _, by := range []float64{5, 10, 15, 20, 30, 40, 60, 80, 100, 150, 200, 300} {
		r := from + by
		t.radius = t.with(t.radius, r, func(s *bend.Spec) { s.Radius, s.Count = r, t.recount() })
	}
	skin := math.Round(b.Plan.Spec.Skin*10) / 10
	least := math.Max(b.Plan.Spec.FaceVeneer, 0.3)
	for k := 1; k <= 8; k++ {
		by := float64(k) / 10
		if thin := skin - by; thin >= least {
			t.thin = t.with(t.thin, thin, func(s *bend.Spec) { s.Skin, s.Count = thin, t.recount() })
		}
		t.up = t.with(t.up, skin+by, func(s *bend.Spec) { s.Skin, s.Count = skin+by, t.recount() })
	}
}

// recount keeps a count that the maker gave and lets the planner choose one
// that it chose.
func (t *trials) recount() int {
	if t.bend.Plan.Choice.How == bend.Given {
		return t.bend.Plan.Count
	}
	return 0
}

// with adds a trial, if the bend can be planned so.
func (t *trials) with(list []trial, x float64, set func(*bend.Spec)) []trial {
	if x <= 0 {
		return list
	}
	s := t.bend.Plan.Spec
	s.Count = t.bend.Plan.Count
	set(&s)
	p, err := bend.New(s)
	if err != nil {
		return list
	}
	return append(list, trial{x, grades(p)})
}

// pick returns the first trial that makes verdict k fine, else the first that
// makes it better; none may make another verdict worse.
func (t *trials) pick(list []trial, k int) (float64, bool) {
	best, found := 0.0, false
	for _, c := range list {
		if worse(t.was, c.now) || c.now[k] >= t.was[k] {
			continue
		}
		if c.now[k] == 0 {
			return c.x, true
		}
		if !found {
			best, found = c.x, true
		}
	}
	return best, found
}

// grades is the badness of a plan's verdicts, whose order is fixed.
func grades(p bend.Plan) []int {
	vs := p.Verdicts()
	out := make([]int, len(vs))
	for i, v := range vs {
		out[i] = badness(v.Level)
	}
	return out
}

// badness orders levels, the worst last.
func badness(l bend.Level) int {
	switch l {
	case bend.Fine:
		return 0
	case bend.Look:
		return 1
	case bend.NotCovered:
		return 2
	}
	return 3
}

func worse(was, now []int) bool {
	for i, l := range now {
		if l > was[i] {
			return true
		}
	}
	return len(now) != len(was)
}
