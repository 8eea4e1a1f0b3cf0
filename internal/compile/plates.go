package compile

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
)

// plateFor begins what a hinge plate's holes are for.
const plateFor = "hinge plate of "

// leastPlateHold is the least depth, mm, that a hinge plate's holes are shortened
// to: two or three turns of its screw (a judgement). Where less is left the
// depth stays, and the check of what stands between two cuts says stop.
const leastPlateHold = 7

// plateDepths shortens the holes of hinge plates where something is cut from the
// other face of the panel, so that a web stays between the two. Where plates hang
// on both faces at one height both are shortened alike.
func (b *builder) plateDepths() {
	for _, q := range b.out.Parts {
		before := append([]piece.Cut(nil), q.Cuts...)
		for i := range q.Cuts {
			c := &q.Cuts[i]
			if !strings.HasPrefix(c.For, plateFor) {
				continue
			}
			if most, against, ok := b.plateRoom(q, before, i); ok && most.V < c.Depth.V && most.V >= leastPlateHold {
				q.Notes = append(q.Notes, say.F("The holes for the {} are {} deep and not {}: {} is cut from the other face there. Shorten the plate’s screws to that.",
					c.For, say.LenN(most, 1), say.LenN(c.Depth, 0), against))
				c.Depth = most
			}
		}
	}
}

// plateRoom is how deep a plate's holes may be for what is cut from the other
// face, and what that is; ok is false where nothing is.
func (b *builder) plateRoom(q *piece.Part, cuts []piece.Cut, i int) (most trace.Num, against string, ok bool) {
	c := &cuts[i]
	for k := range cuts {
		o := &cuts[k]
		if o.Face == c.Face || o.Face.Narrow() || o.Through || !holesOver(c, o) {
			continue
		}
		web := b.constant("rule.web", 2.5, "2.5 mm, two veneers, stay between cuts from the two faces of a panel: common practice, no source")
		room := q.Thick.Sub(o.Depth).Sub(web)
		if strings.HasPrefix(o.For, plateFor) {
			room = q.Thick.Sub(web).Scale(0.5)
		}
		if !ok || room.V < most.V {
			most, against, ok = room, fmt.Sprintf("a %s (%s)", o.Kind, o.For), true
		}
	}
	return most, against, ok
}

// holesOver tells whether a row of holes lies over another cut.
func holesOver(c, o *piece.Cut) bool {
	for i := range max(c.Count, 1) {
		x, y := c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V
		if o.Kind != piece.Hole && o.Kind != piece.HoleRow {
			dx := math.Max(0, math.Max(o.X0.V-x, x-o.X1.V))
			dy := math.Max(0, math.Max(o.Y0.V-y, y-o.Y1.V))
			if math.Hypot(dx, dy) < c.Diameter.V/2 {
				return true
			}
			continue
		}
		for k := range max(o.Count, 1) {
			dx, dy := o.X0.V+float64(k)*o.StepX.V-x, o.Y0.V+float64(k)*o.StepY.V-y
			if math.Hypot(dx, dy) < (c.Diameter.V+o.Diameter.V)/2 {
				return true
			}
		}
	}
	return false
}
