package verify_test

import (
	"strings"
	"testing"

	"rodwork/internal/sheet"
	"rodwork/internal/sheet/verify"
)

// two parts of 600 × 400 on a sheet of 1300 × 500, kerf 4, trim 10, laid out by
// hand: two trim cuts, a rip, and a cut between the parts and one after them.
func byHand() (sheet.Problem, sheet.Answer) {
	p := sheet.Problem{
		Stocks:   []sheet.Stock{{Name: "ply", Length: 1300, Width: 500, Trim: 10, Price: 50, Available: sheet.Unlimited}},
		Parts:    []sheet.Part{{ID: "side", Length: 600, Width: 400, Grain: sheet.Along, Copies: 2}},
		Kerf:     4,
		KeptSide: 50,
	}
	a := sheet.Answer{
		Sheets: []sheet.Layout{{
			Placements: []sheet.Placement{{X: 10, Y: 10, DX: 600, DY: 400}, {Copy: 1, X: 614, Y: 10, DX: 600, DY: 400}},
			Cuts: []sheet.Cut{
				{Number: 1, Axis: sheet.Y, At: 10, To: 1300, Fence: 10, Trim: true},
				{Number: 2, Axis: sheet.X, At: 10, From: 10, To: 500, Fence: 10, Trim: true},
				{Number: 3, Axis: sheet.Y, At: 410, From: 10, To: 1300, Fence: 400},
				{Number: 4, Axis: sheet.X, At: 610, From: 10, To: 410, Fence: 600, Stage: 1},
				{Number: 5, Axis: sheet.X, At: 1214, From: 10, To: 410, Fence: 600, Stage: 1},
			},
			Offcuts: []sheet.Rect{{X: 10, Y: 414, DX: 1280, DY: 76}, {X: 1218, Y: 10, DX: 72, DY: 400}},
		}},
		Cost: 50, Full: 1,
		Proof:     sheet.Certificate{F: sheet.Func{Family: sheet.Identity}, G: sheet.Func{Family: sheet.Identity}, Sum: 604. * 404 * 2 / (1284 * 484), Least: 1},
		LeastCost: 50, Proven: true,
	}
	return p, a
}

func TestByHand(t *testing.T) {
	if err := verify.Sheets(byHand()); err != nil {
		t.Fatal(err)
	}
}

// TestEachLieIsFound spoils the answer in one way at a time.
func TestEachLieIsFound(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*sheet.Problem, *sheet.Answer)
		want  string
	}{
		"a part less":   {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Placements = a.Sheets[0].Placements[:1] }, "1 parts are laid out, 2"},
		"a part twice":  {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Placements[1].Copy = 0 }, "there twice"},
		"no such part":  {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Placements[1].Part = 7 }, "not asked for"},
		"against grain": {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Placements[0].Turned = true }, "against its grain"},
		"too small":     {func(p *sheet.Problem, a *sheet.Answer) { p.Parts[0].Length = 601 }, "want 601"},
		"in the trim":   {func(p *sheet.Problem, a *sheet.Answer) { p.Stocks[0].Trim = 11 }, "not inside the trim"},
		"a wider kerf":  {func(p *sheet.Problem, a *sheet.Answer) { p.Kerf = 5 }, "no kerf between"},
		"a cut less":    {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Cuts = a.Sheets[0].Cuts[:4] }, "not among the pieces"},
		"a cut too early": {func(p *sheet.Problem, a *sheet.Answer) {
			c := a.Sheets[0].Cuts
			c[2], c[3] = c[3], c[2]
			c[2].Number, c[3].Number = 3, 4
		}, "edge to edge"},
		"a cut that turns": {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Cuts[2].To = 700 }, "edge to edge"},
		"wrong numbers":    {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Cuts[2].Number = 9 }, "has number 9"},
		"a wrong fence":    {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Cuts[3].Fence = 599 }, "the fence is at 599"},
		"a larger offcut":  {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Offcuts[0].DX = 1200 }, "offcut"},
		"no such offcut":   {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Offcuts[1].X++ }, "offcut"},
		"no such stock":    {func(p *sheet.Problem, a *sheet.Answer) { a.Sheets[0].Stock = 1 }, "no stock 1"},
		"a wrong cost":     {func(p *sheet.Problem, a *sheet.Answer) { a.Cost = 49 }, "cost 50"},
		"more than there is": {func(p *sheet.Problem, a *sheet.Answer) {
			p.Stocks[0].Available = 1
			a.Sheets = append(a.Sheets, a.Sheets[0])
		}, "2 used of 1"},
		"a wrong sum":      {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.Sum = 0.9 }, "the proof's sum"},
		"a bold proof":     {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.Least = 2 }, "2 are claimed"},
		"a bold cost":      {func(p *sheet.Problem, a *sheet.Answer) { a.LeastCost = 51 }, "51 is claimed"},
		"not proved":       {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.Least, a.LeastCost = 0, 0 }, "said to be proved"},
		"no such function": {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.F = sheet.Func{Family: "wish", Param: 1} }, "no function named"},
		"a bold lift":      {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.Lifts = []sheet.Lift{{Part: 0, To: 700}} }, "other parts make 604"},
		"a lift down":      {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.Lifts = []sheet.Lift{{Part: 0, To: 600}} }, "lift 0 is to 600"},
		"a lift of none":   {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.Lifts = []sheet.Lift{{Part: 1, To: 700}} }, "no copy"},
		"a bold floor":     {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.F.Floor = 1000 }, "no floor"},
		"a mean":           {func(p *sheet.Problem, a *sheet.Answer) { a.Proof.Mean = true }, "not square"},
	} {
		p, a := byHand()
		c.spoil(&p, &a)
		err := verify.Sheets(p, a)
		if err == nil {
			t.Errorf("%s: not found", name)
		} else if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want %q", name, err, c.want)
		}
	}
}

