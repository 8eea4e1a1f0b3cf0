package check

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/mech/stability"
	"rodwork/internal/trace"
)

// The worst state is searched for, not taken from a list. What tips a piece
// about one edge is a sum over things that are free of each other: each surface
// is full or bare, each drawer shut or out, full or empty, each leaf at some
// angle. So for a floor, a person and an edge the state with the most tipping
// for what holds is found exactly, though there may be millions: by Dinkelbach's
// way with a ratio of sums (W. Dinkelbach, Management Science 13(7), 1967, from
// memory). With a guess r of the ratio each thing takes for itself the choice
// with the largest tips − r·holds; the ratio of that choice is the next guess,
// until it grows no more. Between its ends a filling, or a way out, is never
// worse than at one of them, as its moment is straight in between.

// choice is one state of one thing that is free: the masses that it has there.
type choice struct {
	masses []mass
	words  string // "" for what goes without saying
	door   *door  // open, or nil
}

// thing is free of the others.
type thing struct {
	kind    string // "surface", "opening"
	id      string
	choices []choice
	bound   int // the one choice allowed; -1: all
}

// arena is what is searched.
type arena struct {
	in     Input
	ground ground
	fixed  []mass
	things []thing
	worst  []found // of each party, once they were searched
}

// angles to which a leaf is tried, rad: ajar, square, and swung wide as far as
// most hinges let it.
var angles = []float64{math.Pi / 4, math.Pi / 2, 110 * math.Pi / 180}

func arenaOf(in Input, g ground) arena {
	a := arena{in: in, ground: g}
	ds := append(doorsOf(in.Piece), drawersOf(in)...)
	by := map[string][]mass{}
	for _, m := range partMasses(in, ds) {
		if m.door == "" {
			a.fixed = append(a.fixed, m)
			continue
		}
		by[m.door] = append(by[m.door], m)
	}
	for _, m := range contentMasses(in.Contents) {
		a.things = append(a.things, thing{kind: "surface", id: m.name, bound: -1, choices: []choice{{}, {masses: []mass{m}, words: m.name}}})
	}
	for i := range ds {
		a.things = append(a.things, ds[i].thing(by[ds[i].id]))
	}
	return a
}

// thing lists the ways in which a leaf or a drawer can be.
func (d door) thing(own []mass) thing {
	t := thing{kind: "opening", id: d.id, bound: -1, choices: []choice{{masses: own}}}
	if !d.drawer {
		for _, a := range angles {
			open := d
			open.angle = a
			words := d.id + " open"
			if a != math.Pi/2 {
				words += fmt.Sprintf(" by %.0f°", a*180/math.Pi)
			}
			t.choices = append(t.choices, choice{masses: open.opened(own), words: words, door: &open})
		}
		return t
	}
	open := d
	t.choices = append(t.choices, choice{masses: open.opened(own), words: d.id + " pulled out", door: &open})
	if d.clear.V > 0 {
		full := append(append([]mass(nil), own...), d.clothes())
		t.choices = append(t.choices, choice{masses: full, words: d.id + " full"}, choice{masses: open.opened(full), words: d.id + " full and pulled out", door: &open})
	}
	return t
}

// party is who does what to it: a test of a standard, or what happens at home.
type party struct {
	words  string
	test   string // key of the published test that this is, or ""
	person *mass
	pulls  []pull
	door   string  // that must be open for it
	angle  float64 // of a leaf
	flat   bool    // on a flat floor only
	shut   bool    // with all shut only
}

// floors are what it is tried on: flat, with a carpet's edge under its rear, and
// with a floor that falls away by uneven under each side.
var floors = []flooring{{"on a flat floor", "front", 0}, {"with a carpet’s edge under its rear", "front", carpet},
	{"on a floor that falls to the front", "front", uneven}, {"on a floor that falls to the back", "back", uneven},
	{"on a floor that falls to the left", "left", uneven}, {"on a floor that falls to the right", "right", uneven}}

// found is the worst state of a search.
type found struct {
	stance stance
	edge   string
	used   float64
}

// search finds the worst of all states with the party about all edges.
func (a *arena) search(p party) (found, bool) {
	best, ok := found{used: -1}, false
	var at []int
	var on flooring
	for _, f := range floors {
		if p.flat && f.block > 0 {
			continue
		}
		for _, edge := range edgeNames {
			lean, have := a.leanOf(f)
			if !have {
				continue
			}
			picks, used := a.most(p, f, lean, edge)
			if used > best.used+1e-9 {
				best, ok = found{edge: edge, used: used}, true
				at, on = picks, f
			}
		}
	}
	if ok {
		best.stance = a.stance(p, on, at)
	}
	return best, ok
}

