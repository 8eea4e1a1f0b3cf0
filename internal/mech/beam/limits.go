package beam

import "rodwork/internal/cite"

// Level is how a shelf comes out.
type Level string

// The levels.
const (
	Stop Level = "stop"
	Look Level = "look"
	Fine Level = "fine"
)

// Limit is one published limit of sag.
type Limit struct {
	Name   string
	Ratio  float64 // span over sag
	Cap    float64 // mm; 0: none
	Sag    float64 // mm, allowed for the span at hand
	Source cite.Source
	// About says what the limit was set for.
	About string
}

var limits = []Limit{
	{Name: "casework", Ratio: 144, About: "architectural casework, first sag",
		Source: cite.Source{Text: "AWI/AWMAC/WI, Architectural Woodwork Standards, 1st ed., 2009", Locator: "p. 253, 1.2.21", Label: cite.Read}},
	{Name: "kitchen cabinets", Ratio: 192, Cap: 25.4 / 4, About: "after seven days under 15 lb/ft²; 1/16 in for each foot, at most 1/4 in",
		Source: cite.Source{Text: "ANSI/KCMA A161.1", Locator: "shelf loading test", Label: cite.Quoted}},
	{Name: "European furniture", Ratio: 200, About: "0.5 % of the span under a sustained load",
		Source: cite.Source{Text: "EN 16121 and EN 14749 with EN 16122", Locator: "sag of shelves", Label: cite.FromMemory}},
	{Name: "the eye", Ratio: 384, About: "1/32 in for each foot is noticed",
		Source: cite.Source{Text: "Shelf design guidelines (a shop article)", Locator: "rule of visible sag", Label: cite.Read}},
}

// Limits returns the published limits, most lenient first, with the sag that
// each allows for the span (mm).
func Limits(span float64) []Limit {
	out := make([]Limit, len(limits))
	for i, l := range limits {
		l.Sag = span / l.Ratio
		if l.Cap > 0 && l.Sag > l.Cap {
			l.Sag = l.Cap
		}
		out[i] = l
	}
	return out
}

// level holds the long-term sag against every limit, also those that were set
// for the first sag: that is the cautious side. Stop beyond the most lenient,
// fine within all.
func level(r Result, s Shelf) Level {
	out := Fine
	most := 0.0
	for _, l := range r.Limits {
		if r.Long > l.Sag {
			out = Look
		}
		most = max(most, l.Sag)
	}
	if r.Long > most || s.Strength > 0 && r.Used > 1 {
		return Stop
	}
	return out
}
