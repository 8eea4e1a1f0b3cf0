package beam

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// A shelf on four pins as a solid, by an independent finite-element program
// (tools/fe-frame/shelf.py), bare and with a strip along its front edge.
func TestShelfAgainstFiniteElements(t *testing.T) {
	src, err := os.ReadFile("testdata/fe.json")
	if err != nil {
		t.Fatal(err)
	}
	var r struct {
		Program, Version string
		Span             float64    `json:"span_mm"`
		Depth            float64    `json:"depth_mm"`
		Thick            float64    `json:"thick_mm"`
		Load             float64    `json:"load_kg_per_m"`
		Strip            [2]float64 `json:"strip_mm"`
		E                float64    `json:"modulus_mpa"`
		G                float64    `json:"shear_mpa"`
		Sags             map[string]map[string]float64
	}
	var raw map[string]json.RawMessage
	if err := json.Unmarshal(src, &r); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(src, &raw); err != nil || json.Unmarshal(raw["sags_mm"], &r.Sags) != nil || len(r.Sags) != 2 || r.Version == "" {
		t.Fatalf("%d cases of version %q: %v", len(r.Sags), r.Version, err)
	}
	s := Shelf{Span: r.Span, Depth: r.Depth, Thick: r.Thick, Load: r.Load, E: r.E, G: r.G, Ends: Pins}
	for name, want := range r.Sags {
		if name == "edged" {
			s.EdgingWidth, s.EdgingHigh, s.EdgingE = r.Strip[0], r.Strip[1], r.E
		} else {
			s.EdgingHigh = 0
		}
		got, err := Judge(s)
		if err != nil {
			t.Fatal(err)
		}
		for line, v := range map[string]float64{"front": got.Front, "middle": got.Middle, "back": got.Back} {
			t.Logf("%s, %s: %.3f mm, %s %s gave %.3f", name, line, v, r.Program, r.Version, want[line])
			if math.Abs(v-want[line]) > 0.04*want[line] {
				t.Errorf("%s, %s: %.3f mm, %s %s gave %.3f", name, line, v, r.Program, r.Version, want[line])
			}
		}
	}
}
