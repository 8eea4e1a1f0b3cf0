package making

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// perPass is the depth of one pass of a router, mm: routers' manuals say an
// eighth of an inch 'regardless of the bit size or the softness' of the work;
// cautious for a stout machine.
const perPass = 3.2

// slack is how much thicker than its slot a bit may be called before it is,
// mm: less than any calliper sees.
const slack = 0.005

// run is a slot seen along its length: how wide it is and where it lies across.
type run struct {
	lo, hi   trace.Num // across: near and far side
	from, to trace.Num // along
	along    bool      // it runs along the part's length
	size     trace.Num // of the part, across the run
	blank    trace.Num // of its blank, across the run
	end      trace.Num // of the part, along the run
}

func runOf(q *piece.Part, c *piece.Cut) run {
	if c.Kind == piece.EndGroove { // across its end, told by the height over the B face
		return run{lo: c.Z0, hi: c.Z1, from: c.Y0, to: c.Y1, size: q.Thick, blank: q.Thick, end: q.Width}
	}
	if c.X1.V-c.X0.V < c.Y1.V-c.Y0.V {
		return run{lo: c.X0, hi: c.X1, from: c.Y0, to: c.Y1, size: q.Length, blank: q.BlankLength, end: q.Width}
	}
	return run{lo: c.Y0, hi: c.Y1, from: c.X0, to: c.X1, along: true, size: q.Width, blank: q.BlankWidth, end: q.Length}
}

func (r run) width() trace.Num { return r.hi.Sub(r.lo) }

// openLow and openHigh tell whether the slot opens to the edge on that side.
func (r run) openLow() bool  { return r.lo.V <= 1e-6 }
func (r run) openHigh() bool { return r.hi.V >= r.size.V-1e-6 }

// fence says what the slot is set from, and how far off. A rabbet is set from
// the edge that it opens to, if that edge is finished already: then rabbets of
// one width share a fence, whatever the size of their parts. All else is set
// from the datum.
func (r run) fence(kind piece.CutKind) (string, trace.Num) {
	near := "datum edge"
	if !r.along {
		near = "datum end"
	}
	finished := r.blank.V <= r.size.V+1e-6
	switch {
	case kind == piece.Rabbet && r.openLow(), kind == piece.Rabbet && r.openHigh() && finished:
		if r.along {
			return "own edge", r.width()
		}
		return "own end", r.width()
	}
	return near, r.lo
}

// slot sorts a housing, rabbet or groove.
func (g *gatherer) slot(q *piece.Part, c *piece.Cut) {
	r := runOf(q, c)
	up := work.SetUp{Kind: string(c.Kind), Depth: c.Depth, Through: c.Through, Width: r.width(), Tool: work.Router}
	up.From, up.Stop = r.fence(c.Kind)
	if c.Kind == piece.EndGroove {
		up.From, up.Depth = "face B", c.X1.Sub(c.X0)
	}
	open := c.Kind == piece.Rabbet && (r.openLow() || r.openHigh())
	sc := work.SetUpCut{Part: q.ID, Cut: c.ID, Face: string(c.Face), From: r.from, To: r.to, Count: 1, For: c.For, Late: q.Late}
	sc.StopFrom, sc.StopTo = stopped(q, c, r)
	rank := rankRouter
	saw := g.wishedSaw(q, c)
	bit := g.bit(r.width().V, up.Depth.V, open)
	switch {
	case saw != nil && !sc.StopFrom && !sc.StopTo && saw.Kerf.Mean.V <= r.width().V+slack && reaches(saw, c.Depth.V):
		rank = rankSaw
		up.Tool, up.With, up.Cutter, up.NotThrough = work.Saw, saw.Name, saw.Kerf.Mean, true
		up.Across, up.Deep = across(r.width().V, saw.Kerf.Mean.V, open), 1
	case bit != nil:
		up.With, up.Cutter = bit.Name, bit.Diameter
		up.Across, up.Deep = across(r.width().V, bit.Diameter.V, open), passes(up.Depth.V)
	default:
		up.Missing, up.Across, up.Deep = true, 1, passes(up.Depth.V)
	}
	g.add(rank, up, sc)
}

