package making

import (
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/work"
)

// What was sawn off an offcut and what is left of it never come to more than it
// was; what it holds it gives; what it does not hold it keeps.
func TestNothingIsPromisedTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(20, 900)
		o := &work.Offcut{Length: side.Draw(t, "length"), Width: side.Draw(t, "width")}
		s, sawnOff := stash{}, 0.0
		left := func() (sum float64) {
			for _, r := range s.of(o) {
				sum += r.length * r.width
			}
			return sum
		}
		for range rapid.IntRange(1, 8).Draw(t, "pieces") {
			l, w, before := side.Draw(t, "l"), side.Draw(t, "w"), left()
			_, ok := s.holds(o, l, w)
			s.take(o, l, w)
			if !ok {
				if left() != before {
					t.Fatal("sawn though it does not hold it")
				}
				continue
			}
			if sawnOff += l * w; left()+sawnOff > o.Length*o.Width+1e-6 {
				t.Fatalf("%g sawn off and %g left of %g", sawnOff, left(), o.Length*o.Width)
			}
		}
	})
}

// Six blocks of 110 by 45 come out of 230 by 200 in rows of two, not of three.
func TestBlockOfPieces(t *testing.T) {
	o := &work.Offcut{Length: 230, Width: 200}
	l, w, ok := stash{}.block(o, 110, 45, 6)
	if !ok || l != 224 || w != 143 {
		t.Errorf("%g by %g, %v", l, w, ok)
	}
	if _, _, ok := (stash{}).block(o, 110, 45, 9); ok {
		t.Error("nine fit")
	}
}