func TestStickLies(t *testing.T) {
	good := func() (sheet.StickProblem, sheet.StickAnswer) {
		return sheet.StickProblem{Stick: 1000, EndTrim: 5, Kerf: 3, Lengths: []sheet.Length{{ID: "edging", Length: 400, Copies: 2}}},
			sheet.StickAnswer{Sticks: []sheet.Stick{{Pieces: []sheet.Piece{{At: 5}, {Copy: 1, At: 408}}, Left: 184}},
				F: sheet.Func{Family: sheet.Identity}, Sum: 806. / 993, Least: 1, Proven: true}
	}
	if err := verify.Sticks(good()); err != nil {
		t.Fatal(err)
	}
	p, a := good()
	a.F, a.Weights, a.Carries = sheet.Func{}, []int64{1}, 2
	if a.Sum = 1; verify.Sticks(p, a) != nil {
		t.Error("two of 400 to a stick by weights: ", verify.Sticks(p, a))
	}
	for name, spoil := range map[string]func(*sheet.StickProblem, *sheet.StickAnswer){
		"a piece less":  func(p *sheet.StickProblem, a *sheet.StickAnswer) { a.Sticks[0].Pieces = a.Sticks[0].Pieces[:1] },
		"a piece twice": func(p *sheet.StickProblem, a *sheet.StickAnswer) { a.Sticks[0].Pieces[1].Copy = 0 },
		"no kerf":       func(p *sheet.StickProblem, a *sheet.StickAnswer) { a.Sticks[0].Pieces[1].At = 405 },
		"over the end":  func(p *sheet.StickProblem, a *sheet.StickAnswer) { p.Lengths[0].Length = 600 },
		"a bold weight": func(p *sheet.StickProblem, a *sheet.StickAnswer) {
			a.Weights, a.Carries, a.Sum, a.Least = []int64{5}, 9, 10./9, 2
			a.Sticks = append(a.Sticks, sheet.Stick{Pieces: a.Sticks[0].Pieces[1:]})
		},
		"more left":    func(p *sheet.StickProblem, a *sheet.StickAnswer) { a.Sticks[0].Left = 185 },
		"a bold proof": func(p *sheet.StickProblem, a *sheet.StickAnswer) { a.Least = 2 },
		"a wrong sum":  func(p *sheet.StickProblem, a *sheet.StickAnswer) { a.Sum = 1 },
		"not proved":   func(p *sheet.StickProblem, a *sheet.StickAnswer) { a.Least = 0 },
	} {
		p, a := good()
		spoil(&p, &a)
		if verify.Sticks(p, a) == nil {
			t.Errorf("%s: not found", name)
		}
	}
}
