package export

import (
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Steps is an order in which the piece goes together.
type Steps struct {
	PieceHead
	Steps []Step `json:"steps" doc:"in order"`
}

// Step is one act.
type Step struct {
	Number    int      `json:"number" doc:"from 1"`
	Part      string   `json:"part" doc:"id of the part that comes in"`
	Into      []string `json:"into" doc:"ids of the parts that it meets"`
	Move      string   `json:"move" doc:"which way it comes, in words"`
	Direction []Number `json:"direction_xyz" doc:"of the move: right, up, towards the viewer"`
	Joints    []string `json:"joints" doc:"ids of the joints that it closes"`
	GlueUp    int      `json:"glue_up" doc:"steps of one glue-up share it; 0 is dry or after"`
	Text      string   `json:"text" doc:"in words"`
	Mind      []string `json:"mind" doc:"hazards that belong to it: glue and vapour, two people, …"`
}

// StepsOf makes the document of the assembly.
func StepsOf(p *plan.Plan) Steps {
	return Steps{pieceHead("steps", p), each(p.Order, func(s work.Step) Step {
		return Step{s.Number, s.Part, list(s.Into), s.Move,
			[]Number{Number(s.Dir[0]), Number(s.Dir[1]), Number(s.Dir[2])},
			list(s.Joints), s.Group, Text(s.Text, units.MM), minds(s.Mind)}
	})}
}

// list makes nil an empty list.
func list(in []string) []string {
	if in == nil {
		return []string{}
	}
	return in
}
