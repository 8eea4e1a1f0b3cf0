package starter

import (
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/units"
)

// goods are what a shop has for a new piece, by their names.
type goods struct {
	currency        string
	sheets          []sheet // thinnest first
	edging          string
	inset, overlay  string // hinges
	slides          []slide
	screw, lidHinge string
	stay            string
}

type sheet struct {
	name    string
	nominal float64
	thick   float64
}

type slide struct {
	name   string
	length float64
}

// least is a piece that a shop is read beside; nothing of it is used.
const least = "rodwork: 1\npiece: nothing\nstock: {shell: nothing}\nbody: {kind: none, width: 100, height: 100, depth: 100}\n"

// goodsOf reads what a shop has.
func goodsOf(shopFile string, shop []byte) goods {
	d, _ := design.Resolve("piece.yaml", []byte(least), shopFile, shop) // remarks on the piece are of no use, those on the shop come again with the plan
	var g goods
	if d == nil || d.Shop == nil {
		return g
	}
	s := d.Shop
	g.currency = s.Currency
	for _, x := range s.Stocks {
		switch {
		case x.Stick && x.Kind == design.Solid && g.edging == "":
			g.edging = x.Name
		case !x.Stick && x.Kind != design.Solid:
			g.sheets = append(g.sheets, sheet{x.Name, x.Nominal.V, x.Thickness.Mean.V})
		}
	}
	slices.SortStableFunc(g.sheets, func(a, b sheet) int { return int(a.nominal*100) - int(b.nominal*100) })
	for _, h := range s.Hinges {
		if slices.Contains(h.Sets, "inset") && g.inset == "" {
			g.inset = h.Name
		}
		if slices.Contains(h.Sets, "full overlay") && g.overlay == "" {
			g.overlay = h.Name
		}
	}
	for _, x := range s.Slides {
		g.slides = append(g.slides, slide{x.Name, x.Length.V})
	}
	slices.SortStableFunc(g.slides, func(a, b slide) int { return int(b.length) - int(a.length) })
	for _, h := range s.Hardware {
		for kind, name := range map[string]*string{"wall screw": &g.screw, "lid hinge": &g.lidHinge, "stay": &g.stay} { // each its own: no order shows
			if h.Kind == kind && *name == "" {
				*name = h.Name
			}
		}
	}
	return g
}

// Sheets returns the stock that a piece can be cut from: 9 mm thick and over.
func Sheets(shopFile string, shop []byte) []string {
	var names []string
	for _, s := range slices.Backward(goodsOf(shopFile, shop).sheets) {
		if s.nominal >= 9 {
			names = append(names, s.name)
		}
	}
	return names
}

// sheetOf returns the sheet that was asked for, or the nearest to 18 mm.
func (g goods) sheetOf(name string) sheet {
	best := sheet{name: name, nominal: 18, thick: 18}
	for i, s := range g.sheets {
		if s.name == name {
			return s
		}
		if i == 0 || abs(s.nominal-18) < abs(best.nominal-18) {
			best = s
		}
	}
	return best
}

// thicker returns the next thicker sheet, if there is one.
func (g goods) thicker(s sheet) (sheet, bool) {
	for _, x := range g.sheets {
		if x.nominal > s.nominal+1 {
			return x, true
		}
	}
	return s, false
}

// thin is a sheet for backs and drawers' floors: the thinnest of 4 mm and over.
func (g goods) thin(other sheet) sheet {
	for _, s := range g.sheets {
		if s.nominal >= 4 {
			return s
		}
	}
	return other
}

// about is the sheet next to a thickness.
func (g goods) about(nominal float64, other sheet) sheet {
	best := other
	for _, s := range g.sheets {
		if abs(s.nominal-nominal) < abs(best.nominal-nominal) {
			best = s
		}
	}
	return best
}

// slideFor is the longest slide that goes into a depth.
func (g goods) slideFor(depth float64) string {
	for _, s := range g.slides {
		if s.length+8 <= depth {
			return s.name
		}
	}
	return ""
}

func abs(v float64) float64 { return max(v, -v) }

func inches(s units.System) bool { return s == units.Inch }
