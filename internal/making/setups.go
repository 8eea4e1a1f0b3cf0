package making

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Set is what the set-ups come to.
type Set struct {
	SetUps   []work.SetUp
	Tests    []work.TestPiece
	Screws   []work.ScrewLine
	Findings []work.Finding
	left     stash // of kept offcuts, behind the test pieces
}

// SetUps sorts every cut of the piece into set-ups, in the order in which they
// are made, with the test pieces that go before them and the screws that the
// piece takes. Cuts that no tool of the shop file can make are findings.
func SetUps(p *piece.Piece, d *design.Design, layouts []work.Layout) Set {
	g := &gatherer{p: p, d: d, at: map[string]int{}}
	for _, q := range p.Parts {
		g.part(q)
	}
	g.edges()
	slices.SortStableFunc(g.ups, earlier)
	s := Set{}
	for i, u := range g.ups {
		u.up.Number = i + 1
		s.SetUps = append(s.SetUps, u.up)
	}
	minding(p, s.SetUps)
	s.Findings = g.findings(s.SetUps)
	s.left = stash{}
	s.Tests = tests(p, s.SetUps, layouts, s.left)
	s.Screws = screws(p)
	return s
}

// gatherer collects cuts by what they share.
type gatherer struct {
	p   *piece.Piece
	d   *design.Design
	ups []keyed
	at  map[string]int
}

// keyed is a set-up with its place in the order.
type keyed struct {
	up   work.SetUp
	rank int
}

// The order of the work on parts: the end that all is measured from is squared
// first; what a router does lies before the holes, since a drill finds its
// place on a whole board as well as on a grooved one; kerfs come after all that
// needs a stiff strip; lengths are trimmed last; parts that wait for the
// opening come after the glue.
const (
	rankSquare = iota
	rankRouter
	rankSaw
	rankHand
	rankHoles
	rankShape
	rankKerfs
	rankTrim
	rankLate
	rankEdges
)

// earlier orders set-ups: by rank, by cutter, by kind, by depth, by stop.
func earlier(a, b keyed) int {
	return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.up.Cutter.V, b.up.Cutter.V), cmp.Compare(a.up.With, b.up.With),
		cmp.Compare(kindOrder(a.up.Kind), kindOrder(b.up.Kind)), cmp.Compare(round(a.up.Depth.V), round(b.up.Depth.V)),
		cmp.Compare(a.up.From, b.up.From), cmp.Compare(round(a.up.Stop.V), round(b.up.Stop.V)))
}

func kindOrder(kind string) int {
	return slices.Index([]string{"square the end", "rabbet", "groove", "end groove", "housing", "mortise", "lap", "notch", "holes", "outline", "window", "kerfs", "trim", "bevel", "edges"}, kind)
}

// round snaps a setting to what nobody can set apart, a thousandth.
func round(v float64) float64 { return math.Round(v*1000) / 1000 }

// add puts a cut into the set-up that it shares, or opens one.
func (g *gatherer) add(rank int, up work.SetUp, c work.SetUpCut) {
	if c.Late {
		rank = rankLate
	}
	key := fmt.Sprintf("%s/%s/%s/%.3f/%.3f/%.3f/%s/%.3f", up.Tool, up.With, up.Kind, up.Cutter.V, up.Depth.V, up.Width.V, up.From, up.Stop.V)
	if up.Sink.V > 0 {
		key += "/sunk"
	}
	if up.Kind == "bevel" {
		key += fmt.Sprintf("/%.5f/%.5f", up.Tilt.V, up.Mitre.V)
	}
	if c.Late {
		key += "/late"
	}
	i, ok := g.at[key]
	if !ok {
		i = len(g.ups)
		g.at[key] = i
		up.ID = key
		g.ups = append(g.ups, keyed{up: up, rank: rank})
	}
	g.ups[i].up.Cuts = append(g.ups[i].up.Cuts, c)
}

// part sorts all work on one part.
func (g *gatherer) part(q *piece.Part) {
	g.ends(q)
	for i := range q.Cuts {
		c := &q.Cuts[i]
		switch c.Kind {
		case piece.Hole, piece.HoleRow:
			g.holes(q, c)
		case piece.Notch:
			g.notch(q, c)
		case piece.Mortise:
			g.mortise(q, c)
		case piece.Window:
			g.window(q, c)
		default:
			g.slot(q, c)
		}
	}
	g.outline(q)
	for i := range q.Bends {
		g.kerfs(q, &q.Bends[i])
	}
}

