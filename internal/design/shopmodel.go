package design

import (
	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// ShopFile is what is in the shop, as measured, resolved against a Ledger.
type ShopFile struct {
	File     string
	Name     string
	Units    units.System
	Currency string
	Saws     []*Saw
	Bits     []*Bit
	Bushes   []*Bush
	Stocks   []*Stock
	Hinges   []*Hinge
	Slides   []*Slide
	Clamps   []Clamp
	Glues    []Glue
	Pins     []*Pin
	Hardware []*Hardware
	Habits   Habits
	Rates    Rates
	Spreads  Spreads
	Tests    []*Test
	Hands    int
	Places   map[string]diag.Range
	// Written has every value that stands in the file, in its order.
	Written []Written
}

// At returns the place of a path of the shop file, or of its nearest parent
// that is written.
func (s *ShopFile) At(path string) diag.Range { return placeOf(s.Places, path) }

// Spread is a measured quantity: mean, standard deviation and how it was found.
type Spread struct {
	Mean, SD trace.Num
	Readings int
	Measured string // date, as written
}

// Saw is a saw with one blade in it.
type Saw struct {
	Name  string
	Kind  string // "track saw", "table saw", "jigsaw"
	Kerf  Spread
	Blade string // what it is called
	Depth Spread // SD: how well a set depth is kept; Mean: the deepest cut
	// DepthFrom is the face that the depth is taken from: "kerfed face" (the
	// saw rides on it) or "show face" (it lies on the bed).
	DepthFrom string
	Grind     string    // "flat", "bevel"
	Bevel     trace.Num // rad, of bevel-ground teeth
	Index     string    // "stop", "pin"
	IndexSD   trace.Num // of one placing
	Longest   trace.Num // longest cut, mm: track or infeed
	At        diag.Range
	Path      string
}

// Bit is a router bit.
type Bit struct {
	Name             string
	Diameter, Length trace.Num
	At               diag.Range
}

// Bush is a guide bush: its outside diameter, and how far it stands out below
// the router's base.
type Bush struct {
	Name             string
	Diameter, Length trace.Num
	At               diag.Range
}

// StockKind is what a stock is made of.
type StockKind string

const (
	Plywood StockKind = "plywood"
	Solid   StockKind = "solid"
	MDF     StockKind = "fibreboard"
	Chip    StockKind = "particleboard"
)

// Stock is material as bought. Thickness is the mean of the calliper readings,
// never the nominal.
type Stock struct {
	Name      string
	Kind      StockKind
	Nominal   trace.Num
	Thickness Spread
	Batch     string // what it is called
	// Layers of plywood: their number, the sanded face and the inner veneer.
	Layers      int
	FaceVeneer  trace.Num
	InnerVeneer trace.Num
	Species     string
	Density     trace.Num // kg/mm³
	// Sheet: length along the face grain times width; for a stick, length,
	// width and the actual thickness.
	Length, Width trace.Num
	GrainAlong    string // "length", "width", "none"
	Stick         bool
	Price         trace.Num // of one sheet or stick
	Trim          trace.Num // cut off each edge before use, kerf included
	InHand        int
	At            diag.Range
	Path          string
}

// Hinge is a hinge by its geometry.
type Hinge struct {
	Name       string
	Kind       string   // "cup", "butt", "knife"
	Sets       []string // fronts that it suits: "inset", "half overlay", "full overlay"
	CupDia     trace.Num
	CupDepth   trace.Num
	CupEdge    trace.Num // cup's rim to the door's edge
	PlateLine  trace.Num // plate's holes behind the door's inner face
	PlatePitch trace.Num // between the plate's two holes
	// OverlayAtZero is how far the door laps over its upright with the cup's rim
	// at the door's edge on a plate of no height (negative for an inset hinge);
	// nil where it was not measured. PlateHigh is the plate's height.
	OverlayAtZero, PlateHigh *trace.Num
	CupLeast, CupMost        trace.Num // rim to edge, as far as the makers allow
	Price                    trace.Num
	InHand                   int
	At                       diag.Range
}

// Slide is a drawer slide by its geometry.
type Slide struct {
	Name         string
	Length, Side trace.Num // closed length; room on each side
	Price        trace.Num
	InHand       int // pairs
	At           diag.Range
}

// Pin is a shelf pin.
type Pin struct {
	Name            string
	Diameter, Depth trace.Num // of its hole
	Line            trace.Num // row behind the front edge of what it is in
	Price           trace.Num
	InHand          int
	At              diag.Range
}

// Hardware is another bought thing by name.
type Hardware struct {
	Name             string
	Kind             string    // "stay", "foot", "lid hinge", "wall screw", "dowel"
	Height, Width    trace.Num // of a foot
	Diameter, Length trace.Num // of a screw or a dowel
	Price            trace.Num
	InHand           int
	At               diag.Range
}

// Clamp is a number of like clamps.
type Clamp struct {
	Name  string
	Reach trace.Num
	Force trace.Num // N
	Count int
}

// Glue is a glue by its clock.
type Glue struct {
	Name      string
	Open      trace.Num // s
	ClampTime trace.Num // s
	Spread    trace.Num // kg/mm² of glue line
	Price     trace.Num // per kg
}

// Habits fill in what a piece file leaves out.
type Habits struct {
	Gap          trace.Num // reveal round inset fronts
	HousingShare trace.Num // depth over thickness
	RabbetShare  trace.Num
	Fit          string
	FitClearance map[string]trace.Num // by fit, mm over the measured thickness
	Skin         trace.Num            // left under a kerf: over the face veneer
	LeastRib     trace.Num
	LeastMouth   trace.Num
	Oversize     trace.Num // blank over the finished part, each way
	SetBackDoor  trace.Num // uprights and shelves behind an inset door's back
	ShelfClear   trace.Num // a pinned shelf's play in length, whole
	HingeFromEnd trace.Num
	KeptOffcut   trace.Num // least side of an offcut that is kept
}

// Rates are how long work takes in this shop.
type Rates struct {
	CutPerMetre trace.Num // s per m
	Hole        trace.Num // s
	SpreadPerM2 trace.Num // s, glue
	FinishPerM2 trace.Num // s, one coat
	// Part is for bringing a part into its place once its glue is spread, Clamp for
	// putting on one clamp, s.
	Part, Clamp trace.Num
}
