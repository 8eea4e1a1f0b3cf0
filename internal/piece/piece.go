// Package piece is the model of a built piece: its parts with their cuts and
// bends, the joints between them, the fittings on them, each in its pose. It is
// made once, by package compile, and never changed after.
//
// A flat part has a frame of its own: x along its length, y along its width,
// z through its thickness from the B face (z = 0) to the A face. The origin is
// its datum corner, from which every cut is measured; uprights and horizontals
// have it at their front edge, as a hole is measured from the front in the
// shop. A bent part's frame is that of its strip, laid flat: x along the strip
// from its datum end (clockwise as seen from the front of the piece), y across
// it from the front edge, z from the inside (kerfed) face B to the show face A.
package piece

import (
	"rodwork/internal/design"
	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
	"rodwork/internal/mech/bend"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// Piece is a whole built piece.
type Piece struct {
	Name     string
	Parts    []*Part
	Joints   []Joint
	Fittings []Fitting
	Spaces   []Space
	// Outside of all parts, closed: width, height and depth.
	Width, Height, Depth trace.Num
}

// Part returns the part with the id, or nil.
func (p *Piece) Part(id string) *Part {
	for _, q := range p.Parts {
		if q.ID == id {
			return q
		}
	}
	return nil
}

// Role is what a part does in the piece.
type Role string

const (
	Strip       Role = "strip" // a bent shell, or a stretch of it with a bend
	Side        Role = "side"
	Top         Role = "top"
	Bottom      Role = "bottom"
	Divider     Role = "divider"
	Board       Role = "board" // a fixed horizontal between two levels
	Shelf       Role = "shelf"
	Edging      Role = "edging"
	BackPanel   Role = "back"
	Rail        Role = "rail"
	Plinth      Role = "plinth"
	Leg         Role = "leg"
	LegRail     Role = "leg rail" // what a pair of legs is lapped to
	Post        Role = "post"     // of a frame
	Free        Role = "free"     // placed by itself
	Door        Role = "door"
	DrawerFront Role = "drawer front"
	DrawerSide  Role = "drawer side"
	DrawerEnd   Role = "drawer end" // the box's front and back
	DrawerFloor Role = "drawer floor"
	FrontPanel  Role = "front panel" // closes a body that is open at the top only
	Lid         Role = "lid"
	Tongue      Role = "tongue" // loose, in the ends of a strip at its seam
)

// Grain is the way of the face grain in the part's own frame.
type Grain string

const (
	AlongLength Grain = "along length"
	AlongWidth  Grain = "along width"
	NoGrain     Grain = "none"
)

// Face is one of a flat part's six faces.
type Face string

const (
	FaceA Face = "A" // z = thickness
	FaceB Face = "B" // z = 0
)

// The narrow faces of a flat part. A hole in an edge has its X0 along the
// length, one in an end along the width; its Y0 is its height over the B face.
const (
	EdgeLow  Face = "datum edge"
	EdgeHigh Face = "far edge"
	EndLow   Face = "datum end"
	EndHigh  Face = "far end"
)

// Narrow reports whether a face is an edge or an end: what is cut there does
// not show on the part's A and B faces.
func (f Face) Narrow() bool {
	return f == EdgeLow || f == EdgeHigh || f == EndLow || f == EndHigh
}

// Part is one thing that is cut.
type Part struct {
	ID     string // "divider 2": unique, stable while the design's names are
	Number int    // in the book and on the label, from 1
	Name   string // "divider between hymns and desk"
	Role   Role
	Stock  *design.Stock
	// Finished sizes; Thick is the stock's thickness as measured.
	Length, Width, Thick trace.Num
	Grain                Grain
	// Blank is the rectangle to cut first, along Length and Width.
	BlankLength, BlankWidth trace.Num
	Outline                 planar.Region
	// Bevels are ends that are sawn off obliquely; Rough is the outline before.
	Bevels []Bevel
	Rough  planar.Region
	Cuts   []Cut
	Bends  []Bend
	// FaceNames say where the two faces look: "left face, to hymns".
	NameA, NameB string
	Show         Face // the face that is seen, "" for neither
	// Pose places the part's frame in the piece. For a bent part it places the
	// frame of its section, whose z runs against the strip's y: the front view
	// for a strip that bends there, the plan for one that bends in plan.
	Pose r3.Pose
	// Origin is Pose.O as traced numbers; of a bent part, a place on the edge
	// from which its y is measured.
	Origin [3]trace.Num
	// Run is set for a bent part only: the strip's stretches in order, by which a
	// place on the flat strip is found in its section. See Fold and Place.
	Run []Stretch
	// Path is where in the piece file the part comes from.
	Path string
	// Loose parts are not glued in: a shelf on pins, a door on hinges.
	Loose bool
	// Plies is how many sheets of the stock are glued to each other to make it; 0
	// and 1: one.
	Plies int
	// Late parts are cut to a measured opening; until then sizes are provisional.
	Late bool
	// Of names the part that this one belongs to: an edging's shelf.
	Of string
	// Notes say what the sizes do not: how an end meets a bend.
	Notes []say.Sentence
	// Mass in kg, finished.
	Mass trace.Num
}

// Stretch is a straight or bent stretch of a strip in the frame of its section:
// where its face A starts, the direction in which it runs there, and for a bend
// that face's radius and the angle that it turns to the right (clockwise). A bend
// to the left has face A inside: there both are negative.
type Stretch struct {
	X0, X1 float64 // on the flat strip
	From   r2.Vec  // of the outer face, where it starts
	Dir    r2.Vec  // unit
	Radius float64 // of face A; 0: straight
	Angle  float64 // rad
}

// CutKind is what a cut is called.
type CutKind string

const (
	Housing CutKind = "housing"
	Rabbet  CutKind = "rabbet"
	Groove  CutKind = "groove"
	Notch   CutKind = "notch" // through the whole thickness, from an edge
	Hole    CutKind = "hole"
	HoleRow CutKind = "hole row"
	// EndGroove is a groove into the end of a strip, between its faces: X0..X1 is
	// how far it reaches in, Z0..Z1 where it lies over the inner face B.
	EndGroove CutKind = "end groove"
	Lap       CutKind = "lap" // half of the thickness, where another part crosses
	// Mortise is a slot with round ends for a loose tenon. In an edge or an end X0..X1
	// is its place along it and Y0..Y1 its height over the B face, as of a hole there.
	Mortise CutKind = "mortise"
	Window  CutKind = "window" // an opening through a bent part
)

// Cut takes wood from a part: a rectangle X0..X1 × Y0..Y1 from one face to
// Depth, or round holes: the first centred on (X0, Y0), Count of them every
// (StepX, StepY).
type Cut struct {
	ID             string // "divider 2/cut 3"
	Kind           CutKind
	Face           Face
	X0, Y0, X1, Y1 trace.Num
	Depth          trace.Num // = thickness where Through
	Through        bool
	Diameter       trace.Num
	Count          int
	StepX, StepY   trace.Num
	Z0, Z1         trace.Num // of an end groove only
	// Sink is the diameter of a countersink at the face; 0: none.
	Sink trace.Num
	// For says what it is for ("joint divider 2 / top", "shelf pins").
	For string
	// Region is what is cut where that is no upright rectangle; X0 to Y1 is then
	// the box round it. A window's region has its rounded corners.
	Region planar.Region
}

// Bend is one bent stretch of a strip.
type Bend struct {
	Corner string    // "top left"
	Start  trace.Num // from the strip's datum end to the tangent point where it starts
	Length trace.Num // of the flat stretch that bends
	Radius trace.Num // outside
	Angle  trace.Num // rad
	Plan   bend.Plan
	// Way is how it is bent: design.Kerfed, Laminated or Cold. Only a kerfed bend
	// has a Plan with kerfs; the others have a Stack.
	Way   string
	Stack *bend.StackPlan
	// Left tells that the strip turns to the left there: its face A is the inside
	// of the bend. Face is the one that the kerfs are cut into.
	Left bool
	Face Face
	// LostPly and LostFill are the shares of its curvature that a kerfed bend gives
	// back with the inner ply, or with the filling, that the file asks for; 0: none
	// is asked for, or its layers are not known.
	LostPly, LostFill float64
	// Sought is what the shop's blades and skins would make of it; nil: not
	// looked for.
	Sought *bend.Sought
	// Kerfs are the kerf centres from the strip's datum end.
	Kerfs []trace.Num
	// The plan's numbers with where they come from; Count moves in steps.
	Count, Pitch, Depth, Mouth, Rib, Facet trace.Num
	StrainLow, StrainHigh                  trace.Num
	RailRadius, RailGap, Clear             trace.Num
	Path                                   string
}

// Joint is where two parts meet and hold. A is the part that receives
// (housing, rabbet) or runs through; B the one that goes in.
type Joint struct {
	ID   string // "divider 2 / top"
	Kind string // "housing", "rabbet", "butt", "notch", "pins", "hinges", "on", "lap", "screwed", "dowel", "loose tenon"
	A, B string // part ids
	// Enter is the direction in which B moves into A, in the piece's frame.
	Enter r3.Vec
	// Also are other ways in: a rabbet is open on two sides.
	Also  []r3.Vec
	Depth trace.Num
	// Clearance that the fit asks for over B's measured thickness.
	Fit       string
	Clearance trace.Num
	// Glued tells whether the joint is glued; Area is its glue area, mm².
	Glued bool
	Area  trace.Num
	Path  string
	// Pegs are the dowels, loose tenons or screws across it; nil: none.
	Pegs *Pegs
}

// Fitting is a bought thing on the piece: hinges, pins, slides.
type Fitting struct {
	What  string // the shop's name of it
	Kind  string // "hinge", "pin", "slide", "foot", "stay", "wall screw"
	Count int
	On    string // part id
	// At are the places in the piece, where they matter: the feet's centres on
	// the floor, hinges of a lid. None: the cuts tell.
	At [][3]trace.Num
	// Height and Width are of a foot.
	Height, Width trace.Num
	InHand        int
	Price         trace.Num // each
	// Planned is true where the shop does not have enough.
	Planned bool
	Path    string
}

// Space is an open bay or level, clear inside: where things are put.
type Space struct {
	Name   string
	Min    [3]trace.Num // corner at the left, bottom and back
	Size   [3]trace.Num // width, height, depth that is clear
	Inside string       // the bay of a level
	// Round has the inside radius of the bends in the space's upper and lower
	// corners, by corner name: things stand clear of them.
	Round map[string]trace.Num
	// Floor and Ceiling are the parts that it lies between.
	Floor, Ceiling string
	// Shelves in it, lowest first.
	Shelves []string // part ids
	// Holes are the heights over Min's y at which a pinned shelf's underside can
	// lie; none for a space without pins.
	Holes  []trace.Num
	Drawer bool
	Path   string
}
