package template

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rodwork/internal/leaf"
	"rodwork/internal/piece"
)

// pegged reports whether holes belong to a joint's dowels, tenons or screws: they
// have blocks of their own, or are bored through the one part into the other.
func pegged(c piece.Cut) bool {
	for _, what := range []string{"dowels of ", "loose tenons of ", "screws of "} {
		if strings.HasPrefix(c.For, what) {
			return true
		}
	}
	return false
}

// pattern is a row of dowels as it lies in an end or an edge: from the datum along
// it, and over face B.
type pattern struct {
	dia, first, every, over float64
	count                   int
	thick                   float64 // of the part that is bored into its end
	places                  []placed
}

// placed is where one part takes a pattern's holes.
type placed struct {
	part *piece.Part
	cut  piece.Cut
}

// patterns gathers the dowel rows of the piece. Joints that share diameter, pitch
// and the place of the first hole in the end share one; a dowel that had to be
// moved aside is a pattern of its own.
func patterns(p *piece.Piece) []*pattern {
	var out []*pattern
	for i := range p.Joints {
		j := &p.Joints[i]
		if j.Pegs == nil || j.Pegs.Kind != "dowel" {
			continue
		}
		ends, others := rowsOf(p.Part(j.A), j), rowsOf(p.Part(j.B), j)
		if len(others) > 0 && others[0].cut.Face.Narrow() {
			ends, others = others, ends
		}
		for k, e := range ends {
			c := e.cut
			first := math.Min(c.X0.V, c.X0.V+float64(max(c.Count, 1)-1)*c.StepX.V)
			n := pattern{dia: c.Diameter.V, first: first, every: math.Abs(c.StepX.V), over: c.Y0.V, count: max(c.Count, 1), thick: e.part.Thick.V}
			at := n.like(&out)
			at.places = append(at.places, e)
			if k < len(others) {
				at.places = append(at.places, others[k])
			}
		}
	}
	return out
}

func (n pattern) like(all *[]*pattern) *pattern {
	for _, o := range *all {
		if math.Abs(o.dia-n.dia) < 0.005 && math.Abs(o.first-n.first) < 0.005 && math.Abs(o.every-n.every) < 0.005 && math.Abs(o.over-n.over) < 0.005 && o.count == n.count {
			return o
		}
	}
	*all = append(*all, &n)
	return &n
}

func rowsOf(q *piece.Part, j *piece.Joint) []placed {
	var out []placed
	if q == nil {
		return nil
	}
	for _, c := range q.Cuts {
		if c.For == "dowels of "+j.ID {
			out = append(out, placed{q, c})
		}
	}
	return out
}

// blockFence is how wide the fence of a drilling block is that lies on the part's
// face, mm.
const blockFence = 40.0

// dowelBlocks makes a drilling block for each pattern.
func (m *maker) dowelBlocks() []Sheet {
	var out []Sheet
	for i, n := range patterns(m.p.Piece) {
		out = append(out, m.dowelBlock(n, i+1))
	}
	return out
}

func (m *maker) dowelBlock(n *pattern, number int) Sheet {
	s := Sheet{Key: fmt.Sprintf("dowels-%d", number), Title: "Drilling block, dowels of " + strconv.FormatFloat(n.dia, 'f', -1, 64),
		Right: fmt.Sprintf("%d holes, first at %s", n.count, m.mm(n.first, 1)), DX: 1, DY: 1,
		Alt: "A drilling block at full size for a row of dowels, and where its corner lies on each part."}
	if n.count > 1 {
		s.Right += ", every " + m.mm(n.every, 2)
	}
	length, high := n.first+float64(n.count-1)*n.every+math.Min(n.first, beyond), math.Max(n.thick, n.over+n.dia/2+3)
	s.rect(Outside, 0, 0, length, high)
	s.rect(Outside, 0, -4-blockFence, length, -4)
	s.mean(Outside, "the block, and below it the fence that is screwed to its lower edge: the fence lies on face B, the ring at the datum")
	for i := range n.count {
		x := n.first + float64(i)*n.every
		s.hole(pt(x, n.over), n.dia)
		s.word(Word{At: pt(x+leaf.Note.Cap()/2, high+3), S: m.bare(x, 1), Up: true})
	}
	s.mean(Hole, "holes for the drill, with their centres")
	s.word(Word{At: pt(6, -4-blockFence/2), S: "fence, on face B", Italic: true})
	for _, q := range n.places {
		s.fact(m.blockPlace(n, q))
	}
	s.fact("Make the block of hardwood or ply, bored on a drill press, and as thick as the drill needs to be led. Set the drill’s stop to the depth plus the block’s thickness.")
	s.fact("Bore a test pair in offcuts and put them together dry before the first part. Number both sides.")
	return s
}

// blockPlace says where the block lies on one part.
func (m *maker) blockPlace(n *pattern, q placed) string {
	c := q.cut
	who := fmt.Sprintf("%d %s, %s: ", q.part.Number, q.part.Name, faceWords(c.Face))
	if c.Face.Narrow() {
		at := math.Min(c.X0.V, c.X0.V+float64(max(c.Count, 1)-1)*c.StepX.V) - n.first
		if math.Abs(at) < leastBlock && math.Abs(c.Y0.V-n.over) < leastBlock {
			return who + "the block’s corner in the datum, the fence on face B; " + m.deep(c) + "."
		}
		return who + fmt.Sprintf("the block’s end %s from the datum, the row %s over face B; %s.", m.mm(at, 1), m.mm(c.Y0.V, 2), m.deep(c))
	}
	x, y, way := c.X0.V, c.Y0.V, "along the length"
	if c.Count > 1 && math.Abs(c.StepX.V) < 1e-9 {
		y = math.Min(y, y+float64(c.Count-1)*c.StepY.V)
		way = "across it"
	} else {
		x = math.Min(x, x+float64(max(c.Count, 1)-1)*c.StepX.V)
	}
	return who + fmt.Sprintf("the row runs %s, its first hole %s along and %s across from the datum corner; without the fence, the block’s edge on a line %s beside the row; %s.",
		way, m.mm(x, 1), m.mm(y, 1), m.mm(n.over, 2), m.deep(c))
}

func faceWords(f piece.Face) string {
	if f.Narrow() {
		return string(f)
	}
	return "face " + string(f)
}
