// Package pack searches for layouts: rectangles on sheets, edge to edge, and
// lengths on sticks. It is a search under a measure of work, so the same
// problem and effort give the same answer on every machine.
//
// What is wanted is, in this order: the cheapest sheets, then the fewest; then
// the largest single offcut that can be kept and few set-ups, traded: a set-up
// more has to bring an offcut larger by a fiftieth of a sheet.
package pack

import (
	"cmp"
	"context"
	"slices"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/bound"
)

// firstTrials bounds the work of the first layout: further orders are tried
// while fewer trials than this are done.
const firstTrials = 80_000

// firstSearch is how long a first layout that is not proved is worked on.
const firstSearch = 15 * sheet.Effort

// Solve returns layouts for all parts. Effort 0 is a first layout, made in a
// few milliseconds; each unit more pays for sheet.Effort trials. The error is
// what Problem.Validate says, or a *sheet.ShortError. When the context ends, so
// does the search, with the best layout that it has; only where it has none is
// the error that of the context.
func Solve(ctx context.Context, p sheet.Problem, effort int) (sheet.Answer, error) {
	if err := p.Validate(); err != nil {
		return sheet.Answer{}, err
	}
	j := newJob(p)
	best := j.first(firstTrials + int64(min(max(effort, 0), 1<<10))*sheet.Effort/5)
	if best.tree == nil && effort == 0 {
		effort = 10 // the first orders ran out of stock: look a little further
	}
	w := &work{j: j, best: best, proof: bound.Sheets(p, best.full(j), effort)}
	w.leastCost = bound.Cost(p, w.proof.Least)
	trials := int64(min(max(effort, 0), 1<<30)) * sheet.Effort
	if !w.proven() {
		trials = max(trials, firstSearch)
	}
	if err := w.improve(ctx, trials); err != nil && w.best.tree == nil {
		return sheet.Answer{}, err
	}
	if w.best.tree == nil {
		return sheet.Answer{}, w.short()
	}
	return w.answer(), nil
}

// found is a complete layout with what it is judged by.
type found struct {
	tree    *tree
	sheets  []sheet.Layout
	weight  int64
	largest int64 // kept offcut, µm²
	offcuts int64 // the same in shares: offcuts of one share are alike
	beyond  int   // cuts beyond the saw's reach
	crossed int   // sheets whose first cut is not a rip
	setUps  int
}

// shares is how many parts of the largest sheet the size of an offcut is judged
// in: a few millimetres more of it are not worth a cut. One share is worth one
// set-up, and a sheet that is ripped first is worth two.
const (
	shares  = 50
	ripping = 2
)

// untidy weighs set-ups against the largest offcut; less is better.
func (f found) untidy() int64 { return int64(f.setUps+ripping*f.crossed) - f.offcuts }

// judge makes the layouts of a tree. Each sheet's strips are tightened, unless
// that makes its largest offcut much smaller.
func (j *job) judge(t *tree) found {
	j.trials += 20 * int64(len(t.nodes)) // what it costs, about
	f := found{tree: t, weight: t.weight}
	for _, o := range t.sheets {
		if o.root == none {
			continue
		}
		loose := j.saw(o.stock, t.plain(o.root))
		tight := j.saw(o.stock, t.plain(o.root).tighten())
		if largest(tight) < largest(loose)-largest(loose)/20 {
			tight = loose
		}
		f.add(tight)
		if j.reaching {
			f.beyond += tight.Beyond(j.p)
		}
	}
	f.offcuts = f.largest / j.share()
	return f
}

// largest is the area of a sheet's largest offcut.
func largest(l sheet.Layout) int64 {
	if len(l.Offcuts) == 0 {
		return 0
	}
	return l.Offcuts[0].Area()
}

// share is the size in which offcuts are judged, µm².
func (j *job) share() int64 {
	one := int64(1)
	for _, s := range j.stocks {
		one = max(one, s.l*s.w/shares)
	}
	return one
}

func (f *found) add(l sheet.Layout) {
	f.sheets = append(f.sheets, l)
	f.setUps += setUps(l)
	if i := slices.IndexFunc(l.Cuts, func(c sheet.Cut) bool { return !c.Trim }); i >= 0 && l.Cuts[i].Axis == sheet.X {
		f.crossed++
	}
	f.largest = max(f.largest, largest(l))
}

func (f found) better(g found) bool {
	if f.tree == nil || g.tree == nil {
		return f.tree != nil
	}
	return cmp.Or(cmp.Compare(f.weight, g.weight), cmp.Compare(f.beyond, g.beyond), cmp.Compare(f.untidy(), g.untidy()), cmp.Compare(g.largest, f.largest)) < 0
}

