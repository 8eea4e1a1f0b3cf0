package path

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/planar"
	"rodwork/internal/geom/r2"
)

// Bounds of a drawing.
const (
	maxBytes    = 1 << 20
	maxElements = 20_000
	maxDepth    = 64
	maxEdges    = 4_000
	maxSize     = 20_000 // mm
)

// Within is how far the arcs may keep from a curve that they stand for, mm.
const Within = 0.02

// Read returns the one shape that the paths of an SVG drawing make, mm: the
// largest closed path is its outline, the others are holes in it.
func Read(src []byte) (planar.Region, error) {
	if len(src) > maxBytes {
		return nil, errors.New("the drawing is larger than 1 MB")
	}
	d := drawing{}
	if err := d.scan(xml.NewDecoder(bytes.NewReader(src))); err != nil {
		return nil, err
	}
	if len(d.paths) == 0 {
		return nil, errors.New("the drawing has no path")
	}
	var loops []planar.Loop
	for _, text := range d.paths {
		ls, err := d.loops(text, maxEdges-edges(loops))
		if err != nil {
			return nil, err
		}
		loops = append(loops, ls...)
	}
	return assemble(loops)
}

func edges(ls []planar.Loop) int {
	n := 0
	for _, l := range ls {
		n += len(l)
	}
	return n
}

// assemble makes the largest loop the outline and the others holes in it.
func assemble(loops []planar.Loop) (planar.Region, error) {
	if len(loops) == 0 {
		return nil, errors.New("no path of the drawing is closed")
	}
	largest := 0
	for i, l := range loops {
		if math.Abs(l.Area()) > math.Abs(loops[largest].Area()) {
			largest = i
		}
	}
	out := planar.Of(loops[largest])
	for i, l := range loops {
		if i == largest {
			continue
		}
		hole := planar.Of(l)
		left, err := planar.Difference(out, hole)
		if err != nil {
			return nil, fmt.Errorf("path %d crosses itself", i+1)
		}
		if len(left) != 1 || math.Abs(out.Area()-left.Area()-hole.Area()) > 1e-3 {
			return nil, fmt.Errorf("path %d is no hole in the largest one: one drawing is one shape", i+1)
		}
		out = left
	}
	return out, nil
}

// drawing is what is known of a drawing: the scale of its units, and its paths.
type drawing struct {
	kx, ky, x0, y1 float64 // mm per unit; left and lower edge of the viewBox
	root           bool
	paths          []string
}

// idle are elements whose contents are not drawn.
var idle = map[string]bool{"defs": true, "metadata": true, "title": true, "desc": true, "style": true, "namedview": true}

// scan walks the elements.
func (d *drawing) scan(x *xml.Decoder) error {
	depth, count, skip := 0, 0, 0
	for {
		t, err := x.Token()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("it is no SVG drawing: %v", err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			depth++
			if count++; count > maxElements || depth > maxDepth {
				return errors.New("the drawing has too many elements")
			}
			switch {
			case skip > 0 || d.root && idle[t.Name.Local]:
				skip++
			default:
				if err := d.element(t); err != nil {
					return err
				}
			}
		case xml.EndElement:
			depth--
			skip = max(0, skip-1)
		}
	}
}

func (d *drawing) element(t xml.StartElement) error {
	attr := map[string]string{}
	for _, a := range t.Attr {
		attr[a.Name.Local] = a.Value
	}
	if !d.root {
		if t.Name.Local != "svg" {
			return fmt.Errorf("it is no SVG drawing but <%s>", clip(t.Name.Local))
		}
		d.root = true
		return d.size(attr)
	}
	if attr["transform"] != "" {
		return fmt.Errorf("<%s> has a transform: apply it in the drawing program first", clip(t.Name.Local))
	}
	switch t.Name.Local {
	case "path":
		d.paths = append(d.paths, attr["d"])
	case "g", "a":
	case "rect", "circle", "ellipse", "line", "polyline", "polygon", "text", "image", "use", "svg", "switch", "symbol":
		return fmt.Errorf("<%s> is not read: turn it into a path in the drawing program", t.Name.Local)
	}
	return nil
}

func clip(s string) string {
	if len(s) > 30 {
		return s[:30] + "…"
	}
	return s
}

// size finds how large a unit is.
func (d *drawing) size(attr map[string]string) error {
	w, okW := inMM(attr["width"])
	h, okH := inMM(attr["height"])
	if !okW || !okH {
		return errors.New("the drawing does not say its width and height in mm, cm or in")
	}
	box := strings.FieldsFunc(attr["viewBox"], func(r rune) bool { return r == ' ' || r == ',' || r == '\n' || r == '\t' })
	var v [4]float64
	if len(box) != 4 {
		return errors.New("the drawing has no viewBox")
	}
	for i, s := range box {
		f, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsInf(f, 0) || math.IsNaN(f) || math.Abs(f) > 1e7 {
			return errors.New("the viewBox is not four numbers")
		}
		v[i] = f
	}
	if !(v[2] > 1e-6 && v[3] > 1e-6) {
		return errors.New("the viewBox is empty")
	}
	d.kx, d.ky, d.x0, d.y1 = w/v[2], h/v[3], v[0], v[1]+v[3]
	if math.Abs(d.kx/d.ky-1) > 1e-3 {
		return fmt.Errorf("a unit is %.4g mm wide and %.4g mm high", d.kx, d.ky)
	}
	d.ky = d.kx
	return nil
}

// inMM reads a length with a unit.
func inMM(s string) (float64, bool) {
	s = strings.TrimSpace(s)
	for _, u := range []struct {
		name string
		f    float64
	}{{"mm", 1}, {"cm", 10}, {"in", 25.4}} {
		if n, ok := strings.CutSuffix(s, u.name); ok {
			v, err := strconv.ParseFloat(strings.TrimSpace(n), 64)
			return v * u.f, err == nil && v > 0 && v*u.f <= maxSize
		}
	}
	return 0, false
}

// at turns a place of the drawing into mm, y up.
func (d *drawing) at(p r2.Vec) r2.Vec {
	return r2.Vec{X: (p.X - d.x0) * d.kx, Y: (d.y1 - p.Y) * d.ky}
}
