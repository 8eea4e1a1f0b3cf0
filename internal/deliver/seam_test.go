package deliver_test

import (
	"math"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/deliver"
	"rodwork/internal/judge"
	"rodwork/internal/piece"
	"rodwork/internal/plan"
)

const closedShell = `rodwork: 1
piece: Closed shell
units: mm
stock: {shell: birch ply 18, panels: birch ply 18, tongues: birch ply 6}
body:
  kind: bent shell
  bends in: front view
  width: 700
  height: 500
  depth: 250
  corners: {top left: {radius: 150}, top right: {radius: 150}, bottom left: {radius: 150}, bottom right: {radius: 150}}
  bend: kerfed
  open: [front]
  seams: [{on: bottom, from: left, at: 350, joint: %}]
base: none
`

// A shell that is closed all round is one solid to the kernel, open at its seam by
// a glue line, with the tongue's grooves or without; flat it is a strip with kerfs.
func TestSTEPOfAClosedShell(t *testing.T) {
	_, shop := examples.Main()
	for _, joint := range []string{"loose tongue"} {
		p := made(t, plan.Source{PieceFile: "piece.yaml", Piece: []byte(strings.Replace(closedShell, "%", joint, 1)), ShopFile: "shop.yaml", Shop: shop})
		files, unwritten, err := deliver.STEP(p)
		if err != nil || len(unwritten) > 0 {
			t.Fatal(joint, unwritten, err)
		}
		files, flats := apart(files)
		var got []struct {
			Success bool
			Solids  []kernelSolid
		}
		judge.Node(t, "occt-import-js", "step.mjs", &got, write(t, files[0], flats[0])...)
		q := p.Piece.Parts[0]
		body, err := piece.Solid(q, 0)
		if err != nil {
			t.Fatal(err)
		}
		want := body.Volume() - piece.GlueLine*q.Thick.V*q.Width.V
		if joint == "loose tongue" { // the groove has no wood to lose
			for _, c := range q.Cuts {
				if c.Kind == piece.EndGroove && c.X1.V > q.Length.V-1e-6 {
					want += piece.GlueLine * (c.Z1.V - c.Z0.V) * (c.Y1.V - c.Y0.V)
				}
			}
		}
		if len(got[0].Solids) != 1 || math.Abs(got[0].Solids[0].Volume-want) > 1e-4*want || got[0].Solids[0].Open > 0 {
			t.Errorf("%s: %+v, want one solid of %.0f mm³", joint, got[0].Solids, want)
		}
		if !strings.Contains(got[0].Solids[0].Name, "seam") {
			t.Errorf("%s: nothing in %q tells that it is open", joint, got[0].Solids[0].Name)
		}
		flat, err := piece.Flat(q)
		if err != nil {
			t.Fatal(err)
		}
		if s := got[1].Solids; len(s) != 1 || math.Abs(s[0].Volume-flat.Volume()) > 1e-4*flat.Volume() || s[0].Open > 0 {
			t.Errorf("%s, flat: %+v, want one solid of %.0f mm³", joint, s, flat.Volume())
		}
	}
}
