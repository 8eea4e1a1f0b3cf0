package web

import (
	"slices"
	"strings"
	"testing"
)

// A preview for what is in sight tells that, and that the rest is behind; asked
// for whole, it tells the rest too, the same as if it had been asked for at once.
func TestAGlanceTellsWhatIsInSight(t *testing.T) {
	s, _ := start(t)
	other, _ := start(t)
	r := request{Base: 1, Path: "sizes.width", Text: "1500"}
	var near []string
	for _, sec := range s.view.sections {
		if sec.ID == "b-piece" {
			near = sec.Rows
		}
	}
	r.Near = near
	code, a, _ := post(t, s, "/preview", r)
	if code != 200 || !a.Behind || !a.Preview || len(a.HTML) == 0 {
		t.Fatalf("%d, behind %v, %d blocks", code, a.Behind, len(a.HTML))
	}
	r.Near = nil
	_, whole, _ := post(t, other, "/preview", r)
	for id, h := range a.HTML {
		if strings.HasPrefix(id, "r-") && !slices.Contains(near, id) {
			t.Errorf("%s is out of sight", id)
		}
		if h != whole.HTML[id] {
			t.Errorf("%s is not what it is in the whole", id)
		}
	}
	for id := range whole.HTML {
		if _, ok := a.HTML[id]; !ok && (slices.Contains(near, id) || !strings.HasPrefix(id, "r-")) {
			t.Errorf("%s is in sight, and was not told", id)
		}
	}
	if len(a.Values) != len(whole.Values) {
		t.Errorf("%d values, of %d", len(a.Values), len(whole.Values))
	}
	_, rest, _ := post(t, s, "/preview", r)
	if rest.Behind || len(rest.HTML) != len(whole.HTML) {
		t.Errorf("the rest: behind %v, %d of %d blocks", rest.Behind, len(rest.HTML), len(whole.HTML))
	}
	for id, h := range rest.HTML {
		if h != whole.HTML[id] {
			t.Errorf("the rest: %s differs", id)
		}
	}
	// What a page has from elsewhere is told again where it is in sight only.
	r.Near, r.Text, r.Shown = near[:1], "1460", []string{near[0], near[1]}
	_, back, _ := post(t, s, "/preview", r)
	if _, ok := back.HTML[near[0]]; !ok || len(back.HTML) > 4 {
		t.Errorf("back to where it was: %d blocks", len(back.HTML))
	}
}

// Of lists, what is asked for is done; what cannot be is refused with a reason.
func TestListsOnThePage(t *testing.T) {
	s, d := start(t)
	code, a, no := post(t, s, "/edit", request{Base: 1, Path: "shelves.1", Do: doubled})
	if code != 200 || a.Rev != 2 {
		t.Fatalf("%d %+v", code, no)
	}
	code, _, no = post(t, s, "/edit", request{Base: 2, Path: "shelves.2", Do: without})
	if code != 200 || d.has("in: hymns, on: pins, above floor: 144, pitch: 32, to: auto, count: 2, set back: 5, edging: {stock: edging, height: 30}}\n  - {in: hymns") {
		t.Fatalf("%d %+v", code, no)
	}
	for _, r := range []request{{Base: 3, Path: "rails.0", Do: without}, {Base: 3, Path: "shelves.9", Do: doubled}, {Base: 3, Path: "sizes.width", Do: doubled}} {
		if code, _, no := post(t, s, "/edit", r); code != 422 || no.Why == "" {
			t.Errorf("%+v: %d %+v", r, code, no)
		}
	}
	if w := ask(s, "POST", "/edit", `{"base":3,"path":"shelves.0","do":"burn"}`, nil); w.Code != 400 {
		t.Errorf("an act of no name we know: %d", w.Code)
	}
}
