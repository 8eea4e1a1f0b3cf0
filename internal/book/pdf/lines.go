package pdf

import (
	"strings"
	"unicode/utf8"

	paper "rodwork/internal/format/pdf"
)

// bit is a stretch of one style, or a mark.
type bit struct {
	style paper.Style
	s     string
	sign  string  // key of a mark instead of words
	rise  float64 // above the base line; negative for an index
	link  string
	w     float64
}

// word is what no line breaks in: bits that touch.
type word struct {
	bits []bit
	w    float64
	gap  float64 // the space before it, where it does not begin a line
}

// line is a line of words.
type line struct {
	words []word
	w     float64
}

// text gathers words.
type text struct {
	words []word
	loose bool // a space came since the last word
	gap   float64
}

// add appends words in a style; spaces in them break lines.
func (t *text) add(st paper.Style, s string) { t.put(bit{style: st}, s) }

// put appends words like the bit. Spaces that may not break are kept in it.
func (t *text) put(like bit, s string) {
	space := paper.Width(like.style.Face, like.style.Size, " ")
	for s != "" {
		at := strings.IndexAny(s, " \n\t")
		switch {
		case at == 0:
			t.loose, t.gap = true, space
			s = s[1:]
		case at < 0:
			t.join(like, s)
			s = ""
		default:
			t.join(like, s[:at])
			s = s[at:]
		}
	}
}

// signGap is the space after a mark, as a share of its height.
const signGap = 0.38

// sign appends a mark of a height; the word after it stays on its line.
func (t *text) sign(key string, size float64, st paper.Style) {
	t.attach(bit{style: st, sign: key, w: size * (1 + signGap)})
}

func (t *text) join(like bit, s string) {
	like.s, like.w = s, paper.Width(like.style.Face, like.style.Size, s)
	t.attach(like)
}

func (t *text) attach(b bit) {
	if t.loose || len(t.words) == 0 {
		gap := t.gap
		if len(t.words) == 0 {
			gap = 0
		}
		t.words = append(t.words, word{gap: gap})
		t.loose = false
	}
	w := &t.words[len(t.words)-1]
	w.bits = append(w.bits, b)
	w.w += b.w
}

// broken breaks words into lines of at most a width, each as full as it goes. A
// word that no line holds is cut.
func broken(words []word, width float64) []line {
	var out []line
	var cur line
	for _, w := range words {
		for {
			gap := w.gap
			if len(cur.words) == 0 {
				gap = 0
			}
			if cur.w+gap+w.w <= width+1e-9 {
				w.gap = gap
				cur.words, cur.w = append(cur.words, w), cur.w+gap+w.w
				break
			}
			if len(cur.words) > 0 {
				out, cur = append(out, cur), line{}
				continue
			}
			head, rest := cutWord(w, width)
			out = append(out, line{words: []word{head}, w: head.w})
			if len(rest.bits) == 0 {
				break
			}
			w = rest
		}
	}
	if len(cur.words) > 0 {
		out = append(out, cur)
	}
	return out
}

// cutWord cuts a word at a width, after a hyphen or a slash where there is one;
// at least one letter goes to the head.
func cutWord(w word, width float64) (head, rest word) {
	for i, b := range w.bits {
		if head.w+b.w <= width {
			head.bits, head.w = append(head.bits, b), head.w+b.w
			continue
		}
		at, good := 0, 0
		for j, r := range b.s {
			n := j + utf8.RuneLen(max(r, 0))
			if r == utf8.RuneError {
				n = j + 1
			}
			n = min(n, len(b.s))
			if head.w+paper.Width(b.style.Face, b.style.Size, b.s[:n]) > width && (at > 0 || len(head.bits) > 0) {
				break
			}
			at = n
			if strings.ContainsRune("-/–×,.", r) {
				good = n
			}
		}
		if good > 0 && good < len(b.s) {
			at = good
		}
		first, last := b, b
		first.s, last.s = b.s[:at], b.s[at:]
		first.w = paper.Width(b.style.Face, b.style.Size, first.s)
		last.w = max(0, b.w-first.w) // but for the kerning between them
		if b.sign != "" {            // a mark wider than the line is not cut
			first, last = b, bit{style: b.style}
		}
		if first.s != "" || first.sign != "" {
			head.bits, head.w = append(head.bits, first), head.w+first.w
		}
		if last.s != "" {
			rest.bits, rest.w = append(rest.bits, last), last.w
		}
		for _, b := range w.bits[i+1:] {
			rest.bits, rest.w = append(rest.bits, b), rest.w+b.w
		}
		return head, rest
	}
	return head, rest
}

// natural returns the width of the longest word and of all on one line.
func (t *text) natural() (least, most float64) {
	for i, w := range t.words {
		least = max(least, w.w)
		if i > 0 {
			most += w.gap
		}
		most += w.w
	}
	return least, most
}

// draw sets a line with its base line at y. Bits of one style that follow each
// other are one piece of text, with their spaces, so that it reads well when
// copied.
func (s *setter) draw(x, y float64, l line) {
	if s.dry {
		return
	}
	var run bit
	at := x
	flush := func() {
		if run.s != "" {
			s.page.Words(at, y-run.rise, run.style, run.s)
			if run.link != "" {
				s.page.Link(at, y-run.style.Size*0.75, run.w, run.style.Size, run.link)
			}
		}
		at += run.w
		run = bit{}
	}
	for i, w := range l.words {
		for j, b := range w.bits {
			gap := 0.0
			if i > 0 && j == 0 {
				gap = w.gap
			}
			same := run.s != "" && b.sign == "" && run.style == b.style && run.rise == b.rise && run.link == b.link
			if !same {
				if gap > 0 && run.s != "" && run.link == "" {
					run.s, run.w = run.s+" ", run.w+gap
				} else {
					run.w += gap
				}
				flush()
				if b.sign != "" {
					s.sign(b.sign, at, y, b.w/(1+signGap))
					at += b.w
					continue
				}
				run = b
				continue
			}
			if gap > 0 {
				run.s, run.w = run.s+" ", run.w+gap
			}
			run.s, run.w = run.s+b.s, run.w+b.w
		}
	}
	if run.s != "" { // so that the words of two lines stay apart when read
		run.s += " "
	}
	flush()
}

// fit cuts a text with an ellipsis where it is longer than the room.
func fit(st paper.Style, s string, room float64) string {
	const dots = "…"
	if len(s) < 400 && paper.Width(st.Face, st.Size, s) <= room {
		return s
	}
	room -= paper.Width(st.Face, st.Size, dots)
	end, w := 0, 0.0
	for i, r := range s {
		w += paper.Width(st.Face, st.Size, string(r))
		if w > room {
			break
		}
		end = i
		if r != utf8.RuneError {
			end += utf8.RuneLen(r)
		}
	}
	return strings.TrimRight(s[:end], " ,·") + dots
}
