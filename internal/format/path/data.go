package path

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// reader walks the data of one path. Places are in the drawing's own units
// until they are handed to the pen.
type reader struct {
	d           *drawing
	text        string
	at          int
	room        int // edges that may still be made
	start, here r2.Vec
	ctrl        r2.Vec // of the last curve, for the smooth ones
	last        byte
	loop        planar.Loop
	out         []planar.Loop
}

// loops returns the closed loops of path data; an open one is refused.
func (d *drawing) loops(text string, room int) ([]planar.Loop, error) {
	r := &reader{d: d, text: text, room: room}
	for {
		c, ok := r.command()
		if !ok {
			break
		}
		if r.last == 0 && c != 'M' && c != 'm' {
			return nil, errors.New("path data begins with M")
		}
		if err := r.do(c); err != nil {
			return nil, err
		}
		if len(r.loop) > r.room {
			return nil, errors.New("the drawing has too many edges")
		}
	}
	if strings.TrimSpace(r.text[r.at:]) != "" {
		return nil, fmt.Errorf("path data cannot be read from %q on", clip(r.text[r.at:]))
	}
	return r.out, r.finish()
}

func (r *reader) blank() {
	for r.at < len(r.text) && strings.IndexByte(" \t\r\n,", r.text[r.at]) >= 0 {
		r.at++
	}
}

// command returns the next command; numbers after a command repeat it.
func (r *reader) command() (byte, bool) {
	r.blank()
	if r.at >= len(r.text) {
		return 0, false
	}
	c := r.text[r.at]
	if strings.IndexByte("MmLlHhVvCcSsQqTtAaZz", c) >= 0 {
		r.at++
		return c, true
	}
	if strings.IndexByte("+-.0123456789", c) < 0 || r.last == 0 || r.last == 'Z' || r.last == 'z' {
		return 0, false
	}
	switch r.last {
	case 'M':
		return 'L', true
	case 'm':
		return 'l', true
	}
	return r.last, true
}

// number reads one number; numbers may follow each other without a space.
func (r *reader) number() (float64, error) {
	r.blank()
	from, dot, exp := r.at, false, false
scan:
	for ; r.at < len(r.text); r.at++ {
		c := r.text[r.at]
		switch {
		case c >= '0' && c <= '9':
		case c == '.' && !dot && !exp:
			dot = true
		case (c == 'e' || c == 'E') && !exp && r.at > from:
			exp = true
		case (c == '+' || c == '-') && (r.at == from || r.text[r.at-1] == 'e' || r.text[r.at-1] == 'E'):
		default:
			break scan
		}
	}
	v, err := strconv.ParseFloat(r.text[from:r.at], 64)
	if err != nil || math.Abs(v) > 1e7 {
		return 0, fmt.Errorf("path data: a number is wanted before %q", clip(r.text[from:]))
	}
	return v, nil
}

// flag reads an arc's flag, which is one digit.
func (r *reader) flag() (bool, error) {
	r.blank()
	if r.at < len(r.text) && (r.text[r.at] == '0' || r.text[r.at] == '1') {
		r.at++
		return r.text[r.at-1] == '1', nil
	}
	return false, errors.New("path data: an arc's flag is 0 or 1")
}

// points reads n places, relative to here where the command is a small letter.
func (r *reader) points(c byte, n int) ([]r2.Vec, error) {
	out := make([]r2.Vec, n)
	for i := range out {
		x, err := r.number()
		if err != nil {
			return nil, err
		}
		y, err := r.number()
		if err != nil {
			return nil, err
		}
		out[i] = r2.Vec{X: x, Y: y}
		if c >= 'a' {
			out[i] = out[i].Add(r.here)
		}
	}
	return out, nil
}

// do carries out one command.
func (r *reader) do(c byte) error {
	before := r.last
	r.last = c
	switch c {
	case 'M', 'm':
		ps, err := r.points(c, 1)
		if err != nil {
			return err
		}
		if err := r.finish(); err != nil {
			return err
		}
		r.start, r.here = ps[0], ps[0]
	case 'L', 'l':
		ps, err := r.points(c, 1)
		if err != nil {
			return err
		}
		r.line(ps[0])
	case 'H', 'h', 'V', 'v':
		return r.straight(c)
	case 'Z', 'z':
		r.line(r.start)
		r.close()
	case 'A', 'a':
		return r.arc(c)
	default:
		return r.bezier(c, before)
	}
	return nil
}

func (r *reader) straight(c byte) error {
	v, err := r.number()
	if err != nil {
		return err
	}
	to := r.here
	switch c {
	case 'H':
		to.X = v
	case 'h':
		to.X += v
	case 'V':
		to.Y = v
	case 'v':
		to.Y += v
	}
	r.line(to)
	return nil
}

// bezier reads a cubic or quadratic curve; the smooth ones begin as the last
// one ended.
func (r *reader) bezier(c, before byte) error {
	smooth, cubic := c == 'S' || c == 's' || c == 'T' || c == 't', strings.IndexByte("CcSs", c) >= 0
	n := 2
	if cubic {
		n = 3
	}
	if smooth {
		n--
	}
	ps, err := r.points(c, n)
	if err != nil {
		return err
	}
	if smooth {
		first := r.here
		if cubic && strings.IndexByte("CcSs", before) >= 0 || !cubic && strings.IndexByte("QqTt", before) >= 0 {
			first = r.here.Mul(2).Sub(r.ctrl)
		}
		ps = append([]r2.Vec{first}, ps...)
	}
	r.ctrl = ps[len(ps)-2]
	if !cubic { // raised to a cubic
		q := ps[0]
		ps = []r2.Vec{r.here.Lerp(q, 2.0/3), ps[1].Lerp(q, 2.0/3), ps[1]}
	}
	r.curve(bezier{r.d.at(r.here), r.d.at(ps[0]), r.d.at(ps[1]), r.d.at(ps[2])})
	r.here = ps[2]
	return nil
}

// line adds a straight edge.
func (r *reader) line(to r2.Vec) {
	r.edge(r.d.at(r.here), 0)
	r.here = to
}

// edge adds the edge that starts at p, unless it is too short to be one.
func (r *reader) edge(p r2.Vec, bulge float64) {
	if n := len(r.loop); n > 0 && r.loop[n-1].P.Sub(p).Len() < shortest {
		r.loop[n-1].Bulge = bulge
		return
	}
	r.loop = append(r.loop, planar.Vertex{P: p, Bulge: bulge})
}

// shortest is the length under which an edge is left out, mm, and how far the
// ends of a closed path may be apart.
const shortest = 1e-3

// close ends a loop, which is kept if it encloses anything.
func (r *reader) close() {
	n := len(r.loop)
	if n > 1 && r.loop[n-1].P.Sub(r.loop[0].P).Len() < shortest {
		r.loop = r.loop[:n-1]
	}
	if len(r.loop) >= 2 && math.Abs(r.loop.Area()) > 1e-3 {
		r.out = append(r.out, r.loop)
		r.room -= len(r.loop)
	}
	r.loop, r.here = nil, r.start
}

// finish ends a path that is not closed by a Z: it must have come back.
func (r *reader) finish() error {
	if len(r.loop) == 0 {
		return nil
	}
	if gap := r.d.at(r.here).Sub(r.d.at(r.start)).Len(); gap > shortest {
		return fmt.Errorf("a path is not closed: %.3g mm are missing", gap)
	}
	r.close()
	return nil
}
