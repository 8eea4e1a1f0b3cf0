// Package season computes how wood swells and shrinks with the air of a room.
//
// Wood takes up water from the air until it is in balance: its moisture follows
// the relative humidity, hardly the temperature (MOVE-01). In a heated room the
// air is driest in winter, and a board that was made tight in summer has gaps
// then. Across the grain it moves by a share for each 1 % of moisture, along the
// grain by next to nothing; plywood by little any way. What is fixed along its
// edges and wants to move tears itself, or its frame, apart: it needs slots or
// room in its groove (MOVE-02).
package season

import (
	"math"

	"rodwork/internal/cite"
)

// Moisture returns the moisture, %, of wood in balance with air of a temperature
// (°C) and relative humidity (share): the sorption formula of the Wood Handbook,
// equation (4-5) (MOVE-01).
func Moisture(celsius, humidity float64) float64 {
	f := celsius*9/5 + 32
	w := 330 + 0.452*f + 0.00415*f*f
	k := 0.791 + 0.000463*f - 0.000000844*f*f
	k1 := 6.34 + 0.000775*f - 0.0000935*f*f
	k2 := 1.09 + 0.0284*f - 0.0000904*f*f
	kh := k * humidity
	return 1800 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh))
}

// The air of a heated room over the year, shares (common practice: a dry winter
// and a damp summer); kept at 20 °C.
const Dry, Damp, Room = 0.30, 0.65, 20.0

// Swing is how far a width (mm) goes from the dry to the damp end for a
// movement by share and % of moisture (MOVE-02).
func Swing(width, perPercent, celsius, dry, damp float64) float64 {
	return width * perPercent * (Moisture(celsius, damp) - Moisture(celsius, dry))
}

// PlaneSwing is the same for a sheet that moves by a share for each 10 % of
// relative humidity.
func PlaneSwing(width, perTen, dry, damp float64) float64 { return width * perTen * (damp - dry) * 10 }

// Rules are the package's rules in the order of their ids.
var Rules = []*cite.Rule{ruleMoisture, ruleSwing}

func symbol(letter, name, meaning, unit string, lo, hi float64) cite.Symbol {
	return cite.Symbol{Letter: letter, Name: name, Meaning: meaning, Unit: unit, Min: lo, Max: hi, Why: "rooms and furniture"}
}

var handbook = cite.Source{Text: "Wood Handbook, Forest Products Laboratory, FPL-GTR-190, 2010", Locator: "equation (4-5)", Label: cite.FromMemory}

var ruleMoisture = &cite.Rule{
	ID: "MOVE-01", Title: "Moisture of wood in a room",
	Question: "How moist is wood that has long stood in air of this humidity?",
	Formula:  "M = 1800/W·(K·h/(1 − K·h) + (K₁·K·h + 2·K₁·K₂·K²·h²)/(1 + K₁·K·h + K₁·K₂·K²·h²)), W, K, K₁, K₂ quadratic in the temperature",
	Symbols:  []cite.Symbol{symbol("T", "celsius", "temperature", "°C", -10, 60), symbol("h", "humidity", "relative humidity, as a share", "1", 0, 0.98)},
	Sources: []cite.Source{handbook,
		{Text: "a bioenergy network's page on equilibrium moisture", Locator: "70 °F: 5.3 % at 25 %, 11.1 % at 60 %", Label: cite.Read},
		{Text: "a trade magazine's column on wood drying", Locator: "30, 50, 65 and 80 % give 6, 9, 12 and 16 %", Label: cite.Read}},
	Assumes:  []string{"balance: a thick board takes weeks to months", "average wood: kinds differ by a percent, plywood and boards lie lower"},
	Accuracy: "half a percent of moisture",
	Remedies: []string{"let wood lie in the room for weeks before it is cut"},
	Example:  cite.Example{In: map[string]float64{"celsius": 20, "humidity": 0.5}, Out: map[string]float64{"moisture": 9.2752}, From: "by hand from the formula"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "moisture", Unit: "%", Value: Moisture(in["celsius"], in["humidity"])}}
	},
}

var ruleSwing = &cite.Rule{
	ID: "MOVE-02", Title: "Room for wood to move",
	Question: "How far does a board or panel swell and shrink over the year, across its grain?",
	Formula:  "Δ = b·C·(M(damp) − M(dry)); a sheet: b·c·10·(damp − dry)",
	Symbols: []cite.Symbol{symbol("b", "width", "width across the grain", "mm", 1, 5000), symbol("C", "moves", "share for each 1 % of moisture", "1", 0, 0.006),
		symbol("d", "dry", "driest air, as a share", "1", 0.05, 0.95), symbol("w", "damp", "dampest air, as a share", "1", 0.05, 0.95), symbol("T", "celsius", "temperature", "°C", 0, 40)},
	Sources: []cite.Source{{Text: "Wood Handbook, Forest Products Laboratory, FPL-GTR-190, 2010", Locator: "Table 13-5, coefficients", Label: cite.Read}, handbook,
		{Text: "a year from 30 to 65 % in a heated room", Label: cite.Practice}},
	Assumes:  []string{"the year's swing reaches the middle of the wood: thick or well finished wood lags behind and moves less", "flat-sawn wood by its tangential share: quarter-sawn moves about half as much"},
	Accuracy: "a quarter, by kind and cut of the board",
	Remedies: []string{"slots for its screws, across the grain", "a panel that floats in its groove", "plywood, or boards cut on the quarter"},
	Example: cite.Example{In: map[string]float64{"width": 400, "moves": 0.00369, "dry": 0.30, "damp": 0.65, "celsius": 20}, Out: map[string]float64{"swing": 8.57796},
		From: "red oak, by hand: 400·0.00369·(12.02 − 6.21)"},
	Eval: func(in map[string]float64) []cite.Result {
		return []cite.Result{{Name: "swing", Unit: "mm", Value: math.Abs(Swing(in["width"], in["moves"], in["celsius"], in["dry"], in["damp"]))}}
	},
}
