package compile

import (
	"rodwork/internal/design"
	"rodwork/internal/trace"
)

// maker books sizes by name, as a resolved piece file does.
type maker struct{ led *trace.Ledger }

func (m maker) size(name string, v float64) trace.Num {
	return m.led.Var(v, trace.Input{Kind: trace.Size, Path: "sizes." + name})
}

func (m maker) shop(name string, v float64) trace.Num {
	return m.led.Var(v, trace.Input{Kind: trace.Shop, Path: name})
}

// choir is the choir sideboard as a resolved design, without a file.
func choir() *design.Design {
	led := &trace.Ledger{}
	m := maker{led}
	ply := func(name string, t float64, layers int) *design.Stock {
		return &design.Stock{Name: name, Kind: design.Plywood, Thickness: design.Spread{Mean: m.shop("stock."+name+".thickness", t)}, Layers: layers,
			FaceVeneer: m.shop("stock."+name+".face veneer", 1.1), InnerVeneer: m.shop("stock."+name+".inner veneer", 1.4), GrainAlong: "length"}
	}
	p18, p6, p12 := ply("birch ply 18", 17.7, 13), ply("birch ply 6", 6.4, 5), ply("birch ply 12", 12, 9)
	ash := &design.Stock{Name: "ash 20", Kind: design.Solid, Stick: true, Thickness: design.Spread{Mean: m.shop("stock.ash 20.thickness", 20)}}
	saw := &design.Saw{Name: "track saw", Kerf: design.Spread{Mean: m.shop("saw.track.kerf", 2.2), SD: trace.Const(0.03)}}
	hinge := &design.Hinge{Name: "inset cup hinge", CupDia: trace.Const(35), CupDepth: trace.Const(13), CupEdge: trace.Const(4), PlateLine: trace.Const(37), PlatePitch: trace.Const(32), InHand: 4}
	slide := &design.Slide{Name: "side slide 350", Length: trace.Const(350), Side: trace.Const(12.9)}
	shop := &design.ShopFile{Saws: []*design.Saw{saw}, Pins: []*design.Pin{{Name: "pin 5", Diameter: trace.Const(5), Depth: trace.Const(11), Line: trace.Const(50)}},
		Hinges: []*design.Hinge{hinge}, Slides: []*design.Slide{slide},
		Habits: design.Habits{HousingShare: m.shop("habits.housing", 1.0/3), RabbetShare: m.shop("habits.rabbet", 1.0/3), Fit: "snug",
			FitClearance: map[string]trace.Num{"snug": m.shop("habits.snug", 0.1), "sliding": trace.Const(0.2)},
			LeastRib:     trace.Const(3), LeastMouth: trace.Const(0.29), Oversize: trace.Const(10), SetBackDoor: trace.Const(2), ShelfClear: trace.Const(1.5)}}
	height, plinth, width, depth := m.size("height", 860), m.size("plinth", 100), m.size("width", 1460), m.size("depth", 400)
	turn, gap, desk, tray := m.size("turn", 140), m.size("gap", 2.5), m.size("desk", 420), m.size("tray", 150)
	role := func(name string, s *design.Stock) design.Role { return design.Role{Name: name, Stock: s} }
	d := &design.Design{Name: "Choir sideboard", Shop: shop, Ledger: led,
		Roles: map[string]design.Role{"shell": role("shell", p18), "panels": role("panels", p18), "back": role("back", p6), "edging": role("edging", ash)},
		Body: design.Body{Kind: design.BentShell, Width: width, Height: height.Sub(plinth), Depth: depth,
			Corners: map[string]design.Corner{
				design.TopLeft:     {Bent: true, Radius: turn, Path: "body.corners.top left"},
				design.TopRight:    {Joint: "rabbet", Through: "top", Path: "body.corners.top right"},
				design.BottomLeft:  {Joint: "rabbet", Through: "side", Path: "body.corners.bottom left"},
				design.BottomRight: {Joint: "rabbet", Through: "side", Path: "body.corners.bottom right"}},
			Bend: design.BendWish{Way: "kerfed", Saw: saw, Kerfs: 30, Skin: m.size("skin", 1.6)}},
		Bays: []design.Bay{{Name: "scores", Kind: design.Equal, Path: "inside.bays.0"}, {Name: "hymns", Kind: design.Equal, Path: "inside.bays.1"},
			{Name: "desk", Kind: design.Given, Width: desk, Path: "inside.bays.2", Levels: []design.Level{{Name: "below", Kind: design.Rest}, {Name: "tray", Kind: design.Given, Height: tray}}}},
		Back:  &design.Back{Set: "rabbet", Depth: m.size("back rabbet", 8), Path: "back"},
		Rails: []design.Rail{{Where: "top back", Height: m.size("rail", 80), Follow: true, Path: "rails.0"}},
		Base:  design.Base{Kind: "plinth", Height: plinth, SetBack: m.size("set back", 50), Path: "base"},
	}
	skirting := m.size("skirting", 16)
	d.Brief.Place.SkirtingDeep = &skirting
	edging := role("edging", ash)
	shelf := func(in string, n int) design.Shelf {
		return design.Shelf{In: in, Pins: true, Count: n, FirstHole: m.size("first "+in, 128), Pitch: m.size("pitch "+in, 32), SetBack: m.size("shelf back "+in, 5),
			EdgingRole: &edging, EdgingHigh: m.size("edging "+in, 30), Path: "shelves." + in}
	}
	d.Shelves = []design.Shelf{shelf("scores", 1), shelf("hymns", 2)}
	d.Fronts = []design.Front{
		{Name: "doors", Covers: []string{"scores", "hymns"}, As: "pair", Set: "inset", Gap: gap, Follow: true, Hinge: hinge,
			HingeAt: []trace.Num{m.size("hinge low", 80), m.size("hinge high", -165)}, PullDia: m.size("pull", 30), Late: true, Path: "fronts.0"},
		{Name: "tray front", Covers: []string{"tray"}, As: "drawer", Set: "inset", Gap: gap, Late: true, Path: "fronts.1"}}
	d.Drawers = []design.Drawer{{In: "tray", Role: role("drawer", p12), Slide: slide, Path: "drawers.0"}}
	return d
}
