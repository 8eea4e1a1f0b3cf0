// Package glb writes a scene of solids as a binary glTF 2.0 file (Khronos
// Group, glTF 2.0 specification, 2021; ISO/IEC 12113): one node for each thing,
// with its own mesh in its own frame, placed by its pose.
//
// glTF measures in metres, in a right-handed frame with y up and z towards who
// looks at the front. That is the frame of package r3 but for the unit, so
// nothing is turned: millimetres are divided by a thousand, and that is all.
//
// Positions are kept as 32-bit floats, as the standard has them: at three
// metres from a mesh's own origin that is a ten-thousandth of a millimetre. They
// are rounded to a tenth of a micrometre first, and normals to a millionth, so
// that the last bits of a processor's arithmetic do not show.
package glb

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"math"

	"rodwork/internal/geom/r3"
)

// Material is a plain colour: shares of red, green and blue as a screen shows
// them (sRGB), 0 to 1.
type Material struct {
	Name  string
	Color [3]float64
}

// Mesh is triangles of one material in the frame of their node. Normals has a
// vector of length 1 for each position; triangles run anticlockwise as seen
// from outside.
type Mesh struct {
	Material  int
	Positions []r3.Vec // mm
	Normals   []r3.Vec
	Triangles [][3]int
}

// Node is one thing with a name.
type Node struct {
	Name   string
	Pose   r3.Pose
	Meshes []Mesh
	// Extras is any value that encoding/json writes as an object; readers hand
	// it on. It may be nil.
	Extras any
}

// Scene is all of a file.
type Scene struct {
	Name      string
	Materials []Material
	Nodes     []Node
}

// The document, as the standard names its parts (glTF 2.0, 5).
type document struct {
	Asset       asset        `json:"asset"`
	Scene       int          `json:"scene"`
	Scenes      []scene      `json:"scenes"`
	Nodes       []node       `json:"nodes"`
	Materials   []material   `json:"materials"`
	Meshes      []mesh       `json:"meshes"`
	Accessors   []accessor   `json:"accessors"`
	BufferViews []bufferView `json:"bufferViews"`
	Buffers     []buffer     `json:"buffers"`
}

type asset struct {
	Version   string `json:"version"`
	Generator string `json:"generator"`
}

type scene struct {
	Name  string `json:"name,omitempty"`
	Nodes []int  `json:"nodes"`
}

type node struct {
	Name        string      `json:"name,omitempty"`
	Children    []int       `json:"children,omitempty"`
	Mesh        *int        `json:"mesh,omitempty"`
	Translation *[3]float64 `json:"translation,omitempty"`
	Rotation    *[4]float64 `json:"rotation,omitempty"`
	Extras      any         `json:"extras,omitempty"`
}

type material struct {
	Name string `json:"name"`
	PBR  pbr    `json:"pbrMetallicRoughness"`
}

type pbr struct {
	Color     [4]float64 `json:"baseColorFactor"`
	Metallic  float64    `json:"metallicFactor"`
	Roughness float64    `json:"roughnessFactor"`
}

type mesh struct {
	Name       string      `json:"name,omitempty"`
	Primitives []primitive `json:"primitives"`
}

type primitive struct {
	Attributes attributes `json:"attributes"`
	Indices    int        `json:"indices"`
	Material   int        `json:"material"`
}

type attributes struct {
	Position int `json:"POSITION"`
	Normal   int `json:"NORMAL"`
}

type accessor struct {
	View  int       `json:"bufferView"`
	Type  int       `json:"componentType"`
	Count int       `json:"count"`
	Kind  string    `json:"type"`
	Min   []float64 `json:"min,omitempty"`
	Max   []float64 `json:"max,omitempty"`
}

type bufferView struct {
	Buffer int `json:"buffer"`
	Offset int `json:"byteOffset"`
	Length int `json:"byteLength"`
	Target int `json:"target"`
}

type buffer struct {
	Length int `json:"byteLength"`
}

// Codes of the standard.
const (
	float32s     = 5126
	uint32s      = 5125
	uint16s      = 5123
	vertexArray  = 34962
	elementArray = 34963
	magic        = 0x46546C67 // "glTF"
	chunkJSON    = 0x4E4F534A
	chunkBinary  = 0x004E4942
)

// Render returns the file. It fails where a scene has no triangle, or a number
// that is not one.
func Render(s Scene) ([]byte, error) {
	w := writer{doc: document{Asset: asset{"2.0", "rodwork"}}}
	for _, m := range s.Materials {
		w.doc.Materials = append(w.doc.Materials, material{m.Name, pbr{[4]float64{linear(m.Color[0]), linear(m.Color[1]), linear(m.Color[2]), 1}, 0, 0.85}})
	}
	root := node{Name: s.Name}
	for i := range s.Nodes {
		root.Children = append(root.Children, i+1)
	}
	w.doc.Scenes = []scene{{Name: s.Name, Nodes: []int{0}}}
	w.doc.Nodes = []node{root}
	for _, n := range s.Nodes {
		if err := w.node(n, len(s.Materials)); err != nil {
			return nil, fmt.Errorf("glb: node %q: %w", n.Name, err)
		}
	}
	if len(w.doc.Meshes) == 0 {
		return nil, fmt.Errorf("glb: a scene without a triangle")
	}
	w.doc.Buffers = []buffer{{w.data.Len()}}
	return w.file()
}

// linear turns a share of light as screens code it (sRGB, IEC 61966-2-1) into
// one that adds up, which the standard wants.
func linear(v float64) float64 {
	if v <= 0.04045 {
		return round(v/12.92, 1e6)
	}
	return round(math.Pow((v+0.055)/1.055, 2.4), 1e6)
}

func round(v, per float64) float64 {
	r := math.Round(v*per) / per
	if r == 0 {
		return 0 // never −0
	}
	return r
}

// file puts the two chunks together, each filled up to four bytes.
func (w *writer) file() ([]byte, error) {
	var text bytes.Buffer
	enc := json.NewEncoder(&text)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(w.doc); err != nil {
		return nil, err
	}
	text.Truncate(text.Len() - 1) // the line end
	for text.Len()%4 != 0 {
		text.WriteByte(' ')
	}
	for w.data.Len()%4 != 0 {
		w.data.WriteByte(0)
	}
	total := 12 + 8 + text.Len() + 8 + w.data.Len()
	if total > math.MaxUint32 {
		return nil, fmt.Errorf("glb: %d bytes are more than the standard allows", total)
	}
	out := make([]byte, 0, total)
	for _, v := range []int{magic, 2, total, text.Len(), chunkJSON} {
		out = binary.LittleEndian.AppendUint32(out, uint32(v))
	}
	out = append(out, text.Bytes()...)
	for _, v := range []int{w.data.Len(), chunkBinary} {
		out = binary.LittleEndian.AppendUint32(out, uint32(v))
	}
	return append(out, w.data.Bytes()...), nil
}
