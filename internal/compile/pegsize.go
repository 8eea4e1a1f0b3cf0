package compile

import (
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
)

// Sizes that are sold (common practice, no source), mm.
var (
	dowelDiameters = []float64{4, 5, 6, 8, 10, 12, 16}
	dowelLengths   = []float64{20, 25, 30, 35, 40, 50, 60, 80, 100}
	screwLengths   = []float64{16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80}
)

// Screws of one size serve: number 8, of 0.060 + 8·0.013 in. Its clearance
// hole is (8 + 3)/64 in; its pilot nine tenths of the root of 0.112 in, as for
// hardwood, to the next tenth of a millimetre up. A countersunk head is about
// twice as wide as the shank (common practice).
const (
	screwSize  = 4.2
	screwClear = 4.4
	screwPilot = 2.6
	screwHead  = 8.4
)

// Common practice: how deep screws hold in an edge, and what a blind one leaves.
const (
	screwInEdge = 30.0
	screwLeaves = 4.0
)

// size chooses the pegs by the wood that they go into.
func (g *pegger) size() (*piece.Pegs, bool) {
	if g.kind == screw {
		return g.sizeScrew()
	}
	thin := g.thin()
	dia := trace.Num{}
	switch h := g.shopDowel(0); {
	case g.w != nil && g.w.Diameter != nil:
		dia = *g.w.Diameter
	case g.kind == dowel && h != nil && h.Diameter.V <= thin.V/2+1e-6 && h.Diameter.V >= thin.V/3-1e-6:
		dia = h.Diameter
	case g.kind == dowel:
		dia = trace.Step(stock(dowelDiameters, thin.V/2), thin)
	default:
		dia = g.tenonThick(thin)
	}
	if dia.V <= 0 || dia.V > thin.V-2 {
		g.unable(fmt.Sprintf("In wood of %.1f mm a peg of %.1f mm leaves no walls.", thin.V, dia.V))
		return nil, false
	}
	p := &piece.Pegs{Kind: g.kind, Diameter: dia}
	g.lengths(p)
	if p.InA.V < 5 || p.InB.V < 5 {
		g.unable(fmt.Sprintf("A hole could be %.1f mm deep in the one and %.1f mm in the other.", p.InA.V, p.InB.V))
		return nil, false
	}
	if g.kind == tenon {
		p.Wide = g.tenonWide()
		p.Name = fmt.Sprintf("loose tenon %s × %s × %s", plain(dia.V), plain(p.Wide.V), plain(p.Length.V))
	} else {
		p.Name = fmt.Sprintf("dowel %s × %s", plain(dia.V), plain(p.Length.V))
		if h := g.shopDowel(dia.V); h != nil {
			p.Name = h.Name
		}
	}
	return p, true
}

