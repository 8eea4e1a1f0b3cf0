package svg

import (
	"math"
	"strings"

	"rodwork/internal/leaf"
)

// face is what words must share to stand in one group.
type face struct {
	size                         leaf.Size
	anchor                       leaf.Anchor
	halo, italic, strong, accent bool
}

// texts writes the words, gathered by face.
func (w *writer) texts(items []leaf.Item) {
	var order []face
	held := map[face][]leaf.Text{}
	for _, it := range items {
		t, ok := it.(leaf.Text)
		if !ok || t.S == "" {
			continue
		}
		k := face{t.Size, t.Anchor, t.Halo, t.Italic, t.Strong, t.Accent}
		if _, ok := held[k]; !ok {
			order = append(order, k)
		}
		held[k] = append(held[k], t)
	}
	if len(order) == 0 {
		return
	}
	w.s(`<g class="leaf-words" fill="` + leaf.Ink + `" font-family="` + escape(Faces) + `">` + "\n")
	for _, k := range order {
		w.face(k)
		for _, t := range held[k] {
			w.text(t)
		}
		w.s("</g>\n")
	}
	w.s("</g>\n")
}

func (w *writer) face(k face) {
	w.s(`<g font-size="`).num(k.size.EM()).s(`"`)
	switch k.anchor {
	case leaf.Middle:
		w.s(` text-anchor="middle"`)
	case leaf.End:
		w.s(` text-anchor="end"`)
	}
	if k.italic {
		w.s(` font-style="italic"`)
	}
	if k.strong {
		w.s(` font-weight="600"`)
	}
	var classes []string
	if k.accent {
		classes = append(classes, "leaf-words-accent")
		w.s(` fill="` + leaf.AccentTone + `"`)
	}
	if k.halo {
		classes = append(classes, "leaf-halo")
		w.s(` paint-order="stroke" stroke="` + leaf.PaperTone + `" stroke-width="1.1" stroke-linejoin="round"`)
	}
	if len(classes) > 0 {
		w.s(` class="` + strings.Join(classes, " ") + `"`)
	}
	w.s(">\n")
}

func (w *writer) text(t leaf.Text) {
	if t.Up {
		w.s(`<text transform="translate(`).num(t.At.X).s(" ").num(t.At.Y).s(`)rotate(-90)">`)
	} else {
		w.s(`<text x="`).num(t.At.X).s(`" y="`).num(t.At.Y).s(`">`)
	}
	w.s(escape(t.S)).s("</text>\n")
}

// hundredths rounds to 0.01 mm; what is no number, or is far off any paper,
// lands at the paper's edge rather than in broken data.
func hundredths(v float64) int {
	if math.IsNaN(v) {
		return 0
	}
	return int(math.Round(100 * math.Max(-1e5, math.Min(1e5, v))))
}

// escape makes text safe inside markup and inside double-quoted attributes; a
// character that XML 1.0 does not allow becomes U+FFFD.
func escape(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '&':
			b.WriteString("&amp;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\'':
			b.WriteString("&#39;")
		case r == '\t' || r == '\n' || r == '\r':
			b.WriteByte(' ')
		case r < 0x20 || r == 0xfffe || r == 0xffff:
			b.WriteRune(0xfffd)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// clean makes an id of any string: letters, digits, '-' and '_'.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '-'
	}, s)
}
