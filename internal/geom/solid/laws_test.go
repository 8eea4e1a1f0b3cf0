package solid_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// What two bodies share, their contact and their distance agree with each other,
// and hang on neither order nor place.
func TestLawsOfPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := panel.Draw(t, "a"), panel.Draw(t, "b")
		ra, rb := solid.Prepare(a), solid.Prepare(b)
		s, err := ra.Overlap(rb)
		if err != nil {
			t.Fatal(err)
		}
		back, err := rb.Overlap(ra)
		if err != nil {
			t.Fatal(err)
		}
		const slack = 0.02 * 2e4 // the chords' error over both surfaces
		if math.Abs(s.Volume-back.Volume) > slack*solid.Chord || s.Volume > min(a.Volume(), b.Volume())+1e-6 {
			t.Fatalf("%g mm³ one way, %g the other; the bodies hold %g and %g", s.Volume, back.Volume, a.Volume(), b.Volume())
		}
		g, h := ra.Distance(rb), rb.Distance(ra)
		if math.Abs(g.Distance-h.Distance) > 1e-9 {
			t.Fatalf("%g apart one way, %g the other", g.Distance, h.Distance)
		}
		if g.Distance > 1e-6 && s.Volume > 0 || g.Distance == 0 && s.Volume == 0 && s.Reach > 0 {
			t.Fatalf("%g apart, and %g mm³ shared", g.Distance, s.Volume)
		}
		axis, by := r3.Vec{X: 1, Y: -2, Z: 0.5}, r3.Vec{X: 400, Y: -90, Z: 7}
		v, err := solid.Overlap(tilted(a, axis, 1, by), tilted(b, axis, 1, by))
		if err != nil || math.Abs(v-s.Volume) > 1e-6*(1+s.Volume) {
			t.Fatalf("%v: %g mm³ here, %g elsewhere", err, s.Volume, v)
		}
	})
}

// A body shares all of itself with itself, and all of it touches its own copy on
// the other side of each flat face: none does, as faces of one body never look
// at each other.
func TestLawsOfOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := panel.Draw(t, "b")
		s, err := solid.Prepare(b).Overlap(solid.Prepare(b))
		slack := 1e-9
		if len(b.Within) > 0 { // asked by cells, in which chords stand for arcs
			slack = 1e-3
		}
		if err != nil || !near(s.Volume, b.Volume(), slack) {
			t.Fatalf("%v: %g mm³ of %g", err, s.Volume, b.Volume())
		}
		if c := b.Centroid(); s.Volume > 0 && s.Center.Sub(c).Len() > 1e-6+30*(slack-1e-9) {
			t.Fatalf("the centre is %v, of what it shares with itself %v", c, s.Center)
		}
		if d := solid.Distance(b, b); d != 0 && b.Volume() > 0 {
			t.Fatalf("%g away from itself", d)
		}
		// Lifted off its face by a hair, its two broad faces are all that meet.
		up := b
		up.Pose.O = up.Pose.O.Add(up.Pose.Z.Mul(18.04))
		area, patches, err := solid.Contact(b, up, 0.05)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range patches {
			if math.Abs(p.Gap-0.04) > 1e-9 || p.Normal.Sub(b.Pose.Z).Len() > 1e-9 {
				t.Fatalf("%v", p)
			}
		}
		lo, hi := 0.0, 0.0
		if n := len(b.Slabs); n > 0 && b.Slabs[0].Z0 == 0 && b.Slabs[n-1].Z1 == 18 {
			lo, hi = b.Slabs[0].Region.Area(), b.Slabs[n-1].Region.Area()
		}
		if area > min(lo, hi)+1e-3 {
			t.Fatalf("%g mm² touch, the faces have %g and %g", area, lo, hi)
		}
	})
}

// Along any line through two bodies, the stretches in both are what the line has
// in what they share: the volumes of what rays find come out the same.
func TestOverlapAgainstRays(t *testing.T) {
	a := disc(20, 60)
	b := tilted(block(-15, -15, -40, 15, 25, 40), r3.Vec{X: 1, Y: 0.4}, 0.8, r3.Vec{Z: 30})
	want, step := 0.0, 0.25
	for x := -40 + step/2; x < 40; x += step {
		for y := -40 + step/2; y < 40; y += step {
			o := r3.Vec{X: x, Y: y, Z: -100}
			for _, s := range a.Ray(o, r3.Vec{Z: 1}) {
				for _, u := range b.Ray(o, r3.Vec{Z: 1}) {
					want += max(0, min(s.T1, u.T1)-max(s.T0, u.T0)) * step * step
				}
			}
		}
	}
	got, err := solid.Overlap(a, b)
	if err != nil || !near(got, want, 2e-3) {
		t.Errorf("%v: %g mm³, rays find %g", err, got, want)
	}
}
