package making

import (
	"math"
	"slices"

	people "rodwork/internal/mech/reach"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// What one person neither holds by hand beside a cutter nor carries alone, mm
// (common practice): a part shorter than smallLong or narrower than smallWide;
// one longer than longAlone, or a board broader and longer than broadAlone.
const (
	smallLong  = 300.0
	smallWide  = 75.0
	longAlone  = 2000.0
	broadAlone = 1000.0
)

// minding fills in what each set-up must mind.
func minding(p *piece.Piece, ups []work.SetUp) {
	kg := map[string]float64{}
	for _, q := range p.Parts {
		kg[q.ID] = massOf(p, q).Mass.V
	}
	for i := range ups {
		ups[i].Mind = mindSetUp(p, &ups[i], kg)
	}
}

// mindSetUp is what one must mind; kg are the masses of the parts.
func mindSetUp(p *piece.Piece, u *work.SetUp, kg map[string]float64) []work.Mind {
	var out []work.Mind
	switch {
	case u.NotThrough:
		out = append(out, work.Hidden, work.Dust)
	case u.Tool == work.Saw:
		out = append(out, work.Kickback, work.Dust)
	case u.Tool == work.Router:
		out = append(out, work.Kickback, work.Climb, work.Dust)
	case u.Tool == work.Drill:
		out = append(out, work.Catching)
	case u.Tool == work.Shaping:
		out = append(out, work.EdgeTools, work.Climb, work.Dust)
	case u.Tool == work.Hand:
		out = append(out, work.EdgeTools)
	}
	machine, small, heavy := u.Tool != work.Hand, false, 0.0
	large := false
	for _, c := range u.Cuts {
		q := p.Part(c.Part)
		if q == nil {
			continue
		}
		small = small || machine && math.Min(q.Length.V, q.Width.V) > 0 && (math.Max(q.Length.V, q.Width.V) < smallLong || math.Min(q.Length.V, q.Width.V) < smallWide)
		large = large || unwieldy(q)
		heavy = math.Max(heavy, kg[q.ID])
	}
	if small {
		out = append(out, work.SmallPart)
	}
	return append(out, lifting(heavy, large)...)
}

// unwieldy tells whether a part is too large for one person, whatever it weighs.
func unwieldy(q *piece.Part) bool {
	long, wide := math.Max(q.Length.V, q.Width.V), math.Min(q.Length.V, q.Width.V)
	return long > longAlone || wide > broadAlone || len(q.Bends) > 0 && long > broadAlone
}

// lifting is what a mass, kg, asks for (rule LIFT-01).
func lifting(kg float64, large bool) []work.Mind {
	one := people.OneLifts()
	switch {
	case kg > one*people.Two:
		return []work.Mind{work.Lifting}
	case kg > one || large:
		return []work.Mind{work.TwoPeople}
	}
	return nil
}

// MindSteps returns the steps of putting together with what each must mind: glue where
// it closes a glued joint, lifting by the mass and size of what comes in, and,
// at the end of each glue-up, by all that stands together then.
func MindSteps(p *piece.Piece, order []work.Step) []work.Step {
	order = slices.Clone(order)
	glued := map[string]bool{}
	for i := range p.Joints {
		glued[p.Joints[i].ID] = p.Joints[i].Glued
	}
	sum := 0.0
	for i := range order {
		s := &order[i]
		if slices.ContainsFunc(s.Joints, func(id string) bool { return glued[id] }) {
			s.Mind = append(s.Mind, work.Vapour)
		}
		q := p.Part(s.Part)
		if q == nil {
			continue
		}
		kg := massOf(p, q).Mass.V
		sum += kg
		if s.Group > 0 && (i+1 == len(order) || order[i+1].Group != s.Group) {
			kg = sum
		}
		s.Mind = append(s.Mind, lifting(kg, unwieldy(q))...)
	}
	return order
}
