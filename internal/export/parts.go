package export

import (
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// Parts is the list of parts.
type Parts struct {
	PieceHead
	Width    Number    `json:"width_mm" doc:"outside of the closed piece"`
	Height   Number    `json:"height_mm" doc:"outside of the closed piece"`
	Depth    Number    `json:"depth_mm" doc:"outside of the closed piece"`
	Mass     Number    `json:"mass_kg" doc:"of the empty piece"`
	Parts    []Part    `json:"parts" doc:"in the order of their numbers"`
	Masses   []Mass    `json:"masses" doc:"of each part, with the place of its centre in the closed piece"`
	Joints   []Joint   `json:"joints" doc:"where two parts meet and hold"`
	Fittings []Fitting `json:"fittings" doc:"bought things on the piece"`
}

// Part is one thing that is cut.
type Part struct {
	ID          string `json:"id" doc:"unique in the piece; stable while the names of the design are"`
	Number      int    `json:"number" doc:"in the book and on the label"`
	Name        string `json:"name" doc:"in words"`
	Role        string `json:"role" doc:"what it does in the piece"`
	Stock       string `json:"stock" doc:"what it is cut from"`
	Length      Number `json:"length_mm" doc:"finished; of a bent part, of its flat strip"`
	Width       Number `json:"width_mm" doc:"finished"`
	Thickness   Number `json:"thickness_mm" doc:"as measured"`
	BlankLength Number `json:"blank_length_mm" doc:"to cut first"`
	BlankWidth  Number `json:"blank_width_mm" doc:"to cut first"`
	Grain       string `json:"grain" doc:"way of the face grain"`
	FaceA       string `json:"face_a" doc:"where face A looks"`
	FaceB       string `json:"face_b" doc:"where face B looks"`
	Show        string `json:"show_face" doc:"the face that is seen: A, B, or empty"`
	Loose       bool   `json:"loose" doc:"not glued in"`
	Late        bool   `json:"late" doc:"cut to the measured opening; sizes are provisional until then"`
	Of          string `json:"of" doc:"id of the part that it belongs to, or empty"`
	Mass        Number `json:"mass_kg" doc:"finished"`
	Path        string `json:"path" doc:"where in the piece file it comes from"`
	Cuts        []Cut  `json:"cuts" doc:"what is taken from it, measured from its datum corner"`

	Pose    Pose    `json:"pose" doc:"how its frame lies in the closed piece: x along the length, y across it, z from face B to face A; of a bent part the frame of its section, whose z runs against the strip's y"`
	Outline []Shape `json:"outline" doc:"in its frame, the datum corner at 0, 0, notches out of it; of a bent part, of its flat strip; of one with bevels, between its long points"`
	Rough   []Shape `json:"rough_outline" doc:"before its bevels are sawn; empty for a part without"`
	Bevels  []Bevel `json:"bevels" doc:"ends that are sawn off obliquely"`
	Run     []Run   `json:"run" doc:"stretches of a bent part in order; empty for a flat one"`
	StripY  Number  `json:"strip_edge_mm" doc:"height in a bent part's frame of the edge from which its strip's y counts; 0 for a flat one"`
}

// Mass is the mass of one part.
type Mass struct {
	Part string `json:"part" doc:"id of the part"`
	Mass Number `json:"mass_kg" doc:"finished"`
	X    Number `json:"x_mm" doc:"of its centre, from the left"`
	Y    Number `json:"y_mm" doc:"of its centre, from the floor"`
	Z    Number `json:"z_mm" doc:"of its centre, from the back"`
}

// Cut is one rectangle, or one row of holes.
type Cut struct {
	ID       string `json:"id" doc:"unique in the piece"`
	Kind     string `json:"kind" doc:"housing, rabbet, groove, notch, hole or hole row"`
	Face     string `json:"face" doc:"the face that it is cut from"`
	X0       Number `json:"x0_mm" doc:"from the datum corner along the length; a hole's centre"`
	Y0       Number `json:"y0_mm" doc:"from the datum corner along the width; a hole's centre"`
	X1       Number `json:"x1_mm" doc:"the other corner"`
	Y1       Number `json:"y1_mm" doc:"the other corner"`
	Depth    Number `json:"depth_mm" doc:"from the face"`
	Through  bool   `json:"through" doc:"through the whole thickness"`
	Diameter Number `json:"diameter_mm" doc:"of a hole; 0 for others"`
	Count    int    `json:"count" doc:"of holes in the row"`
	StepX    Number `json:"step_x_mm" doc:"from hole to hole"`
	StepY    Number `json:"step_y_mm" doc:"from hole to hole"`
	For      string `json:"for" doc:"what it is for"`
}

// Joint is where two parts meet.
type Joint struct {
	ID        string `json:"id" doc:"unique in the piece"`
	Kind      string `json:"kind" doc:"housing, rabbet, butt, notch, pins, hinges or on"`
	Receives  string `json:"receives" doc:"id of the part that receives or runs through"`
	Enters    string `json:"enters" doc:"id of the part that goes in"`
	Depth     Number `json:"depth_mm" doc:"of the cut"`
	Fit       string `json:"fit" doc:"the fit that is asked for"`
	Clearance Number `json:"clearance_mm" doc:"over the measured thickness"`
	Glued     bool   `json:"glued" doc:"whether it is glued"`
	Area      Number `json:"glue_area_mm2" doc:"of the glue line"`
	Path      string `json:"path" doc:"where in the piece file it comes from"`
}

// Fitting is a bought thing on the piece.
type Fitting struct {
	What    string `json:"what" doc:"the shop's name of it"`
	Kind    string `json:"kind" doc:"hinge, pin or slide"`
	Count   int    `json:"count" doc:"needed"`
	On      string `json:"on" doc:"id of the part that it is on"`
	InHand  int    `json:"in_hand" doc:"in the shop"`
	Price   Number `json:"price" doc:"of one, in the piece's currency"`
	Planned bool   `json:"planned" doc:"the shop does not have enough"`
}

// PartsOf makes the list of parts.
func PartsOf(p *plan.Plan) Parts {
	out := Parts{PieceHead: pieceHead("parts", p), Mass: num(p.Mass), Parts: []Part{}, Masses: each(p.Masses, massOf), Joints: []Joint{}, Fittings: []Fitting{}}
	pc := p.Piece
	if pc == nil {
		return out
	}
	out.Width, out.Height, out.Depth = num(pc.Width), num(pc.Height), num(pc.Depth)
	out.Parts = each(pc.Parts, partOf)
	out.Joints = each(pc.Joints, func(j piece.Joint) Joint {
		return Joint{j.ID, j.Kind, j.A, j.B, num(j.Depth), j.Fit, num(j.Clearance), j.Glued, num(j.Area), j.Path}
	})
	out.Fittings = each(pc.Fittings, func(f piece.Fitting) Fitting {
		return Fitting{f.What, f.Kind, f.Count, f.On, f.InHand, num(f.Price), f.Planned}
	})
	return out
}

func partOf(q *piece.Part) Part {
	out := Part{
		ID: q.ID, Number: q.Number, Name: q.Name, Role: string(q.Role),
		Length: num(q.Length), Width: num(q.Width), Thickness: num(q.Thick),
		BlankLength: num(q.BlankLength), BlankWidth: num(q.BlankWidth),
		Grain: string(q.Grain), FaceA: q.NameA, FaceB: q.NameB, Show: string(q.Show),
		Loose: q.Loose, Late: q.Late, Of: q.Of, Mass: num(q.Mass), Path: q.Path,
		Cuts: each(q.Cuts, cutOf),
		Pose: poseOf(q.Pose), Outline: outlineOf(q), Rough: shapesOf(q.Rough), Bevels: bevelsOf(q), Run: runOf(q),
	}
	if len(q.Run) > 0 {
		out.StripY = Number(q.Edge())
	}
	if q.Stock != nil {
		out.Stock = q.Stock.Name
	}
	return out
}

func cutOf(c piece.Cut) Cut {
	return Cut{c.ID, string(c.Kind), string(c.Face), num(c.X0), num(c.Y0), num(c.X1), num(c.Y1), num(c.Depth),
		c.Through, num(c.Diameter), c.Count, num(c.StepX), num(c.StepY), c.For}
}

func massOf(m work.MassLine) Mass {
	return Mass{m.Part, num(m.Mass), num(m.X), num(m.Y), num(m.Z)}
}
