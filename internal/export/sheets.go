package export

import (
	"rodwork/internal/plan"
	"rodwork/internal/work"
)

// Sheets is how the blanks lie on sheets and sticks.
type Sheets struct {
	PieceHead
	Layouts []Layout `json:"layouts" doc:"one for each stock"`
}

// Layout is all of one stock.
type Layout struct {
	Stock   string  `json:"stock" doc:"the shop's name of it"`
	Count   Number  `json:"count" doc:"sheets or sticks used"`
	Least   int     `json:"least_count" doc:"proven: no fewer will do"`
	Proven  bool    `json:"proven" doc:"the count is the least"`
	Proof   string  `json:"proof" doc:"why no fewer will do, in words"`
	Checked bool    `json:"checked" doc:"an independent checker has passed it"`
	Sheets  []Sheet `json:"sheets" doc:"in the order of cutting"`
	Sticks  []Stick `json:"sticks" doc:"in the order of cutting"`
}

// Sheet is one sheet with what lies on it, measured from its datum corner.
type Sheet struct {
	Number     int         `json:"number" doc:"from 1"`
	Length     Number      `json:"length_mm" doc:"of the sheet"`
	Width      Number      `json:"width_mm" doc:"of the sheet"`
	Trim       Number      `json:"trim_mm" doc:"cut off each edge first"`
	Kerf       Number      `json:"kerf_mm" doc:"of the saw"`
	Grain      string      `json:"grain" doc:"way of the face grain on the sheet"`
	Used       Number      `json:"used_ratio" doc:"share of the area that becomes parts"`
	Placements []Placement `json:"placements" doc:"blanks"`
	Cuts       []SawCut    `json:"cuts" doc:"saw cuts, in their order"`
	Offcuts    []Offcut    `json:"offcuts" doc:"remainders that are kept"`
}

// Placement is one blank.
type Placement struct {
	Part   string `json:"part" doc:"id of the part"`
	X      Number `json:"x_mm" doc:"along the sheet's length"`
	Y      Number `json:"y_mm" doc:"along the sheet's width"`
	Length Number `json:"length_mm" doc:"along the sheet's length"`
	Width  Number `json:"width_mm" doc:"along the sheet's width"`
	Turned bool   `json:"turned" doc:"the part's length lies along the sheet's width"`
}

// SawCut is one cut, edge to edge of the piece in hand.
type SawCut struct {
	Number int    `json:"number" doc:"the order"`
	X0     Number `json:"x0_mm" doc:"start of the saw line"`
	Y0     Number `json:"y0_mm" doc:"start of the saw line"`
	X1     Number `json:"x1_mm" doc:"end of the saw line"`
	Y1     Number `json:"y1_mm" doc:"end of the saw line"`
	Fence  Number `json:"fence_mm" doc:"what is set, from the datum edge of the piece in hand"`
	Note   string `json:"note" doc:"what the cut does"`
}

// Offcut is a remainder that is kept.
type Offcut struct {
	X      Number `json:"x_mm" doc:"along the sheet's length"`
	Y      Number `json:"y_mm" doc:"along the sheet's width"`
	Length Number `json:"length_mm" doc:"along the sheet's length"`
	Width  Number `json:"width_mm" doc:"along the sheet's width"`
}

// Stick is one stick with the lengths cut from it.
type Stick struct {
	Number  int      `json:"number" doc:"from 1"`
	Length  Number   `json:"length_mm" doc:"of the stick"`
	Kerf    Number   `json:"kerf_mm" doc:"of the saw"`
	Left    Number   `json:"left_mm" doc:"remainder"`
	Lengths []Length `json:"lengths" doc:"in the order of cutting"`
}

// Length is one length on a stick.
type Length struct {
	Part   string `json:"part" doc:"id of the part"`
	X      Number `json:"x_mm" doc:"from the stick's end"`
	Length Number `json:"length_mm" doc:"to cut"`
}

// SheetsOf makes the document of the layouts.
func SheetsOf(p *plan.Plan) Sheets {
	return Sheets{pieceHead("sheets", p), each(p.Layouts, layoutOf)}
}

func layoutOf(l work.Layout) Layout {
	return Layout{l.Stock, num(l.Count), l.Least, l.Proven, l.Proof, l.Checked,
		each(l.Sheets, sheetOf), each(l.Sticks, stickOf)}
}

func sheetOf(s work.SheetLayout) Sheet {
	return Sheet{s.Number, Number(s.Length), Number(s.Width), Number(s.Trim), Number(s.Kerf), s.GrainAlong, Number(s.Used),
		each(s.Placements, func(p work.Placement) Placement {
			return Placement{p.Part, Number(p.X), Number(p.Y), Number(p.Length), Number(p.Width), p.Turned}
		}),
		each(s.Cuts, func(c work.SheetCut) SawCut {
			return SawCut{c.Number, Number(c.X0), Number(c.Y0), Number(c.X1), Number(c.Y1), Number(c.Fence), c.Note}
		}),
		each(s.Offcuts, func(o work.Offcut) Offcut {
			return Offcut{Number(o.X), Number(o.Y), Number(o.Length), Number(o.Width)}
		})}
}

func stickOf(s work.StickLayout) Stick {
	return Stick{s.Number, Number(s.Length), Number(s.Kerf), Number(s.Left),
		each(s.Lengths, func(p work.Placement) Length {
			return Length{p.Part, Number(p.X), Number(p.Length)}
		})}
}