// overlong tells whether the blank is longer than the part, so that its end is
// trimmed last.
func overlong(q *piece.Part) bool { return q.BlankLength.V > q.Length.V+1e-6 }

// ends squares the datum end of an overlong part first and trims the other
// last. A part with a shaped end is trimmed with its outline, a late one to its
// opening.
func (g *gatherer) ends(q *piece.Part) {
	if !overlong(q) || q.Late || shaped(q) {
		return
	}
	saw := g.breakingSaw()
	up := work.SetUp{Tool: work.Saw, Kind: "trim", Through: true, From: "datum end", Stop: q.Length, Across: 1, Deep: 1}
	if saw != nil {
		up.With, up.Cutter = saw.Name, saw.Kerf.Mean
	}
	if q.Role == piece.Edging {
		up.Tool, up.With, up.Cutter = work.Hand, "", trace.Num{}
		up.From, up.Stop = "shelf's ends", trace.Num{}
		g.add(rankTrim, up, work.SetUpCut{Part: q.ID, Count: 2, For: "flush after the glue"})
		return
	}
	first := up
	first.Kind, first.Stop, first.From = "square the end", trace.Num{}, "blank's end"
	g.add(rankSquare, first, work.SetUpCut{Part: q.ID, Count: 1, For: "the datum end"})
	g.add(rankTrim, up, work.SetUpCut{Part: q.ID, Count: 1, For: "the far end, last"})
}

// shaped tells whether the outline is more than a rectangle with the notches
// that are booked as cuts: it has an arc, or lacks more than they take.
func shaped(q *piece.Part) bool {
	if len(q.Outline) == 0 {
		return false
	}
	lacks := q.Length.V*q.Width.V - q.Outline.Area()
	for _, c := range q.Cuts {
		if c.Kind == piece.Notch && len(c.Region) == 0 {
			lacks -= (c.X1.V - c.X0.V) * (c.Y1.V - c.Y0.V)
		}
	}
	return len(radii(q)) > 0 || lacks > 1e-6*q.Length.V*q.Width.V
}

// outline books the shaping of a part that is no rectangle: a set-up for each
// radius of its corners, or one for straight lines.
func (g *gatherer) outline(q *piece.Part) {
	if len(q.Bevels) > 0 {
		g.bevels(q)
	}
	if len(q.Bends) > 0 || !shaped(q) || q.Stick() {
		return
	}
	rs := radii(q)
	if len(rs) == 0 {
		rs = []trace.Num{{}}
	}
	for _, r := range rs {
		up := work.SetUp{Tool: work.Shaping, Kind: "outline", Through: true, Across: 1, Deep: 1, From: "line", Width: r}
		g.add(rankShape, up, work.SetUpCut{Part: q.ID, Count: 1, Late: q.Late})
	}
}

// window books an opening through a bent part: it is cut while the strip is
// flat and stiff.
func (g *gatherer) window(q *piece.Part, c *piece.Cut) {
	up := work.SetUp{Tool: work.Shaping, Kind: "window", Through: true, Across: 1, Deep: 1, From: "datum end", Stop: c.X0, Width: c.Y1.Sub(c.Y0)}
	g.add(rankShape, up, work.SetUpCut{Part: q.ID, Cut: c.ID, From: c.X0, To: c.X1, Count: 1, For: c.For, Late: q.Late})
}

// radii are the radii of the outline's arcs, each once, smallest first.
func radii(q *piece.Part) []trace.Num {
	var out []trace.Num
	for l := range q.Outline.All {
		for _, e := range l.Edges() {
			if math.Abs(e.Bulge) <= 1e-9 {
				continue
			}
			turn := 4 * math.Atan(math.Abs(e.Bulge))
			r := e.B.Sub(e.A).Len() / 2 / math.Sin(turn/2)
			if !slices.ContainsFunc(out, func(n trace.Num) bool { return math.Abs(n.V-r) < 1e-6 }) {
				out = append(out, trace.Const(r))
			}
		}
	}
	slices.SortFunc(out, func(a, b trace.Num) int { return cmp.Compare(a.V, b.V) })
	return out
}

