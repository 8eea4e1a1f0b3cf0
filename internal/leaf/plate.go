package leaf

import (
	"strings"

	"rodwork/internal/geom/r2"
)

// Measures of a plate, mm: where title and caption stand and how far apart the
// caption's lines are.
const (
	Margin     = 12.0
	titleBand  = 14.0
	titleBase  = 11.0
	captionGap = 2.0
	mostRight  = 120.0 // of the words at the right of the title
	firstLine  = 4.4
	lineStep   = 4.2
	// MaxCaptionLine is the longest caption line in characters: a wider face
	// than the one planned for then still fits.
	MaxCaptionLine = 152
)

// Plate returns the leaf as a printed plate: the title and what stands at its
// right in a band above the figure, a hair rule and the caption below.
func Plate(l Leaf) Leaf {
	out := l
	lines := CaptionLines(l.Caption)
	out.H = titleBand + l.H + captionGap
	if len(lines) > 0 {
		out.H += firstLine + float64(len(lines)-1)*lineStep + 2.6
	}
	out.Items = make([]Item, 0, len(l.Items)+4)
	for _, it := range l.Items {
		out.Items = append(out.Items, Moved(it, r2.Vec{Y: titleBand}))
	}
	right := l.W - Margin
	free := right - Margin
	if l.Right != "" {
		t := Text{At: r2.Vec{X: right, Y: titleBase}, S: Shorten(l.Right, Note, false, false, mostRight), Anchor: End}
		free -= t.Width() + 4
		out.Items = append(out.Items, t)
	}
	title := Text{At: r2.Vec{X: Margin, Y: titleBase}, S: l.Title, Size: Head, Strong: true}
	title.S = Shorten(title.S, Head, false, true, free)
	out.Items = append(out.Items, title)
	if len(lines) > 0 {
		y := titleBand + l.H + captionGap
		out.Items = append(out.Items, Path{Line: Dimension, Segs: []Seg{
			{Op: Move, P: r2.Vec{X: Margin, Y: y}}, {Op: To, P: r2.Vec{X: right, Y: y}}}})
		for i, s := range lines {
			out.Items = append(out.Items, Text{At: r2.Vec{X: Margin, Y: y + firstLine + float64(i)*lineStep}, S: s})
		}
	}
	return out
}

// fallbackWider is how much wider than Source Sans 3 the common fallback face
// (DejaVu Sans) runs: 1.20 to 1.24 over the captions here, measured.
const fallbackWider = 1.24

// CaptionLines breaks a caption into lines of at most MaxCaptionLine
// characters that also fit between the margins, in the face meant and in the
// wider one that a reader without it falls back to.
func CaptionLines(s string) []string {
	const room = (210 - 2*Margin) / fallbackWider
	var lines []string
	line, chars := "", 0
	for word := range strings.FieldsSeq(s) {
		n := len([]rune(word))
		for n > MaxCaptionLine { // a word that no line holds is cut
			r := []rune(word)
			if line != "" {
				lines = append(lines, line)
				line, chars = "", 0
			}
			lines = append(lines, string(r[:MaxCaptionLine]))
			word, n = string(r[MaxCaptionLine:]), n-MaxCaptionLine
		}
		next := word
		if line != "" {
			next = line + " " + word
		}
		if line != "" && (chars+1+n > MaxCaptionLine || Width(next, Note, false, false) > room) {
			lines = append(lines, line)
			line, chars = word, n
			continue
		}
		line, chars = next, len([]rune(next))
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
