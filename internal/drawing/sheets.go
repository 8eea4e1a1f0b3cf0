package drawing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/units"
	"rodwork/internal/work"
)

// Sheets returns a figure for each sheet, and one for all sticks of a stock, in
// the order of the layouts.
func Sheets(p *plan.Plan, opt Options) []leaf.Leaf {
	var out []leaf.Leaf
	for _, l := range p.Layouts {
		for i := range l.Sheets {
			out = append(out, sheetLeaf(p.Piece, l, &l.Sheets[i], opt))
		}
		if len(l.Sticks) > 0 {
			out = append(out, sticksLeaf(p.Piece, l, opt))
		}
	}
	return out
}

// sheetDrawing is one sheet on its leaf.
type sheetDrawing struct {
	pen
	ink
	frame
	s     *work.SheetLayout
	piece *piece.Piece
	taken []r2.Box // paper that words and flags cover
}

const (
	sheetLeft  = 28.0
	sheetTop   = 15.0
	sheetWide  = 164.0
	sheetHigh  = 150.0
	drawnIn    = 0.5 // parts are drawn in by this, so that the saw line has room
	flagReach  = 3.2 // from the sheet's edge to a flag outside it
	leastWords = 4.4 // paper on both sides of words inside a part, together: flags stand there
)

// sheetOf draws a sheet up to its cuts.
func sheetOf(pc *piece.Piece, s *work.SheetLayout, opt Options) *sheetDrawing {
	d := &sheetDrawing{ink: ink{systemOf(opt)}, s: s, piece: pc}
	k := min(sheetWide/max(s.Length, 1), sheetHigh/max(s.Width, 1))
	d.frame = frame{At: pt(sheetLeft, sheetTop+s.Width*k), K: k}
	d.ground()
	d.kerfs()
	d.parts()
	d.offcuts()
	return d
}

func sheetLeaf(pc *piece.Piece, l work.Layout, s *work.SheetLayout, opt Options) leaf.Leaf {
	d := sheetOf(pc, s, opt)
	d.cuts()
	d.rows()
	bottom := d.y(0) + 12
	bottom = d.foot(bottom)
	return leaf.Leaf{
		Key:     "sheet-" + slug(s.Stock) + "-" + strconv.Itoa(s.Number),
		Title:   fmt.Sprintf("%s, sheet %d of %d", capital(s.Stock), s.Number, len(l.Sheets)),
		Right:   fmt.Sprintf("%s · blade %s · trim %s", d.by(s.Length, s.Width), d.fine(s.Kerf, 1), d.size(s.Trim, 1)),
		Caption: d.caption(),
		Alt:     d.alt(len(l.Sheets)),
		W:       210, H: bottom,
		Items: d.items,
	}
}

// ground draws the sheet, its waste hatched, and the way of its face grain.
func (d *sheetDrawing) ground() {
	s := d.s
	edge := d.box(0, 0, s.Length, s.Width)
	rings := [][]r2.Vec{corners(edge)}
	for _, q := range s.Placements {
		rings = append(rings, corners(d.partBox(q)))
	}
	for _, o := range s.Offcuts {
		rings = append(rings, corners(inset(d.box(o.X, o.Y, o.X+o.Length, o.Y+o.Width), drawnIn/2)))
	}
	d.hatch(leaf.Hatch, false, math.Pi/4, 1.0, rings...)
	if s.GrainAlong != "" && s.GrainAlong != "none" {
		word := "face grain of the sheet"
		if strings.Contains(s.GrainAlong, "width") {
			d.grain(pt(edge.Max.X+12, (edge.Min.Y+edge.Max.Y)/2), 30, true, word)
		} else {
			d.grain(pt((edge.Min.X+edge.Max.X)/2, 4.6), 36, false, word)
		}
	}
}

// partBox is the paper of a part's blank, drawn in; placements carry the
// extents along the sheet.
func (d *sheetDrawing) partBox(q work.Placement) r2.Box {
	return inset(d.box(q.X, q.Y, q.X+q.Length, q.Y+q.Width), drawnIn)
}

