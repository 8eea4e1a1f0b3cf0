package export

import (
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

// Bends is the list of bends.
type Bends struct {
	PieceHead
	Bends []Bend `json:"bends" doc:"in the order of the parts, and along each strip"`
}

// Bend is one bent stretch of a strip.
type Bend struct {
	Part        string   `json:"part" doc:"id of the strip"`
	Corner      string   `json:"corner" doc:"which corner of the piece"`
	Radius      Number   `json:"radius_mm" doc:"outside"`
	Angle       Number   `json:"angle_deg" doc:"of the whole bend"`
	Start       Number   `json:"start_mm" doc:"tangent point, from the strip's datum end"`
	Flat        Number   `json:"flat_mm" doc:"length of the stretch that bends, laid flat"`
	Kerfs       int      `json:"kerfs" doc:"how many"`
	KerfWidth   Number   `json:"kerf_mm" doc:"width of one, as measured"`
	KerfDepth   Number   `json:"depth_mm" doc:"from the kerfed face"`
	Skin        Number   `json:"skin_mm" doc:"left under a kerf"`
	Pitch       Number   `json:"pitch_mm" doc:"from centre to centre"`
	Rib         Number   `json:"rib_mm" doc:"between two kerfs"`
	InsidePitch Number   `json:"inside_pitch_mm" doc:"of the rib tips when bent"`
	Mouth       Number   `json:"mouth_mm" doc:"left open at the inside when bent; negative: it shuts too early"`
	PerKerf     Number   `json:"per_kerf_deg" doc:"turn of one kerf"`
	ClosedAt    Number   `json:"closed_at_deg" doc:"turn at which one kerf shuts"`
	LeastKerfs  int      `json:"least_kerfs" doc:"the fewest that reach the angle before they shut"`
	TradeKerfs  int      `json:"trade_kerfs" doc:"the trade's count, for comparison"`
	Neutral     Number   `json:"neutral_mm" doc:"neutral line, from the outer face"`
	Facet       Number   `json:"facet_mm" doc:"peak to valley of the show face"`
	StrainLow   Number   `json:"strain_low_ratio" doc:"of the outer skin, if the hinge is longer than the slot"`
	StrainHigh  Number   `json:"strain_high_ratio" doc:"of the outer skin, if the hinge is the slot alone"`
	StrainFine  Number   `json:"strain_fine_ratio" doc:"fine up to here"`
	StrainStop  Number   `json:"strain_stop_ratio" doc:"stop beyond here"`
	RailRadius  Number   `json:"rail_radius_mm" doc:"the largest convex rail that the rib tips take"`
	RailGap     Number   `json:"rail_gap_mm" doc:"between rail and strip at the edges of a rib"`
	Clear       Number   `json:"clear_mm" doc:"nothing else is cut nearer a tangent point"`
	KerfCentres []Number `json:"kerf_centres_mm" doc:"of every kerf, from the strip's datum end"`
	Path        string   `json:"path" doc:"where in the piece file it comes from"`
}

// BendsOf makes the list of bends.
func BendsOf(p *plan.Plan) Bends {
	out := Bends{PieceHead: pieceHead("bends", p), Bends: []Bend{}}
	if p.Piece == nil {
		return out
	}
	for _, q := range p.Piece.Parts {
		for _, b := range q.Bends {
			out.Bends = append(out.Bends, bendOf(q, b))
		}
	}
	return out
}

func bendOf(q *piece.Part, b piece.Bend) Bend {
	k := b.Plan
	return Bend{
		Part: q.ID, Corner: b.Corner, Radius: num(b.Radius), Angle: deg(b.Angle.V), Start: num(b.Start), Flat: num(b.Length),
		Kerfs: k.Count, KerfWidth: Number(k.Spec.Kerf), KerfDepth: Number(k.Depth), Skin: Number(k.Spec.Skin),
		Pitch: Number(k.Pitch), Rib: Number(k.Rib), InsidePitch: Number(k.InsidePitch), Mouth: Number(k.Mouth),
		PerKerf: deg(k.Alpha), ClosedAt: deg(k.ClosedAt), LeastKerfs: k.LeastCount, TradeKerfs: k.TradeCount,
		Neutral: Number(k.NeutralY), Facet: Number(k.Facet),
		StrainLow: Number(k.StrainLow), StrainHigh: Number(k.StrainHigh), StrainFine: Number(k.StrainFine), StrainStop: Number(k.StrainStop),
		RailRadius: Number(k.RailRadius), RailGap: Number(k.RailGap), Clear: Number(k.Clear),
		KerfCentres: nums(b.Kerfs), Path: b.Path,
	}
}
