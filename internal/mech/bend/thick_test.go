package bend

import "testing"

// A skin thicker than every sheet of the table is no way round the verdict: it
// was 'not covered' where 17 mm were to be left of 17.7.
func TestASkinPastTheTableStops(t *testing.T) {
	s := Spec{Thick: 17.7, Skin: 17, Kerf: 2.2, Radius: 140, Angle: 1.5707963, Width: 400, Count: 36, GrainAlong: true}
	p, err := New(s)
	if err != nil {
		t.Fatal(err)
	}
	if v := p.strain(); v.Level != Stop || v.Limit <= 0 {
		t.Errorf("skin 17 of 17.7: %s, limit %v", v.Level, v.Limit)
	}
}
