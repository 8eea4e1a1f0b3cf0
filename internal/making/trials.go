package making

import (
	"fmt"

	"rodwork/internal/piece"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// Sizes of test pieces, mm: long enough to clamp and to hold, and for a bend a
// flat on each side that a hand can pull at. Habits of ours.
const (
	fitLong, fitWide   = 200.0, 100.0
	bendFlat, bendWide = 100.0, 100.0
)

// tests lists a test piece for each fit and each bend: one for all set-ups that
// cut the same width and depth with the same cutter in the same stock for the
// same stock.
func tests(p *piece.Piece, ups []work.SetUp, layouts []work.Layout, left stash) []work.TestPiece {
	var out []work.TestPiece
	at := map[string]int{}
	for _, u := range ups {
		for _, c := range u.Cuts {
			q := p.Part(c.Part)
			if q == nil || q.Stock == nil {
				continue
			}
			if u.Kind == "kerfs" {
				out = append(out, bendTest(q, u, c, layouts, left))
				continue
			}
			j, in := jointOf(p, c)
			if j == nil || j.Fit == "" || in.Stock == nil {
				continue
			}
			key := fmt.Sprintf("%s/%.3f/%.3f/%s/%s/%s", u.Kind, u.Width.V, u.Depth.V, u.With, q.Stock.Name, in.Stock.Name)
			i, ok := at[key]
			if !ok {
				i = len(out)
				at[key] = i
				t := work.TestPiece{ID: "test/" + key, Kind: "fit", SetUp: u.Number, Stock: q.Stock.Name, Other: in.Stock.Name,
					Length: trace.Const(fitLong), Width: trace.Const(fitWide), Want: u.Width, Deep: u.Depth, Clearance: j.Clearance, Fit: j.Fit}
				t.Sheet, t.At = left.offcut(layouts, q.Stock.Name, fitLong, fitWide, true)
				out = append(out, t)
			}
			out[i].For = appendOnce(out[i].For, in.ID)
		}
	}
	return out
}

// jointOf is the joint that a slot is cut for, with the part that goes in.
func jointOf(p *piece.Piece, c work.SetUpCut) (*piece.Joint, *piece.Part) {
	in := p.Part(c.For)
	if in == nil {
		return nil, nil
	}
	for i := range p.Joints {
		if j := &p.Joints[i]; j.A == c.Part && j.B == in.ID {
			return j, in
		}
	}
	return nil, nil
}

// bendTest is a strip as long as the bend, with a flat on each side. It bends
// about the same grain as the part.
func bendTest(q *piece.Part, u work.SetUp, c work.SetUpCut, layouts []work.Layout, left stash) work.TestPiece {
	t := work.TestPiece{ID: "test/" + c.Cut, Kind: "bend", SetUp: u.Number, Stock: q.Stock.Name, Width: trace.Const(bendWide), For: []string{q.ID}, Bend: c.Cut}
	for _, b := range q.Bends {
		if q.ID+"/bend "+b.Corner == c.Cut {
			t.Length = trace.Step(50*float64(int((b.Length.V+2*bendFlat)/50+1)), b.Length)
			t.Want, t.Deep = q.Thick.Sub(b.Depth), b.Depth
		}
	}
	l, w := t.Length.V, t.Width.V
	if q.Grain == piece.AlongWidth {
		l, w = w, l
	}
	t.Sheet, t.At = left.offcut(layouts, t.Stock, l, w, q.Grain == piece.NoGrain)
	return t
}

// offcut finds the smallest kept offcut of a stock that a piece still comes from,
// and saws it off: its sheet and its place. Length runs along the sheet's face
// grain, unless the piece may be turned.
func (left stash) offcut(layouts []work.Layout, stock string, length, width float64, turn bool) (int, *work.Offcut) {
	sheet, area, at := 0, 0.0, leftover{}
	var best *work.Offcut
	for _, l := range layouts {
		if l.Stock != stock {
			continue
		}
		for i := range l.Sheets {
			s := &l.Sheets[i]
			for k := range s.Offcuts {
				o := &s.Offcuts[k]
				want := leftover{length, width}
				if s.GrainAlong == "width" {
					want = leftover{width, length}
				}
				_, fits := left.holds(o, want.length, want.width)
				if !fits && turn {
					want = leftover{want.width, want.length}
					_, fits = left.holds(o, want.length, want.width)
				}
				if a := o.Length * o.Width; fits && (best == nil || a < area-1e-6) {
					best, sheet, area, at = o, s.Number, a, want
				}
			}
		}
	}
	if best != nil {
		left.take(best, at.length, at.width)
	}
	return sheet, best
}

func appendOnce(ss []string, s string) []string {
	for _, x := range ss {
		if x == s {
			return ss
		}
	}
	return append(ss, s)
}
