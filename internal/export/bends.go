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
	// From here on: what came later than the list itself.
	Way       string  `json:"way" doc:"kerfed, laminated or cold"`
	Turns     string  `json:"turns" doc:"right or left, for who looks along the strip with face A on the left"`
	Face      string  `json:"face,omitempty" doc:"face that the kerfs are cut into, A or B"`
	Outside   bool    `json:"kerfs_outside" doc:"the kerfs are on the convex face, and open"`
	Moment    Number  `json:"moment_Nmm" doc:"that holds the bend, at most"`
	MomentLow Number  `json:"moment_low_Nmm" doc:"that holds the bend, with the longest hinge"`
	Filling   Number  `json:"filling_mm3" doc:"that would fill every kerf"`
	Plies     int     `json:"plies,omitempty" doc:"of a bend without kerfs"`
	Former    *Former `json:"former,omitempty" doc:"of a bend without kerfs"`
	Sought    *Sought `json:"sought,omitempty" doc:"what a search over the shop's blades and skins finds"`
}

// Former is what a bend without kerfs is glued or held on.
type Former struct {
	Radius Number `json:"radius_mm" doc:"of a former inside the bend"`
	Angle  Number `json:"angle_deg" doc:"of the former, with what is given back"`
	Lost   Number `json:"lost_ratio" doc:"share of the curvature that is given back"`
	Least  Number `json:"least_radius_mm" doc:"recommended for one ply, to its inner face; 0: no table reaches it"`
	Glue   Number `json:"glue_area_mm2" doc:"all lines together"`
	Spread Number `json:"spread_s" doc:"to spread the glue"`
}

// Sought is the best that the shop makes of a bend, and what would work where it
// makes none.
type Sought struct {
	Binds      string `json:"binds" doc:"key of the limit that binds: mouth, strain, facet, rib, rail, skin"`
	Rule       string `json:"rule" doc:"id of its rule"`
	MostKerfs  int    `json:"most_kerfs" doc:"that leave the least rib"`
	Blade      string `json:"blade,omitempty" doc:"the best of the shop's blades, which does not do either, or does"`
	Skin       Number `json:"skin_mm" doc:"left by it"`
	Kerfs      int    `json:"kerfs" doc:"cut with it"`
	Works      bool   `json:"works" doc:"the best blade and skin of the shop satisfy every limit"`
	NearRadius Number `json:"nearest_radius_mm" doc:"at which a blade of the shop satisfies every limit; 0: none"`
	NearKerf   Number `json:"nearest_kerf_mm" doc:"of a blade that would, at this radius; 0: none"`
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
	out := Bend{
		Part: q.ID, Corner: b.Corner, Radius: num(b.Radius), Angle: deg(b.Angle.V), Start: num(b.Start), Flat: num(b.Length),
		Kerfs: k.Count, KerfWidth: Number(k.Spec.Kerf), KerfDepth: Number(k.Depth), Skin: Number(k.Spec.Skin),
		Pitch: Number(k.Pitch), Rib: Number(k.Rib), InsidePitch: Number(k.InsidePitch), Mouth: Number(k.Mouth),
		PerKerf: deg(k.Alpha), ClosedAt: deg(k.ClosedAt), LeastKerfs: k.LeastCount, TradeKerfs: k.TradeCount,
		Neutral: Number(k.NeutralY), Facet: Number(k.Facet),
		StrainLow: Number(k.StrainLow), StrainHigh: Number(k.StrainHigh), StrainFine: Number(k.StrainFine), StrainStop: Number(k.StrainStop),
		RailRadius: Number(k.RailRadius), RailGap: Number(k.RailGap), Clear: Number(k.Clear),
		KerfCentres: nums(b.Kerfs), Path: b.Path,
		Way: b.Way, Turns: map[bool]string{true: "left", false: "right"}[b.Left], Face: string(b.Face), Outside: k.Spec.Outside,
		Moment: Number(k.Moment), MomentLow: Number(k.MomentLow), Filling: Number(k.Filling()), Sought: soughtOf(q, b),
	}
	if s := b.Stack; s != nil {
		out.Face, out.Plies = "", s.Stack.Count
		out.Former = &Former{Radius: Number(s.FormerRadius), Angle: deg(s.FormerAngle), Lost: Number(s.Lost), Least: Number(s.Least),
			Glue: Number(s.GlueArea), Spread: Number(s.GlueTime)}
	}
	return out
}

// soughtOf tells what a search found for a bend; nil where none was made.
func soughtOf(q *piece.Part, b piece.Bend) *Sought {
	if b.Sought == nil {
		return nil
	}
	s := b.Sought
	return &Sought{Binds: s.Binds.Key, Rule: s.Binds.Rule, MostKerfs: s.MostCount, Blade: s.Best.Blade.Name, Skin: Number(s.Best.Plan.Spec.Skin),
		Kerfs: s.Best.Plan.Count, Works: s.Best.Fits(), NearRadius: Number(s.Radius), NearKerf: Number(s.Kerf)}
}
