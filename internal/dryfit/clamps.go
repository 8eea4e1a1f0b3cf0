package dryfit

import (
	"cmp"
	"math"
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/piece"
	"rodwork/internal/work"
)

// Clamps as a joiner sets them.
const (
	// clampEvery is the way from clamp to clamp, mm: 8 to 12 in (unnamed trade
	// sheet for wood glue, read).
	clampEvery = 250.0
	// clampPressure is what a plain glue line wants, MPa: the least that is
	// published, 100 lbf/in² for soft woods (the same sheet, read).
	clampPressure = 0.7
	// clampNear is how near two clamps can stand, mm (common practice).
	clampNear = 80.0
	// jaws is what a clamp's jaws and two pads take of its reach, mm.
	jaws = 40.0
)

// patch is where two parts of a joint meet, by their boxes.
type patch struct {
	joint *piece.Joint
	axis  int
	box   box
	parts box
}

// whole is the box round all boxes of a part.
func whole(bs []box) box {
	out := emptyBox()
	for _, b := range bs {
		for k := range 3 {
			out.lo[k], out.hi[k] = min(out.lo[k], b.lo[k]), max(out.hi[k], b.hi[k])
		}
	}
	return out
}

// patches are the glued joints of some steps that clamps are to close.
func (s *search) patches(steps []work.Step) []patch {
	var out []patch
	for _, st := range steps {
		for _, id := range st.Joints {
			k := slices.IndexFunc(s.joints, func(j joint) bool { return j.ID == id })
			if k < 0 || !s.joints[k].Glued || len(s.joints[k].ways) == 0 || s.joints[k].Area.V <= 0 {
				continue
			}
			j := s.joints[k]
			a, b := whole(s.boxes[j.a]), whole(s.boxes[j.b])
			p := patch{joint: j.Joint, axis: j.ways[0].axis, parts: emptyBox()}
			for n := range 3 {
				p.parts.lo[n], p.parts.hi[n] = min(a.lo[n], b.lo[n]), max(a.hi[n], b.hi[n])
				p.box.lo[n], p.box.hi[n] = max(a.lo[n], b.lo[n])-1, min(a.hi[n], b.hi[n])+1
			}
			out = append(out, p)
		}
	}
	return out
}

// long is how far the longer side of a patch runs, square to its clamps.
func (p patch) long() float64 {
	most := 0.0
	for k := range 3 {
		if k != p.axis {
			most = max(most, p.box.hi[k]-p.box.lo[k])
		}
	}
	return most
}

// lines tells whether one row of clamps serves both: they are drawn together
// along the same axis, and seen along it the shorter lies over the other for half
// of its length.
func (p patch) lines(o patch) bool {
	if p.axis != o.axis {
		return false
	}
	short := p
	if o.long() < p.long() {
		short = o
	}
	for k := range 3 {
		if k == p.axis {
			continue
		}
		both := min(p.box.hi[k], o.box.hi[k]) - max(p.box.lo[k], o.box.lo[k])
		if side := short.box.hi[k] - short.box.lo[k]; both < 0 || side == short.long() && both < side/2 {
			return false
		}
	}
	return true
}

// rows gathers the joints of a glue-up into rows of clamps.
func (s *search) rows(steps []work.Step) []work.ClampRow {
	var out []work.ClampRow
	var lead []patch
	var span []box
	for _, p := range s.patches(steps) {
		i := slices.IndexFunc(lead, p.lines)
		if i < 0 {
			i = len(out)
			out, lead, span = append(out, work.ClampRow{Axis: p.axis}), append(lead, p), append(span, p.parts)
		}
		r := &out[i]
		r.Joints = append(r.Joints, p.joint.ID)
		span[i] = box{[3]float64{min(span[i].lo[0], p.parts.lo[0]), min(span[i].lo[1], p.parts.lo[1]), min(span[i].lo[2], p.parts.lo[2])},
			[3]float64{max(span[i].hi[0], p.parts.hi[0]), max(span[i].hi[1], p.parts.hi[1]), max(span[i].hi[2], p.parts.hi[2])}}
		r.Long = max(r.Long, p.long())
		r.Reach = span[i].hi[p.axis] - span[i].lo[p.axis] + jaws
		if need := p.joint.Area.Scale(clampPressure); plain(p.joint.Kind) && need.V > r.Need.V {
			r.Need = need
		}
	}
	for i := range out {
		out[i].Count = 1
		if out[i].Long > 60 {
			out[i].Count = max(2, int(math.Ceil(out[i].Long/clampEvery)))
		}
	}
	return out
}

// plain tells a joint of two flat faces, which holds by pressure while it dries;
// a housing or a rabbet is only to be closed.
func plain(kind string) bool { return kind == "butt" || kind == "edging" || kind == "on" }

// deal gives each row clamps of the shop, the longest rows first, each the
// shortest clamps that reach.
func deal(rows []work.ClampRow, shop *design.ShopFile) {
	if shop == nil {
		return
	}
	left := make([]int, len(shop.Clamps))
	for i, c := range shop.Clamps {
		left[i] = c.Count
	}
	order := make([]int, len(rows))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rows[b].Reach, rows[a].Reach) })
	for _, i := range order {
		r, best := &rows[i], -1
		for k, c := range shop.Clamps {
			if left[k] >= r.Count && c.Reach.V >= r.Reach && (best < 0 || c.Reach.V < shop.Clamps[best].Reach.V) {
				best = k
			}
		}
		if best < 0 {
			continue
		}
		c := shop.Clamps[best]
		r.Count = min(max(r.Count, wanted(*r, c.Force.V)), left[best])
		left[best] -= r.Count
		r.Clamp, r.Force = c.Name, float64(r.Count)*c.Force.V
	}
}

// wanted is how many clamps of a force a row takes by its pressure; no more than
// stand side by side.
func wanted(r work.ClampRow, force float64) int {
	if force <= 0 {
		return 0
	}
	return int(min(math.Ceil(r.Need.V/force), math.Ceil(r.Long/clampNear)))
}
