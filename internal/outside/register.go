package outside

import (
	"cmp"
	"slices"

	"rodwork/internal/cite"
	"rodwork/internal/material"
	"rodwork/internal/mech/beam"
	"rodwork/internal/mech/bend"
	"rodwork/internal/mech/chain"
	"rodwork/internal/mech/child"
	"rodwork/internal/mech/frame"
	"rodwork/internal/mech/hang"
	"rodwork/internal/mech/lean"
	"rodwork/internal/mech/learn"
	"rodwork/internal/mech/reach"
	"rodwork/internal/mech/rout"
	"rodwork/internal/mech/season"
	"rodwork/internal/mech/spread"
	"rodwork/internal/mech/stability"
)

// Rules returns the rules of mechanics and material, by id.
func Rules() []*cite.Rule {
	var all []*cite.Rule
	for _, rs := range [][]*cite.Rule{bend.Rules, beam.Rules, stability.Rules, frame.Rules, hang.Rules, child.Rules, reach.Rules, season.Rules, rout.Rules, chain.Rules, lean.Rules, learn.Rules, spread.Rules, material.Rules} {
		all = append(all, rs...)
	}
	slices.SortFunc(all, func(a, b *cite.Rule) int { return cmp.Compare(a.ID, b.ID) })
	return all
}

// Find returns the rule with the id, or nil.
func Find(id string) *cite.Rule {
	for _, r := range Rules() {
		if r.ID == id {
			return r
		}
	}
	return nil
}