// kerfs is the one set-up of a bend: the stop moves from kerf to kerf, the
// depth stays.
func (g *gatherer) kerfs(q *piece.Part, b *piece.Bend) {
	if b.Plan.Count == 0 {
		return // bent without kerfs
	}
	up := work.SetUp{Tool: work.Saw, Kind: "kerfs", Depth: b.Depth, From: "datum end", Across: 1, Deep: 1, NotThrough: true}
	if saw := g.d.Body.Bend.Saw; saw != nil {
		up.With, up.Cutter = saw.Name, saw.Kerf.Mean
	}
	c := work.SetUpCut{Part: q.ID, Cut: q.ID + "/bend " + b.Corner, Face: string(b.Face), Count: len(b.Kerfs), Step: b.Pitch, For: "bend " + b.Corner}
	if n := len(b.Kerfs); n > 0 {
		half := up.Cutter.Scale(0.5)
		c.From, c.To = b.Kerfs[0].Sub(half), b.Kerfs[n-1].Sub(half)
		up.Stop = c.From
	}
	g.add(rankKerfs, up, c)
}

// holes share a drill, its depth and the fence across the part; the places
// along the fence are stops of the same set-up.
func (g *gatherer) holes(q *piece.Part, c *piece.Cut) {
	up := work.SetUp{Tool: work.Drill, Kind: "holes", Cutter: c.Diameter, Depth: c.Depth, Through: c.Through, From: "datum edge",
		Stop: c.Y0, Sink: c.Sink, Across: 1, Deep: 1}
	if c.Through {
		up.Depth = trace.Num{}
	}
	if c.Face.Narrow() { // told by the height over the B face
		up.From = "face B"
	} else if q.Late || q.Role == piece.Door { // hung by that edge, or its width is not known yet
		up.From = "nearer edge"
		if c.Y0.V > q.Width.V/2 {
			up.Stop = q.Width.Sub(c.Y0)
		}
	}
	n := max(1, c.Count)
	first, step := c.X0, c.StepX
	if across := n > 1 && math.Abs(c.StepX.V) < 1e-9; across && !c.Face.Narrow() { // a row across the part
		up.From, up.Stop = "datum end", c.X0
		first, step = c.Y0, c.StepY
	}
	last := first.Add(step.Scale(float64(n - 1)))
	from, to := first, last
	if step.V < 0 { // a row is told from its end nearer to the datum
		from, to, step = last, first, step.Neg()
	}
	g.add(rankHoles, up, work.SetUpCut{Part: q.ID, Cut: c.ID, Face: string(c.Face), From: from, To: to,
		Count: n, Step: step, For: c.For, Late: q.Late})
}

// mortise is routed with a bit as fat as the tenon: in an edge or an end along a
// fence on face B, in a face along one that its longer side is parallel to.
func (g *gatherer) mortise(q *piece.Part, c *piece.Cut) {
	up := work.SetUp{Tool: work.Router, Kind: "mortise", Depth: c.Depth, Across: 1, Deep: passes(c.Depth.V)}
	long, wide := c.X1.Sub(c.X0), c.Y1.Sub(c.Y0)
	from, to := c.X0, c.X1
	up.Width, up.Stop, up.From = wide, c.Y0, "datum edge"
	if wide.V > long.V {
		up.Width, up.Stop, up.From = long, c.X0, "datum end"
		from, to = c.Y0, c.Y1
	}
	if c.Face.Narrow() {
		up.From = "face B"
	}
	if bit := g.bit(up.Width.V, c.Depth.V, false); bit != nil {
		up.With, up.Cutter = bit.Name, bit.Diameter
		up.Across = across(up.Width.V, bit.Diameter.V, false)
	} else {
		up.Missing = true
	}
	g.add(rankRouter, up, work.SetUpCut{Part: q.ID, Cut: c.ID, Face: string(c.Face), From: from, To: to, Count: 1, For: c.For, Late: q.Late})
}

// notch is marked and cut by hand, all of one size together.
func (g *gatherer) notch(q *piece.Part, c *piece.Cut) {
	up := work.SetUp{Tool: work.Hand, Kind: "notch", Through: true, From: "both edges", Stop: c.X1.Sub(c.X0), Width: c.Y1.Sub(c.Y0), Across: 1, Deep: 1}
	g.add(rankHand, up, work.SetUpCut{Part: q.ID, Cut: c.ID, Face: string(c.Face), From: c.X0, To: c.X1, Count: 1, For: c.For, Late: q.Late})
}
