package model

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
)

// packer adds parts to a scene.
type packer struct {
	scene  *Scene
	stocks map[string]int
}

// most is the number of corners that one part may have, as triangles count them
// in 16 bits.
const most = 1 << 16

// add packs one part, or leaves the scene as it was.
func (k *packer) add(q *piece.Part, b solid.Body) error {
	p := Part{ID: q.ID, Number: q.Number, Name: q.Name, Stock: k.stock(q), Thick: fine(q.Thick.V), Grain: grainOf(q)}
	for _, st := range q.Run {
		p.Run = append(p.Run, Stretch{fine(st.X0), fine(st.X1), fine(st.From.X), fine(st.From.Y), unit(st.Dir.X), unit(st.Dir.Y), fine(st.Radius), unit(st.Angle)})
	}
	return k.pack(p, b)
}

// feet adds the bought feet, which go where the part goes that they are under.
func (k *packer) feet(pc *piece.Piece, at map[string]int) {
	var under []string // the part of each foot, as piece.Feet tells them
	for _, f := range pc.Fittings {
		if f.Kind == "foot" && f.Width.V > 0 && f.Height.V > 0 {
			for range f.At {
				under = append(under, f.On)
			}
		}
	}
	for i, b := range piece.Feet(pc) {
		name := fmt.Sprintf("foot %d, bought", i+1)
		p := Part{ID: fmt.Sprintf("foot %d", i+1), Name: name, Stock: -1, Thick: fine(b.Slabs[0].Z1)}
		if i < len(under) {
			if n, ok := at[under[i]]; ok {
				p.Apart = k.scene.Parts[n].Apart
			}
		}
		if k.pack(p, b) != nil {
			k.scene.Lost = append(k.scene.Lost, name)
		}
	}
}

// pack adds a part with its body.
func (k *packer) pack(p Part, b solid.Body) error {
	pose := b.Pose
	b.Pose = r3.Identity() // triangles in the part's own frame
	mesh, err := b.Mesh(Chord)
	if err != nil {
		return err
	}
	skin, err := b.Skin(Chord)
	if err != nil {
		return err
	}
	corners, triangles := shared(mesh)
	if len(corners) > most {
		return errors.New("too many corners")
	}
	s := k.scene
	p.Pose = poseOf(pose)
	p.Corner = [2]int{len(s.Corners) / 12, len(corners)}
	p.Triangle = [2]int{len(s.Triangles) / 6, len(triangles)}
	for _, c := range corners {
		s.Corners = point(s.Corners, c.at)
		s.Normals = append(s.Normals, byte(c.n[0]), byte(c.n[1]), byte(c.n[2]))
	}
	for _, t := range triangles {
		for _, i := range t {
			s.Triangles = binary.LittleEndian.AppendUint16(s.Triangles, uint16(i))
		}
	}
	first := len(s.Edges) / 24
	for _, e := range skin.Edges {
		s.Edges = edge(s.Edges, e)
	}
	p.Edge = [2]int{first, len(s.Edges)/24 - first}
	s.Parts = append(s.Parts, p)
	return nil
}

// corner is a corner of a triangle with the normal that it has there.
type corner struct {
	p  int // of the mesh's points
	at r3.Vec
	n  [3]int8
}

// shared gives triangles that meet in a corner without an edge one corner.
func shared(m solid.Mesh) ([]corner, [][3]int) {
	type key struct {
		p int
		n [3]int8
	}
	var corners []corner
	at := map[key]int{}
	triangles := make([][3]int, len(m.Triangles))
	for i, t := range m.Triangles {
		for j := range 3 {
			x := key{t.P[j], small(t.N[j])}
			n, ok := at[x]
			if !ok {
				n = len(corners)
				at[x] = n
				corners = append(corners, corner{x.p, m.Points[x.p], x.n})
			}
			triangles[i][j] = n
		}
	}
	return corners, triangles
}

// small is a normal in steps of 1/127.
func small(v r3.Vec) [3]int8 {
	v = v.Unit()
	b := func(x float64) int8 { return int8(math.Round(x * 127)) }
	return [3]int8{b(v.X), b(v.Y), b(v.Z)}
}

func point(to []byte, v r3.Vec) []byte {
	for _, x := range [3]float64{v.X, v.Y, v.Z} {
		to = binary.LittleEndian.AppendUint32(to, math.Float32bits(float32(fine(x))))
	}
	return to
}

// edge adds a sharp edge, an arc in chords. Where a face runs on into a round
// one there is no line to be drawn.
func edge(to []byte, e solid.Edge) []byte {
	if e.Kind != solid.Sharp {
		return to
	}
	n := 1
	if e.Radius > Chord {
		n = max(1, int(math.Ceil(e.Sweep/(2*math.Acos(1-Chord/e.Radius)))))
	}
	for i := range n {
		to = point(to, e.At(float64(i)/float64(n)))
		to = point(to, e.At(float64(i+1)/float64(n)))
	}
	return to
}

func grainOf(q *piece.Part) string {
	switch q.Grain {
	case piece.AlongLength:
		return "x"
	case piece.AlongWidth:
		return "y"
	}
	return ""
}
