package planar

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/r2"
)

// maxText bounds a region's text.
const maxText = 1 << 16

// Parse reads a region from its text form, which tests and people use:
//
//	M 0 0 L 100 0 L 100 80 A 20 80 100 L 0 100 Z
//	M 30 30 A -5 40 30 A -5 30 30 Z
//
// M starts a loop, L leads straight on, A r x y along an arc of radius r and at
// most half a turn that turns left (r < 0: right), Z closes the loop to its
// start. The sense of a loop does not matter: loops within loops are holes,
// loops within holes are shapes again.
func Parse(text string) (Region, error) {
	if len(text) > maxText {
		return nil, fmt.Errorf("planar: a text of %d characters; %d is the most", len(text), maxText)
	}
	words := strings.Fields(text)
	var loops []Loop
	for len(words) > 0 {
		l, rest, err := parseLoop(words)
		if err != nil {
			return nil, err
		}
		loops, words = append(loops, l), rest
	}
	return byDepth(loops)
}

// MustParse is Parse for texts that are known to be right; it panics if not.
func MustParse(text string) Region {
	r, err := Parse(text)
	if err != nil {
		panic(err)
	}
	return r
}

func parseLoop(words []string) (Loop, []string, error) {
	if words[0] != "M" {
		return nil, nil, fmt.Errorf("planar: a loop starts with M, not %.20q", words[0])
	}
	var l Loop
	for len(words) > 0 {
		word := words[0]
		n := map[string]int{"M": 2, "L": 2, "A": 3, "Z": 0}[word]
		if len(words) < n+1 || n == 0 && word != "Z" || word == "M" && len(l) > 0 {
			return nil, nil, fmt.Errorf("planar: at %.20q: M x y, L x y, A r x y or Z expected", word)
		}
		var v [3]float64
		for i := range n {
			f, err := strconv.ParseFloat(words[1+i], 64)
			if err != nil || !(math.Abs(f) < 1e9) {
				return nil, nil, fmt.Errorf("planar: %.20q is no coordinate", words[1+i])
			}
			v[i] = f
		}
		words = words[n+1:]
		if word == "Z" {
			return closeLoop(l, words)
		}
		p := r2.Vec{X: v[n-2], Y: v[n-1]}
		if word == "A" {
			arc := v[0]
			e, err := ArcThrough(l[len(l)-1].P, p, arc)
			if err != nil {
				return nil, nil, err
			}
			if e.B.Sub(e.A).Len() > 2*math.Abs(arc)-4*Near {
				// In a text of six decimals half a turn is meant; the sagitta
				// of an arc so near to it could not be told from it anyway.
				e.Bulge = math.Copysign(1, arc)
			}
			l[len(l)-1].Bulge = e.Bulge
		}
		l = append(l, Vertex{P: p})
	}
	return nil, nil, errors.New("planar: a loop ends with Z")
}

// closeLoop drops a last point that is the first again.
func closeLoop(l Loop, rest []string) (Loop, []string, error) {
	if n := len(l); n > 1 && l[n-1].P == l[0].P && l[n-1].Bulge == 0 {
		l = l[:n-1]
	}
	if len(l) < 2 || math.Abs(l.Area()) <= Near {
		return nil, nil, errors.New("planar: a loop without area")
	}
	return l, rest, nil
}

// byDepth sorts loops that don't cross into shapes: even depth is material.
func byDepth(loops []Loop) (Region, error) {
	if len(loops) > 1000 {
		return nil, errors.New("planar: more than 1000 loops")
	}
	turned := make([]Loop, len(loops))
	for i, l := range loops {
		depth := 0
		for j, m := range loops {
			if i != j && m.turned(true).holds(l, Near) {
				depth++
			}
		}
		turned[i] = l.turned(depth%2 == 0)
	}
	var out Region
	for _, l := range turned {
		if l.Area() > 0 {
			out = append(out, Shape{Outer: l})
		}
	}
	for _, h := range turned {
		if h.Area() > 0 {
			continue
		}
		best := -1
		for i := range out {
			if out[i].Outer.holds(h, Near) && (best < 0 || out[i].Outer.Area() < out[best].Outer.Area()) {
				best = i
			}
		}
		if best < 0 {
			return nil, ErrTangled
		}
		out[best].Holes = append(out[best].Holes, h)
	}
	return out, nil
}

// String returns the region in the form that Parse reads, one loop a line.
func (r Region) String() string {
	var b strings.Builder
	for i, l := range r.Loops() {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(l.String())
	}
	return b.String()
}

// String returns the loop in the form that Parse reads. An arc over half a turn
// is written as two; so is one a little under it, as radius and ends tell it
// badly.
func (l Loop) String() string {
	var b strings.Builder
	for i := range l {
		e := l.Edge(i)
		if i == 0 {
			fmt.Fprintf(&b, "M %s", coords(e.A))
		}
		writeEdge(&b, e, i == len(l)-1)
	}
	b.WriteString(" Z")
	return b.String()
}

func writeEdge(b *strings.Builder, e Edge, last bool) {
	b0 := math.Abs(e.Bulge)
	switch {
	case b0 > 0.9 && math.Abs(b0-1) > 1e-9:
		m := e.At(0.5)
		writeEdge(b, e.part(0, 0.5, e.A, m), false)
		writeEdge(b, e.part(0.5, 1, m, e.B), last)
	case e.IsArc():
		fmt.Fprintf(b, " A %s %s", number(math.Copysign(e.Radius(), e.Bulge)), coords(e.B))
	case !last:
		fmt.Fprintf(b, " L %s", coords(e.B))
	}
}

func coords(p r2.Vec) string { return number(p.X) + " " + number(p.Y) }

// number prints to the nanometre, so that rounding does not show.
func number(x float64) string {
	r := math.Round(x*1e6) / 1e6
	if r == 0 {
		r = 0 // no negative zero
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}
