package pdf

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
)

// font is what is needed of a TrueType file (ISO/IEC 14496-22): letters to
// glyphs, widths, pairs, and the outlines to embed. Widths and pairs are in
// thousandths of the font size.
type font struct {
	tables  map[string][]byte
	scale   float64 // thousandths per font unit
	glyphs  int
	cmap    map[rune]uint16
	ascii   [0x80]uint16 // the same for the letters that come most
	advance []float64
	kern    map[uint32]float64
	loca    []uint32
	ascent  float64
	descent float64
	box     [4]float64
}

var errFont = errors.New("pdf: not a TrueType font that can be read")

// parseFont reads one of the embedded faces. The faces are ours: a damaged one
// is an error, found by the first test, not a thing to be lenient about.
func parseFont(data []byte) (f *font, err error) {
	defer func() {
		if r := recover(); r != nil { // a table shorter than it says
			f, err = nil, fmt.Errorf("%w: %v", errFont, r)
		}
	}()
	f = &font{tables: map[string][]byte{}, cmap: map[rune]uint16{}, kern: map[uint32]float64{}}
	if u32(data, 0) != 0x00010000 {
		return nil, errFont
	}
	for i := range int(u16(data, 4)) {
		rec := data[12+16*i:]
		f.tables[string(rec[:4])] = data[u32(rec, 8) : u32(rec, 8)+u32(rec, 12)]
	}
	head, hhea := f.tables["head"], f.tables["hhea"]
	f.scale = 1000 / float64(u16(head, 18))
	for i := range f.box {
		f.box[i] = f.scale * float64(i16(head, 36+2*i))
	}
	f.ascent, f.descent = f.scale*float64(i16(hhea, 4)), f.scale*float64(i16(hhea, 6))
	f.glyphs = int(u16(f.tables["maxp"], 4))
	f.readWidths(int(u16(hhea, 34)))
	f.readPlaces(u16(head, 50) == 1)
	f.readLetters()
	f.readPairs()
	return f, nil
}

func u16(b []byte, at int) uint16 { return binary.BigEndian.Uint16(b[at:]) }
func i16(b []byte, at int) int16  { return int16(u16(b, at)) }
func u32(b []byte, at int) uint32 { return binary.BigEndian.Uint32(b[at:]) }

func (f *font) readWidths(n int) {
	hmtx := f.tables["hmtx"]
	f.advance = make([]float64, f.glyphs)
	for g := range f.advance {
		f.advance[g] = f.scale * float64(u16(hmtx, 4*min(g, n-1)))
	}
}

func (f *font) readPlaces(long bool) {
	t := f.tables["loca"]
	f.loca = make([]uint32, f.glyphs+1)
	for g := range f.loca {
		if long {
			f.loca[g] = u32(t, 4*g)
		} else {
			f.loca[g] = 2 * uint32(u16(t, 2*g))
		}
	}
}

// readLetters reads the map of the basic plane (format 4), which all our faces
// have.
func (f *font) readLetters() {
	t := f.tables["cmap"]
	for i := range int(u16(t, 2)) {
		sub := t[u32(t, 4+8*i+4):]
		if u16(sub, 0) != 4 {
			continue
		}
		n := int(u16(sub, 6)) / 2
		ends, starts := sub[14:], sub[16+2*n:]
		deltas, offsets := sub[16+4*n:], sub[16+6*n:]
		for s := range n {
			first, last := int(u16(starts, 2*s)), int(u16(ends, 2*s))
			for c := first; c <= last && c < 0xffff; c++ {
				g := uint16(c) + u16(deltas, 2*s)
				if off := int(u16(offsets, 2*s)); off != 0 {
					if g = u16(offsets, 2*s+off+2*(c-first)); g != 0 {
						g += u16(deltas, 2*s)
					}
				}
				if g != 0 {
					f.cmap[rune(c)] = g
					if c < len(f.ascii) {
						f.ascii[c] = g
					}
				}
			}
		}
		return
	}
}

