package model

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/json"
	"math"
	"path"
	"slices"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/geom/r3"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// made is the plan of an example and its model.
func made(t testing.TB, file string) (*plan.Plan, *Scene) {
	t.Helper()
	text, err := examples.Files.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	_, shop := examples.Main()
	if own, err := examples.Files.ReadFile(path.Join(path.Dir(file), "shop.yaml")); err == nil {
		shop = own
	}
	p, ds := plan.Make(context.Background(), plan.Source{PieceFile: file, Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
	if ds.HasErrors() {
		t.Fatalf("%s: %v", file, ds)
	}
	s := Of(p, units.MM)
	if s == nil {
		t.Fatalf("%s has no model", file)
	}
	return p, s
}

// each runs a test on every example.
func each(t *testing.T, f func(t *testing.T, p *plan.Plan, s *Scene)) {
	files, err := examples.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range files {
		t.Run(d.Name(), func(t *testing.T) {
			p, s := made(t, path.Join(d.Name(), "piece.yaml"))
			f(t, p, s)
		})
	}
}

func (s *Scene) corner(part Part, i int) r3.Vec {
	at := 12 * (part.Corner[0] + i)
	f := func(k int) float64 {
		return float64(math.Float32frombits(binary.LittleEndian.Uint32(s.Corners[at+4*k:])))
	}
	return r3.Vec{X: f(0), Y: f(1), Z: f(2)}
}

func (s *Scene) triangle(part Part, i int) [3]int {
	at := 6 * (part.Triangle[0] + i)
	f := func(k int) int { return int(binary.LittleEndian.Uint16(s.Triangles[at+2*k:])) }
	return [3]int{f(0), f(1), f(2)}
}

// The triangles of every part enclose the body that the part has: their volume,
// by the theorem of divergence, is the body's, and each side is walked once each
// way. The normals look out.
func TestTrianglesAreTheBody(t *testing.T) {
	each(t, func(t *testing.T, p *plan.Plan, s *Scene) {
		if len(s.Lost) > 0 {
			t.Errorf("without a body: %q", s.Lost)
		}
		if len(s.Parts) < len(p.Piece.Parts) {
			t.Errorf("%d parts of %d", len(s.Parts), len(p.Piece.Parts))
		}
		for _, part := range s.Parts[:len(p.Piece.Parts)] {
			body, err := piece.Solid(p.Piece.Part(part.ID), 0)
			if err != nil {
				t.Fatal(err)
			}
			want := body.Volume()
			got := 0.0
			sides := map[[2]r3.Vec]int{}
			for i := range part.Triangle[1] {
				tri := s.triangle(part, i)
				a, b, c := s.corner(part, tri[0]), s.corner(part, tri[1]), s.corner(part, tri[2])
				got += a.Dot(b.Cross(c)) / 6
				flat := b.Sub(a).Cross(c.Sub(a))
				for k, v := range []r3.Vec{a, b, c} {
					next := []r3.Vec{b, c, a}[k]
					sides[[2]r3.Vec{v, next}]++
					sides[[2]r3.Vec{next, v}]--
					n := s.Normals[3*(part.Corner[0]+tri[k]):]
					out := r3.Vec{X: float64(int8(n[0])), Y: float64(int8(n[1])), Z: float64(int8(n[2]))}
					if flat.Len() > 0.5 && flat.Unit().Dot(out.Unit()) < 0.7 {
						t.Fatalf("%s: a normal %v on a face that looks to %v", part.ID, out, flat.Unit())
					}
				}
			}
			if math.Abs(got-want) > 2e-3*want {
				t.Errorf("%s: the triangles enclose %.0f mm³, the body has %.0f", part.ID, got, want)
			}
			for side, n := range sides { // any one will do
				if n != 0 {
					t.Errorf("%s: the side %v is walked %+d times more one way", part.ID, side, n)
					break
				}
			}
		}
	})
}

// What a page must carry stays small.
func TestSize(t *testing.T) {
	each(t, func(t *testing.T, _ *plan.Plan, s *Scene) {
		if n := len(s.JSON()); n > 700_000 {
			t.Errorf("the model has %d bytes", n)
		} else {
			t.Logf("%d bytes, %d parts, %d triangles", n, len(s.Parts), len(s.Triangles)/6)
		}
	})
}

// The same file gives the same bytes, which can stand in a page.
func TestSameBytes(t *testing.T) {
	_, a := made(t, "main/piece.yaml")
	_, b := made(t, "main/piece.yaml")
	if !bytes.Equal(a.JSON(), b.JSON()) {
		t.Error("two models of one file differ")
	}
	if strings.ContainsAny(string(a.JSON()), "<>&") {
		t.Error("the document holds a mark of a page")
	}
	var back Scene
	if err := json.Unmarshal(a.JSON(), &back); err != nil || !bytes.Equal(back.JSON(), a.JSON()) {
		t.Errorf("the document does not come back as it went: %v", err)
	}
}

// A door opens towards who stands before the piece, a lid upwards, and a drawer
// takes its front along; nothing is led by two.
func TestMoves(t *testing.T) {
	moved := map[string]int{}
	each(t, func(t *testing.T, p *plan.Plan, s *Scene) {
		led := map[int]string{}
		for _, m := range s.Moves {
			moved[m.Kind+" "+m.Words]++
			if len(m.Parts) == 0 || m.Most <= 0 {
				t.Errorf("%s moves %d parts by %g", m.Name, len(m.Parts), m.Most)
			}
			for _, i := range m.Parts {
				if led[i] != "" {
					t.Errorf("%s moves with %s and with %s", s.Parts[i].Name, led[i], m.Name)
				}
				led[i] = m.Name
			}
			if m.Kind != Turns {
				continue
			}
			body, err := piece.Solid(p.Piece.Part(s.Parts[m.Parts[0]].ID), 0)
			if err != nil {
				t.Fatal(err)
			}
			b := body.Box()
			mid := b.Min.Add(b.Max).Mul(0.5)
			axis := r3.Vec{X: m.Along[0], Y: m.Along[1], Z: m.Along[2]}
			step := axis.Cross(mid.Sub(r3.Vec{X: m.At[0], Y: m.At[1], Z: m.At[2]}))
			if axis.X != 0 && step.Y <= 0 || axis.Y != 0 && step.Z <= 0 {
				t.Errorf("%s opens the wrong way: its middle goes by %v", m.Name, step)
			}
		}
		for i, part := range s.Parts[:len(p.Piece.Parts)] {
			switch q := p.Piece.Part(part.ID); q.Role {
			case piece.Door, piece.Lid, piece.DrawerSide, piece.DrawerEnd, piece.DrawerFloor, piece.DrawerFront:
				if led[i] == "" {
					t.Errorf("%s (%s) does not move", part.Name, q.Role)
				}
			default:
				if led[i] != "" && q.Of == "" {
					t.Errorf("%s (%s) moves with %s", part.Name, q.Role, led[i])
				}
			}
		}
	})
	for _, want := range []string{"turns on its left edge", "turns on its right edge", "turns on its rear edge", "slides towards you"} {
		if moved[want] == 0 {
			t.Errorf("no example has a part that %s: %v", want, moved)
		}
	}
}

// Layers of plywood add up to what the calliper says.
func TestLayersAddUp(t *testing.T) {
	each(t, func(t *testing.T, p *plan.Plan, s *Scene) {
		for _, part := range s.Parts[:len(p.Piece.Parts)] {
			st := s.Stocks[part.Stock]
			if st.Kind != "plywood" {
				continue
			}
			sum := 0.0
			for _, l := range st.Layers {
				sum += l
			}
			if math.Abs(sum-part.Thick) > 0.05 {
				t.Errorf("%s: layers of %s add up to %.2f, it is %.2f thick", part.Name, st.Name, sum, part.Thick)
			}
		}
	})
}

// Taken apart, every joined part has left its place but the one that the others
// go to.
func TestApart(t *testing.T) {
	each(t, func(t *testing.T, p *plan.Plan, s *Scene) {
		still := 0
		for _, part := range s.Parts {
			if part.Apart == [3]float64{} {
				still++
			}
		}
		if len(p.Order) > 0 && still > (len(s.Parts)+1)/2 {
			t.Errorf("%d of %d parts stay where they are", still, len(s.Parts))
		}
	})
}

// Bought feet stand under the piece as plain bodies without a number.
func TestFeet(t *testing.T) {
	p, bare := made(t, "plain-box/piece.yaml")
	pc := *p.Piece
	mm := func(v float64) trace.Num { return trace.Num{V: v} }
	pc.Fittings = append(slices.Clip(pc.Fittings), piece.Fitting{Kind: "foot", On: pc.Parts[0].ID, Width: mm(40), Height: mm(60),
		At: [][3]trace.Num{{mm(50), mm(0), mm(50)}, {mm(300), mm(0), mm(50)}}})
	q := *p
	q.Piece = &pc
	s := Of(&q, units.MM)
	if len(s.Parts) != len(bare.Parts)+2 {
		t.Fatalf("%d parts beside %d", len(s.Parts), len(bare.Parts))
	}
	foot := s.Parts[len(s.Parts)-1]
	if foot.Number != 0 || foot.Stock != -1 || foot.Pose[9] != 300 || foot.Triangle[1] < 20 || foot.Apart != s.Parts[0].Apart {
		t.Errorf("%+v", foot)
	}
}

func BenchmarkOf(b *testing.B) {
	p, _ := made(b, "main/piece.yaml")
	for b.Loop() {
		Of(p, units.MM).JSON()
	}
}
