package compile

import (
	"strings"
	"testing"
)

// A wish for a board in a side is what its housing there has; that of the other
// end stays the divider's.
func TestBoardInTheSide(t *testing.T) {
	text := strings.Replace(cupboard, "board / side: {kind: dowel}", "board / side: {depth: 9}", 1)
	text = strings.Replace(text, "board / divider: {kind: loose tenon}", "board / divider: {depth: 4}", 1)
	if text == cupboard {
		t.Fatal("the fixture has no such joints")
	}
	p, r := fromText(t, text, nil)
	if len(r.codes) > 0 {
		t.Fatal(r.texts)
	}
	sides, dividers := 0, 0
	for _, j := range p.Joints {
		if q := p.Part(j.B); q == nil || q.Role != "board" || j.Kind != "housing" {
			continue
		}
		want := 4.0
		if p.Part(j.A).Role == "divider" {
			dividers++
		} else {
			sides++
			want = 9
		}
		exactly(t, j.ID, j.Depth.V, want)
	}
	if sides == 0 || dividers == 0 {
		t.Errorf("%d boards in sides, %d in dividers", sides, dividers)
	}
}
