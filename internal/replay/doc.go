// Package replay goes through an order of assembly again and knows nothing of
// how it was found: it imports none of the search, which a test holds.
//
// # Two looks at one order
//
// Joints keeps the books: which parts lie together on the bench, which joint is
// closed by which move, and that each closes along a way in that it has. It asks
// no geometry but boxes.
//
// Solids looks at wood. Each part is the solid that will be cut, and each step is
// run through from far off to its place. At every halt the parts that move are
// asked what room they share with the parts that stand. From halt to halt a part
// goes on by half of the joint's clearance, no less than Fine and no more than
// Coarse; where it is further than that from everything, it goes on by that
// distance, for a body that moves by less than its distance from another can't
// come to share room with it. A turn goes on by the same, measured at the corner
// of its part that travels farthest. So nothing thicker than a halt is wide can
// be jumped over, and what is thinner is no wood.
//
// # A strip that is wrapped
//
// A bent strip is laid on by one of its flats, its bends still open, and closed
// round what it encloses. It is shown with its bends at each of many stages:
// their outer arc keeps its length on the flat, so that at a share q of the angle
// the radius is R/q. What it shares a joint with is left to Joints: there the
// flat comes down about the bend and not quite square, and the open kerfs give.
// One of the ways to lay it on must be free.
//
// # What is not proved
//
// That hands can hold the parts; that glue lets them slide; that wood is as flat
// as drawn. Hinges, runners, screws and pins are no solids here, and the rib tips
// of a kerfed strip are not either.
package replay
