// Package qr draws a text as a QR code (ISO/IEC 18004) on a leaf: dark squares
// as filled paths, so that it prints sharp at any size.
//
// The level of correction is M: about 15 % of the code may be soiled. The quiet
// zone of four modules that the standard asks for is part of the square.
package qr

import (
	"fmt"

	"github.com/skip2/go-qrcode"

	"rodwork/internal/geom/r2"
	"rodwork/internal/leaf"
)

// Longest is the length of text that is taken, bytes. More would ask for
// modules too small for a label.
const Longest = 200

// Modules returns the code's modules, row by row from the top, true for dark,
// with the quiet zone. It fails for an empty text and for one longer than
// Longest.
func Modules(text string) ([][]bool, error) {
	if text == "" || len(text) > Longest {
		return nil, fmt.Errorf("qr: a text of %d bytes; 1 to %d are taken", len(text), Longest)
	}
	c, err := qrcode.New(text, qrcode.Medium)
	if err != nil {
		return nil, fmt.Errorf("qr: %w", err)
	}
	return c.Bitmap(), nil
}

// Path returns the code as one filled path: its square has the upper left
// corner at and the side given, mm, quiet zone included.
func Path(text string, at r2.Vec, side float64) (leaf.Path, error) {
	m, err := Modules(text)
	if err != nil {
		return leaf.Path{}, err
	}
	k := side / float64(len(m))
	p := leaf.Path{Fill: leaf.Solid}
	for _, b := range blocks(m) {
		x0, y0 := at.X+k*float64(b.x0), at.Y+k*float64(b.y0)
		x1, y1 := at.X+k*float64(b.x1), at.Y+k*float64(b.y1)
		p.Segs = append(p.Segs, leaf.Seg{Op: leaf.Move, P: r2.Vec{X: x0, Y: y0}}, leaf.Seg{Op: leaf.To, P: r2.Vec{X: x1, Y: y0}},
			leaf.Seg{Op: leaf.To, P: r2.Vec{X: x1, Y: y1}}, leaf.Seg{Op: leaf.To, P: r2.Vec{X: x0, Y: y1}}, leaf.Seg{Op: leaf.Close})
	}
	return p, nil
}

// block is a rectangle of dark modules, x1 and y1 past its end.
type block struct{ x0, y0, x1, y1 int }

// blocks covers the dark modules with rectangles that don't overlap: runs of a
// row, which grow down as long as the rows below have the same run. Fewer
// rectangles leave fewer seams.
func blocks(m [][]bool) []block {
	var done []block
	open := map[[2]int]int{} // run -> index of the block that ended in the row above
	for y, row := range m {
		now := map[[2]int]int{}
		for x := 0; x < len(row); x++ {
			if !row[x] {
				continue
			}
			start := x
			for x < len(row) && row[x] {
				x++
			}
			run := [2]int{start, x}
			if i, ok := open[run]; ok {
				done[i].y1 = y + 1
				now[run] = i
				continue
			}
			now[run] = len(done)
			done = append(done, block{start, y, x, y + 1})
		}
		open = now
	}
	return done
}
