package pdf

import (
	"embed"
	"sync"
	"unicode"
)

//go:embed fonts/*.ttf
var fontFiles embed.FS

// Face is one of the faces that a document is set in.
type Face int

// Faces: a reading face with its italic, its semibold and its cut for titles; a
// face for tables with its italic and its semibold.
const (
	Text Face = iota
	TextItalic
	TextBold
	Title
	Table
	TableItalic
	TableBold
	signs // for letters that the others lack
	faces
)

var faceNames = [faces]string{"text", "text-italic", "text-bold", "title", "table", "table-italic", "table-bold", "signs"}

// fonts holds each face once read: what is in the program does not change.
var fonts = func() (out [faces]func() *font) {
	for f := range out {
		out[f] = sync.OnceValue(func() *font {
			data, err := fontFiles.ReadFile("fonts/" + faceNames[f] + ".ttf")
			if err != nil {
				panic("pdf: a face is not embedded: " + faceNames[f])
			}
			parsed, err := parseFont(data)
			if err != nil {
				panic(err)
			}
			return parsed
		})
	}
	return out
}()

// run is a stretch of text in one font: glyphs and the letters they stand for.
type run struct {
	face    Face
	glyphs  []uint16
	letters []rune
}

// runs turns text into glyphs, with a change of font where the face lacks a
// letter.
func runs(f Face, s string) []run {
	var out []run
	for _, r := range s {
		face, letter, g, ok := glyphOf(f, r)
		if !ok {
			continue
		}
		if n := len(out); n == 0 || out[n-1].face != face {
			out = append(out, run{face: face})
		}
		last := &out[len(out)-1]
		last.glyphs = append(last.glyphs, g)
		last.letters = append(last.letters, letter)
	}
	return out
}

// unknown stands for a letter that no face has.
const unknown = '\ufffd'

// glyphOf finds a letter's glyph in the face, else among the signs. Spaces of
// all kinds become one of ours; marks that only steer (soft hyphen, joiners,
// turns of direction, line ends) and other controls print nothing or a space.
func glyphOf(f Face, r rune) (Face, rune, uint16, bool) {
	if r > ' ' && r < 0x7f { // nearly all
		if g := fonts[f]().ascii[r]; g != 0 {
			return f, r, g, true
		}
	}
	switch {
	case r == '\n' || r == '\t' || r == '\r' || r == '\u2028' || r == '\u2029':
		r = ' '
	case r == '\u2011': // a hyphen where no line may break
		r = '-'
	case r == '\u00ad' || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r):
		return 0, 0, 0, false
	case unicode.Is(unicode.Zs, r) && r != '\u00a0':
		r = ' '
	}
	if g, ok := fonts[f]().cmap[r]; ok {
		return f, r, g, true
	}
	if g, ok := fonts[signs]().cmap[r]; ok {
		return signs, r, g, true
	}
	return signs, unknown, fonts[signs]().cmap[unknown], true
}

// width returns the run's length in thousandths of the font size, with its
// kerning.
func (r run) width() float64 {
	f, sum := fonts[r.face](), 0.0
	for i, g := range r.glyphs {
		sum += f.advance[g]
		if i > 0 {
			sum += f.pair(r.glyphs[i-1], g)
		}
	}
	return sum
}

// Width returns the length of a text set in the face at a size, in the unit of
// the size.
func Width(f Face, size float64, s string) float64 {
	var sum float64
	last, before, begun := f, uint16(0), false
	for _, r := range s {
		face, _, g, ok := glyphOf(f, r)
		if !ok {
			continue
		}
		font := fonts[face]()
		sum += font.advance[g]
		if begun && face == last {
			sum += font.pair(before, g)
		}
		last, before, begun = face, g, true
	}
	return sum * size / 1000
}

// MM returns a size in points as millimetres: 72 points are an inch.
func MM(points float64) float64 { return points * 25.4 / 72 }
