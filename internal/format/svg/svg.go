// Package svg writes leaves as Scalable Vector Graphics (W3C, SVG 1.1, with
// 'paint-order' of SVG 2 for the halo of letters).
//
// One user unit is one millimetre. There is no script, no outside font or
// picture and no style attribute; looks are presentation attributes, so a
// figure is right without any style sheet, and class names stand beside them,
// so a page can recolour it: leaf-ink and leaf-accent (lines), leaf-paper
// (what hides), leaf-solid and leaf-solid-accent (filled), leaf-words and
// leaf-words-accent, leaf-halo.
//
// Lines that follow each other in one look become one path. What is filled
// with paper hides only what came before it: lines are never moved across it.
// Words come last, over everything. Places are rounded to 0.01 mm.
package svg

import (
	"strconv"
	"strings"

	"rodwork/internal/leaf"
)

// Faces is the font family of all words: a page that embeds the face under the
// name Table is served first.
const Faces = `Table, "Source Sans 3", sans-serif`

// Render returns the leaf as a plate in a file of its own, with its title and
// caption drawn, in UTF-8. A full-size leaf becomes a sheet that is not scaled,
// in one ink, with a square of 100 mm to measure.
func Render(l leaf.Leaf) []byte {
	w := &writer{}
	p := leaf.Plate(l)
	if l.FullSize {
		p = sheet(l)
	}
	w.open(l, p)
	if !l.FullSize {
		w.s(`<rect class="leaf-ground" width="`).num(p.W).s(`" height="`).num(p.H).s(`" fill="` + leaf.PaperTone + `"/>` + "\n")
	}
	w.items(p.Items)
	w.s("</svg>\n")
	return []byte(w.b.String())
}

// Inline returns the figure alone, without title and caption, to stand in an
// HTML page that sets those itself. All ids begin with the prefix, which must
// be unique on the page.
func Inline(l leaf.Leaf, prefix string) []byte {
	w := &writer{}
	id := clean(prefix)
	w.s(`<svg class="leaf" viewBox="0 0 `).num(l.W).s(" ").num(l.H)
	w.s(`" role="img" aria-labelledby="` + id + `-t ` + id + `-d">` + "\n")
	w.head(id+"-t", id+"-d", l)
	w.items(l.Items)
	w.s("</svg>\n")
	return []byte(w.b.String())
}

// open writes what a file of its own begins with; p has its size.
func (w *writer) open(l, p leaf.Leaf) {
	w.s(`<?xml version="1.0" encoding="UTF-8"?>` + "\n" + `<svg xmlns="http://www.w3.org/2000/svg" width="`)
	w.num(p.W).s(`mm" height="`).num(p.H).s(`mm" viewBox="0 0 `).num(p.W).s(" ").num(p.H)
	w.s(`" role="img" aria-labelledby="t d">` + "\n")
	w.head("t", "d", l)
	w.s("<style>text{font-variant-numeric:lining-nums tabular-nums}</style>\n")
}

type writer struct{ b strings.Builder }

func (w *writer) s(s string) *writer { w.b.WriteString(s); return w }

// num writes a number with at most two decimals.
func (w *writer) num(v float64) *writer { return w.hundredths(hundredths(v)) }

func (w *writer) head(title, desc string, l leaf.Leaf) {
	w.s(`<title id="` + title + `">` + escape(l.Title) + `</title><desc id="` + desc + `">` + escape(l.Alt) + "</desc>\n")
}

func (w *writer) items(items []leaf.Item) {
	w.s(`<g class="leaf-ink" fill="none" stroke="` + leaf.Ink + `" stroke-linejoin="miter">` + "\n")
	w.paths(items)
	w.s("</g>\n")
	w.texts(items)
}

// look is what paths must share to be written as one.
type look struct {
	line   leaf.Line
	accent bool
	fill   leaf.Fill
}

