package units_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/units"
)

func TestParseReadsWhatPeopleWrite(t *testing.T) {
	const deg = math.Pi / 180
	for _, c := range []struct {
		text string
		dim  units.Dim
		want float64
	}{
		{"18 mm", units.Length, 18}, {"18mm", units.Length, 18}, {"1.2 m", units.Length, 1200},
		{"3/4 in", units.Length, 19.05}, {"1 1/2 in", units.Length, 38.1}, {"1/2\"", units.Length, 12.7},
		{`4' 6 1/2"`, units.Length, 1384.3}, {"2 ft 3 in", units.Length, 685.8}, {`5' 3 1/2"`, units.Length, 1612.9},
		{".5 in", units.Length, 12.7}, {"−3 mm", units.Length, -3}, {"- 3 mm", units.Length, -3}, {"700", units.Length, 700},
		{"1 ft", units.Length, 304.8}, {"4′ 6″", units.Length, 1371.6}, {"12 cm", units.Length, 120},
		{"0.9 kg", units.Mass, 0.9}, {"450 g", units.Mass, 0.45}, {"2 lb", units.Mass, 0.90718474},
		{"1 lb 8 oz", units.Mass, 0.680388555}, {"90 deg", units.Angle, 90 * deg}, {"90°", units.Angle, 90 * deg},
		{"1.5 rad", units.Angle, 1.5}, {"12 min", units.Time, 720}, {"1 h 30 min", units.Time, 5400},
		{"4 years", units.Time, 4 * units.SecondsPerYear}, {"900 N", units.Force, 900}, {"1.7 kN", units.Force, 1700},
		{"10 MPa", units.Stress, 10}, {"10 N/mm2", units.Stress, 10}, {"10 N/mm²", units.Stress, 10},
		{"1000 psi", units.Stress, 6.894757293168361}, {"680 kg/m3", units.Density, 680e-9},
		{"180 g/m2", units.Spread, 180e-9}, {"2 min/m", units.TimePerLength, 0.12}, {"89 EUR", units.Money, 89},
		{"9 EUR/kg", units.MoneyPerMass, 9}, {"20 °C", units.Temp, 20}, {"68 °F", units.Temp, 20},
		{"3 x", units.Count, 3}, {"3", units.Count, 3}, {"50 %", units.None, 0.5}, {"0.25", units.None, 0.25},
		{"35 27/64 in +0.003", units.Length, (35 + 27.0/64 + 0.003) * 25.4},
	} {
		got, err := units.Parse(c.text, c.dim, "mm")
		if err != nil || math.Abs(got-c.want) > 1e-12*math.Max(1, math.Abs(c.want)) {
			t.Errorf("Parse(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}

func TestParseSaysWhatIsWrong(t *testing.T) {
	for _, c := range []struct {
		text       string
		dim        units.Dim
		msg, mend  string
		from, upTo int
	}{
		{"2,5 mm", units.Length, "the decimal sign is a point", "2.5 mm", 1, 2},
		{"18 mmm", units.Length, `"mmm" is not a unit`, "18 mm", 3, 6},
		{"18 kg", units.Length, "a mass was written where a length is wanted", "", 0, 5},
		{"1/0 in", units.Length, "a fraction over nought is no amount", "", 0, 3},
		{"1.2.3 mm", units.Length, "a number has one decimal point", "", 0, 5},
		{"wide", units.Length, `"wide" is not a quantity`, "", 0, 4},
		{"", units.Length, `"" is not a quantity`, "", 0, 0},
		{"1e999 mm", units.Length, "the number is too large", "", 0, 5},
	} {
		_, err := units.Parse(c.text, c.dim, "mm")
		pe, ok := err.(*units.ParseError)
		if !ok || pe.Msg != c.msg || pe.Mend != c.mend || pe.From != c.from || pe.To != c.upTo {
			t.Errorf("Parse(%q) gives %#v", c.text, err)
		}
	}
	if _, err := units.Parse("12", units.Time, ""); err == nil {
		t.Error("a bare number is no time")
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		v        float64
		dim      units.Dim
		sys      units.System
		decimals int
		want     string
	}{
		{17.7, units.Length, units.MM, 1, "17.7 mm"}, {-165, units.Length, units.MM, 0, "−165 mm"},
		{-0.001, units.Length, units.MM, 1, "0.0 mm"}, {19.05, units.Length, units.Inch, 1, "3/4 in"},
		{38.1, units.Length, units.Inch, 1, "1 1/2 in"}, {900, units.Length, units.Inch, 1, "35 7/16 in −0.004"},
		{-38.1, units.Length, units.Inch, 1, "−1 1/2 in"}, {0, units.Length, units.Inch, 1, "0 in"},
		{0.1, units.Length, units.Inch, 1, "0.004 in"}, {1, units.Mass, units.Inch, 1, "2.2 lb"},
		{math.Pi / 2, units.Angle, units.MM, 0, "90°"}, {680e-9, units.Density, units.MM, 0, "680 kg/m³"},
		{3, units.Count, units.MM, 0, "3"}, {90, units.Time, units.MM, 0, "90 s"}, {600, units.Time, units.MM, 0, "10 min"},
		{2e6, units.Area, units.MM, 2, "2.00 m²"}, {math.NaN(), units.Length, units.MM, 1, "—"},
		{5, units.Dim{Length: 2, Force: -1}, units.MM, 1, "5.0 mm²·N⁻¹"},
	} {
		if got := units.Format(c.v, c.dim, c.sys, c.decimals); got != c.want {
			t.Errorf("Format(%v, %v) = %q, want %q", c.v, c.dim, got, c.want)
		}
	}
	if got := units.FormatMoney(89, "EUR", 2); got != "89.00 EUR" {
		t.Error(got)
	}
	if got := units.FormatBare(900, units.Length, units.Inch, 0); got != "35 7/16 −0.004" {
		t.Error(got)
	}
}

// Whatever Format prints, Parse reads back to within half of the last digit.
func TestPrintedIsRead(t *testing.T) {
	dims := []units.Dim{units.Length, units.Mass, units.Angle, units.Force, units.Stress, units.Density,
		units.Spread, units.Area, units.Volume, units.Temp, units.Time, units.TimePerArea, units.None}
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(dims).Draw(t, "dim")
		sys := rapid.SampledFrom([]units.System{units.MM, units.Inch}).Draw(t, "system")
		unit, _, ok := units.Factor(units.UnitWord(d, sys))
		if !ok {
			unit = 1
		}
		v := rapid.Float64Range(-5000, 5000).Draw(t, "v") * unit
		text := units.Format(v, d, sys, 3)
		back, err := units.Parse(text, d, "mm")
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		tol := 0.000501 * unit
		if d == units.Time {
			tol = 0.0005 * 86400 // printed in days at most
		}
		if d == units.Length && sys == units.Inch {
			tol = 0.000501 * 25.4
		}
		if math.Abs(back-v) > tol+1e-9*math.Abs(v) {
			t.Fatalf("%v printed %q read %v", v, text, back)
		}
		// What was read prints the same again: printing is a fixed point (but
		// where a time rounds up to the next unit).
		if again := units.Format(back, d, sys, 3); again != text && d != units.Time {
			t.Fatalf("%q read and printed is %q", text, again)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"18 mm", `4' 6 1/2"`, "1/0 in", "9 EUR/kg", "kg/m3", "1e308 m", "35 27/64 in +0.003", "°°", "1 ft 1 ft"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, d := range []units.Dim{units.Length, units.Money, units.None} {
			v, err := units.Parse(s, d, "mm")
			if err == nil && math.IsNaN(v) {
				t.Errorf("%q is read as NaN", s)
			}
			if pe, ok := err.(*units.ParseError); ok && (pe.From < 0 || pe.To > len([]rune(s)) || pe.From > pe.To) {
				t.Errorf("%q: range %d…%d", s, pe.From, pe.To)
			}
		}
	})
}
