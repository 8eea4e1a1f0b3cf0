package web

import (
	"math"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// What is marked as being worked out is paler, and still stands out from its
// ground by 4.5 to 1 (WCAG 2.2, 1.4.3), in the light and in the dark.
func TestWhatIsBehindCanBeRead(t *testing.T) {
	s, _ := start(t)
	style := func(path string) string { return ask(s, http.MethodGet, path, "", nil).Body.String() }
	m := regexp.MustCompile(`\[data-behind\][^{]*\{opacity:([0-9.]+)\}`).FindStringSubmatch(style("/ui/page.css"))
	if m == nil {
		t.Fatal("nothing is paler")
	}
	share, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	grounds := regexp.MustCompile(`:root\{[^}]*\}`).FindAllString(style("/book.css"), -1)
	if len(grounds) < 2 {
		t.Fatalf("%d sets of colours", len(grounds))
	}
	for _, set := range grounds[:2] {
		for _, name := range []string{"ink", "soft", "red"} {
			fg, bg := channels(t, set, name), channels(t, set, "paper")
			for i := range fg {
				fg[i] = share*fg[i] + (1-share)*bg[i]
			}
			p, q := light(fg), light(bg)
			if r := (math.Max(p, q) + 0.05) / (math.Min(p, q) + 0.05); r < 4.5 {
				t.Errorf("%s at %v is %.2f to 1 in %s", name, share, r, set[:40])
			}
		}
	}
}

// channels reads a colour of a set, 0 to 1.
func channels(t *testing.T, set, name string) [3]float64 {
	t.Helper()
	_, hex, ok := strings.Cut(set, "--"+name+":#")
	if !ok || len(hex) < 6 {
		t.Fatalf("no colour %s", name)
	}
	var c [3]float64
	for i := range c {
		n, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c[i] = float64(n) / 255
	}
	return c
}

// light is the relative luminance of WCAG 2.2.
func light(c [3]float64) float64 {
	sum := 0.0
	for i, weight := range [3]float64{0.2126, 0.7152, 0.0722} {
		v := c[i] / 12.92
		if c[i] > 0.04045 {
			v = math.Pow((c[i]+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}
