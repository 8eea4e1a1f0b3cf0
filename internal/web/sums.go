package web

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// sums are a piece in a few numbers, to tell what a change brought.
type sums struct {
	parts, sheets, sticks int
	sizes                 map[string]float64    // mm, by name: those of the file
	cut                   map[string][3]float64 // mm, by part: what it is cut to
	mass, cost, stock     float64               // kg, money
	currency              string
	found                 map[string]int // findings by verdict
	stocks                []string
	system                units.System
}

func sumsOf(p *plan.Plan) *sums {
	s := &sums{sizes: map[string]float64{}, cut: map[string][3]float64{}, mass: p.Mass.V, cost: p.Cost.V, stock: p.Stock.V, found: map[string]int{}}
	if p.Design != nil {
		s.currency, s.system = p.Design.Currency, p.Design.Units
		for _, z := range p.Design.Sizes {
			if z.Dim != units.Length {
				continue
			}
			s.sizes[z.Name] = z.Num.V
		}
	}
	if p.Piece != nil {
		s.parts = len(p.Piece.Parts)
		for _, q := range p.Piece.Parts {
			s.cut[q.ID] = [3]float64{q.Length.V, q.Width.V, q.Thick.V}
			if q.Stock != nil && !slices.Contains(s.stocks, q.Stock.Name) {
				s.stocks = append(s.stocks, q.Stock.Name)
			}
		}
	}
	for _, l := range p.Layouts {
		s.sheets += len(l.Sheets)
		s.sticks += len(l.Sticks)
	}
	for _, f := range p.Findings {
		s.found[string(f.Verdict)]++
	}
	return s
}

// changesOf tells what a change brought from one view to another.
func changesOf(from, to *view) []string {
	if from == nil || to == nil || from.plan == nil || to.plan == nil || from.plan == to.plan {
		return nil
	}
	return differences(sumsOf(from.plan), sumsOf(to.plan), to.system)
}

// differences tells what a kept change brought: parts, sheets, money, mass,
// findings. Nothing is told of what stayed.
func differences(was, is *sums, sys units.System) []string {
	if was == nil || is == nil {
		return nil
	}
	var out []string
	from := func(name string, a, b string) {
		if a != b {
			out = append(out, name+" "+a+" → "+b)
		}
	}
	for _, name := range sortedKeys(is.sizes) {
		if old, ok := was.sizes[name]; ok && math.Abs(old-is.sizes[name]) > 1e-6 {
			from(name, sizeText(old, sys), sizeText(is.sizes[name], sys))
		}
	}
	if a, b := strings.Join(was.stocks, " and "), strings.Join(is.stocks, " and "); a != b {
		from("cut from", a, b)
	}
	from("parts", strconv.Itoa(was.parts), strconv.Itoa(is.parts))
	other := 0
	for id, c := range is.cut { // a count: no order shows
		if old, ok := was.cut[id]; ok && apart(old, c) {
			other++
		}
	}
	if other > 0 {
		out = append(out, counted(other, "part of another size", "parts of other sizes"))
	}
	from("sheets", strconv.Itoa(was.sheets), strconv.Itoa(is.sheets))
	from("sticks", strconv.Itoa(was.sticks), strconv.Itoa(is.sticks))
	if is.currency != "" && was.currency == is.currency {
		from("to buy", units.FormatMoney(was.cost, is.currency, 0), units.FormatMoney(is.cost, is.currency, 0))
	}
	from("mass", units.Format(was.mass, units.Mass, sys, 1), units.Format(is.mass, units.Mass, sys, 1))
	for _, v := range []string{"stop", "look", "not covered"} {
		from(v, strconv.Itoa(was.found[v]), strconv.Itoa(is.found[v]))
	}
	return out
}

// sizeText is a size with a decimal only where it has one.
func sizeText(mm float64, sys units.System) string {
	if math.Abs(mm-math.Round(mm)) < 1e-6 {
		return units.Format(mm, units.Length, sys, 0)
	}
	return units.Format(mm, units.Length, sys, 1)
}

// apart tells whether two sizes differ by what a rule can tell, a twentieth of
// a millimetre.
func apart(a, b [3]float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > 0.05 {
			return true
		}
	}
	return false
}

func sortedKeys(m map[string]float64) []string {
	keys := make([]string, 0, len(m))
	for k := range m { // sorted below
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