// leanOf is the sine and cosine of a floor's lean.
func (a *arena) leanOf(f flooring) ([2]float64, bool) {
	_, _, base := f.lean(a.ground)
	if f.block >= base.V {
		return [2]float64{}, false
	}
	sin, cos := math.Sincos(math.Asin(f.block / base.V))
	return [2]float64{sin, cos}, true
}

// pair is what a choice adds to both sides.
type pair struct{ holds, tips float64 }

func (p *pair) add(moment float64) {
	if moment >= 0 {
		p.holds += moment
	} else {
		p.tips -= moment
	}
}

func (p pair) ratio() float64 {
	if p.holds <= 0 {
		return nothingHolds
	}
	return p.tips / p.holds
}

// most runs Dinkelbach's iteration for one party, floor and edge.
func (a *arena) most(p party, f flooring, lean [2]float64, edge string) ([]int, float64) {
	lx, lz, _ := f.lean(a.ground)
	ox, oz, at := outward(edge, a.ground)
	with := ox*lx + oz*lz
	moment := func(m mass) float64 {
		return m.kg.V * stability.Gravity * ((at.V-ox*m.at[0].V-oz*m.at[2].V)*lean[1] - with*m.at[1].V*lean[0])
	}
	var base pair
	for _, m := range a.fixed {
		base.add(moment(m))
	}
	if p.person != nil {
		base.add(moment(*p.person))
	}
	for _, q := range p.pulls {
		base.add(q.moment(edge, a.ground, f, trace.Const(lean[0]), trace.Const(lean[1])).V)
	}
	sums := make([][]pair, len(a.things))
	for i, t := range a.things {
		sums[i] = make([]pair, len(t.choices))
		for k, c := range t.choices {
			for _, m := range c.masses {
				sums[i][k].add(moment(m))
			}
		}
	}
	picks := make([]int, len(a.things))
	ratio := -1.0
	for range 50 {
		now := base
		next := make([]int, len(a.things))
		for i, t := range a.things {
			next[i] = p.pick(t, sums[i], math.Max(0, ratio))
			now.holds += sums[i][next[i]].holds
			now.tips += sums[i][next[i]].tips
		}
		if r := now.ratio(); r > ratio+1e-12 {
			picks, ratio = next, r
			continue
		}
		break
	}
	return picks, ratio
}

// pick is the choice of a thing that tips most at the ratio, of those that the
// party allows.
func (p party) pick(t thing, sums []pair, ratio float64) int {
	best, most := -1, math.Inf(-1)
	for k, c := range t.choices {
		if !p.allows(t, c) {
			continue
		}
		if v := sums[k].tips - ratio*sums[k].holds; v > most+1e-9*(1+math.Abs(v)) {
			best, most = k, v
		}
	}
	return max(best, 0)
}

func (p party) allows(t thing, c choice) bool {
	if t.kind != "opening" {
		return true
	}
	if p.shut {
		return c.door == nil
	}
	if p.door == t.id {
		return c.door != nil && (c.door.drawer || c.door.angle == p.angle)
	}
	return true
}

// stance is the state that the picks make, as the other half of the checks
// takes it.
func (a *arena) stance(p party, f flooring, picks []int) stance {
	ms := append([]mass(nil), a.fixed...)
	for i, t := range a.things {
		ms = append(ms, t.choices[picks[i]].masses...)
	}
	s := stance{ground: a.ground, floor: f, load: newLoading("", ms), person: p.person, pulls: p.pulls, test: p.test, own: p.person == nil && len(p.pulls) == 0}
	if p.words != "" {
		s.act = p.words
	}
	s.name = a.name(picks) + ", " + f.word
	return s
}

// name tells the picks in words.
func (a *arena) name(picks []int) string {
	var full, bare, open []string
	for i, t := range a.things {
		w := t.choices[picks[i]].words
		switch {
		case t.kind == "surface" && w != "":
			full = append(full, strings.TrimPrefix(w, "on "))
		case t.kind == "surface":
			bare = append(bare, t.id)
		case w != "":
			open = append(open, w)
		}
	}
	load := "empty"
	switch {
	case len(full) > 0 && len(bare) == 0:
		load = "full"
	case len(full) > 3:
		load = fmt.Sprintf("%d of its %d surfaces full", len(full), len(full)+len(bare))
	case len(full) > 0:
		load = "full only on " + strings.Join(full, " and ")
	case len(bare) == 0 && len(open) > 0:
		return strings.Join(open, ", ")
	}
	if len(open) == 0 {
		return load + ", shut"
	}
	return load + ", " + strings.Join(open, ", ")
}

// states counts what was searched for a party.
func (a *arena) states(p party) float64 {
	n := float64(len(floors))
	if p.flat {
		n = 1
	}
	for _, t := range a.things {
		k := 0
		for _, c := range t.choices {
			if p.allows(t, c) {
				k++
			}
		}
		n *= float64(max(k, 1))
	}
	return n
}