func reaches(s *design.Saw, depth float64) bool {
	return s.Depth.Mean.V <= 0 || s.Depth.Mean.V >= depth
}

// across is the number of runs side by side that a width takes; a rabbet's bit
// may hang over the edge.
func across(width, cutter float64, open bool) int {
	if cutter <= 0 || cutter >= width-slack {
		return 1
	}
	if open {
		return int(math.Ceil(width/cutter - 1e-9))
	}
	return 1 + int(math.Ceil((width-cutter)/cutter-1e-9))
}

// passes is the number of router passes that a depth takes.
func passes(depth float64) int { return max(1, int(math.Ceil(depth/perPass-1e-9))) }

// bit picks the router bit for a slot: the fattest that goes in; for an open
// rabbet the leanest that takes it in one run, if there is one. It must cut as
// deep as the slot is.
func (g *gatherer) bit(width, depth float64, open bool) *design.Bit {
	if g.d.Shop == nil {
		return nil
	}
	var fit []*design.Bit
	for _, b := range g.d.Shop.Bits {
		if b.Diameter.V > 0 && (b.Length.V <= 0 || b.Length.V >= depth-slack) {
			fit = append(fit, b)
		}
	}
	slices.SortStableFunc(fit, func(a, b *design.Bit) int { return cmp.Compare(a.Diameter.V, b.Diameter.V) })
	var best *design.Bit
	for _, b := range fit {
		if b.Diameter.V <= width+slack {
			best = b
		} else if open {
			if best != nil && best.Diameter.V >= width-slack {
				return best
			}
			return b
		}
	}
	return best
}

// stopped tells whether a run ends in the wood at its start and at its end. It
// does not where it comes out at an edge, or into a deeper cut on the same face
// that comes out there.
func stopped(q *piece.Part, c *piece.Cut, r run) (from, to bool) {
	from, to = r.from.V > 1e-6, r.to.V < r.end.V-1e-6
	for i := range q.Cuts {
		o := &q.Cuts[i]
		if o == c || o.Face != c.Face || o.Depth.V < c.Depth.V-1e-6 || o.Kind == piece.Hole || o.Kind == piece.HoleRow {
			continue
		}
		lo, hi, a, b := o.X0.V, o.X1.V, o.Y0.V, o.Y1.V
		if r.along {
			lo, hi, a, b = a, b, lo, hi
		}
		if lo > r.lo.V+1e-6 || hi < r.hi.V-1e-6 {
			continue
		}
		if a <= 1e-6 && b >= r.from.V-1e-6 {
			from = false
		}
		if b >= r.end.V-1e-6 && a <= r.to.V+1e-6 {
			to = false
		}
	}
	return from, to
}

// wishedSaw is the saw that the piece file names for the joint behind a cut.
func (g *gatherer) wishedSaw(q *piece.Part, c *piece.Cut) *design.Saw {
	if g.d.Shop == nil {
		return nil
	}
	in := g.p.Part(c.For)
	if in == nil {
		return nil
	}
	for _, w := range g.d.Joints {
		if w.Tool == "" || !named(in, w.A) || !named(q, w.B) && len(q.Run) == 0 {
			continue
		}
		for _, s := range g.d.Shop.Saws {
			if s.Name == w.Tool {
				return s
			}
		}
	}
	return nil
}

func named(q *piece.Part, word string) bool {
	return word == q.ID || word == string(q.Role) || word == q.Name
}

// breakingSaw is the saw that breaks down sheets and trims ends.
func (g *gatherer) breakingSaw() *design.Saw {
	if g.d.Shop == nil {
		return nil
	}
	for _, s := range g.d.Shop.Saws {
		if s.Kind != "jigsaw" {
			return s
		}
	}
	return nil
}
