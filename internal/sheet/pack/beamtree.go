package pack

import (
	"slices"

	"rodwork/internal/sheet"
)

// tree makes the tree of the layout that ends in a step.
func (b *beam) tree(at int32) *tree {
	var way []step
	for i := at; b.steps[i].before != none; i = b.steps[i].before {
		way = append(way, b.steps[i])
	}
	slices.Reverse(way)
	left := make([][]int32, len(b.kinds))
	for k := range left {
		left[k] = b.kinds[k].items
	}
	t := b.j.newTree()
	strips, columns := sheet.Y, sheet.X
	if b.guide.cross {
		strips, columns = sheet.X, sheet.Y
	}
	for len(way) > 0 {
		room := t.open(b.j, b.bins[way[0].bin])
		for _, strip := range runs(&way, 1) {
			last := strip[len(strip)-1]
			var band int32
			band, room = t.part(b.j, room, strips, last.y1-last.y0)
			for _, column := range runs(&strip, 2) {
				c := column[len(column)-1]
				var pile int32
				pile, band = t.part(b.j, band, columns, c.x1-c.x0)
				for _, s := range column {
					e := b.kinds[s.kind].ways[b.way][s.lie]
					var cell int32
					cell, pile = t.part(b.j, pile, strips, e[1])
					cell, _ = t.part(b.j, cell, columns, e[0])
					n := &t.nodes[cell]
					n.kind, n.item = part, left[s.kind][0]
					n.turned = b.j.items[n.item].turned(n.l, n.w)
					left[s.kind] = left[s.kind][1:]
				}
			}
		}
	}
	return t
}

// runs takes what belongs together off the front of the way (to the next step
// that is less deep) and parts it before each step that is just as deep or less.
func runs(way *[]step, deep int8) [][]step {
	var out [][]step
	w := *way
	for i := 0; ; {
		k := i + 1
		for k < len(w) && w[k].deep > deep {
			k++
		}
		out = append(out, w[i:k])
		if k == len(w) || w[k].deep < deep {
			*way = w[k:]
			return out
		}
		i = k
	}
}

// part cuts v off a free node along the axis, and returns the block and the free
// node that is left, none where nothing is.
func (t *tree) part(j *job, leaf int32, axis sheet.Axis, v int64) (block, rest int32) {
	a, b := v, t.nodes[leaf].w
	if axis == sheet.Y {
		a, b = t.nodes[leaf].l, v
	}
	block = t.slice(j, leaf, axis, a, b)
	switch {
	case block == leaf:
		return block, none
	case t.nodes[leaf].kind == split:
		return block, t.nodes[t.nodes[leaf].first].next
	}
	return block, leaf
}

// turned tells whether an item is turned where it extends so far. Items of one
// kind have the same extents, but need not be drawn the same way.
func (it item) turned(l, w int64) bool {
	return it.lies[slices.IndexFunc(it.lies, func(a sheet.Lie) bool { return a.DX == l && a.DY == w })].Turned
}
