package work

import "rodwork/internal/trace"

// Tool is what a set-up is done with.
type Tool string

// Saws are called by their kind; what the shop file does not list is done by
// hand or with a drill that must be in hand.
const (
	Router Tool = "router"
	Drill  Tool = "drill"
	Saw    Tool = "saw"
	Hand   Tool = "saw and chisel"
	// Shaping is sawing round a line and trimming to it.
	Shaping Tool = "jigsaw and template"
)

// SetUp is one tool with one blade or bit, one fence or stop setting and one
// depth: all cuts that share it are made together.
type SetUp struct {
	Number int    // in the order of the work, from 1
	ID     string // "router/straight 16/housing/478.4": stable while its setting is
	Kind   string // "square the end", "rabbet", "groove", "housing", "holes", "notch", "outline", "kerfs", "trim", "bevel"
	Tool   Tool
	With   string    // the shop's name of the saw or bit; "" where the shop file names none
	Cutter trace.Num // diameter of the bit or drill, or the blade's kerf, mm; 0 by hand
	// Depth is what is set, 0 where it goes through.
	Depth   trace.Num
	Through bool
	Sink    trace.Num // of a countersink's head; 0: none
	// Tilt is the blade's angle from upright and Mitre the gauge's from square,
	// rad, of a bevel.
	Tilt, Mitre trace.Num
	Width       trace.Num // of a slot, or across a notch; 0 where the cutter makes it
	// From is the edge that the stop or the fence is set from ("datum end",
	// "datum edge", for a rabbet the "own end" or "own edge" that it opens to),
	// Stop the distance from there to the near side of the cut, to the centre of
	// a hole, of a rabbet to its inner side.
	From string
	Stop trace.Num
	// Across is how many runs side by side make the width, Deep how many one
	// below the other make the depth.
	Across, Deep int
	Cuts         []SetUpCut
	// NotThrough is true where a saw's blade stays hidden under the work.
	NotThrough bool
	// Mind is what it must mind.
	Mind []Mind
	// Missing is true where nothing in the shop file can make it.
	Missing bool
}

// SetUpCut is one cut of a set-up.
type SetUpCut struct {
	Part string // id
	Cut  string // id of the cut, or of the bend; "" for a trimmed end
	Face string // "A", "B" or ""
	// Along are the places along the fence: where a run starts and ends, or the
	// centres of the first and the last hole.
	From, To trace.Num
	Count    int       // of holes or kerfs
	Step     trace.Num // between holes, or the pitch of kerfs
	// StopFrom and StopTo tell that the run ends in the wood there.
	StopFrom, StopTo bool
	For              string
	Late             bool // cut with its part, once the opening is measured
}

// TestPiece is an offcut that is cut first, with the very set-up that the
// joint or the bend will have.
type TestPiece struct {
	ID     string
	Kind   string // "fit" or "bend"
	SetUp  int    // number of the set-up that it proves
	Stock  string // of the piece that is cut
	Other  string // stock of what goes in, "" for a bend
	Length trace.Num
	Width  trace.Num
	// Sheet is the number of the sheet whose offcut it comes from, At that
	// offcut; nil where no kept offcut is large enough.
	Sheet int
	At    *Offcut
	// Want is what must measure so: the width of the slot, or the skin; Deep
	// the depth.
	Want, Deep trace.Num
	Clearance  trace.Num
	Fit        string
	For        []string // part ids
	Bend       string   // part id and corner of a bend: "shell/bend top left"
}

// ScrewLine is the screws of one joint that is screwed.
type ScrewLine struct {
	Joint        string // id
	Through, In  string // part ids: the head lies in the first
	Count        int
	Size, Length trace.Num // nominal, mm
	Clear, Pilot trace.Num // holes, mm
	Every        trace.Num // between screws, mm
}

// Carried is what one surface carries.
type Carried struct {
	Part     string    // id
	Contents trace.Num // kg that the brief puts there
	PerMetre trace.Num // kg/m that its sag was computed for
}
