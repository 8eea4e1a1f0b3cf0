package leaf

// Line is a kind of line by what it means.
type Line string

// The kinds of line.
const (
	Cut       Line = "cut"       // edge cut by the section, finished line
	Visible   Line = "visible"   // visible edge, mark, tick, scale bar
	Saw       Line = "saw"       // the way of the saw
	Hidden    Line = "hidden"    // edge behind something
	Centre    Line = "centre"    // axis, tangent point
	Neighbour Line = "neighbour" // what stands beside: wall, skirting
	From      Line = "from"      // where a part comes from
	Dimension Line = "dimension" // dimension, leader, break, tangent edge
	Hatch     Line = "hatch"     // hatch, ply line, datum line across a figure
	Datum     Line = "datum"     // datum edge, filled field of a scale bar
	Dots      Line = "dots"      // a row of dots: end grain of a ply
)

// Look is how a kind of line is drawn: its width and the lengths of dash and
// gap in turn, mm. Round tells that dashes end round (a dash of 0 is a dot).
type Look struct {
	Width float64
	Dash  []float64
	Round bool
}

var looks = map[Line]Look{
	Cut:       {Width: 0.50},
	Visible:   {Width: 0.35},
	Saw:       {Width: 0.35, Dash: []float64{1.4, 0.7}},
	Hidden:    {Width: 0.18, Dash: []float64{2.16, 0.54}},
	Centre:    {Width: 0.18, Dash: []float64{4.32, 0.54, 0.18, 0.54}},
	Neighbour: {Width: 0.18, Dash: []float64{4.32, 0.54, 0.18, 0.54, 0.18, 0.54}},
	From:      {Width: 0.25, Dash: []float64{4.32, 0.54, 0.18, 0.54, 0.18, 0.54}},
	Dimension: {Width: 0.18},
	Hatch:     {Width: 0.13},
	Datum:     {Width: 0.70},
	Dots:      {Width: 0.26, Dash: []float64{0, 0.8}, Round: true},
}

// LookOf returns how a kind of line is drawn. Wide and narrow lines are those
// of ISO 128-2 (0.35 and 0.18, dashes in multiples of the narrow width).
func LookOf(l Line) Look { return looks[l] }

// The two colours of the ink and the paper they lie on.
const (
	Ink        = "#24211d"
	PaperTone  = "#fdfcf8"
	AccentTone = "#a2410f"
)