func inset(b r2.Box, by float64) r2.Box {
	return r2.Box{Min: b.Min.Add(pt(by, by)), Max: b.Max.Sub(pt(by, by))}
}

func (d *sheetDrawing) parts() {
	for _, q := range d.s.Placements {
		b := d.partBox(q)
		d.add(leaf.Path{Line: leaf.Visible, Fill: leaf.Paper, Segs: rectOf(b)})
		name, number, grain := q.Part, q.Part, piece.AlongLength
		if part := d.piece.Part(q.Part); part != nil {
			number = strconv.Itoa(part.Number)
			name = number + "  " + part.Name
			grain = part.Grain
		}
		length, width := q.Length, q.Width
		if q.Turned {
			length, width = width, length
		}
		// The part's own grain as it lies on the sheet.
		up := (grain == piece.AlongWidth) != q.Turned
		d.words(b, label{name, number, d.by(length, width)}, leaf.Name, grain != piece.NoGrain, up)
	}
}

// label is what is written on a part: its number and name, its number alone
// for where that has no room, and its size.
type label struct{ name, short, size string }

// words writes a label into a box, as large as it has room for, in one line or
// more, level or upright; below it the grain.
func (d *sheetDrawing) words(b r2.Box, lb label, most leaf.Size, grain, grainUp bool) {
	name, size := lb.name, lb.size
	w, h := b.Size().X-leastWords, b.Size().Y-2.2
	up := w < 14 && h > w || leaf.Width(size, leaf.Note, false, false) > w && h > w
	run, deep := w, h
	if up {
		run, deep = h, w
	}
	font := most
	lines := wrap(name, font, run, deep)
	for font > leaf.Note && (lines == nil || leaf.Width(size, font, false, false) > run || deep < 2.6*font.EM()) {
		font--
		lines = wrap(name, font, run, deep)
	}
	if lines == nil {
		lines = []leaf.Text{{S: leaf.Shorten(name, font, true, false, run), Italic: true}}
	}
	lines = append(lines, leaf.Text{S: size})
	step := font.EM() * 1.25
	both := name + "  " + size
	switch {
	case deep < step+font.Cap() && leaf.Width(both, font, false, false) <= run:
		d.sideBySide(b, name, size, font, up)
		return
	case deep < step+font.Cap() && leaf.Width(lb.short+"  "+size, font, false, false) <= run:
		d.sideBySide(b, lb.short, size, font, up)
		return
	case deep < step+font.Cap() && leaf.Width(lb.short+size, font, false, false)+tightGap <= b.Size().X-1:
		d.beside(b, lb.short, size, font, up, tightGap)
		return
	case deep < step+font.Cap():
		lines = []leaf.Text{{S: leaf.Shorten(lb.short, font, true, false, run), Italic: true}}
	}
	mark := grain && deep > float64(len(lines))*step+4 && !up
	c := pt((b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2)
	first := -float64(len(lines)-1)*step/2 + font.Cap()/2
	if mark {
		first -= 1.8
	}
	for i, t := range lines {
		t.Size, t.Anchor, t.Up, t.Halo = font, leaf.Middle, up, true
		off := first + float64(i)*step
		t.At = pt(c.X, c.Y+off)
		if up {
			t.At = pt(c.X+off, c.Y)
		}
		d.word(t)
	}
	if mark {
		d.grainUnder(b, c, first+float64(len(lines)-1)*step, grainUp)
	}
}

// wrap breaks a name into one line, or two where it is too long and the box is
// deep enough; nil where neither fits.
func wrap(name string, font leaf.Size, run, deep float64) []leaf.Text {
	wide := func(s string) float64 { return leaf.Width(s, font, true, false) }
	if wide(name) <= run {
		return []leaf.Text{{S: name, Italic: true}}
	}
	if deep < 4.2*font.EM() {
		return nil
	}
	best, least := -1, run
	for i, r := range name {
		if r == ' ' && i > 3 {
			if w := max(wide(name[:i]), wide(name[i+1:])); w <= least {
				best, least = i, w
			}
		}
	}
	if best < 0 {
		return nil
	}
	return []leaf.Text{{S: name[:best], Italic: true}, {S: name[best+1:], Italic: true}}
}

func (d *sheetDrawing) grainUnder(b r2.Box, c r2.Vec, below float64, up bool) {
	at := pt(c.X, c.Y+below+4)
	length := min(18, b.Size().X*0.4)
	if up {
		length = min(14, (b.Max.Y-at.Y)*1.4-2)
		if length < 5 {
			return
		}
		at.Y += length/2 - 2
	}
	d.grain(at, length, up, "")
}

// sideBySide writes name and size in one line.
func (d *sheetDrawing) sideBySide(b r2.Box, name, size string, font leaf.Size, up bool) {
	d.beside(b, name, size, font, up, 2)
}

// tightGap parts number and size where there is little room.
const tightGap = 1.1

// beside writes name and size in one line, parted by a gap.
func (d *sheetDrawing) beside(b r2.Box, name, size string, font leaf.Size, up bool, gap float64) {
	first, second := leaf.Width(name, font, true, false), leaf.Width(size, font, false, false)
	c := b.Min.Lerp(b.Max, 0.5)
	along := -(first + gap + second) / 2
	for _, t := range []leaf.Text{{S: name, Italic: true}, {S: size}} {
		t.Size, t.Up = font, up
		t.At = pt(c.X+along, c.Y+font.Cap()/2)
		if up {
			t.At = pt(c.X+font.Cap()/2, c.Y-along)
		}
		d.word(t)
		along += first + gap
	}
}

// word writes a text and remembers the paper that it takes.
func (d *sheetDrawing) word(t leaf.Text) {
	d.add(t)
	d.taken = append(d.taken, inset(t.Box(), -0.4))
}

func (d *sheetDrawing) offcuts() {
	for i, o := range d.s.Offcuts {
		b := inset(d.box(o.X, o.Y, o.X+o.Length, o.Y+o.Width), drawnIn/2)
		d.add(leaf.Path{Line: leaf.Dimension, Fill: leaf.Paper, Segs: rectOf(b)})
		c := min(3.0, b.Size().X/3, b.Size().Y/3)
		d.line(leaf.Visible, pt(b.Max.X-c, b.Min.Y), pt(b.Max.X, b.Min.Y+c))
		name := "offcut " + strconv.Itoa(i+1)
		d.words(b, label{name, name, d.size(o.Length, 0) + " × " + d.size(o.Width, 0)}, leaf.Note, false, false)
	}
}

func (d *sheetDrawing) caption() string {
	s := d.s
	used := strconv.FormatFloat(100*s.Used, 'f', 1, 64)
	kept := 0.0
	for _, o := range s.Offcuts {
		kept += o.Length * o.Width
	}
	text := "Numbers on flags are the order of the cuts; the ring is the datum corner. Parts are drawn in a little, so that the saw line has room. " +
		"Parts take " + used + " % of the sheet"
	if kept > 0 && s.Length*s.Width > 0 {
		text += ", kept offcuts " + strconv.FormatFloat(100*kept/(s.Length*s.Width), 'f', 1, 64) + " %"
	}
	return text + ". Sizes are those of the blanks."
}

func (d *sheetDrawing) alt(of int) string {
	var names []string
	for _, q := range d.s.Placements {
		name := q.Part
		if part := d.piece.Part(q.Part); part != nil {
			name = part.Name
		}
		names = append(names, name)
	}
	parts := "1 part"
	if len(names) != 1 {
		parts = fmt.Sprintf("%d parts", len(names))
	}
	return fmt.Sprintf("Sheet %d of %d of %s with %s and %d cuts: %s.",
		d.s.Number, of, d.s.Stock, parts, len(d.s.Cuts), strings.Join(names, ", "))
}

// slug makes a key of a name: small letters, digits and hyphens.
func slug(s string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(s) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	return strings.TrimSuffix(b.String(), "-")
}

// systemOf reads the system with its default.
func systemOf(opt Options) units.System {
	if opt.System == "" {
		return units.MM
	}
	return opt.System
}
