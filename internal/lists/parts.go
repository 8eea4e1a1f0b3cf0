package lists

import (
	"slices"
	"strconv"

	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// partList has one row for each part.
func (m *maker) partList() table.Table {
	t := table.Table{Key: "parts", Caption: "Parts", Columns: slices.Concat(
		[]table.Column{numberColumn, partColumn}, words("what it does", "stock"),
		[]table.Column{length("length"), length("width"), length("thick"), length("blank, long"), length("blank, wide")},
		words("grain", "face A", "face B", "show face", "loose", "late", "belongs to"),
		[]table.Column{table.Numbers("mass", units.Mass), table.Words("id")}),
		Note: "Sizes are finished; a bent part's are those of its strip laid flat. Thickness is as measured. A late part is cut to the measured opening: until then its sizes are provisional."}
	for _, q := range m.p.Piece.Parts {
		stock := ""
		if q.Stock != nil {
			stock = q.Stock.Name
		}
		of := ""
		if q.Of != "" {
			of = m.name(q.Of)
		}
		t.Rows = append(t.Rows, row(q.ID, table.Count(q.Number), table.T(q.Name), table.T(string(q.Role)), table.T(stock),
			num(q.Length), num(q.Width), num(q.Thick), num(q.BlankLength), num(q.BlankWidth),
			table.T(string(q.Grain)), table.T(q.NameA), table.T(q.NameB), table.T(string(q.Show)), yes(q.Loose), yes(q.Late), table.T(of),
			m.mass(q.ID), table.T(q.ID)))
	}
	return t
}

// mass is what a part weighs, finished; empty where that is not known.
func (m *maker) mass(id string) table.Cell {
	for _, x := range m.p.Masses {
		if x.Part == id {
			return table.Q(say.Kg(x.Mass.V, 3))
		}
	}
	return table.Cell{}
}

// bends has one row for each bend.
func (m *maker) bends() table.Table {
	t := table.Table{Key: "bends", Caption: "Bends", Columns: []table.Column{numberColumn, partColumn, table.Words("corner"),
		length("radius, outside"), table.Numbers("turn", units.Angle), length("starts at"), length("flat stretch"), count("kerfs"),
		length("kerf"), length("kerf depth"), length("skin"), length("pitch"), length("mouth when bent"), table.Words("way"), table.Words("turns"),
		table.Words("kerfs in face"), length("thickness"), table.Numbers("neutral line, from the uncut face", units.Length), length("rail radius"),
		count("plies"), length("former radius"), table.Numbers("former angle", units.Angle)},
		Note: "Places are measured on the flat strip from its datum end. Who looks along the strip with face A on the left sees it turn right or left."}
	for _, q := range m.p.Piece.Parts {
		for _, b := range q.Bends {
			t.Rows = append(t.Rows, row("", table.Count(q.Number), table.T(q.Name), table.T(b.Corner), num(b.Radius), degrees(b.Angle.V),
				num(b.Start), num(b.Length), table.Count(b.Plan.Count), mm(b.Plan.Spec.Kerf), mm(b.Plan.Depth), mm(b.Plan.Spec.Skin),
				mm(b.Plan.Pitch), mm(b.Plan.Mouth), table.T(wayOf(b)), table.T(map[bool]string{true: "left", false: "right"}[b.Left]),
				table.T(kerfFace(b)), num(q.Thick), table.Q(say.Len(b.Plan.NeutralY, 4)), num(b.RailRadius), plies(b), formerRadius(b), formerAngle(b)))
		}
	}
	return t
}

func wayOf(b piece.Bend) string {
	if b.Way == "" {
		return "kerfed"
	}
	return b.Way
}

// kerfFace is the face that the kerfs are cut into; none without kerfs.
func kerfFace(b piece.Bend) string {
	if b.Plan.Count == 0 {
		return ""
	}
	return string(b.Face)
}

func plies(b piece.Bend) table.Cell {
	if b.Stack == nil {
		return table.Cell{}
	}
	return table.Count(b.Stack.Stack.Count)
}

func formerRadius(b piece.Bend) table.Cell {
	if b.Stack == nil {
		return table.Cell{}
	}
	return mm(b.Stack.FormerRadius)
}

func formerAngle(b piece.Bend) table.Cell {
	if b.Stack == nil {
		return table.Cell{}
	}
	return degrees(b.Stack.FormerAngle)
}

// kerfs has one row for each kerf.
func (m *maker) kerfs() table.Table {
	t := table.Table{Key: "kerfs", Caption: "Kerfs", Columns: []table.Column{numberColumn, partColumn, table.Words("corner"), count("kerf"),
		length("centre, from the datum end"), length("wide"), length("deep"), table.Words("face")},
		Note: "Kerfs are cut square across the strip, into the face that is named: B is the inner one."}
	for _, q := range m.p.Piece.Parts {
		for _, b := range q.Bends {
			for i, k := range b.Kerfs {
				t.Rows = append(t.Rows, row("", table.Count(q.Number), table.T(q.Name), table.T(b.Corner), table.Count(i+1), num(k),
					mm(b.Plan.Spec.Kerf), mm(b.Plan.Depth), table.T(kerfFace(b))))
			}
		}
	}
	return t
}

func isHole(c piece.Cut) bool { return c.Kind == piece.Hole || c.Kind == piece.HoleRow }

// cuts has one row for each housing, rabbet, groove and whatever else is no
// hole.
func (m *maker) cuts() table.Table {
	t := table.Table{Key: "cuts", Caption: "Cuts", Columns: slices.Concat([]table.Column{numberColumn, partColumn}, words("cut", "face"),
		[]table.Column{length("x from"), length("y from"), length("x to"), length("y to"), length("deep")}, words("through", "for", "id")),
		Note: "Rectangles, measured from the part's datum corner; x runs along its length, y across it."}
	for _, q := range m.p.Piece.Parts {
		for _, c := range q.Cuts {
			if isHole(c) {
				continue
			}
			t.Rows = append(t.Rows, row(c.ID, table.Count(q.Number), table.T(q.Name), table.T(string(c.Kind)), table.T(string(c.Face)),
				num(c.X0), num(c.Y0), num(c.X1), num(c.Y1), num(c.Depth), yes(c.Through), table.T(c.For), table.T(c.ID)))
		}
	}
	return t
}

// holes has one row for each single hole, those of a row one by one.
func (m *maker) holes() table.Table {
	t := table.Table{Key: "holes", Caption: "Holes", Columns: slices.Concat([]table.Column{numberColumn, partColumn, table.Words("face"),
		length("x"), length("y"), length("diameter"), length("deep")}, words("through", "for", "id")),
		Note: "Centres, measured from the part's datum corner. In an edge or an end, x runs along it and y is the height over face B."}
	for _, q := range m.p.Piece.Parts {
		for _, c := range q.Cuts {
			if !isHole(c) {
				continue
			}
			for i := range max(1, c.Count) {
				x, y := c.X0.V+float64(i)*c.StepX.V, c.Y0.V+float64(i)*c.StepY.V
				id := c.ID
				if c.Count > 1 {
					id += "/" + strconv.Itoa(i+1)
				}
				t.Rows = append(t.Rows, row(id, table.Count(q.Number), table.T(q.Name), table.T(string(c.Face)), mm(x), mm(y),
					num(c.Diameter), num(c.Depth), yes(c.Through), table.T(c.For), table.T(id)))
			}
		}
	}
	return t
}

// joints has one row for each joint.
func (m *maker) joints() table.Table {
	t := table.Table{Key: "joints", Caption: "Joints", Columns: []table.Column{table.Names("joint"), table.Words("kind"),
		count("no. of what receives"), table.Words("receives"), count("no. of what goes in"), table.Words("goes in"), length("deep"),
		table.Words("fit"), length("clearance"), table.Words("glued"), table.Numbers("glue area", units.Area)}}
	for _, j := range m.p.Piece.Joints {
		area := table.Cell{}
		if j.Glued {
			area = table.Q(say.Quantity{V: j.Area.V, Dim: units.Area, Decimals: 4})
		}
		t.Rows = append(t.Rows, row(j.ID, table.T(j.ID), table.T(j.Kind), m.number(j.A), table.T(m.name(j.A)), m.number(j.B), table.T(m.name(j.B)),
			some(j.Depth), table.T(j.Fit), num(j.Clearance), yes(j.Glued), area))
	}
	return t
}
