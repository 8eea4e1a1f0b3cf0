package pack

import (
	"context"
	"math/rand/v2"
	"sync"
)

// The search for fewer sheets runs in lanes, each with chance of its own, side
// by side on as many threads as there are. They go in rounds of a fixed measure
// of work. After a round the lanes are looked at in their order: the first that
// reached the goal gives the layout, and all others go on from it. So the answer
// hangs on the number of lanes, which the effort decides, and not on threads.

const (
	fewLanes  = 2
	manyLanes = 4
	manyWork  = 10_000_000 // trials from which on there are many lanes
	rounds    = 32
	leastWork = 20_000 // trials of a lane in a round
)

const (
	mostHistory  = 500 // steps that late acceptance looks back
	leastHistory = 30
)

// history is how far back late acceptance looks: a small share of the steps
// that the trials will pay for.
func history(trials int64) int {
	return int(min(max(trials/1_000_000, leastHistory), mostHistory))
}

// search is a search that starts from the tree and has so many trials in all.
func (w *work) search(j *job, seed uint64, t *tree, trials int64) *search {
	s := &search{j: j, rng: rand.New(rand.NewPCG(seed, 0x726f64)), history: history(trials)}
	s.now.copyFrom(t)
	return s
}

// lane is a search with a job, and so a count of trials, of its own.
type lane struct {
	*search
	goal bool
}

// beams is the search by strips beside the lanes, with a job of its own.
type beams struct {
	*beam
	most int64 // trials that it may spend in all
	goal *tree
}

// beamShare is the beams' share of the trials: one in so many.
const beamShare = 2

// fewer lowers the limit again and again.
func (w *work) fewer(ctx context.Context, trials int64) error {
	if w.best.tree != nil && w.best.weight == 0 {
		return nil
	}
	n := int64(fewLanes)
	if trials >= manyWork {
		n = manyLanes
	}
	strips := w.beams(trials / beamShare)
	rest := trials - trials/beamShare
	lanes := w.lanes(n, rest/n)
	chunk := max(rest/n/rounds, leastWork)
	for spent := int64(0); spent < rest; spent += n * chunk {
		before, beside := lanes[0].j.trials, strips.j.trials
		w.race(ctx, lanes, strips, chunk, min(strips.most, (spent+n*chunk)/(beamShare-1)))
		for _, l := range lanes {
			w.j.trials += l.j.trials - before
			l.j.trials = before + chunk // all as if they had spent it
		}
		w.j.trials += strips.j.trials - beside
		won := w.best.weight
		for _, l := range lanes {
			if l.goal && (w.best.tree == nil || l.now.weight < w.best.weight) {
				w.keep(&l.now)
			}
		}
		if strips.goal != nil && (w.best.tree == nil || strips.goal.weight < w.best.weight) {
			w.keep(strips.goal)
		}
		if w.best.tree != nil && (w.proven() || w.best.weight == 0) {
			return nil
		}
		if w.best.tree != nil && (won != w.best.weight || lanes[0].limit >= w.best.weight) {
			for _, l := range lanes {
				if !l.goal {
					l.now.copyFrom(w.best.tree)
				}
				l.lower(w.best.weight - 1)
			}
			strips.limit = w.best.weight - 1
		}
		if err := ctx.Err(); err != nil {
			w.leave(lanes)
			return err
		}
	}
	w.leave(lanes)
	return nil
}

// beams sets up the search by strips.
func (w *work) beams(most int64) *beams {
	j := *w.j
	j.trials = 0
	b := &beams{beam: newBeam(&j), most: most}
	b.limit = 1 << 62
	if w.best.tree != nil {
		b.limit = w.best.weight - 1
	}
	return b
}

// leave notes what is out where there is no layout.
func (w *work) leave(lanes []*lane) {
	if w.best.tree == nil {
		for _, i := range lanes[0].now.out {
			w.left = append(w.left, w.j.items[i].part)
		}
	}
}

// lanes sets up the lanes, from the best layout or from nothing.
func (w *work) lanes(n, trials int64) []*lane {
	empty := w.j.newTree()
	for i := range w.j.items {
		empty.out = append(empty.out, int32(i))
	}
	var out []*lane
	for i := range n {
		j := *w.j
		j.trials = 0
		start := w.best.tree
		if start == nil || i%2 == 1 {
			start = empty
		}
		l := &lane{search: w.search(&j, uint64(i)+1, start, trials)}
		l.limit = 1 << 62
		if w.best.tree != nil {
			l.lower(w.best.weight - 1)
		}
		out = append(out, l)
	}
	return out
}

// race runs all lanes for the trials, or each until it has reached its goal, and
// beside them beams until they have spent so many in all, or reached it.
func (w *work) race(ctx context.Context, lanes []*lane, strips *beams, trials, until int64) {
	var wait sync.WaitGroup
	wait.Go(func() {
		strips.goal = nil
		for strips.goal == nil && !strips.spent() && strips.j.trials < until && strips.j.trials+strips.cost() <= strips.most && ctx.Err() == nil {
			strips.goal = strips.round(ctx)
		}
	})
	for _, l := range lanes {
		wait.Go(func() {
			l.goal = false
			_ = l.run(ctx, trials, func(*tree) bool {
				l.goal = true
				return false
			})
		})
	}
	wait.Wait()
}
