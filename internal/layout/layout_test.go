package layout_test

import (
	"context"
	"strings"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/layout"
	"rodwork/internal/piece"
	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/work"
)

// shop is a ledger with one stock of sheets, one of sticks and a saw in it.
type shop struct {
	led        trace.Ledger
	ply, board *trace.Num // unused ones are nil
	sheet      *design.Stock
	stick      *design.Stock
	saw        *design.Saw
	habits     design.Habits
	parts      []*piece.Part
}

func (s *shop) num(v float64, path string) trace.Num {
	return s.led.Var(v, trace.Input{Kind: trace.Shop, Path: path})
}

func newShop() *shop {
	s := &shop{}
	s.sheet = &design.Stock{Name: "birch ply 18", Kind: design.Plywood, GrainAlong: "length", Path: "stock.birch ply 18",
		Length: s.num(2440, "ply.length"), Width: s.num(1220, "ply.width"), Trim: s.num(8, "ply.trim"), Price: s.num(94.5, "ply.price")}
	s.stick = &design.Stock{Name: "ash 20", Kind: design.Solid, Stick: true, GrainAlong: "length", Path: "stock.ash 20",
		Length: s.num(2400, "ash.length"), Width: s.num(95, "ash.width"), Trim: s.num(10, "ash.trim"), Price: s.num(14, "ash.price")}
	s.saw = &design.Saw{Name: "track saw", Kerf: design.Spread{Mean: s.num(2.2, "saw.kerf")}}
	s.habits.KeptOffcut = s.num(100, "habits.kept offcut")
	return s
}

func (s *shop) part(id string, stock *design.Stock, length, width float64, g piece.Grain) {
	s.parts = append(s.parts, &piece.Part{ID: id, Number: len(s.parts) + 1, Name: id, Stock: stock, Grain: g, Path: "parts." + id,
		BlankLength: s.num(length, id+".length"), BlankWidth: s.num(width, id+".width")})
}

func (s *shop) make() ([]work.Layout, []work.Finding) {
	return layout.Make(context.Background(), &piece.Piece{Parts: s.parts}, s.saw, s.habits, 0)
}

// sideboard is a low cabinet's worth of parts.
func sideboard() *shop {
	s := newShop()
	s.part("strip", s.sheet, 2179.1, 400, piece.AlongLength)
	s.part("bottom", s.sheet, 1436.4, 393.6, piece.AlongLength)
	s.part("divider 1", s.sheet, 736.4, 373.4, piece.AlongLength)
	s.part("divider 2", s.sheet, 736.4, 393.6, piece.AlongLength)
	s.part("right side", s.sheet, 751.1, 400, piece.AlongLength)
	s.part("tray board", s.sheet, 431.8, 393.6, piece.AlongLength)
	s.part("edging 1", s.stick, 480, 30, piece.AlongLength)
	s.part("edging 2", s.stick, 480, 30, piece.AlongLength)
	s.part("edging 3", s.stick, 1600, 30, piece.AlongLength)
	return s
}

func TestSideboard(t *testing.T) {
	s := sideboard()
	layouts, findings := s.make()
	if len(findings) > 0 {
		t.Fatalf("findings: %s", text(findings[0].Text))
	}
	if len(layouts) != 2 {
		t.Fatalf("%d layouts, want one of sheets and one of sticks", len(layouts))
	}
	ply, ash := layouts[0], layouts[1]
	if len(ply.Sheets) != 1 || !ply.Proven || ply.Least != 1 || !ply.Checked || ply.Count.V != 1 {
		t.Errorf("ply: %d sheets, least %d, proven %v, checked %v, count %v", len(ply.Sheets), ply.Least, ply.Proven, ply.Checked, ply.Count.V)
	}
	if len(ash.Sticks) != 1 || !ash.Proven || !ash.Checked {
		t.Errorf("ash: %d sticks, proven %v, checked %v", len(ash.Sticks), ash.Proven, ash.Checked)
	}
	if got := len(ply.Count.Steps()); got != 4+12 {
		t.Errorf("the count hangs on %d inputs, want the stock's length, width and trim, the kerf and both sides of six blanks", got)
	}
	if len(ply.Count.Sources()) > 0 {
		t.Error("a count moved by a small change")
	}
	for _, c := range ply.Sheets[0].Cuts {
		t.Logf("%+v", c)
	}
	t.Logf("%+v %+v %s", ply.Sheets[0].Placements, ply.Sheets[0].Offcuts, ply.Proof)
	t.Logf("%+v", ash)
}

func text(s say.Sentence) string {
	var b strings.Builder
	for _, sp := range s {
		b.WriteString(sp.Text)
		if sp.Q != nil {
			b.WriteString("#")
		}
	}
	return b.String()
}
