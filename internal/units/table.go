package units

import (
	"math"
	"sort"
	"strings"
)

// unit is one unit word: a quantity of it, times factor plus offset, is the
// quantity in Rodwork's own units.
type unit struct {
	factor, offset float64
	dim            Dim
	// chain names units of which a run is one amount ('4 ft 6 in'), from large
	// to small by factor.
	chain string
}

// Exact by definition: the inch (25.4 mm), the avoirdupois pound
// (0.45359237 kg) and standard gravity (9.80665 m/s²), hence lbf and psi.
const (
	inch  = 25.4
	pound = 0.45359237
	lbf   = pound * 9.80665
)

var table = map[string]unit{
	"mm": {factor: 1, dim: Length}, "cm": {factor: 10, dim: Length}, "dm": {factor: 100, dim: Length}, "m": {factor: 1000, dim: Length},
	"in": {factor: inch, dim: Length, chain: "foot"}, "inch": {factor: inch, dim: Length, chain: "foot"},
	"inches": {factor: inch, dim: Length, chain: "foot"}, `"`: {factor: inch, dim: Length, chain: "foot"},
	"″":  {factor: inch, dim: Length, chain: "foot"},
	"ft": {factor: 12 * inch, dim: Length, chain: "foot"}, "foot": {factor: 12 * inch, dim: Length, chain: "foot"},
	"feet": {factor: 12 * inch, dim: Length, chain: "foot"}, "'": {factor: 12 * inch, dim: Length, chain: "foot"},
	"′":  {factor: 12 * inch, dim: Length, chain: "foot"},
	"kg": {factor: 1, dim: Mass}, "g": {factor: 1e-3, dim: Mass},
	"lb": {factor: pound, dim: Mass, chain: "pound"}, "lbs": {factor: pound, dim: Mass, chain: "pound"},
	"oz": {factor: pound / 16, dim: Mass, chain: "pound"},
	"N":  {factor: 1, dim: Force}, "kN": {factor: 1000, dim: Force}, "lbf": {factor: lbf, dim: Force},
	"Pa": {factor: 1e-6, dim: Stress}, "kPa": {factor: 1e-3, dim: Stress}, "MPa": {factor: 1, dim: Stress},
	"GPa": {factor: 1000, dim: Stress}, "psi": {factor: lbf / (inch * inch), dim: Stress},
	"s": {factor: 1, dim: Time, chain: "hour"}, "min": {factor: 60, dim: Time, chain: "hour"},
	"h":   {factor: 3600, dim: Time, chain: "hour"},
	"day": {factor: 86400, dim: Time}, "days": {factor: 86400, dim: Time},
	"month": {factor: SecondsPerYear / 12, dim: Time, chain: "year"}, "months": {factor: SecondsPerYear / 12, dim: Time, chain: "year"},
	"year": {factor: SecondsPerYear, dim: Time, chain: "year"}, "years": {factor: SecondsPerYear, dim: Time, chain: "year"},
	"deg": {factor: math.Pi / 180, dim: Angle}, "°": {factor: math.Pi / 180, dim: Angle}, "rad": {factor: 1, dim: Angle},
	"%": {factor: 0.01, dim: None}, "x": {factor: 1, dim: Count},
	"°C": {factor: 1, dim: Temp}, "°F": {factor: 5.0 / 9, offset: -160.0 / 9, dim: Temp},
}

// currencies are the active alphabetic codes of ISO 4217 (from memory, 2024).
const currencies = `AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP
BYN BZD CAD CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD
GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP
LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN
PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS
TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VES VND VUV WST XAF XCD XOF XPF YER ZAR ZMW ZWL`

var currencySet = func() map[string]bool {
	set := map[string]bool{}
	for _, c := range strings.Fields(currencies) {
		set[c] = true
	}
	return set
}()

// IsCurrency reports whether the word is a currency code of ISO 4217.
func IsCurrency(word string) bool { return currencySet[word] }

// Currencies returns the codes of ISO 4217 in alphabetic order.
func Currencies() []string {
	out := strings.Fields(currencies)
	sort.Strings(out)
	return out
}

// IsUnit reports whether the word is a unit, so that nothing else may be
// called so.
func IsUnit(word string) bool {
	_, ok := table[word]
	return ok || currencySet[word]
}

// Words returns the unit words that measure the dimension, in alphabetic order
// and without the marks ' and ". None of them is a compound.
func Words(d Dim) []string {
	var out []string
	for w, u := range table {
		if u.dim == d && !strings.ContainsAny(w, `'"′″`) {
			out = append(out, w)
		}
	}
	sort.Strings(out)
	return out
}

// allWords are the unit words for finding the nearest, in alphabetic order.
var allWords = func() []string {
	var out []string
	for w := range table {
		out = append(out, w)
	}
	sort.Strings(out)
	return out
}()

// Factor returns what a quantity in the unit is multiplied by to be in
// Rodwork's own unit, and what the unit measures: Factor("cm") is 10, Length.
// Compounds ("kg/m3") are understood; a temperature in °F is not.
func Factor(word string) (float64, Dim, bool) {
	r := []rune(word)
	u, end, ok := scanUnit(r, 0)
	if !ok || end != len(r) || u.offset != 0 {
		return 0, Dim{}, false
	}
	return u.factor, u.dim, true
}
