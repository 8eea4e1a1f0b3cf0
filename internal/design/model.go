package design

import (
	"slices"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Design is a piece file with all its names, formulas and habits resolved: what
// the compiler builds from. Every Num hangs on the inputs in Ledger.
type Design struct {
	File     string
	ID       string // the piece file's id; "" where it has none yet
	Name     string // 'Choir sideboard'
	Units    units.System
	Currency string // ISO 4217, "EUR"
	Shop     *ShopFile
	Ledger   *trace.Ledger

	Brief    Brief
	Sizes    []Size
	Roles    map[string]Role // stock roles: shell, panels, back, edging, doors …
	Body     Body
	Bays     []Bay  // at least one
	Uprights string // what parts two bays: "divider"
	Shelves  []Shelf
	Fronts   []Front
	Drawers  []Drawer
	Back     *Back // nil: no back
	Rails    []Rail
	Base     Base
	Joints   []JointWish
	Edges    *Edges // nil: not said
	Finish   Finish
	Outlines []Outline
	Free     []FreePart
	Strips   []FreeStrip

	// places maps a path ("body.corners.top left.radius") to where it is
	// written, or, for a habit that filled it in, to where it would go.
	Places map[string]diag.Range
	// Written has every value that stands in the file: sizes first, then the
	// others in its order.
	Written []Written
}

// At returns the place of a path, of its nearest parent that is written where
// the path itself is not, or the zero Range.
func (d *Design) At(path string) diag.Range { return placeOf(d.Places, path) }

// Size is a named value of the piece file.
type Size struct {
	Name    string
	Dim     units.Dim
	Num     trace.Num
	Text    string // as written
	Formula bool   // a formula of other names, not a written quantity
	Input   trace.InputID
	Path    string // "sizes.width"
	At      diag.Range
}

// Role is a stock of the shop under the name that the piece gives it.
type Role struct {
	Name  string
	Stock *Stock
	At    diag.Range
}

// Brief is what the piece is for.
type Brief struct {
	Place    Place
	Youngest *trace.Num // years; nil: not said
	Holds    []Thing
	Air      *Air // nil: not said
}

// Air is the room's relative humidity over the year, shares.
type Air struct {
	Dry, Damp trace.Num
	Path      string // "brief.air"
}

// Place is where the piece is to stand; a nil length was not said.
type Place struct {
	Width, Height, Depth       *trace.Num
	Floor, Wall                string // "boards", "stud"; "" not said
	SkirtingHigh, SkirtingDeep *trace.Num
	At                         diag.Range
}

// Thing is a sort of thing that the piece must hold. Height stands upright,
// Depth goes into the shelf, Thickness runs along it.
type Thing struct {
	What                     string
	Count                    int
	Height, Depth, Thickness trace.Num
	Mass                     trace.Num // kg each
	At                       diag.Range
	Path                     string // "brief.holds.0"
}

// BodyKind is what the carcase is.
type BodyKind string

const (
	BentShell BodyKind = "bent shell"
	Box       BodyKind = "box"
)

// Corner names, as seen by who stands before the piece.
const (
	TopLeft     = "top left"
	TopRight    = "top right"
	BottomLeft  = "bottom left"
	BottomRight = "bottom right"
)

// CornerNames lists the corners in the order in which a strip passes them,
// clockwise from the foot of the left side.
var CornerNames = []string{BottomLeft, TopLeft, TopRight, BottomRight}

// Body is the carcase: outside Width (x), Height (y, without base) and Depth
// (z, with the back, without fronts that stand before it).
type Body struct {
	Kind                 BodyKind
	Width, Height, Depth trace.Num
	Corners              map[string]Corner // all four names are present
	Bend                 BendWish
	// Open lists the sides without a member or panel: "front" (the usual one),
	// "top". A body that is not open at the front has a panel there.
	Open   []string
	Seams  []Seam    // where a strip that would close on itself is parted
	Plan   *PlanBody // of a shell that bends in plan
	Frames *Frames   // of a frame
	At     diag.Range
}

// OpenAt reports whether the body is open at a side.
func (b *Body) OpenAt(side string) bool { return slices.Contains(b.Open, side) }

// Seam parts a bent strip: On the bottom or the top, Place from the body's
// outside at the side named by From.
type Seam struct {
	On, From string // "bottom", "top"; "left", "right"
	Place    trace.Num
	Joint    string // "loose tongue", "butt"
	At       diag.Range
	Path     string
}

// Corner is bent, with its outside radius, or square, with a joint.
type Corner struct {
	Bent   bool
	Radius trace.Num // outside
	// Joint is the kind of a square corner's joint ("rabbet", "butt", "mitre",
	// …), Through the part that runs through: "top", "bottom" or "side".
	Joint, Through string
	At             diag.Range
	Path           string
}

// WidthKind tells how a bay's width, or a level's height, is found.
type WidthKind string

const (
	Equal WidthKind = "equal" // shares what is left evenly with the others
	Rest  WidthKind = "rest"  // the same as Equal, for one alone
	Given WidthKind = "given"
)

// Bay is a space between two uprights, from left to right; its Levels go from
// the floor up (none: one undivided level).
type Bay struct {
	Name   string
	Kind   WidthKind
	Width  trace.Num // clear, where Given
	Levels []Level
	At     diag.Range
	Path   string
}

// Level is a space between two horizontals in a bay.
type Level struct {
	Name   string
	Kind   WidthKind
	Height trace.Num // clear, where Given
	// Follow: the board over it is cut to the shell's bend.
	Follow bool
	At     diag.Range
	Path   string
}

// Shelf is a shelf, or a number of them, in a bay or level.
type Shelf struct {
	In    string // name of the bay or level
	Role  Role   // stock
	Pins  bool   // on pins; else fixed in housings
	Count int
	// FixedAt is the height of the underside over the bay's floor.
	FixedAt trace.Num
	// Pin rows: first hole over the bay's floor, pitch, last hole (nil: auto).
	FirstHole, Pitch trace.Num
	LastHole         *trace.Num
	SetBack          trace.Num // of the front edge behind the body's front
	EdgingRole       *Role
	EdgingHigh       trace.Num
	Follow           bool // its ends are cut to the shell's bend
	At               diag.Range
	Path             string
}

// Front is a door or pair of doors, a drawer's front, or a lid.
type Front struct {
	Name    string
	Covers  []string // names of bays or levels, left to right
	As      string   // "door", "pair", "drawer", "lid"
	Set     string   // "inset", "overlay", "half overlay"
	Gap     trace.Num
	Role    Role
	Follow  bool // its corners follow the shell's bend
	Hinge   *Hinge
	HangOn  []string    // "side", "divider", per leaf: left then right
	HingeAt []trace.Num // from the foot; negative: from the head
	Pull    string      // as written: "finger hole 30"
	PullDia trace.Num   // 0: none
	Late    bool
	Lid     Lid // where As is "lid"
	At      diag.Range
	Path    string
}

// Lid is what only a lid has: how far it stands out over front and sides, what
// it turns on, what holds it up, and the body's openings for air.
type Lid struct {
	Overhang    trace.Num
	Hinge, Stay *Hardware // nil: none named
	Vents       *Vents
}

// Vents are round openings for air, in the ends or the front of the body.
type Vents struct {
	In       string // "sides", "front"
	Count    int    // of all
	Diameter trace.Num
	Below    trace.Num // their centres under the rim
	At       diag.Range
	Path     string
}

// Drawer is a box that runs in a level behind a front.
type Drawer struct {
	In    string
	Role  Role // stock of the box
	Joint string
	Slide *Slide
	Stop  trace.Num
	At    diag.Range
	Path  string
}

// Back closes the body behind: set in a rabbet of Depth (how far the rabbet
// reaches in from the inside of the body), or on the rear edges.
type Back struct {
	Set   string // "rabbet", "on"
	Depth trace.Num
	Role  Role
	At    diag.Range
	Path  string
}

// Rail is a board that ties the body: At says where.
type Rail struct {
	Where  string // "top back", "bottom back", "top front"
	Height trace.Num
	Role   Role
	Follow bool // its ends follow the shell
	At     diag.Range
	Path   string
}

// Base is what the body stands on.
type Base struct {
	Kind    string    // "plinth", "feet", "sides", "wall", "none"
	Height  trace.Num // of the base; of the hanging rail, where Kind is "wall"
	SetBack trace.Num // of the plinth's faces, the kick board's or the feet's centres
	Role    Role
	Use     *Hardware // the feet, or the screws of a hanging rail
	Count   int       // of them
	Kick    bool      // sides: with a board before the room for toes
	Legs    *Legs
	At      diag.Range
	Path    string
}

// JointWish is a joint named by its two partners, by part name or by role.
type JointWish struct {
	A, B  string // "divider", "top"
	Kind  string
	Depth *trace.Num
	Fit   string // "press", "snug", "sliding", "loose"; "" the shop's habit
	Tool  string
	// Count and Diameter are of dowels, tenons or screws; 0 and nil: by rule.
	Count    int
	Diameter *trace.Num
	At       diag.Range
	Path     string
}

// Edges is how the edges that can be reached are broken, mm; exactly one of
// Round and Chamfer is set. Sharp are the roles that keep theirs as sawn.
type Edges struct {
	Round, Chamfer *trace.Num
	Sharp          []string
	At             diag.Range
	Path           string // "edges"
}

// Size is the radius, or the chamfer's legs.
func (e *Edges) Size() trace.Num {
	if e.Round != nil {
		return *e.Round
	}
	return *e.Chamfer
}

// Finish is what goes on the wood.
type Finish struct {
	Kind   string
	Coats  int
	Before string
	At     diag.Range
}
