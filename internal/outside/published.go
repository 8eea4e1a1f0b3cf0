package outside

import (
	"embed"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml"

	"rodwork/internal/cite"
)

//go:embed published.yaml
var published []byte

// others are further files of cases, by subject, in the order of their names.
//
//go:embed published_*.yaml
var others embed.FS

// Case is one published case.
type Case struct {
	ID   string             `yaml:"id"`
	Rule string             `yaml:"rule"`
	In   map[string]float64 `yaml:"in"`
	Out  string             `yaml:"out"`  // the result that is compared
	Want string             `yaml:"want"` // digits as printed
	Unit string             `yaml:"unit"`
	Tol  float64            `yaml:"tol"`
	// Floor: the source cut its digits off instead of rounding. Then Want
	// stands for Want to Want + 1.
	Floor bool `yaml:"floor"`
	// Wide says why the tolerance is wider than rounding and a hundredth.
	Wide string `yaml:"wide"`
	// Table names the table or example that the number was taken from, where the
	// locator names a row of it. Of one table no more than MostOfTable count.
	Table string `yaml:"table"`
	// Work says how a case that was worked by us was worked.
	Work    string     `yaml:"work"`
	Source  string     `yaml:"source"`
	Locator string     `yaml:"locator"`
	Label   cite.Label `yaml:"label"`
}

// Cases returns the published cases in the order of the files.
func Cases() ([]Case, error) {
	all, err := parse(published)
	if err != nil {
		return nil, err
	}
	files, err := others.ReadDir(".")
	if err != nil {
		return nil, fmt.Errorf("published cases: %w", err)
	}
	for _, f := range files {
		src, err := others.ReadFile(f.Name())
		if err != nil {
			return nil, fmt.Errorf("published cases: %w", err)
		}
		more, err := parse(src)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Name(), err)
		}
		all = append(all, more...)
	}
	return all, nil
}

// MostOfTable is how many cases of one table count as outside checks of their
// own: more of the same table say little more.
const MostOfTable = 4

// Counted returns the cases that count as checks against the outside: read or
// quoted, no more than MostOfTable of one table; and their number by source.
func Counted(all []Case) (counted []Case, bySource map[string]int) {
	bySource = map[string]int{}
	byTable := map[[2]string]int{}
	for _, c := range all {
		if c.Label != cite.Read && c.Label != cite.Quoted {
			continue
		}
		key := [2]string{c.Source, c.Table}
		if c.Table == "" { // a locator names its table before a colon, its row after it
			key[1], _, _ = strings.Cut(c.Locator, ":")
		}
		if byTable[key]++; byTable[key] > MostOfTable {
			continue
		}
		counted = append(counted, c)
		bySource[c.Source]++
	}
	return counted, bySource
}

// parse decodes a file of cases. The library's decoder panics on some broken
// texts (a list that is a tag without a type); that too is an error here.
func parse(src []byte) (cs []Case, err error) {
	defer func() {
		if r := recover(); r != nil {
			cs, err = nil, fmt.Errorf("published cases: the text is no list: %v", r)
		}
	}()
	if err := yaml.UnmarshalWithOptions(src, &cs, yaml.Strict()); err != nil {
		return nil, fmt.Errorf("published cases: %w", err)
	}
	return cs, nil
}

// Printed returns the printed number; for one whose digits were cut off, the
// middle of what it may have been, with half a unit.
func (c Case) Printed() (middle, half float64, err error) {
	v, err := strconv.ParseFloat(c.Want, 64)
	if err != nil {
		return 0, 0, fmt.Errorf("case %s: %q is no number", c.ID, c.Want)
	}
	if c.Floor {
		return v + 0.5, 0.5, nil
	}
	return v, 0, nil
}

// HalfDigit is half a unit of the last digit that was printed.
func (c Case) HalfDigit() float64 {
	_, dec, ok := strings.Cut(c.Want, ".")
	if !ok {
		return 0.5
	}
	return 0.5 * math.Pow(10, -float64(len(dec)))
}

// Verdict is how a case came out.
type Verdict struct {
	Got, Off float64 // Off is the distance from the print
	Diff     float64 // Got less the print
	Holds    bool
}

// Try runs the case through a rule. The error is one of the rule, or tells
// that it gives no such result.
func (c Case) Try(r *cite.Rule) (Verdict, error) {
	results, err := r.Run(c.In)
	if err != nil {
		return Verdict{}, fmt.Errorf("case %s: %w", c.ID, err)
	}
	for _, x := range results {
		if x.Name != c.Out {
			continue
		}
		if x.Unit != c.Unit {
			return Verdict{}, fmt.Errorf("case %s: %s comes in %s, was printed in %s", c.ID, c.Out, x.Unit, c.Unit)
		}
		middle, half, err := c.Printed()
		if err != nil {
			return Verdict{}, err
		}
		off := math.Abs(x.Value - middle)
		return Verdict{Got: x.Value, Off: off, Diff: x.Value - middle, Holds: off <= c.Tol+half}, nil
	}
	return Verdict{}, fmt.Errorf("case %s: rule %s gives no %s", c.ID, r.ID, c.Out)
}

// Moved returns a copy of the rule whose results are off by the given amount,
// as if its formula were wrong.
func Moved(r *cite.Rule, by float64) *cite.Rule {
	wrong := *r
	wrong.Eval = func(in map[string]float64) []cite.Result {
		out := r.Eval(in)
		for i := range out {
			out[i].Value += by
		}
		return out
	}
	return &wrong
}
