package glb

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"

	"rodwork/internal/geom/r3"
)

// writer collects the two chunks of a file.
type writer struct {
	doc  document
	data bytes.Buffer
}

const perMetre = 1000 // mm

// node adds a thing with its mesh.
func (w *writer) node(n Node, materials int) error {
	out := node{Name: n.Name, Extras: n.Extras}
	if o := n.Pose.O; o != (r3.Vec{}) {
		out.Translation = &[3]float64{single(o.X / perMetre), single(o.Y / perMetre), single(o.Z / perMetre)}
	}
	if q := quaternion(n.Pose); q != [4]float64{0, 0, 0, 1} {
		out.Rotation = &q
	}
	m := mesh{Name: n.Name}
	for _, p := range n.Meshes {
		if len(p.Triangles) == 0 {
			continue
		}
		if p.Material < 0 || p.Material >= materials {
			return errors.New("a material that is not there")
		}
		q, err := w.primitive(p)
		if err != nil {
			return err
		}
		m.Primitives = append(m.Primitives, q)
	}
	if len(m.Primitives) > 0 {
		at := len(w.doc.Meshes)
		out.Mesh = &at
		w.doc.Meshes = append(w.doc.Meshes, m)
	}
	w.doc.Nodes = append(w.doc.Nodes, out)
	return nil
}

// single rounds a number of metres to a tenth of a micrometre, then to what 32
// bits hold.
func single(v float64) float64 { return float64(float32(round(v, 1e7))) }

// primitive adds the arrays of one mesh.
func (w *writer) primitive(m Mesh) (primitive, error) {
	if len(m.Normals) != len(m.Positions) {
		return primitive{}, errors.New("not a normal for each position")
	}
	for _, t := range m.Triangles {
		for _, i := range t {
			if i < 0 || i >= len(m.Positions) {
				return primitive{}, errors.New("a corner that is not there")
			}
		}
	}
	positions := make([][3]float64, len(m.Positions))
	normals := make([][3]float64, len(m.Normals))
	for i, p := range m.Positions {
		positions[i] = [3]float64{single(p.X / perMetre), single(p.Y / perMetre), single(p.Z / perMetre)}
		n := m.Normals[i].Unit()
		normals[i] = [3]float64{round(n.X, 1e6), round(n.Y, 1e6), round(n.Z, 1e6)}
	}
	for _, list := range [][][3]float64{positions, normals} {
		for _, v := range list {
			if s := v[0] + v[1] + v[2]; math.IsNaN(s) || math.IsInf(s, 0) {
				return primitive{}, errors.New("a number that is not one")
			}
		}
	}
	var p primitive
	p.Material = m.Material
	p.Attributes.Position = w.vectors(positions, true)
	p.Attributes.Normal = w.vectors(normals, false)
	p.Indices = w.indices(m.Triangles, len(m.Positions))
	return p, nil
}

// vectors adds an array of vectors and returns its accessor; extremes says
// whether the least and greatest are told, which positions must.
func (w *writer) vectors(list [][3]float64, extremes bool) int {
	start := w.data.Len()
	lo := []float64{math.Inf(1), math.Inf(1), math.Inf(1)}
	hi := []float64{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	var b []byte
	for _, v := range list {
		for k, x := range v {
			b = binary.LittleEndian.AppendUint32(b, math.Float32bits(float32(x)))
			lo[k], hi[k] = min(lo[k], x), max(hi[k], x)
		}
	}
	w.data.Write(b)
	a := accessor{View: w.view(start, vertexArray), Type: float32s, Count: len(list), Kind: "VEC3"}
	if extremes {
		a.Min, a.Max = lo, hi
	}
	w.doc.Accessors = append(w.doc.Accessors, a)
	return len(w.doc.Accessors) - 1
}

// indices adds an array of triangles and returns its accessor.
func (w *writer) indices(list [][3]int, corners int) int {
	start, kind := w.data.Len(), uint16s
	if corners > math.MaxUint16 { // 65535 itself has a meaning of its own
		kind = uint32s
	}
	var b []byte
	for _, t := range list {
		for _, i := range t {
			if kind == uint32s {
				b = binary.LittleEndian.AppendUint32(b, uint32(i))
			} else {
				b = binary.LittleEndian.AppendUint16(b, uint16(i))
			}
		}
	}
	w.data.Write(b)
	w.doc.Accessors = append(w.doc.Accessors, accessor{View: w.view(start, elementArray), Type: kind, Count: 3 * len(list), Kind: "SCALAR"})
	return len(w.doc.Accessors) - 1
}

// view adds a view of what has been written since start, and fills up to four
// bytes, on which the next array must begin.
func (w *writer) view(start, target int) int {
	w.doc.BufferViews = append(w.doc.BufferViews, bufferView{Offset: start, Length: w.data.Len() - start, Target: target})
	for w.data.Len()%4 != 0 {
		w.data.WriteByte(0)
	}
	return len(w.doc.BufferViews) - 1
}

// quaternion returns the turn of a pose as x, y, z, w. The largest of the four
// is found from the trace or the diagonal and the others from it, which loses
// nothing to cancellation (Shepperd, Journal of Guidance and Control 1 (1978)
// 223; from memory).
func quaternion(p r3.Pose) [4]float64 {
	xx, yy, zz := p.X.X, p.Y.Y, p.Z.Z
	var q [4]float64
	switch t := xx + yy + zz; {
	case t >= xx && t >= yy && t >= zz:
		q = [4]float64{p.Y.Z - p.Z.Y, p.Z.X - p.X.Z, p.X.Y - p.Y.X, 1 + t}
	case xx >= yy && xx >= zz:
		q = [4]float64{1 + xx - yy - zz, p.Y.X + p.X.Y, p.Z.X + p.X.Z, p.Y.Z - p.Z.Y}
	case yy >= zz:
		q = [4]float64{p.Y.X + p.X.Y, 1 + yy - zz - xx, p.Z.Y + p.Y.Z, p.Z.X - p.X.Z}
	default:
		q = [4]float64{p.Z.X + p.X.Z, p.Z.Y + p.Y.Z, 1 + zz - xx - yy, p.X.Y - p.Y.X}
	}
	l := math.Sqrt(q[0]*q[0] + q[1]*q[1] + q[2]*q[2] + q[3]*q[3])
	if q[3] < 0 { // one of the two that mean the same
		l = -l
	}
	for i := range q {
		q[i] = round(q[i]/l, 1e8)
	}
	return q
}
