package making

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Habits of formers, mm; all common practice.
const (
	formerLeg   = 60.0  // straight, before and behind the bend
	formerDeep  = 90.0  // behind the curve: a clamp's foot stands on it
	formerRoom  = 150.0 // between two boards under a kerfed strip, whose ribs bridge it
	plyRoom     = 40.0  // between two boards under thin plies
	caulWide    = 45.0
	blockWide   = 45.0
	formerThick = 11.0 // the least that a board of a former is made of
	formerElse  = 18.0 // where the strip is thinner than that
)

// Aids lists what is cut to bend the piece's strips on: for each bend a former,
// of boards that stand across the strip, blocks between them, and two cauls that
// spread the clamps at the ends. Bends that are alike share one. Where the piece
// file names a stock under 'formers' it is taken; else Place finds an offcut.
func Aids(p *piece.Piece, d *design.Design) []work.Aid {
	var out []work.Aid
	type key struct{ radius, angle, width float64 }
	seen := map[key]bool{}
	for _, q := range p.Parts {
		for i := range q.Bends {
			b := &q.Bends[i]
			if ply := d.Body.Bend.InnerPly.Stock; ply != nil && b.Plan.Count > 0 && !b.Plan.Spec.Outside {
				out = append(out, innerPly(q, b, ply))
			}
			if b.Length.V <= 0 || b.Stack != nil && b.Stack.Stack.Count == 1 {
				continue // a sheet bent cold is bent into place
			}
			radius, angle := formerOf(b)
			k := key{round(radius.V), round(angle.V), round(q.Width.V)}
			if seen[k] {
				continue
			}
			seen[k] = true
			out = append(out, bendAids(q, b, formerStock(d), radius, angle)...)
		}
	}
	return out
}

// innerPly is the ply that is glued over the rib tips of one bend, from tangent
// point to tangent point. It becomes part of the strip.
func innerPly(q *piece.Part, b *piece.Bend, st *design.Stock) work.Aid {
	return work.Aid{ID: "inner ply, " + q.ID + " " + b.Corner, Kind: "inner ply", Name: "inner ply of the " + b.Corner + " bend", Bend: q.ID + "/bend " + b.Corner,
		Stock: st.Name, Chosen: true, Count: 1, Length: b.RailRadius.Mul(b.Angle), Width: q.Width, Thick: st.Thickness.Mean}
}

// formerOf is the curve of a bend's former: that of its inside, or for plies the
// tighter one from which they spring back.
func formerOf(b *piece.Bend) (radius, angle trace.Num) {
	if s := b.Stack; s != nil {
		return b.RailRadius.Plus(s.FormerRadius - b.RailRadius.V), b.Angle.Plus(s.FormerAngle - b.Angle.V)
	}
	return b.RailRadius, b.Angle
}

// formerStock is what formers are made of: the role 'formers', or none.
func formerStock(d *design.Design) *design.Stock {
	if r, ok := d.Roles["formers"]; ok {
		return r.Stock
	}
	return nil
}

func bendAids(q *piece.Part, b *piece.Bend, st *design.Stock, radius, angle trace.Num) []work.Aid {
	bend := q.ID + "/bend " + b.Corner
	room := formerRoom
	if b.Stack != nil {
		room = plyRoom
	}
	thick := q.Thick // of the boards: their own stock's, else as the strip's
	if thick.V < formerThick {
		thick = trace.Const(formerElse)
	}
	a := work.Aid{Bend: bend}
	if st != nil {
		a.Stock, a.Chosen, thick = st.Name, true, st.Thickness.Mean
	}
	a.Thick = thick
	board, boards, gap := a, 0, 0.0
	board.Outline = formerShape(radius.V, angle.V)
	box := board.Outline.Box()
	boards = max(2, int(math.Ceil((q.Width.V+room)/(thick.V+room)-1e-9)))
	gap = (q.Width.V - float64(boards)*thick.V) / float64(boards-1)
	board.ID, board.Kind, board.Name = "former, "+q.ID+" "+b.Corner, "former", "former for the "+b.Corner+" bend"
	board.Count, board.Radius, board.Angle = boards, radius, angle
	board.Length, board.Width = trace.Step(box.Size().X, radius, angle), trace.Step(box.Size().Y, radius, angle)
	out := []work.Aid{board}
	if gap > 5 {
		block := a
		block.ID, block.Kind, block.Name = "block, "+q.ID+" "+b.Corner, "spacer block", "block between the boards, "+b.Corner
		block.Count, block.Length, block.Width = 2*(boards-1), q.Width.Plus(gap-q.Width.V), trace.Const(blockWide)
		out = append(out, block)
	}
	caul := a
	caul.ID, caul.Kind, caul.Name = "caul, "+q.ID+" "+b.Corner, "caul", "caul for the "+b.Corner+" bend"
	caul.Count, caul.Length, caul.Width = 2, q.Width, trace.Const(caulWide)
	return append(out, caul)
}

