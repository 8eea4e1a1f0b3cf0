package export

import (
	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// SetUp is one tool with one setting, and all that is cut with it.
type SetUp struct {
	Number     int        `json:"number" doc:"in the order of the work, from 1"`
	ID         string     `json:"id" doc:"stable while its setting is"`
	Kind       string     `json:"kind" doc:"square the end, rabbet, groove, housing, holes, notch, outline, kerfs, trim, bevel, edges"`
	Tool       string     `json:"tool" doc:"what it is done with"`
	With       string     `json:"with" doc:"the shop's name of the saw or bit; empty where the shop file names none"`
	Cutter     Number     `json:"cutter_mm" doc:"diameter of the bit or drill, or the blade's kerf; 0 by hand"`
	Depth      Number     `json:"depth_mm" doc:"what is set; 0 where it goes through"`
	Through    bool       `json:"through" doc:"through the whole thickness"`
	Tilt       Number     `json:"tilt_rad" doc:"of the blade from upright, for a bevel"`
	Mitre      Number     `json:"mitre_rad" doc:"of the mitre gauge from square, for a bevel"`
	Width      Number     `json:"width_mm" doc:"of a slot or notch; 0 where the cutter makes it"`
	From       string     `json:"from" doc:"the edge that stop or fence is set from"`
	Stop       Number     `json:"stop_mm" doc:"from there to the near side of the cut, or to the centre of a hole"`
	Across     int        `json:"runs_across" doc:"runs side by side that make the width"`
	Deep       int        `json:"runs_deep" doc:"runs one below the other that make the depth"`
	NotThrough bool       `json:"blade_hidden" doc:"the blade stays hidden under the work"`
	Missing    bool       `json:"missing" doc:"nothing in the shop file can make it"`
	Mind       []string   `json:"mind" doc:"hazards that belong to it: kickback, a climb cut, dust, …"`
	Cuts       []SetUpCut `json:"cuts" doc:"all that share the setting"`
}

// SetUpCut is one cut of a set-up.
type SetUpCut struct {
	Part     string `json:"part" doc:"id of the part"`
	Cut      string `json:"cut" doc:"id of the cut or the bend; empty for a trimmed end"`
	Face     string `json:"face" doc:"A, B or empty"`
	From     Number `json:"from_mm" doc:"along the fence: where a run starts, or the first hole's centre"`
	To       Number `json:"to_mm" doc:"where it ends, or the last hole's centre"`
	Count    int    `json:"count" doc:"of holes or kerfs"`
	Step     Number `json:"step_mm" doc:"between holes, or the pitch of kerfs"`
	StopFrom bool   `json:"stopped_at_from" doc:"the run ends in the wood there"`
	StopTo   bool   `json:"stopped_at_to" doc:"the run ends in the wood there"`
	For      string `json:"for" doc:"what it is for"`
	Late     bool   `json:"late" doc:"cut with its part, once the opening is measured"`
}

// TestPiece is an offcut that is cut first.
type TestPiece struct {
	ID        string   `json:"id" doc:"unique in the plan"`
	Kind      string   `json:"kind" doc:"fit or bend"`
	SetUp     int      `json:"set_up" doc:"number of the set-up that it proves"`
	Stock     string   `json:"stock" doc:"of the piece that is cut"`
	Other     string   `json:"other" doc:"stock of what goes in; empty for a bend"`
	Length    Number   `json:"length_mm" doc:"of the offcut"`
	Width     Number   `json:"width_mm" doc:"of the offcut"`
	Sheet     int      `json:"sheet" doc:"number of the sheet that it comes from; 0 where no kept offcut is large enough"`
	Want      Number   `json:"want_mm" doc:"what must measure so: width of the slot, or the skin"`
	Depth     Number   `json:"depth_mm" doc:"of the cut"`
	Clearance Number   `json:"clearance_mm" doc:"of the fit"`
	Fit       string   `json:"fit" doc:"the fit that is asked for"`
	For       []string `json:"for" doc:"ids of the parts"`
	Bend      string   `json:"bend" doc:"part and corner of a bend, or empty"`
}

// Screws is the screws of one joint.
type Screws struct {
	Joint   string `json:"joint" doc:"id of the joint"`
	Through string `json:"through" doc:"id of the part that the heads lie in"`
	In      string `json:"in" doc:"id of the part that the threads hold in"`
	Count   int    `json:"count" doc:"how many"`
	Size    Number `json:"size_mm" doc:"nominal diameter"`
	Length  Number `json:"length_mm" doc:"nominal"`
	Clear   Number `json:"clear_mm" doc:"diameter of the hole that they pass"`
	Pilot   Number `json:"pilot_mm" doc:"diameter of the hole that they hold in"`
	Every   Number `json:"every_mm" doc:"between screws"`
}

// Carried is what one surface carries.
type Carried struct {
	Part     string `json:"part" doc:"id of the part"`
	Contents Number `json:"contents_kg" doc:"that the brief puts there"`
	PerMetre Number `json:"per_metre_kg" doc:"per metre, that its sag was computed for"`
}

func setUpsOf(p *plan.Plan) []SetUp {
	return each(p.SetUps, func(s work.SetUp) SetUp {
		return SetUp{s.Number, s.ID, s.Kind, string(s.Tool), s.With, num(s.Cutter), num(s.Depth), s.Through, num(s.Tilt), num(s.Mitre), num(s.Width), s.From,
			num(s.Stop), s.Across, s.Deep, s.NotThrough, s.Missing, minds(s.Mind), each(s.Cuts, func(c work.SetUpCut) SetUpCut {
				return SetUpCut{c.Part, c.Cut, c.Face, num(c.From), num(c.To), c.Count, num(c.Step), c.StopFrom, c.StopTo, c.For, c.Late}
			})}
	})
}

func minds(ms []work.Mind) []string { return each(ms, func(m work.Mind) string { return string(m) }) }

func testsOf(p *plan.Plan) []TestPiece {
	return each(p.Tests, func(t work.TestPiece) TestPiece {
		return TestPiece{t.ID, t.Kind, t.SetUp, t.Stock, t.Other, num(t.Length), num(t.Width), t.Sheet, num(t.Want), num(t.Deep),
			num(t.Clearance), t.Fit, list(t.For), t.Bend}
	})
}

func screwsOf(p *plan.Plan) []Screws {
	return each(p.Screws, func(s work.ScrewLine) Screws {
		return Screws{s.Joint, s.Through, s.In, s.Count, num(s.Size), num(s.Length), num(s.Clear), num(s.Pilot), num(s.Every)}
	})
}

func carriedOf(p *plan.Plan) []Carried {
	return each(p.Carries, func(c work.Carried) Carried { return Carried{c.Part, num(c.Contents), num(c.PerMetre)} })
}
