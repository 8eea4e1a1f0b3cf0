package step

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf16"

	"rodwork/internal/geom/r2"
	"rodwork/internal/geom/r3"
)

// ref is the number of an entity.
type ref int

// String is how an entity is referred to: '#12'.
func (r ref) String() string { return "#" + strconv.Itoa(int(r)) }

// writer collects entities.
type writer struct {
	title   string
	data    bytes.Buffer
	next    int
	context ref // of all shapes: units and uncertainty
	product ref // PRODUCT_CONTEXT
	design  ref // PRODUCT_DEFINITION_CONTEXT
	types   []ref
	dirs    map[r3.Vec]ref
}

func newWriter(title string) *writer {
	w := &writer{title: title, dirs: map[r3.Vec]ref{}}
	app := w.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')")
	w.add("APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,%s)", app)
	w.contexts(app)
	mm := w.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
	rad := w.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
	sr := w.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
	unsure := w.add("UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-5),%s,'distance_accuracy_value','')", mm)
	w.context = w.add("(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((%s))GLOBAL_UNIT_ASSIGNED_CONTEXT((%s,%s,%s))REPRESENTATION_CONTEXT('',''))",
		unsure, mm, rad, sr)
	return w
}

func (w *writer) contexts(app ref) {
	w.product = w.add("PRODUCT_CONTEXT('',%s,'mechanical')", app)
	w.design = w.add("PRODUCT_DEFINITION_CONTEXT('part definition',%s,'design')", app)
}

// add writes an entity and returns its number.
func (w *writer) add(format string, args ...any) ref {
	w.next++
	fmt.Fprintf(&w.data, "#%d=", w.next)
	fmt.Fprintf(&w.data, format, args...)
	w.data.WriteString(";\n")
	return ref(w.next)
}

// definition writes a product without its shape.
func (w *writer) definition(id, name string) ref {
	p := w.add("PRODUCT(%s,%s,'',(%s))", text(id), text(name), w.product)
	w.types = append(w.types, p)
	return w.add("PRODUCT_DEFINITION('design','',%s,%s)", w.add("PRODUCT_DEFINITION_FORMATION('','',%s)", p), w.design)
}

// file returns the whole file.
func (w *writer) file() []byte {
	w.add("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,%s)", list(w.types))
	var b bytes.Buffer
	fmt.Fprintf(&b, "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((%s),'2;1');\n", text(w.title))
	// The time must stand here, and says nothing: see the package's text.
	fmt.Fprintf(&b, "FILE_NAME(%s,'1980-01-01T00:00:00',(''),(''),'rodwork','rodwork','');\n", text(w.title))
	b.WriteString("FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));\nENDSEC;\nDATA;\n")
	b.Write(w.data.Bytes())
	b.WriteString("ENDSEC;\nEND-ISO-10303-21;\n")
	return b.Bytes()
}

func list(refs []ref) string {
	var b strings.Builder
	b.WriteByte('(')
	for i, r := range refs {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(r.String())
	}
	b.WriteByte(')')
	return b.String()
}