// formerShape is a former's board: a straight leg, the arc, another leg, and
// straight lines behind.
func formerShape(radius, angle float64) planar.Region {
	leg := formerLeg
	if angle > math.Pi+0.01 {
		leg = 0 // the legs would cross
	}
	deep := math.Min(formerDeep, radius)
	half := angle / 2
	dir := func(at float64) r2.Vec { return r2.Vec{X: math.Sin(at), Y: math.Cos(at)} } // from the centre, 0 upwards
	along := func(at float64) r2.Vec { return r2.Vec{X: math.Cos(at), Y: -math.Sin(at)} }
	t1, t2 := dir(-half).Mul(radius), dir(half).Mul(radius)
	p0, p3 := t1.Sub(along(-half).Mul(leg)), t2.Add(along(half).Mul(leg))
	loop := planar.Loop{{P: p0}, {P: t1, Bulge: -math.Tan(angle / 4)}, {P: t2}, {P: p3}, {P: p3.Sub(dir(half).Mul(deep))}}
	if back := p0.Sub(dir(-half).Mul(deep)); back.Sub(loop[4].P).Len() > 1 {
		loop = append(loop, planar.Vertex{P: back})
	}
	out := planar.Of(loop.Reverse())
	return out.Moved(out.Box().Min.Mul(-1))
}

// PlaceAids finds kept offcuts for the aids whose stock the piece file does not
// name: for each one as thick as its boards that holds all its pieces side by
// side, out of what the set-ups' test pieces leave.
func PlaceAids(aids []work.Aid, d *design.Design, layouts []work.Layout, ups Set) []work.Aid {
	out := append([]work.Aid(nil), aids...)
	left := ups.left
	if left == nil {
		left = stash{}
	}
	for i := range out {
		if !out[i].Chosen {
			left.place(&out[i], d, layouts)
		}
	}
	return out
}

// place finds the smallest offcut for one aid.
func (s stash) place(a *work.Aid, d *design.Design, layouts []work.Layout) {
	best, l, w := math.Inf(1), 0.0, 0.0
	for _, lay := range layouts {
		st := stockNamed(d, lay.Stock)
		if st == nil || st.Stick || math.Abs(st.Thickness.Mean.V-a.Thick.V) > 0.5 {
			continue
		}
		for _, sheet := range lay.Sheets {
			for k := range sheet.Offcuts {
				o := &sheet.Offcuts[k]
				if bl, bw, ok := s.block(o, a.Length.V, a.Width.V, a.Count); ok && o.Length*o.Width < best {
					best, l, w = o.Length*o.Width, bl, bw
					a.Stock, a.Sheet, a.At = lay.Stock, sheet.Number, o
				}
			}
		}
	}
	if a.At != nil {
		s.take(a.At, l, w)
	}
}

// grainOf is the grain of an aid: an inner ply bends about it, the rest may lie
// as it will.
func grainOf(a work.Aid) piece.Grain {
	if a.Kind == "inner ply" {
		return piece.AlongLength
	}
	return piece.NoGrain
}

// WithAids is the piece with the aids that lie on the layouts among its parts:
// what the layouts are made of. The piece itself keeps its own parts.
func WithAids(p *piece.Piece, aids []work.Aid, d *design.Design) *piece.Piece {
	out := *p
	out.Parts = append([]*piece.Part(nil), p.Parts...)
	for _, a := range aids {
		if !a.Chosen {
			continue
		}
		out.Parts = append(out.Parts, &piece.Part{ID: a.ID, Name: a.Name, Number: len(out.Parts) + 1, Stock: stockNamed(d, a.Stock), Thick: a.Thick,
			Length: a.Length, Width: a.Width, BlankLength: a.Length, BlankWidth: a.Width, Grain: grainOf(a), Plies: a.Count})
	}
	if len(out.Parts) == len(p.Parts) {
		return p
	}
	return &out
}