// paths writes the lines, gathered by look between two fills of paper.
func (w *writer) paths(items []leaf.Item) {
	var order []look
	held := map[look][]leaf.Seg{}
	flush := func() {
		for _, k := range order {
			w.path(k, held[k])
		}
		order = order[:0]
		clear(held)
	}
	for _, it := range items {
		p, ok := it.(leaf.Path)
		if !ok || len(p.Segs) == 0 {
			continue
		}
		k := look{p.Line, p.Accent, p.Fill}
		if k.fill == leaf.Paper {
			flush()
			w.path(k, p.Segs)
			continue
		}
		if _, ok := held[k]; !ok {
			order = append(order, k)
		}
		held[k] = append(held[k], p.Segs...)
	}
	flush()
}

func (w *writer) path(k look, segs []leaf.Seg) {
	w.s("<path")
	w.paint(k)
	if k.line != "" {
		l := leaf.LookOf(k.line)
		w.s(` stroke-width="`).num(l.Width).s(`"`)
		if len(l.Dash) > 0 {
			w.s(` stroke-dasharray="`)
			for i, d := range l.Dash {
				if i > 0 {
					w.s(" ")
				}
				w.num(d)
			}
			w.s(`"`)
		}
		if l.Round {
			w.s(` stroke-linecap="round"`)
		}
	}
	w.s(` d="`)
	w.data(segs)
	w.s(`"/>` + "\n")
}

// paint writes class, fill and stroke where they differ from ink lines.
func (w *writer) paint(k look) {
	tone, class := leaf.Ink, ""
	if k.accent {
		tone, class = leaf.AccentTone, " leaf-accent"
	}
	switch k.fill {
	case leaf.Solid:
		if k.accent {
			w.s(` class="leaf-solid-accent"`)
		} else {
			w.s(` class="leaf-solid"`)
		}
		w.s(` fill="` + tone + `"`)
		if k.line == "" {
			w.s(` stroke="none"`)
		}
		return
	case leaf.Paper:
		w.s(` class="leaf-paper` + class + `" fill="` + leaf.PaperTone + `"`)
		if k.line == "" {
			w.s(` stroke="none"`)
		}
	default:
		if k.accent {
			w.s(` class="leaf-accent"`)
		}
	}
	if k.accent && k.line != "" {
		w.s(` stroke="` + tone + `"`)
	}
}

// data writes path data: places absolute at the start of each run, relative
// after, in whole hundredths so that nothing adds up.
func (w *writer) data(segs []leaf.Seg) {
	var x, y int
	for _, s := range segs {
		nx, ny := hundredths(s.P.X), hundredths(s.P.Y)
		switch s.Op {
		case leaf.Move:
			w.s("M").hundredths(nx).s(" ").hundredths(ny)
		case leaf.To:
			switch {
			case ny == y:
				w.s("h").hundredths(nx - x)
			case nx == x:
				w.s("v").hundredths(ny - y)
			default:
				w.s("l").pair(nx-x, ny-y)
			}
		case leaf.Arc:
			w.s("a").num(s.R).s(" ").num(s.R).s(" 0 "+bit(s.Large)+" "+bit(!s.Left)+" ").pair(nx-x, ny-y)
		case leaf.Close:
			w.s("z")
			continue
		}
		x, y = nx, ny
	}
}

func (w *writer) pair(x, y int) *writer {
	w.hundredths(x)
	if y >= 0 {
		w.s(" ")
	}
	return w.hundredths(y)
}

func bit(b bool) string {
	if b {
		return "1"
	}
	return "0"
}

func (w *writer) hundredths(n int) *writer {
	if n < 0 {
		w.s("-")
		n = -n
	}
	whole, part := n/100, n%100
	if whole > 0 || part == 0 {
		w.s(strconv.Itoa(whole))
	}
	if part > 0 {
		w.s(".")
		if part < 10 {
			w.s("0")
		}
		if part%10 == 0 {
			part /= 10
		}
		w.s(strconv.Itoa(part))
	}
	return w
}
