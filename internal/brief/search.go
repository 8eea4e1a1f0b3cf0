package brief

import (
	"math"
	"sort"
	"strconv"

	"rodwork/internal/design"
	"rodwork/internal/trace"
)

// solution is the best allotment found, with the setting that it stands on.
type solution struct {
	settings [][]int // of each room; nil: as built
	plain    []measures
	takes    [][]holds
	levels   []level // of the best alone
	best     allotment
	// All is set where every combination of settings was tried.
	all bool
}

// option is one setting of one room that differs from the others in what it
// can take.
type option struct {
	set    []int
	levels []measures
	takes  [][]holds
}

// options returns the settings of a room that are worth telling apart: of
// those that take the same from level to level only the first is kept, and
// none that another beats in every level.
func options(r *room, things []design.Thing) []option {
	seen := map[string]bool{}
	var key []byte
	var out []option
	for _, set := range settings(r) {
		o := option{set: set, levels: r.plainLevels(set)}
		key = key[:0]
		for _, l := range o.levels {
			row := make([]holds, len(things))
			for i, t := range things {
				row[i] = r.takes(l, t)
				key = strconv.AppendInt(key, int64(row[i].row), 10)
				key = append(key, 'x')
				key = strconv.AppendInt(key, int64(row[i].rows), 10)
				key = append(key, ',')
			}
			o.takes = append(o.takes, row)
			key = append(key, ';')
		}
		if !seen[string(key)] {
			seen[string(key)] = true
			out = append(out, o)
		}
	}
	return undominated(out)
}

// undominated drops what another option beats; the one as built, which comes
// first, is always kept, so that nothing is moved without need. The others are
// sorted by how even they are.
func undominated(in []option) []option {
	sort.SliceStable(in[1:], func(i, j int) bool { return in[1+i].lowest() > in[1+j].lowest() })
	out := in[:1:1]
	for i, a := range in {
		beaten := i == 0
		for j, b := range in {
			if i != j && b.covers(a) && (!a.covers(b) || j < i) {
				beaten = true
				break
			}
		}
		if !beaten {
			out = append(out, a)
		}
	}
	return out
}

// lowest is the clear height of the lowest level, to the millimetre.
func (o option) lowest() float64 {
	low := math.Inf(1)
	for _, l := range o.levels {
		low = min(low, math.Round(l.clear))
	}
	return low
}

// covers tells whether o takes at least what b takes, level by level.
func (o option) covers(b option) bool {
	for l := range o.takes {
		for i := range o.takes[l] {
			x, y := o.takes[l][i], b.takes[l][i]
			if x.row < y.row || x.rows < y.rows || x.width < y.width-1e-6 {
				return false
			}
		}
	}
	return true
}

// search tries all combinations of the rooms' options, up to a bound; beyond
// it one room after the other is set to its best while the others stand, twice
// round.
func search(rooms []room, things []design.Thing) solution {
	s := searchPlain(rooms, things)
	for i := range rooms {
		s.levels = append(s.levels, rooms[i].levels(i, s.settings[i])...)
	}
	return s
}

func searchPlain(rooms []room, things []design.Thing) solution {
	opts := make([][]option, len(rooms))
	total := 1
	for i := range rooms {
		opts[i] = options(&rooms[i], things)
		if total <= 1<<20 {
			total *= len(opts[i])
		}
	}
	const most = 5000
	pick := make([]int, len(rooms))
	best := tryPick(opts, pick, things)
	best.all = total <= most
	if best.all {
		for range total - 1 {
			step(pick, opts)
			best.take(tryPick(opts, pick, things))
		}
		return best
	}
	for range 2 {
		for i := range rooms {
			keep := pick[i]
			for k := range opts[i] {
				pick[i] = k
				if best.take(tryPick(opts, pick, things)) {
					keep = k
				}
			}
			pick[i] = keep
		}
	}
	return best
}

func step(pick []int, opts [][]option) {
	for i := range pick {
		if pick[i]++; pick[i] < len(opts[i]) {
			return
		}
		pick[i] = 0
	}
}

func (s *solution) take(o solution) bool {
	if o.best.better(s.best) {
		o.all = s.all
		*s = o
		return true
	}
	return false
}

func tryPick(opts [][]option, pick []int, things []design.Thing) solution {
	var s solution
	for i, o := range opts {
		s.settings = append(s.settings, o[pick[i]].set)
		s.plain = append(s.plain, o[pick[i]].levels...)
		s.takes = append(s.takes, o[pick[i]].takes...)
	}
	s.best = allot(s.plain, s.takes, things, false)
	if a := allot(s.plain, s.takes, things, true); a.better(s.best) {
		s.best = a
	}
	return s
}

// places tells where the pinned shelves stand in the solution.
func (s solution) places(rooms []room) []ShelfPlace {
	var out []ShelfPlace
	for i := range rooms {
		r := &rooms[i]
		for k, f := range r.loose {
			p := ShelfPlace{Part: f.part.ID, Space: r.space.Name, Under: r.underAt(s.settings[i], k).Sub(r.space.Min[1])}
			if set := s.settings[i]; set != nil {
				p.Hole = set[k] + 1
			}
			out = append(out, p)
		}
	}
	return out
}

// loads is the cautious line load of each surface: the heaviest row, from end
// to end and as deep as the space has room for, of all things that could stand
// in the space with its shelves out of the way.
func loads(rooms []room, things []design.Thing) map[string]trace.Num {
	out := map[string]trace.Num{}
	for i := range rooms {
		r := &rooms[i]
		for _, l := range r.levels(i, nil) {
			if l.surface == "" {
				continue
			}
			l.clear = r.space.Size[1]
			if len(r.fixed) > 0 { // fixed shelves do not go out of the way
				l.clear = r.gapOver(l)
			}
			q := heaviest(r, l, things)
			if old, ok := out[l.surface]; !ok || q.V > old.V {
				out[l.surface] = q
			}
		}
	}
	return out
}

// gapOver is the height from a level's floor up to the next fixed shelf.
func (r *room) gapOver(l level) trace.Num {
	top := r.space.Min[1].Add(r.space.Size[1])
	for _, f := range r.fixed {
		if f.under.V > l.floor.V-touch && f.under.V < top.V {
			top = f.under
		}
	}
	return top.Sub(l.floor)
}

// heaviest is the heaviest line load that a level could carry, kg/m.
func heaviest(r *room, l level, things []design.Thing) trace.Num {
	var q trace.Num
	for _, t := range things {
		h := r.takes(l.plain(), t)
		if h.row == 0 {
			continue
		}
		rows := trace.Step(float64(h.rows), l.front, l.back, t.Depth)
		one := rows.Mul(t.Mass).Div(t.Thickness).Scale(1000)
		q = trace.Max(q, one)
	}
	return q
}
