package label

import (
	"fmt"
	"math"
	"strconv"

	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// marks of the kinds of aids.
var aidMarks = map[string]string{"former": "F", "spacer block": "B", "caul": "C", "inner ply": "P"}

// Aids returns a label for each kind of thing that a bend is made on, with how
// many are like it. They are no parts: a letter stands in place of the number,
// and there is no code.
func Aids(p *plan.Plan, sys units.System) []Label {
	if sys == "" {
		sys = units.MM
	}
	var out []Label
	seen := map[string]int{}
	for _, a := range p.Aids {
		kind := aidMarks[a.Kind]
		seen[kind]++
		bare := func(v float64) string { return units.FormatBare(v, units.Length, sys, 1) }
		l := Label{Mark: kind + strconv.Itoa(seen[kind]), Name: a.Name, Stock: a.Stock, Grain: piece.NoGrain, Face: "for the bend; no part of the piece",
			Size: fmt.Sprintf("%s × %s × %s", bare(a.Length.V), bare(a.Width.V), units.Format(a.Thick.V, units.Length, sys, 1))}
		if a.Kind == "inner ply" {
			l.Face, l.Grain = "glued over the rib tips", piece.AlongLength
		}
		if a.Count > 1 {
			l.Note = fmt.Sprintf("%d like it", a.Count)
		}
		if a.Radius.V > 0 {
			if l.Note != "" {
				l.Note += " · "
			}
			l.Note += fmt.Sprintf("radius %s, %s°", bare(a.Radius.V), strconv.FormatFloat(math.Round(a.Angle.V*18000/math.Pi)/100, 'f', -1, 64))
		}
		out = append(out, l)
	}
	return out
}
