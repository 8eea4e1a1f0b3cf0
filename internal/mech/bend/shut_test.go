package bend

import (
	"math"
	"testing"
)

// A homogeneous skin of E = 10 000 MPa, 2 mm thick and 100 mm wide, under a kerf
// of 2.5 mm in a sheet of 18: by hand EI/w = 10000·100·8/12/2.5 = 266 667, shut
// 10000·2·100/2.5·17² = 231.2·10⁶ N·mm/rad, 12·(17/2)² = 867 times as stiff.
func TestShutKerfIsATie(t *testing.T) {
	p, _ := New(Spec{Thick: 18, Skin: 2, Kerf: 2.5, Radius: 60, Angle: math.Pi / 2, Width: 100, Count: 8, Layers: []Layer{{Thick: 18, E: 10000}}, GrainAlong: true})
	angle, early := p.Shut()
	if want := 8 * 2.5 / 17; !early || math.Abs(angle-want) > 1e-9 {
		t.Fatalf("shut at %g, %v; %g by hand", angle, early, want)
	}
	if got := p.ShutStiffness(); math.Abs(got-231.2e6) > 1 {
		t.Errorf("shut %g N·mm/rad, 231.2e6 by hand", got)
	}
	if got := p.ShutStiffness() / p.Stiffness; math.Abs(got-867) > 1e-6 {
		t.Errorf("%g times as stiff, 867 by hand", got)
	}
	m, e := p.PastShut(0.001)
	if math.Abs(m-(p.Stiffness*2.5/17+231200)) > 1 || math.Abs(e-(1.0/17+17*0.001/2.5)) > 1e-9 {
		t.Errorf("past shutting %g N·mm and %g", m, e)
	}
	open, _ := New(Spec{Thick: 18, Skin: 2, Kerf: 2.5, Radius: 140, Angle: math.Pi / 2, Width: 100, Count: 36})
	if _, early := open.Shut(); early {
		t.Error("36 kerfs shut early")
	}
	if open.ShutStiffness() != 0 {
		t.Error("a stiffness of no known modulus")
	}
}

// The longest hinge is what finite elements gave for 1.1, 1.6 and 2.0 mm of skin
// (3.10, 2.04, 1.54 skins past the slot), or two skins where that is more; only
// of plywood with its face grain round the bend; and a hinge never gets shorter
// with its skin.
func TestLongestHinge(t *testing.T) {
	s := Spec{Kerf: 2.2, Layers: []Layer{{1.1, 17500}, {1.4, 600}}, GrainAlong: true}
	for skin, computed := range map[float64]float64{1.1: 3.10, 1.6: 2.04, 2.0: 1.54} {
		s.Skin = skin
		if got := s.betaWidest(); got < BetaWidest || got > math.Max(computed, BetaWidest)+1e-9 || got < computed-0.2 {
			t.Errorf("skin %g: up to %g skins, computed %g", skin, got, computed)
		}
	}
	last := 0.0
	for s.Skin = 0.3; s.Skin < 4; s.Skin += 0.05 {
		if reach := s.betaWidest() * s.Skin; reach < last-1e-9 {
			t.Errorf("skin %g: the hinge reaches %g, less than %g under a thinner one", s.Skin, reach, last)
		} else {
			last = reach
		}
	}
	s.Skin, s.GrainAlong = 1.1, false
	if s.betaWidest() != BetaWidest {
		t.Error("grain across the bend was not computed")
	}
}
