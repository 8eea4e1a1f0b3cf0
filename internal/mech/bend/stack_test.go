package bend_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/mech/bend"
)

// Three plies round a radius of 200 at their middle: the former is 177.8 there,
// and stands at 101.25°.
func TestStackFormer(t *testing.T) {
	p, err := bend.NewStack(bend.Stack{Ply: 4, Count: 3, Radius: 206, Angle: math.Pi / 2, Width: 300, Length: 700})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"thick", p.Thick, 12}, {"mid", p.Mid, 200}, {"former at mid-thickness", p.FormerRadius + 6, 177.7778},
		{"former's angle", p.FormerAngle * 180 / math.Pi, 101.25}, {"lost", p.Lost, 1. / 9}, {"glue area", p.GlueArea, 2 * 300 * 700},
	} {
		if math.Abs(c.got-c.want) > 1e-4 {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
}

// A former that is let go comes out as wanted: the arc keeps its length at
// mid-thickness, and its curvature falls by 1/n².
func TestStackComesOutAsWanted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := bend.Stack{Ply: rapid.Float64Range(0.5, 6).Draw(t, "ply"), Count: rapid.IntRange(2, 20).Draw(t, "n"),
			Radius: rapid.Float64Range(150, 900).Draw(t, "radius"), Angle: rapid.Float64Range(0.3, 3.2).Draw(t, "angle"), Width: 300}
		p, err := bend.NewStack(s)
		var bad *bend.SpecError
		if errors.As(err, &bad) {
			t.Skip("no such bend")
		}
		mid := p.FormerRadius + p.Thick/2
		near(t, "length on the former", mid*p.FormerAngle, p.Flat, 1e-9*p.Flat)
		out := mid / (1 - p.Lost)
		near(t, "radius after", out, p.Mid, 1e-9*p.Mid)
		near(t, "angle after", p.FormerAngle*(1-p.Lost), s.Angle, 1e-12)
		more := s
		more.Count++
		if q, err := bend.NewStack(more); err == nil && q.Lost >= p.Lost {
			t.Errorf("%d plies give back no less than %d", more.Count, s.Count)
		}
	})
}

// At the radius that LeastOutside tells a ply is just at its recommended one.
func TestLeastOutside(t *testing.T) {
	for _, n := range []int{1, 2, 3, 6} {
		s := bend.Stack{Ply: 3.2, Count: n, Radius: 900, Angle: 1.5, Width: 300, GrainAlong: true}
		p, err := bend.NewStack(s)
		if err != nil {
			t.Fatal(err)
		}
		r, ok := p.LeastOutside()
		if !ok {
			t.Fatal("not covered")
		}
		for _, c := range []struct {
			by   float64
			want bend.Level
		}{{0.01, bend.Fine}, {-0.01, bend.Look}} {
			s.Radius = r + c.by
			p, _ = bend.NewStack(s)
			if v := p.Verdicts()[0]; v.Level != c.want {
				t.Errorf("%d plies at %.2f: %s, want %s", n, s.Radius, v.Level, c.want)
			}
		}
	}
}

// Spread too long for its glue, a stack says stop; one ply alone says that it
// must be held.
func TestStackVerdicts(t *testing.T) {
	level := func(s bend.Stack, key string) bend.Level {
		p, err := bend.NewStack(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range p.Verdicts() {
			if v.Key == key {
				return v.Level
			}
		}
		return ""
	}
	s := bend.Stack{Ply: 1.5, Count: 12, Radius: 200, Angle: math.Pi / 2, Width: 400, Length: 1200, GrainAlong: true, OpenTime: 540, SpreadTime: 18 * 60 * 1e-6}
	if l := level(s, bend.KeyOpen); l != bend.Stop {
		t.Errorf("eleven lines of half a square metre in nine minutes: %s", l)
	}
	s.SpreadTime = 40e-6
	if l := level(s, bend.KeyOpen); l != bend.Fine {
		t.Errorf("spread in three and a half minutes: %s", l)
	}
	s.Count = 1
	if l := level(s, bend.KeyHold); l != bend.Look {
		t.Errorf("one ply: %s", l)
	}
	s.Count, s.Ply, s.Radius = 3, 6.4, 140
	if l := level(s, bend.KeyPly); l != bend.Stop {
		t.Errorf("6.4 mm round 140 mm: %s", l)
	}
}
