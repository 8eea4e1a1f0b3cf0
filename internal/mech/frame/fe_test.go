package frame

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"rodwork/internal/geom/r3"
)

// record is what an independent finite-element program gave for a few frames
// (tools/fe-frame).
type record struct {
	Program, Version string
	Modulus          float64 `json:"modulus_mpa"`
	Shear            float64 `json:"shear_mpa"`
	Frames           []struct {
		Name   string
		Nodes  [][4]any
		Bars   [][4]float64 // a, b, wide, high
		Loads  [][3]float64 // node, axis from 1, N
		Node   int
		Axis   int
		MoveMM float64 `json:"move_mm"`
	}
}

// The package agrees with that program within 3 %: the other counts the shear
// of the bars, and its corners are solid.
func TestAgainstFiniteElements(t *testing.T) {
	src, err := os.ReadFile("testdata/fe.json")
	if err != nil {
		t.Fatal(err)
	}
	var r record
	if err := json.Unmarshal(src, &r); err != nil || len(r.Frames) < 4 || r.Version == "" {
		t.Fatalf("%d frames of version %q: %v", len(r.Frames), r.Version, err)
	}
	for _, c := range r.Frames {
		f := Frame{}
		for _, n := range c.Nodes {
			node := Node{At: r3.Vec{X: n[0].(float64), Y: n[1].(float64), Z: n[2].(float64)}}
			for d := range 6 {
				node.Fix[d] = strings.Contains(n[3].(string), string(rune('1'+d)))
			}
			f.Nodes = append(f.Nodes, node)
		}
		for _, b := range c.Bars {
			f.Bars = append(f.Bars, Bar{A: int(b[0]), B: int(b[1]), Section: Rect(b[2], b[3], r.Modulus, r.Shear), Ends: [2]Spring{Welded, Welded}})
		}
		for _, l := range c.Loads {
			v := [3]float64{}
			v[int(l[1])-1] = l[2]
			f.Loads = append(f.Loads, Load{Node: int(l[0]), Force: r3.Vec{X: v[0], Y: v[1], Z: v[2]}})
		}
		s, err := f.Solve()
		if err != nil {
			t.Errorf("%s: %v", c.Name, err)
			continue
		}
		got := s.Moves[c.Node][c.Axis-1]
		t.Logf("%s: %.4f mm, %s %s gave %.4f", c.Name, got, r.Program, r.Version, c.MoveMM)
		if math.Abs(got-c.MoveMM) > 0.03*math.Abs(c.MoveMM) {
			t.Errorf("%s: %.4f mm, %s %s gave %.4f", c.Name, got, r.Program, r.Version, c.MoveMM)
		}
	}
}
