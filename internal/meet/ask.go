package meet

import (
	"math"

	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
	"rodwork/internal/piece"
)

// clashes finds the pairs that reach into each other further than Clear, or
// than their press fit asks for.
func (m *meeting) clashes() {
	for _, pair := range m.near {
		a, b := m.bodies[pair[0]], m.bodies[pair[1]]
		s, err := a.Overlap(b.Ready)
		if err != nil {
			m.fail(a.part.ID, err)
			continue
		}
		if allowed := m.press(a.part.ID, b.part.ID); s.Reach > Clear+allowed {
			m.Clashes = append(m.Clashes, Clash{A: a.part.ID, B: b.part.ID, Shared: snapped(s), Allowed: allowed})
		}
	}
}

// press is the greatest interference that a joint between two parts asks for.
func (m *meeting) press(a, b string) float64 {
	most := 0.0
	for i := range m.piece.Joints {
		j := &m.piece.Joints[i]
		if j.A == a && j.B == b || j.A == b && j.B == a {
			most = max(most, -j.Clearance.V)
		}
	}
	return most
}

// joints asks the partners of each joint.
func (m *meeting) joints() {
	for i := range m.piece.Joints {
		j := &m.piece.Joints[i]
		a, okA := m.at[j.A]
		b, okB := m.at[j.B]
		if !okA || !okB {
			continue
		}
		patches, err := m.bodies[a].Contact(m.bodies[b].Ready, Look)
		if err != nil {
			m.fail(j.B, err)
			continue
		}
		m.Meetings = append(m.Meetings, met(j, patches))
	}
}

// hangs reports whether a joint holds by hardware, its partners apart.
func hangs(kind string) bool { return kind == "pins" || kind == "hinges" || kind == "slides" }

// met judges the patches of a joint.
func met(j *piece.Joint, patches []solid.Patch) Meeting {
	out := Meeting{Joint: j.ID, A: j.A, B: j.B, Floats: hangs(j.Kind) || j.Kind == "groove", Gap: math.Inf(-1)}
	cheek := Touch + max(0, j.Clearance.V)
	total := 0.0
	for _, p := range patches {
		if rest(j, p) {
			total += p.Area
		}
	}
	for _, p := range patches {
		at := cheek
		if rest(j, p) && j.Kind != "groove" {
			at = Touch
			if p.Area > total/100 { // a sliver at a corner says nothing
				out.Rests, out.Gap = true, max(out.Gap, p.Gap)
			}
		}
		if math.Abs(p.Gap) <= at+snap {
			out.Area += p.Area
			out.Patches = append(out.Patches, p)
		}
	}
	if !out.Rests {
		out.Gap = 0
	}
	out.Area, out.Gap = snapTo(out.Area), snapTo(out.Gap)
	return out
}

// rest reports whether B, on one of its ways into A, comes to rest on a patch.
func rest(j *piece.Joint, p solid.Patch) bool {
	if against(p.Normal, j.Enter) {
		return true
	}
	for _, d := range j.Also {
		if against(p.Normal, d) {
			return true
		}
	}
	return false
}

// against reports whether a face looks against a direction, within 25°.
func against(n, d r3.Vec) bool { return n.Dot(d.Unit()) < -0.9 }

// snap is the grid to which what goes out is rounded, mm, mm² or mm³.
const snap = 1e-6

func snapTo(x float64) float64 {
	if r := math.Round(x/snap) * snap; r != 0 {
		return r
	}
	return 0
}

func snapped(s solid.Shared) solid.Shared {
	at := func(v r3.Vec) r3.Vec { return r3.Vec{X: snapTo(v.X), Y: snapTo(v.Y), Z: snapTo(v.Z)} }
	s.Volume, s.Reach, s.Center = snapTo(s.Volume), snapTo(s.Reach), at(s.Center)
	s.Box.Min, s.Box.Max = at(s.Box.Min), at(s.Box.Max)
	return s
}