// text prints a string of part 21: apostrophes and backslashes doubled, what is
// not plain ASCII as its UTF-16 in hexadecimal.
func text(s string) string {
	var b strings.Builder
	b.WriteByte('\'')
	wide := false
	for _, r := range strings.ToValidUTF8(s, "\ufffd") {
		plain := r >= ' ' && r <= '~'
		switch {
		case !plain && !wide:
			b.WriteString(`\X2\`)
		case plain && wide:
			b.WriteString(`\X0\`)
		}
		wide = !plain
		switch {
		case !plain:
			for _, u := range utf16.Encode([]rune{r}) {
				fmt.Fprintf(&b, "%04X", u)
			}
		case r == '\'' || r == '\\':
			b.WriteRune(r)
			b.WriteRune(r)
		default:
			b.WriteRune(r)
		}
	}
	if wide {
		b.WriteString(`\X0\`)
	}
	b.WriteByte('\'')
	return b.String()
}

// decimal prints a number with its point, rounded to a billionth.
func decimal(v float64) string {
	v = math.Round(v*1e9) / 1e9
	if v == 0 {
		return "0."
	}
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if !strings.Contains(s, ".") {
		s += "."
	}
	return s
}

func triple(v r3.Vec) string {
	return "('',(" + decimal(v.X) + "," + decimal(v.Y) + "," + decimal(v.Z) + "))"
}

func (w *writer) point(v r3.Vec) ref { return w.add("CARTESIAN_POINT%s", triple(v)) }

func (w *writer) direction(v r3.Vec) ref {
	if r, ok := w.dirs[v]; ok {
		return r
	}
	w.dirs[v] = w.add("DIRECTION%s", triple(v))
	return w.dirs[v]
}

// placement writes a frame by its origin, its z and its x.
func (w *writer) placement(o, z, x r3.Vec) ref {
	return w.add("AXIS2_PLACEMENT_3D('',%s,%s,%s)", w.point(o), w.direction(z), w.direction(x))
}

var (
	up    = r3.Vec{Z: 1}
	right = r3.Vec{X: 1}
)

func space(p r2.Vec, z float64) r3.Vec { return r3.Vec{X: p.X, Y: p.Y, Z: z} }

// solids writes the shells of a boundary, each as a solid.
func (w *writer) solids(b *brep, name string) []ref {
	vertices := map[int]ref{}
	corner := func(i int) ref {
		r, ok := vertices[i]
		if !ok {
			r = w.add("VERTEX_POINT('',%s)", w.point(b.corners[i]))
			vertices[i] = r
		}
		return r
	}
	edges := map[int]ref{}
	edge := func(i int) ref {
		r, ok := edges[i]
		if ok {
			return r
		}
		l := b.links[i]
		var line ref
		if l.circle != nil {
			line = w.add("CIRCLE('',%s,%s)", w.placement(l.circle.center, l.circle.axis, l.circle.x), decimal(l.circle.radius))
		} else {
			d := b.corners[l.b].Sub(b.corners[l.a])
			line = w.add("LINE('',%s,%s)", w.point(b.corners[l.a]), w.add("VECTOR('',%s,%s)", w.direction(d.Unit()), decimal(d.Len())))
		}
		edges[i] = w.add("EDGE_CURVE('',%s,%s,%s,.T.)", corner(l.a), corner(l.b), line)
		return edges[i]
	}
	var out []ref
	for _, shell := range b.shells() {
		var faces []ref
		for _, i := range shell {
			faces = append(faces, w.face(&b.patches[i], edge))
		}
		out = append(out, w.add("MANIFOLD_SOLID_BREP(%s,%s)", text(name), w.add("CLOSED_SHELL('',%s)", list(faces))))
	}
	return out
}

// face writes a face with its loops.
func (w *writer) face(p *patch, edge func(int) ref) ref {
	var bounds []ref
	for k, l := range p.loops {
		var sides []ref
		for _, u := range l {
			way := ".F."
			if u.forward {
				way = ".T."
			}
			sides = append(sides, w.add("ORIENTED_EDGE('',*,*,%s,%s)", edge(u.edge), way))
		}
		kind := "FACE_BOUND"
		if k == 0 {
			kind = "FACE_OUTER_BOUND"
		}
		bounds = append(bounds, w.add("%s('',%s,.T.)", kind, w.add("EDGE_LOOP('',%s)", list(sides))))
	}
	surface, same := w.surface(p)
	return w.add("ADVANCED_FACE('',%s,%s,%s)", list(bounds), surface, same)
}

// surface writes the plane or cylinder of a face, and tells whether it looks
// the way the face does.
func (w *writer) surface(p *patch) (ref, string) {
	place := w.placement(p.at, p.normal, p.x)
	if p.radius == 0 {
		return w.add("PLANE('',%s)", place), ".T."
	}
	same := ".T."
	if p.hollow {
		same = ".F."
	}
	return w.add("CYLINDRICAL_SURFACE('',%s,%s)", place, decimal(p.radius)), same
}
