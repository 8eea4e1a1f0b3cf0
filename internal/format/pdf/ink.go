package pdf

import "rodwork/internal/leaf"

// Colour is a colour as red, green and blue from 0 to 1; equal parts are grey.
type Colour struct{ R, G, B float64 }

// The colours of a page: black ink, soft grey for what is read second, a hair
// grey for rules, a wash to lay under what is picked, and the accent.
var (
	Ink   = Colour{}
	Soft  = Colour{0.34, 0.34, 0.34}
	Hair  = Colour{0.72, 0.72, 0.72}
	Wash  = Colour{0.945, 0.945, 0.945}
	White = Colour{1, 1, 1}
	// Accent is leaf's accent tone.
	Accent = tone(leaf.AccentTone)
)

// tone reads #rrggbb.
func tone(s string) Colour {
	part := func(at int) float64 {
		v := 0
		for _, c := range []byte(s[at : at+2]) {
			d := int(c - '0')
			if c >= 'a' {
				d = int(c-'a') + 10
			}
			v = 16*v + d
		}
		return float64(v) / 255
	}
	return Colour{part(1), part(3), part(5)}
}
