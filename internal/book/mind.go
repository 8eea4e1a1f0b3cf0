package book

import (
	"rodwork/internal/cite"
	"rodwork/internal/say"
	"rodwork/internal/work"
)

// warnings are the cautions behind what a step must mind. More than one hazard
// may stand in one caution.
var warnings = map[work.Mind]warning{
	work.Kickback: kickCaution, work.Hidden: kerfCaution, work.Climb: routerCaution, work.Catching: drillCaution, work.EdgeTools: handCaution,
	work.SmallPart: smallCaution, work.Dust: dustCaution, work.Vapour: glueCaution, work.TwoPeople: liftCaution, work.Lifting: liftCaution,
	work.Rags: ragCaution,
}

// warningsOf are the cautions of some hazards, each once.
func warningsOf(ms []work.Mind) []warning {
	var out []warning
	for _, m := range ms {
		if c, ok := warnings[m]; ok && m != work.Dust { // said once for all, where the sheets are cut
			out = append(out, c)
		}
	}
	return out
}

// mindNote says what a step must mind; the cautions of its chapter say more.
func mindNote(ms ...work.Mind) say.Sentence {
	var each []say.Sentence
	for _, m := range ms {
		each = append(each, say.F("{}", string(m)))
	}
	if len(each) == 0 {
		return nil
	}
	return say.F("mind {}", list(each))
}

var kickCaution = warning{"kickback", "When it kicks back", []say.Sentence{
	say.F("A blade or bit that is pinched throws the work back, faster than a hand can follow. Stand beside its line. At a bench saw the riving knife is on; what is cut off is " +
		"free to move away, never shut in between fence and blade: for cross-cuts use a gauge and a short stop that ends before the blade. At a track saw clamp the track, support " +
		"both sides so that the kerf does not close, and do not draw it back while it turns."),
	say.F("A router that is fed with the turn of its bit runs away: take the work from the right side, and no more in one pass than {}.", say.Len(3.175, 1)),
}, []cite.Source{sawBench, {Text: "a router maker’s manuals, several models", Locator: "feed; 1/8 in at most in one pass", Label: cite.Read},
	{Text: "bench practice", Locator: "standing beside the blade, stops for cross-cuts, track saws", Label: cite.Practice}}}

var smallCaution = warning{"small", "Small parts", []say.Sentence{
	say.F("What is shorter than {} or narrower than {} is not held by hand beside a cutter. Work it while it is still part of a longer board, or fix it in a holder or a sled with clamps, "+
		"hands outside of it; push-sticks at a saw. Small cut-offs are cleared when the blade stands still.", say.Len(300, 0), say.Len(75, 0)),
}, []cite.Source{{Text: "bench practice", Locator: "the two sizes, holders and sleds", Label: cite.Practice}}}
