package design

import (
	"rodwork/internal/diag"
	"rodwork/internal/trace"
)

// Kinds of body that are not a closed carcase.
const (
	Frame BodyKind = "frame" // posts at the corners, rails between them
	Loose BodyKind = "none"  // free parts, and legs under them
)

// Names of the corners of a shell that bends in plan.
const (
	FrontLeft  = "front left"
	FrontRight = "front right"
)

// Outline is a flat shape of the piece file under its name: corners with
// roundings, x to the right and y up, with cut-outs in it; or the paths of an
// SVG drawing.
type Outline struct {
	Name    string
	Corners []OutlineCorner
	CutOuts []CutOut
	// File is the drawing's name, relative to the piece file; "" where the
	// corners are written.
	File string
	At   diag.Range
	Path string
}

// OutlineCorner is a corner at (X, Y), mm, with the radius of its rounding, 0
// for a sharp one.
type OutlineCorner struct {
	X, Y, Round trace.Num
	Path        string
}

// CutOut is a hole in an outline: corners, or a round hole about (X, Y) where
// Diameter is not 0.
type CutOut struct {
	Corners        []OutlineCorner
	X, Y, Diameter trace.Num
	Path           string
}

// Shape is the outline that a part asks for: one by name, or a rectangle A
// wide and B high.
type Shape struct {
	Name string // "" for a rectangle, or for none at all
	A, B trace.Num
	Path string
}

// Given reports whether the shape was said.
func (s Shape) Given() bool { return s.Name != "" || s.A.V > 0 }

// FreePart is a part that is placed by itself.
type FreePart struct {
	Name  string
	Role  Role
	Shape Shape
	// Place is the corner at the left, bottom and back of the box round the
	// part.
	Place [3]trace.Num
	// Turn is the way it lies: "facing" the front, "upright" as seen from the
	// right end, "level" as seen from above with the front at the foot. In each,
	// Angle turns the outline anticlockwise, rad.
	Turn  string
	Angle trace.Num
	Grain string // "along" or "across" the outline's x
	Fix   string // "glued", "screwed", "loose"
	At    diag.Range
	Path  string
}

// PlanBody is what a body that bends in plan has beyond others: how its top
// sits on the strip, and the window that is cut in the strip's front.
type PlanBody struct {
	Top    string // "on", "in"
	Window *Window
	Radius [2]trace.Num // outside, front left and front right
	Paths  [2]string
}

// Window is the opening in the front of a shell that bends in plan: how much of
// the strip is left above and below it, and before the back on both sides.
type Window struct {
	Above, Below, Sides, Round trace.Num
	At                         diag.Range
	Path                       string
}

// Frames has what a body of posts and rails is made of.
type Frames struct {
	Posts Role
	// Across and Along are the section of a post, from left to right and from
	// front to back; one of them is its stock's thickness.
	Across trace.Num
	Joint  string // "dowel", "loose tenon", "lap"
	// SplayAcross and SplayAlong are how far the posts lean out, as seen from the
	// front and from the end, rad; 0: they stand plumb.
	SplayAcross, SplayAlong trace.Num
	Rails                   []FrameRail
	Top                     *FrameTop
	At                      diag.Range
	Path                    string
}

// FrameRail is a rail between two posts, or a pair of them at the ends.
type FrameRail struct {
	Where   string // "top front", "bottom ends", …
	Height  trace.Num
	Up      trace.Num // of a bottom rail's lower edge over the floor
	SetBack trace.Num // of its outer face behind that of the posts
	Role    Role
	At      diag.Range
	Path    string
}

// FrameTop is the panel on a frame; it stands out by Over all round.
type FrameTop struct {
	Role  Role
	Joint string // "dowel", "loose tenon", "screw"
	Over  trace.Num
	Path  string
}

// Legs are pairs of shaped legs, each pair in a plane of its own.
type Legs struct {
	Shape Shape     // as seen square to the plane; x inwards from the body's edge
	Wide  trace.Num // of a plain post, where there is no outline
	Plane string    // "end": planes from front to back; "front": from left to right
	Where []trace.Num
	Inset trace.Num // of the outline's x = 0 from the body's edge
	// Mirrored stands a second leg, turned over, at the other edge.
	Mirrored bool
	// Across and Along are the splay as seen from the front and from the end,
	// rad; positive: the foot stands further out than the head.
	Across, Along trace.Num
	Joint         string // "lap", "screwed"
	Rail          *LegRail
}

// LegRail is the rail under the body to which a pair of legs is lapped.
type LegRail struct {
	Height, Inset trace.Num // Inset: of its ends from the body's edges
	At            diag.Range
	Path          string
}
