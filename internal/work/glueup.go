package work

import "rodwork/internal/trace"

// GlueUp is what one glue-up asks for, and its clock.
type GlueUp struct {
	Number int
	Parts  []string // part ids that come in, in order
	// Area of all glue lines, mm²; Glue is what they take, kg.
	Area, Glue trace.Num
	// Spread, Close and Clamp are the times for spreading all glue, for bringing
	// the parts together, and for the clamps, s; Total is all of them, Limit the
	// open time less the margin.
	Spread, Close, Clamp, Total, Limit trace.Num
	// Dry is how long the clamps stay on, s.
	Dry  trace.Num
	Rows []ClampRow
	// Hands is how many people it takes.
	Hands int
}

// ClampRow is a row of like clamps that draw some joints together.
type ClampRow struct {
	Joints []string
	Axis   int // 0: across, left to right; 1: upright; 2: front to back
	Count  int
	// Reach is what the jaws must span, Long how far the row runs, mm.
	Reach, Long float64
	// Clamp is the shop's name of what does it, "" where too few are left.
	Clamp string
	// Force is what the row's clamps give together, Need what its plain glue lines
	// ask for, N; 0 where no line needs pressure beyond being closed.
	Force float64
	Need  trace.Num
}
