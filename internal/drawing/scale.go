package drawing

import (
	"math"
	"strconv"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/units"
)

// scaleBar draws a bar of a round length, not longer than room on paper, for a
// scale of k paper mm to one of the thing; every second field is filled. What
// names the drawing it belongs to, where a leaf has several scales. It returns
// the paper width that bar and words take.
func (p *pen) scaleBar(at r2.Vec, k, room float64, sys units.System, what string) float64 {
	length, fields, label := barLength(room/k, sys)
	w := length * k
	step := w / float64(fields)
	p.line(leaf.Visible, at, pt(at.X+w, at.Y))
	for i := range fields + 1 {
		x := at.X + float64(i)*step
		p.line(leaf.Visible, pt(x, at.Y+0.17), pt(x, at.Y-1.2))
		if i < fields && i%2 == 0 {
			p.line(leaf.Datum, pt(x, at.Y-0.35), pt(x+step, at.Y-0.35))
		}
	}
	p.note(pt(at.X, at.Y-2), leaf.Middle, "0")
	end := leaf.Text{At: pt(at.X+w, at.Y-2), S: label, Anchor: leaf.Middle}
	p.add(end)
	right := max(at.X+w, end.Box().Max.X)
	if what != "" {
		t := leaf.Text{At: pt(end.Box().Max.X+1.4, at.Y+0.2), S: what}
		p.add(t)
		right = max(right, t.Box().Max.X)
	}
	return right - at.X
}

// barLength picks the longest round length up to most, in mm, with the number
// of its fields and its label in the system's unit.
func barLength(most float64, sys units.System) (length float64, fields int, label string) {
	unit, word := 1.0, " mm"
	if sys == units.Inch {
		unit, word = 25.4, " in"
	}
	m := most / unit
	if !(m > 0) || math.IsInf(m, 0) {
		return unit, 1, "1" + word
	}
	ten := math.Pow(10, math.Floor(math.Log10(m)))
	n := 1.0
	fields = 5
	switch {
	case m >= 5*ten:
		n = 5
	case m >= 2*ten:
		n, fields = 2, 4
	}
	v := n * ten
	return v * unit, fields, strconv.FormatFloat(v, 'f', -1, 64) + word
}

// ratios are the scales on paper that a drawing is made in where it can be:
// one to so many.
var ratios = []float64{1, 2, 2.5, 4, 5, 6, 7.5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500}

// fit returns the largest scale of ratios at which w × h fits into rw × rh
// paper mm; 1 : n as k = 1/n. What fits in none gets the scale that just fits.
func fit(w, h, rw, rh float64) (k, n float64) {
	for _, r := range ratios {
		if w <= rw*r && h <= rh*r {
			return 1 / r, r
		}
	}
	k = min(rw/max(w, 1), rh/max(h, 1))
	return k, 1 / k
}
