package check

import (
	"math"

	"rodwork/internal/design"
	"rodwork/internal/geom/r3"
	"rodwork/internal/material"
	"rodwork/internal/mech/season"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// humidity is the room's relative humidity over the year, shares.
type humidity struct{ dry, damp trace.Num }

// airOf is what the brief says of the room's air, or a heated room's.
func airOf(d *design.Design) humidity {
	if a := d.Brief.Air; a != nil {
		return humidity{a.Dry, a.Damp}
	}
	return humidity{trace.Const(season.Dry), trace.Const(season.Damp)}
}

// moves judges what swells and shrinks: solid wood across its grain where it is
// broad or hung in a gap, and the broadest sheet.
func moves(in Input) []work.Finding {
	var out []work.Finding
	air := airOf(in.Design)
	var broadest *piece.Part
	sheet := 0.0
	for _, q := range in.Piece.Parts {
		if q.Stock == nil || len(q.Run) > 0 {
			continue
		}
		m, err := material.Find(string(q.Stock.Kind), q.Stock.Species)
		if err != nil {
			continue
		}
		if q.Stock.Kind == design.Solid {
			if f, ok := solidMoves(in, q, m, air); ok {
				out = append(out, f)
			}
			continue
		}
		if w := math.Max(q.Length.V, q.Width.V); m.Plane.V > 0 && season.PlaneSwing(w, m.Plane.V, air.dry.V, air.damp.V) > sheet {
			sheet, broadest = season.PlaneSwing(w, m.Plane.V, air.dry.V, air.damp.V), q
		}
	}
	if broadest != nil {
		size := broadest.Length
		if broadest.Width.V > size.V {
			size = broadest.Width
		}
		out = append(out, work.Finding{ID: "season/sheets", Rule: "MOVE-02", Verdict: work.Fine, Title: "sheets over the year", Value: trace.Step(sheet, broadest.Length, broadest.Width, air.dry, air.damp), Unit: "mm",
			Path: broadest.Path, Chapter: "piece", Limit: trace.Const(1.5),
			Text: say.F("From {} to {} relative humidity the longest sheet, {}, moves by {} over {}: glued joints bear that.", say.Percent(air.dry.V, 0), say.Percent(air.damp.V, 0),
				say.Name(broadest.Name), say.Len(sheet, 1), say.LenN(size, 0))})
	}
	return out
}

// broad is the width across the grain from which solid wood needs room, mm.
const broad = 80.0

// solidMoves judges one part of solid wood.
func solidMoves(in Input, q *piece.Part, m *material.Material, air humidity) (work.Finding, bool) {
	across, share := q.Width, m.Tangential.V
	if q.Grain == piece.AlongWidth {
		across = q.Length
	}
	if share <= 0 || across.V < broad {
		return work.Finding{}, false
	}
	swing := trace.Lift(func(x []float64) float64 { return season.Swing(x[0], share, season.Room, x[1], x[2]) }, across, air.dry, air.damp)
	f := work.Finding{ID: "season/" + q.ID, Rule: "MOVE-02", Verdict: work.Fine, Title: q.Name + " over the year", Value: swing, Unit: "mm", Part: q.ID, Path: q.Path, Chapter: "piece",
		Limit: trace.Const(1.5)}
	f.Text = say.F("From {} to {} relative humidity {} moves by {} across its {}, a quarter more or less by how it was sawn.", say.Percent(air.dry.V, 0), say.Percent(air.damp.V, 0),
		say.Name(q.Name), say.Len(swing.V, 1), say.LenN(across, 0))
	if hung := q.Role == piece.Door || q.Role == piece.DrawerFront; hung {
		gap := gapOf(in.Design, q)
		f.Limit = gap.Scale(2)
		if swing.V > f.Limit.V {
			f.Verdict = work.Look
			f.Text = append(f.Text, say.F(" Its gaps of {} close: it binds.", say.LenN(gap, 1))...)
			f.Mends = []work.Mend{{Text: say.F("a gap of {}", say.Len(math.Ceil(swing.V)/2+1, 1))}, {Text: say.F("a frame with a panel that floats")}, {Text: say.F("plywood")}}
		}
		if swing.V > 2*f.Limit.V {
			f.Verdict = work.Stop
		}
		return f, true
	}
	if rigid(in.Piece, q, across) && swing.V > f.Limit.V {
		f.Verdict = work.Look
		f.Text = append(f.Text, say.F(" It is glued or screwed fast across that: it cracks, or pulls its joints open.")...)
		f.Mends = []work.Mend{{Text: say.F("glue its middle only, and give its screws slots of {} to each side", say.Len(math.Ceil(swing.V/2), 0))}, {Text: say.F("plywood")}}
		if swing.V > 3*f.Limit.V {
			f.Verdict = work.Stop
		}
	}
	return f, true
}

// rigid tells whether a part is held along its whole width across the grain by
// one that does not move that way: a glued joint of that length.
func rigid(p *piece.Piece, q *piece.Part, across trace.Num) bool {
	for i := range p.Joints {
		j := &p.Joints[i]
		if j.A != q.ID && j.B != q.ID || !j.Glued {
			continue
		}
		id := j.A
		if id == q.ID {
			id = j.B
		}
		o := p.Part(id)
		if o == nil || o.Stock == nil || j.Kind == "edging" || j.Area.V < 0.5*across.V*math.Min(q.Thick.V, o.Thick.V) {
			continue
		}
		if crossGrain(q, o) {
			return true
		}
	}
	return false
}

// crossGrain tells whether another part does not move along the way that q moves.
func crossGrain(q, o *piece.Part) bool {
	if o.Stock.Kind != design.Solid {
		return true
	}
	return math.Abs(axisOf(q, true).Dot(axisOf(o, true))) < 0.7
}

// axisOf is the way across the grain, or along it, in the piece.
func axisOf(q *piece.Part, across bool) r3.Vec {
	if (q.Grain == piece.AlongWidth) == across {
		return q.Pose.X
	}
	return q.Pose.Y
}
