package drawing

import (
	"fmt"
	"slices"
	"strconv"

	"rodwork/internal/leaf"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// bendStrip draws the strip that is bent before the part is: kerfs up, a flat at
// each end to pull at, and which kerfs are measured.
func bendStrip(q *piece.Part, b piece.Bend, i int, t *work.TestPiece, opt Options) leaf.Leaf {
	length, n := t.Length.V, b.Plan.Count
	d := &trialDrawing{ink: ink{systemOf(opt)}, k: 164 / length, left: 24, top: 22}
	start := (length - b.Plan.Flat) / 2
	var cuts [][3]float64
	at := make([]float64, n)
	for k, x := range b.Plan.Positions {
		at[k] = start + x
		cuts = append(cuts, [3]float64{at[k] - b.Plan.Spec.Kerf/2, at[k] + b.Plan.Spec.Kerf/2, b.Plan.Depth})
	}
	low := d.slots(length, q.Thick.V, cuts)
	skins, mouths := spaced(n, 5), spaced(n, 3)
	for _, k := range skins {
		x := d.x(at[k])
		d.add(leaf.Text{At: pt(x, d.top-2), S: strconv.Itoa(k + 1), Anchor: leaf.Middle, Strong: slices.Contains(mouths, k), Halo: true})
	}
	d.add(leaf.Text{At: pt(d.x(at[0])-4, d.top-2), S: "kerf", Italic: true, Anchor: leaf.End})
	for _, x := range []float64{start, start + b.Plan.Flat} {
		d.line(leaf.Centre, pt(d.x(x), d.top-9), pt(d.x(x), low+1.5))
	}
	d.add(leaf.Text{At: pt(d.x(length/2), d.top-8), S: fmt.Sprintf("%d kerfs, %s apart", n, d.fine(b.Plan.Pitch, 2)), Anchor: leaf.Middle})
	places := []place{{at: d.x(0), text: "0", origin: true}, {at: d.x(length), text: d.size(length, 1)}}
	for _, k := range skins {
		places = append(places, place{at: d.x(at[k]), text: d.fine(at[k], 1)})
	}
	d.running(axis{Line: low + lineOutside, Edge: low, Lo: leaf.Margin, Hi: 210 - leaf.Margin}, places)
	y := low + 26
	d.scaleBar(pt(leaf.Margin+2, y), d.k, 45, d.sys, "")
	grain := "the grain along it"
	if q.Grain == piece.AlongWidth {
		grain = "the grain across it"
	}
	return leaf.Leaf{
		Key: fmt.Sprintf("test-%d-strip", i+1), Title: "Test strip of the bend, " + b.Corner, Right: fmt.Sprintf("%s · kerfs %s deep", q.Stock.Name, d.fine(b.Plan.Depth, 2)),
		Caption: fmt.Sprintf("Kerfed face up, %s wide, %s. The skin is callipered under the numbered kerfs while it is flat, %s wanted; the mouths of those in bold when it is bent, %s computed.",
			d.size(t.Width.V, 1), grain, d.fine(t.Want.V, 2), d.fine(b.Plan.Mouth, 2)),
		Alt: fmt.Sprintf("A strip %s long in edge view with %d kerfs in its middle and a flat at each end; %d of the kerfs are numbered.", d.size(length, 1), n, len(skins)),
		W:   210, H: y + 3, Items: d.items,
	}
}

// spaced picks some of n kerfs, from the first to the last, evenly.
func spaced(n, some int) []int {
	if n <= some {
		some = n
	}
	out := make([]int, some)
	for i := range out {
		out[i] = i * (n - 1) / max(some-1, 1)
	}
	return out
}