// full is the number of open sheets that are not offcuts, 0 where there is no
// layout.
func (f found) full(j *job) int {
	n := 0
	if f.tree != nil {
		for _, o := range f.tree.sheets {
			if o.root != none && !j.stocks[o.stock].offcut {
				n++
			}
		}
	}
	return n
}

// first takes the best of the constructions that the trials allow.
func (j *job) first(trials int64) found {
	var best found
	try := func(t *tree) {
		if len(t.out) == 0 {
			if f := j.judge(t); f.better(best) {
				best = f
			}
		}
	}
	prefs := preferences
	if len(j.stocks) == 1 {
		prefs = prefs[:1]
	}
	for _, by := range orders {
		for _, pref := range prefs {
			if best.tree != nil && j.trials > trials {
				return best
			}
			stocks := j.preferred(pref)
			try(j.construct(by, stocks, true))
			try(j.construct(by, stocks, false))
			if len(j.items) <= mostCritical {
				try(j.critical(by, stocks, true, true))
				try(j.critical(by, stocks, true, false))
				try(j.critical(by, stocks, false, false))
			}
		}
	}
	return best
}

// work is a job on its way from the first layout to the last.
type work struct {
	j         *job
	best      found
	proof     sheet.Certificate
	leastCost int64
	left      []int // what was out when stock ran short
}

// The offcut is worked on for a fifth of the trials, but no longer than
// mostForOffcuts, and no less than leastForOffcuts if so many are left.
const (
	mostForOffcuts  = 20_000_000
	leastForOffcuts = 1_000_000
)

// improve spends the trials: first on fewer sheets, until fewer are proved
// impossible, then on cuts within the saw's reach and on the offcut.
func (w *work) improve(ctx context.Context, trials int64) error {
	end := w.j.trials + trials
	forOffcuts := min(trials/5, mostForOffcuts)
	if !w.proven() {
		if err := w.fewer(ctx, end-forOffcuts-w.j.trials); err != nil {
			return err
		}
	}
	if w.withinReach(); w.best.beyond > 0 {
		end = max(end, w.j.trials+firstSearch)
	}
	if w.best.tree == nil || end <= w.j.trials {
		return nil
	}
	return w.tidier(ctx, min(end-w.j.trials, max(forOffcuts, leastForOffcuts)))
}

// While tidying, one layout in so many is judged, and only if its largest offcut
// is at most so many shares less than the best one's.
const (
	judged     = 4
	lessOffcut = 10
)

// tidier looks for larger offcuts and fewer set-ups at the same weight.
func (w *work) tidier(ctx context.Context, trials int64) error {
	w.j.obey = w.best.beyond > 0
	s := w.search(w.j, 99, w.best.tree, trials)
	s.limit, s.offcuts = w.best.weight, true
	steps := 0
	return s.run(ctx, trials, func(t *tree) bool {
		if steps++; steps%judged != 0 {
			return true
		}
		if w.j.obey && w.j.beyond(t) <= w.best.beyond {
			w.keep(t)
			return true
		}
		largest := int64(0)
		for i := range t.nodes {
			if t.nodes[i].kind == free {
				largest = max(largest, w.j.kept(&t.nodes[i]))
			}
		}
		if t.weight < w.best.weight || largest/w.j.share() >= w.best.offcuts-lessOffcut {
			w.keep(t)
		}
		return true
	})
}

// keep takes a copy of the tree if it is better than the best.
func (w *work) keep(t *tree) {
	if f := w.j.judge(t); f.better(w.best) {
		f.tree = new(tree)
		f.tree.copyFrom(t)
		w.best = f
	}
}

func (w *work) proven() bool {
	if w.best.tree == nil {
		return false
	}
	return sheet.Proven(w.j.p, w.best.full(w.j), w.cost(), w.proof.Least, w.leastCost)
}

func (w *work) cost() int64 {
	c := int64(0)
	for s, n := range w.best.tree.used {
		c += int64(n) * w.j.p.Stocks[s].Price
	}
	return c
}

func (w *work) short() error {
	if w.left == nil {
		for i := range w.j.items {
			w.left = append(w.left, w.j.items[i].part)
		}
	}
	return &sheet.ShortError{Left: w.left}
}

func (w *work) answer() sheet.Answer {
	a := sheet.Answer{Cost: w.cost(), Full: w.best.full(w.j), Proof: w.proof, LeastCost: w.leastCost,
		Proven: w.proven(), SetUps: w.best.setUps, Trials: w.j.trials}
	a.Sheets = slices.Clone(w.best.sheets)
	slices.SortStableFunc(a.Sheets, func(x, y sheet.Layout) int {
		return cmp.Or(cmp.Compare(x.Stock, y.Stock), cmp.Compare(used(y), used(x)))
	})
	return a
}

// used is the area of the parts on a sheet.
func used(l sheet.Layout) int64 {
	n := int64(0)
	for _, q := range l.Placements {
		n += q.DX * q.DY
	}
	return n
}
