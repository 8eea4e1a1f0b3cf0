package deliver_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rodwork/examples"
	"rodwork/internal/deliver"
	"rodwork/internal/judge"
	"rodwork/internal/plan"
	"rodwork/internal/units"
)

// reassembled is what the reader of hole lists and poses says of one folder.
type reassembled struct {
	Folder string
	Looked map[string]int
	Wrong  []string
}

// folder writes the lists and the scene of a plan.
func folder(t *testing.T, p *plan.Plan) string {
	t.Helper()
	dir := t.TempDir()
	glb, err := deliver.GLB(p)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{"piece.glb": glb}
	for _, f := range deliver.CSV(p, units.MM) {
		files[f.Name] = f.Data
	}
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func fromTexts(t *testing.T, text string) *plan.Plan {
	t.Helper()
	_, shop := examples.Main()
	return made(t, plan.Source{PieceFile: "piece.yaml", Piece: []byte(text), ShopFile: "shop.yaml", Shop: shop})
}

// joined are pieces that between them have every joint that is drilled.
func joined() map[string]string {
	out := map[string]string{}
	for _, kind := range []string{"dowel", "loose tenon", "lap"} {
		rails := "birch ply 12"
		if kind == "lap" {
			rails = "birch ply 18"
		}
		out["table, "+kind] = frameText(800, 600, 420, 60, kind, rails, "dowel")
	}
	out["table, screwed top"] = frameText(700, 500, 400, 60, "dowel", "birch ply 12", "screw")
	out["cabinet"] = cabinetText(900, 600, 320, "dowel", "loose tenon", "screw")
	return out
}

func frameText(w, h, d, post float64, joint, rails, top string) string {
	return fmt.Sprintf(`rodwork: 1
piece: Potting table
stock: {panels: birch ply 18, posts: birch ply 18, rails: %s}
shelves: [{in: inside, fixed at: evenly}]
body:
  kind: frame
  width: %g
  height: %g
  depth: %g
  frame:
    post width: %g
    joint: %s
    rails: [{at: top front, height: 80}, {at: top back, height: 80}, {at: top ends, height: 70, set back: 0}, {at: bottom ends, height: 45, up: 120, set back: 0}]
    top: {over: 20, joint: %s}
`, rails, w, h, d, post, joint, top)
}

func cabinetText(w, h, d float64, a, b, c string) string {
	return fmt.Sprintf(`rodwork: 1
piece: Seed cabinet
stock: {shell: birch ply 18, panels: birch ply 18, back: birch ply 6}
body:
  kind: box
  width: %g
  height: %g
  depth: %g
  corners:
    top left: {square: %s, runs through: side}
    top right: {square: %s, runs through: side}
    bottom left: {square: rabbet, runs through: side}
    bottom right: {square: rabbet, runs through: side}
inside: {bays: [{name: a}, {name: b, levels: [{name: low}, {name: high}]}]}
shelves: [{in: a, on: pins, above floor: 96}]
back: {set: rabbet, depth: 8}
base: {kind: plinth, height: 80, set back: 20}
joints:
  divider / top: {kind: %s}
  board / side: {kind: %s}
  board / divider: {kind: %s}
`, w, h, d, a, b, b, c, a)
}

func judged(t *testing.T, folders ...string) []reassembled {
	t.Helper()
	var out []reassembled
	judge.Python(t, "", "holes.py", &out, folders...)
	if len(out) != len(folders) {
		t.Fatalf("%d folders judged of %d", len(out), len(folders))
	}
	return out
}

// A reader that knows the lists of cuts and holes and the parts' poses, and
// nothing else, puts every example together, and pieces with each joint: what is
// cut from one part meets its partner.
func TestHolesMeetInSpace(t *testing.T) {
	var folders []string
	for _, p := range every(t) {
		folders = append(folders, folder(t, p))
	}
	for _, text := range joined() {
		folders = append(folders, folder(t, fromTexts(t, text)))
	}
	looked := map[string]int{}
	for _, r := range judged(t, folders...) {
		for _, w := range r.Wrong {
			t.Errorf("%s: %s", r.Folder, w)
		}
		for k, n := range r.Looked {
			looked[k] += n
		}
	}
	for _, k := range []string{"dowels", "loose tenons", "screws", "rows of pins", "hinges", "housings"} {
		if looked[k] < 6 {
			t.Errorf("only %d %s were looked at", looked[k], k)
		}
	}
}

// Pieces of random sizes and joints.
func TestHolesMeetInRandomPieces(t *testing.T) {
	joints := rapid.SampledFrom([]string{"dowel", "loose tenon", "screw"})
	gen := rapid.Custom(func(rt *rapid.T) string {
		size := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		if rapid.Bool().Draw(rt, "frame") {
			return frameText(size("w", 500, 1100), size("h", 420, 800), size("d", 300, 600), size("post", 45, 90),
				rapid.SampledFrom([]string{"dowel", "loose tenon"}).Draw(rt, "joint"), rapid.SampledFrom([]string{"birch ply 12"}).Draw(rt, "rails"), joints.Draw(rt, "top"))
		}
		return cabinetText(size("w", 600, 1100), size("h", 500, 900), size("d", 220, 450), joints.Draw(rt, "a"), joints.Draw(rt, "b"), joints.Draw(rt, "c"))
	})
	var folders []string
	for i := range 12 {
		folders = append(folders, folder(t, fromTexts(t, gen.Example(i))))
	}
	for _, r := range judged(t, folders...) {
		if len(r.Looked) == 0 || len(r.Wrong) > 0 {
			t.Errorf("%s: %v, wrong: %v", r.Folder, r.Looked, r.Wrong)
		}
	}
}

// Half a millimetre, planted in one row of a list, is found.
func TestAPlantedShiftIsFound(t *testing.T) {
	type plant struct{ list, what, column string }
	tables := joined()
	for text, plants := range map[string][]plant{
		tables["table, dowel"]:       {{"holes.csv", "dowels of", "x (mm)"}, {"holes.csv", "dowels of", "y (mm)"}},
		tables["table, loose tenon"]: {{"cuts.csv", "loose tenons of", "x from (mm)"}},
		tables["table, screwed top"]: {{"holes.csv", "screws of", "x (mm)"}},
		tables["cabinet"]:            {{"holes.csv", "shelf pins in", "x (mm)"}, {"holes.csv", "screws of bottom", "y (mm)"}},
		string(read(t, "chest")):     {{"cuts.csv", "board over", "x from (mm)"}},
		string(read(t, "plain-box")): {{"holes.csv", "hinge plate of", "x (mm)"}},
	} {
		dir := folder(t, fromTexts(t, text))
		var folders, ids []string
		for _, w := range plants {
			at, id := planted(t, dir, w.list, w.what, w.column)
			folders, ids = append(folders, at), append(ids, id)
		}
		for i, r := range judged(t, folders...) {
			if len(r.Wrong) == 0 || len(r.Wrong) > 20 {
				t.Errorf("%+v in %s: %v", plants[i], ids[i], r.Wrong)
			}
		}
	}
}

func read(t *testing.T, name string) []byte {
	t.Helper()
	b, err := examples.Files.ReadFile(name + "/piece.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// planted copies a folder with one number of a list moved by half a millimetre.
func planted(t *testing.T, dir, list, what, column string) (folder, id string) {
	t.Helper()
	out := t.TempDir()
	names, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range names {
		data, err := os.ReadFile(filepath.Join(dir, n.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if n.Name() == list {
			data, id = moved(t, data, what, column)
		}
		if err := os.WriteFile(filepath.Join(out, n.Name()), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return out, id
}

func moved(t *testing.T, data []byte, what, column string) ([]byte, string) {
	t.Helper()
	all, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	col, id := -1, ""
	for i, h := range all[0] {
		if h == column {
			col = i
		}
	}
	for _, r := range all[1:] {
		if col < 0 || id != "" || !strings.Contains(strings.Join(r, "|"), what) {
			continue
		}
		v, err := strconv.ParseFloat(r[col], 64)
		if err != nil {
			t.Fatal(err)
		}
		r[col], id = strconv.FormatFloat(v+0.5, 'f', -1, 64), r[len(r)-1]
	}
	if id == "" {
		t.Fatalf("nothing for %q in column %q", what, column)
	}
	var buf bytes.Buffer
	w := csv.NewWriter(&buf)
	if err := w.WriteAll(all); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes(), id
}