// readPairs reads the table of kerned pairs (version 0, format 0).
func (f *font) readPairs() {
	t := f.tables["kern"]
	if len(t) == 0 {
		return
	}
	for i := range int(u16(t, 10)) {
		at := 18 + 6*i
		if at+6 > len(t) {
			return
		}
		f.kern[u32(t, at)] = f.scale * float64(i16(t, at+4))
	}
}

// pair returns how much nearer (negative) two glyphs stand.
func (f *font) pair(a, b uint16) float64 { return f.kern[uint32(a)<<16|uint32(b)] }

// glyph returns a glyph's outline, empty for a space.
func (f *font) glyph(g uint16) []byte {
	if int(g) >= f.glyphs {
		return nil
	}
	return f.tables["glyf"][f.loca[g]:f.loca[g+1]]
}

// closure adds to the glyphs those that they are put together from.
func (f *font) closure(used []uint16) []uint16 {
	seen := map[uint16]bool{0: true}
	all := []uint16{0}
	for todo := slices.Clone(used); len(todo) > 0; todo = todo[1:] {
		g := todo[0]
		if !seen[g] {
			seen[g] = true
			all = append(all, g)
		}
		for _, c := range components(f.glyph(g)) {
			if !seen[c] {
				todo = append(todo, c)
			}
		}
	}
	slices.Sort(all)
	return all
}

// components lists the glyphs that a composite one names.
func components(outline []byte) []uint16 {
	if len(outline) < 12 || i16(outline, 0) >= 0 {
		return nil
	}
	var out []uint16
	for at := 10; at+4 <= len(outline); {
		flags := u16(outline, at)
		out = append(out, u16(outline, at+2))
		at += 6
		if flags&1 != 0 { // arguments are words
			at += 2
		}
		switch {
		case flags&8 != 0:
			at += 2
		case flags&0x40 != 0:
			at += 4
		case flags&0x80 != 0:
			at += 8
		}
		if flags&0x20 == 0 {
			break
		}
	}
	return out
}

// cutDown returns a font file with the outlines of the used glyphs alone. Glyphs
// keep their numbers; those not used are empty.
func (f *font) cutDown(used []uint16) []byte {
	var glyf, loca []byte
	next := f.closure(used)
	for g := range f.glyphs {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		if len(next) > 0 && int(next[0]) == g {
			next = next[1:]
			glyf = append(glyf, f.glyph(uint16(g))...)
			for len(glyf)%4 != 0 {
				glyf = append(glyf, 0)
			}
		}
	}
	loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
	head := slices.Clone(f.tables["head"])
	binary.BigEndian.PutUint16(head[50:], 1)
	binary.BigEndian.PutUint32(head[8:], 0)
	tables := []struct {
		tag  string
		data []byte
	}{{"glyf", glyf}, {"head", head}, {"hhea", f.tables["hhea"]}, {"hmtx", f.tables["hmtx"]}, {"loca", loca}, {"maxp", f.tables["maxp"]}}
	out := []byte{0, 1, 0, 0, 0, byte(len(tables)), 0, 64, 0, 2, 0, 32}
	at := len(out) + 16*len(tables)
	var body []byte
	headAt := 0
	for _, t := range tables {
		out = append(out, t.tag...)
		out = binary.BigEndian.AppendUint32(out, checksum(t.data))
		out = binary.BigEndian.AppendUint32(out, uint32(at+len(body)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(t.data)))
		if t.tag == "head" {
			headAt = at + len(body)
		}
		body = append(body, t.data...)
		for len(body)%4 != 0 {
			body = append(body, 0)
		}
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out[headAt+8:], 0xb1b0afba-checksum(out))
	return out
}

func checksum(b []byte) uint32 {
	var sum uint32
	for ; len(b) >= 4; b = b[4:] {
		sum += u32(b, 0)
	}
	var last [4]byte
	copy(last[:], b)
	return sum + u32(last[:], 0)
}