func plain(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

// stock is the largest of some sizes that is no more than most; 0: none.
func stock(sizes []float64, most float64) float64 {
	best := 0.0
	for _, v := range sizes {
		if v <= most+1e-6 {
			best = v
		}
	}
	return best
}

// thin is the thickness of the leaner part among those that are bored into the
// edge or the end.
func (g *pegger) thin() trace.Num {
	thin := trace.Num{}
	for k, q := range []*piece.Part{g.a, g.p} {
		if g.facing(k) {
			continue
		}
		if thin.V == 0 || q.Thick.V < thin.V {
			thin = q.Thick
		}
	}
	if thin.V == 0 { // face to face
		return trace.Min(g.a.Thick, g.p.Thick)
	}
	return trace.Min(thin, g.s.size(g.s.short))
}

// facing tells whether part A (0) or B (1) meets the joint with a face, not
// with an edge or an end.
func (g *pegger) facing(k int) bool {
	q := [2]*piece.Part{g.a, g.p}[k]
	if len(q.Run) > 0 {
		_, end := g.stripEnd(q, g.s.out(k))
		return !end
	}
	return math.Abs(q.Pose.Z.Dot(g.s.enter())) > 0.9
}

// shopDowel is the shop's dowel of a diameter, or of any that fits best.
func (g *pegger) shopDowel(dia float64) *design.Hardware {
	var best *design.Hardware
	thin := g.thin().V
	for _, h := range g.d.Shop.Hardware {
		if h.Kind != "dowel" || dia > 0 && math.Abs(h.Diameter.V-dia) > 0.05 {
			continue
		}
		if dia == 0 && h.Diameter.V > thin/2+1e-6 {
			continue
		}
		if best == nil || h.Diameter.V > best.Diameter.V {
			best = h
		}
	}
	return best
}

// room is how deep a hole may be in part A (0) or B (1).
func (g *pegger) room(k int) trace.Num {
	q := [2]*piece.Part{g.a, g.p}[k]
	if g.facing(k) {
		if deep := g.woodAt(k); deep.V > 0 { // half of it is cut away there, as in a lap
			return deep
		}
		return q.Thick.Sub(g.constant("rule.peg leaves", 4, "a blind hole leaves 4 mm before the far face: common practice, no source"))
	}
	size := q.Length
	if len(q.Run) == 0 && math.Abs(q.Pose.Y.Dot(g.s.enter())) > 0.9 {
		size = q.Width
	}
	return size.Scale(0.5).Plus(-1)
}

// woodAt is how deep a flat part has wood at the middle of the joint, less a hair,
// where that is less than its thickness; else 0.
func (g *pegger) woodAt(k int) trace.Num {
	q, way := g.a, g.s.enter()
	if k == 1 {
		q, way = g.p, way.Mul(-1)
	}
	if len(q.Run) > 0 {
		return trace.Num{}
	}
	var at [3]float64
	for i := range at {
		at[i] = (g.s.lo[i].V + g.s.hi[i].V) / 2
	}
	at[g.s.k] = g.s.at.V
	for _, s := range g.bodies[k].Ray(r3.Vec{X: at[0], Y: at[1], Z: at[2]}.Add(way.Mul(0.02)), way) {
		if s.T0 < 0.05 && s.T1 > 1 && s.T1 < q.Thick.V-0.1 {
			return trace.Step(s.T1-0.5, q.Thick)
		}
	}
	return trace.Num{}
}

// lengths chooses how long the pegs are, and shares it between the parts: half
// in each, or less where the far face is near. A hole is deeper than the peg by
// 1 mm, which is where glue goes.
func (g *pegger) lengths(p *piece.Pegs) {
	play := g.constant("rule.peg play", 1, "holes are 1 mm deeper than what goes in: 1 to 2 mm is common practice")
	a, b := g.room(0), g.room(1)
	want := math.Min(5*p.Diameter.V, 100)
	most := math.Min(math.Floor(a.V)+math.Floor(b.V)-2*play.V, want)
	length := trace.Step(stock(dowelLengths, most), p.Diameter, a, b)
	if h := g.shopDowel(p.Diameter.V); g.kind == dowel && h != nil && h.Length.V <= a.V+b.V-2*play.V {
		length = h.Length
	}
	if length.V == 0 { // leaner wood than any that is sold is for
		length = trace.Step(math.Max(0, math.Floor(most)), a, b)
	}
	p.Length = length
	half := length.Scale(0.5).Add(play)
	p.InA, p.InB = half, half
	if a.V < half.V {
		p.InA = trace.Step(math.Floor(a.V), a)
		p.InB = length.Add(play.Scale(2)).Sub(p.InA)
	} else if b.V < half.V {
		p.InB = trace.Step(math.Floor(b.V), b)
		p.InA = length.Add(play.Scale(2)).Sub(p.InB)
	}
}

// tenonThick is the shop's bit that is nearest to a third of the wood, and no
// fatter than half.
func (g *pegger) tenonThick(thin trace.Num) trace.Num {
	best := trace.Step(math.Max(3, math.Round(thin.V/3)), thin)
	off := math.Inf(1)
	for _, bit := range g.d.Shop.Bits {
		if d := math.Abs(bit.Diameter.V - thin.V/3); bit.Diameter.V <= thin.V/2 && d < off {
			best, off = bit.Diameter, d
		}
	}
	return best
}

// tenonWide is how wide a tenon is: as the joint is long less its shoulders,
// 60 mm at most; where the joint is longer there are more of them.
func (g *pegger) tenonWide() trace.Num {
	l := g.s.size(g.s.long)
	shoulder := g.constant("rule.tenon shoulder", 10, "a loose tenon keeps 10 mm from the edges: common practice, no source")
	w := l.Sub(shoulder.Scale(2))
	if w.V > 60 {
		return g.constant("rule.tenon wide", 60, "a loose tenon is 60 mm wide at most: common practice, no source")
	}
	return w
}

// sizeScrew chooses the screw: through the part whose face lies on the other's
// edge; face to face from the one that receives, which hides the head. Where two
// edges meet there is none.
func (g *pegger) sizeScrew() (*piece.Pegs, bool) {
	head, into := 0, 1
	if !g.facing(0) {
		head, into = 1, 0
	}
	if !g.facing(head) {
		g.unable("Two edges meet: a screw would go in from nowhere.")
		return nil, false
	}
	parts := [2]*piece.Part{g.a, g.p}
	h, t := parts[head], parts[into]
	deep, most := trace.Const(screwInEdge), math.Inf(1)
	if g.facing(into) {
		deep = t.Thick.Plus(-screwLeaves)
		most = h.Thick.V + deep.V
	}
	p := &piece.Pegs{Kind: screw, Name: "screw", Head: h.ID, Diameter: trace.Const(screwSize), Clear: trace.Const(screwClear), Pilot: trace.Const(screwPilot)}
	p.Length = trace.Step(screwLength(h.Thick.V+deep.V, most), h.Thick, t.Thick)
	in := [2]trace.Num{}
	in[head], in[into] = h.Thick, p.Length.Sub(h.Thick)
	p.InA, p.InB = in[0], in[1]
	if in[into].V < 5 {
		g.unable(fmt.Sprintf("A screw that does not come through would hold %.1f mm.", in[into].V))
		return nil, false
	}
	return p, true
}

// screwLength is the shortest that holds as deep as wanted, or the longest that
// does not come through.
func screwLength(want, most float64) float64 {
	best := screwLengths[0]
	for _, l := range screwLengths {
		if l > most {
			break
		}
		best = l
		if l >= want {
			break
		}
	}
	return best
}

// rows is the places of the pegs as they should be: evenly along the joint, in
// the middle across it. Screws from face to face stand in two rows.
func (g *pegger) rows(p *piece.Pegs) (at [][2]trace.Num, every trace.Num) {
	l, across := g.s.size(g.s.long), g.s.size(g.s.short)
	end, step := g.ends(p, l)
	n := 1
	if gap := l.Sub(end.Scale(2)); gap.V >= 2.5*math.Max(p.Diameter.V, p.Wide.V/2.5) {
		n = 1 + max(1, int(math.Ceil(gap.V/step-1e-9)))
	}
	if g.w != nil && g.w.Count > 0 {
		n = g.w.Count
	}
	mids := []trace.Num{across.Scale(0.5)}
	if g.kind == screw && g.facing(0) && g.facing(1) && across.V > 40 {
		mids = []trace.Num{across.Scale(0.3), across.Scale(0.7)}
	}
	if n > 1 {
		every = l.Sub(end.Scale(2)).Scale(1 / float64(n-1))
	}
	for _, mid := range mids {
		for i := range n {
			x := l.Scale(0.5)
			if n > 1 {
				x = end.Add(every.Scale(float64(i)))
			}
			at = append(at, [2]trace.Num{g.s.lo[g.s.long].Add(x), g.s.lo[g.s.short].Add(mid)})
		}
	}
	return at, every
}

// ends is how far the first peg stands from the joint's end, and how far apart
// they stand at most.
func (g *pegger) ends(p *piece.Pegs, l trace.Num) (trace.Num, float64) {
	switch g.kind {
	case screw:
		end := g.constant("rule.screw from end", 50, "screws keep 50 mm from the ends, and stand 200 mm apart at most: common practice, no source")
		if l.V < 4*end.V {
			return l.Scale(0.25), 200
		}
		return end, 200
	case tenon:
		shoulder := g.constant("rule.tenon shoulder", 10, "a loose tenon keeps 10 mm from the edges: common practice, no source")
		return shoulder.Add(p.Wide.Scale(0.5)), 150
	}
	end := g.constant("rule.dowel from end", 30, "dowels keep 30 mm from the ends, in narrow wood twice their diameter or a quarter of it, and stand 96 mm apart at most: common practice, no source")
	if l.V < 4*end.V {
		end = trace.Max(p.Diameter.Scale(2), l.Scale(0.25))
	}
	return end, 96
}

// out is the way in which the face that is drilled looks: A's (0) or B's (1).
func (s seat) out(k int) r3.Vec {
	if k == 0 {
		return s.enter().Mul(-1)
	}
	return s.enter()
}

// toward is the axis unit vector by which places run along the joint.
func (s seat) toward() r3.Vec { return axisVec(s.long) }
