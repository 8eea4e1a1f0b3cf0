package html

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// tones reads the colours of a ':root{…}' rule of the style.
func tones(t *testing.T, rule string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, m := range regexp.MustCompile(`--([a-z]+):(#[0-9a-f]{3,6})`).FindAllStringSubmatch(rule, -1) {
		out[m[1]] = m[2]
	}
	if len(out) < 8 {
		t.Fatalf("only %d colours in %.60q", len(out), rule)
	}
	return out
}

// luminance is the relative luminance of WCAG 2.2.
func luminance(hex string) float64 {
	if len(hex) == 4 {
		hex = "#" + strings.Repeat(hex[1:2], 2) + strings.Repeat(hex[2:3], 2) + strings.Repeat(hex[3:4], 2)
	}
	weight := [3]float64{0.2126, 0.7152, 0.0722}
	sum := 0.0
	for i := range 3 {
		n, _ := strconv.ParseUint(hex[1+2*i:3+2*i], 16, 8)
		c := float64(n) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += weight[i] * c
	}
	return sum
}

func contrast(a, b string) float64 {
	p, q := luminance(a), luminance(b)
	return (math.Max(p, q) + 0.05) / (math.Min(p, q) + 0.05)
}

// All text stands out from its ground by 4.5 to 1, marks and lines that carry
// meaning by 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11), on paper light, dark and printed.
func TestContrast(t *testing.T) {
	rules := regexp.MustCompile(`:root\{[^}]*\}`).FindAllString(css, -1)
	if len(rules) != 3 {
		t.Fatalf("%d sets of colours, want light, dark and print", len(rules))
	}
	for i, name := range []string{"light", "dark", "print"} {
		c := tones(t, rules[i])
		for _, fg := range []string{"ink", "soft", "red"} {
			for _, bg := range []string{"paper", "wash"} {
				if r := contrast(c[fg], c[bg]); r < 4.5 {
					t.Errorf("%s: %s on %s is %.2f to 1", name, fg, bg, r)
				}
			}
		}
		for _, fg := range []string{"dot", "lead"} {
			if r := contrast(c[fg], c["paper"]); r < 3 {
				t.Errorf("%s: %s on paper is %.2f to 1", name, fg, r)
			}
		}
	}
	if r := contrast("#000", "#fff"); math.Abs(r-21) > 1e-9 {
		t.Errorf("black on white is %v, not 21", r)
	}
}

// The style can't end its element early, nor be read as mark-up.
func TestStyleIsSafeInMarkup(t *testing.T) {
	if strings.ContainsAny(sheet, "<&") {
		t.Error("the style holds a '<' or an '&'")
	}
	for _, s := range []string{"@import", "http", "expression("} {
		if strings.Contains(css, s) {
			t.Errorf("the style has %q", s)
		}
	}
}

// Nothing moves, so nobody need ask for less motion; dark and paper are thought of.
func TestMediaAreThought(t *testing.T) {
	for _, s := range []string{"prefers-color-scheme:dark", "@media print", "size:A4", ":focus-visible"} {
		if !strings.Contains(css, s) {
			t.Errorf("the style has no %q", s)
		}
	}
	for _, s := range []string{"animation", "transition", "scroll-behavior"} {
		if strings.Contains(css, s) {
			t.Errorf("the style moves: %q", s)
		}
	}
}
