package child

import "math"

// Level is what an opening comes to.
type Level string

// The levels.
const (
	Fine Level = "fine"
	Look Level = "look"
	Stop Level = "stop"
)

// Limits of openings, mm.
const (
	FingerFrom, FingerTo = 7.0, 12.0   // DIN EN 747-1:2015, 4.1.2.1 (quoted)
	FingerDeep           = 10.0        // a hole shallower than this holds no finger (from memory)
	PlayFrom, PlayTo     = 9.525, 25.4 // 3/8 to 1 in: Caring for Our Children, 6.2.1.9 (read)
	LimbFrom, LimbTo     = 25.0, 60.0  // EN 716 and EN 747, about (from memory)
	HeadFrom, HeadTo     = 88.9, 228.6 // 3.5 and 9 in: CPSC Handbook, B.2.5 (read)
	HingeIn, HingeOut    = 5.0, 12.0   // EN 71-1, 4.10.3 (read)
	LightPart            = 0.250       // kg: lighter hinged parts are left out there
)

// Opening is what a bounded opening of a size (mm; small its narrower side or
// diameter, large the other, deep how far it reaches in) comes to, and the part
// of the body that it may hold: "finger", "hand", "head", or "" (CHILD-01).
func Opening(small, large, deep float64) (Level, string) {
	if large < small {
		small, large = large, small
	}
	switch {
	case small > FingerFrom && small < FingerTo && deep >= FingerDeep:
		return Stop, "finger"
	case small > HeadFrom && small < HeadTo:
		return Stop, "head"
	case small > PlayFrom && small < PlayTo && deep >= FingerDeep:
		return Look, "finger"
	case small >= LimbFrom && small <= LimbTo && large > 2*LimbTo:
		return Look, "hand"
	}
	return Fine, ""
}

// HingeLine is what the space along a hinge line comes to that opens from shut
// to open (mm) as the part (kg) turns: where a finger of 5 mm goes in, one of
// 12 mm must (CHILD-02).
func HingeLine(shut, open, kg float64) Level {
	lo, hi := math.Min(shut, open), math.Max(shut, open)
	if kg < LightPart || hi < HingeIn || lo >= HingeOut {
		return Fine
	}
	return Look
}

// The small parts cylinder of 16 CFR 1501.4: diameter, and its least and
// greatest depth, mm (figure 1, from memory).
const CylinderDia, CylinderShort, CylinderLong = 31.7, 25.4, 57.1

// Small tells whether a part of these sizes (mm) goes wholly into the cylinder,
// lying the way that suits it best (CHILD-04). The slanting floor is taken at
// its mean depth on the axis.
func Small(a, b, c float64) bool {
	s := []float64{a, b, c}
	for i := range s {
		x, y := s[(i+1)%3], s[(i+2)%3]
		if math.Hypot(x, y) <= CylinderDia && s[i] <= (CylinderShort+CylinderLong)/2 {
			return true
		}
	}
	return false
}

// Lids. A chest holds a child from this volume, dm³ (1.1 ft³, ASTM F834 and
// F2598, scope, read), and needs air from that one (EN 71-1, over 0.03 m³,
// read in its Russian adoption), by two openings of so much (mm²), so far apart
// (mm).
const (
	LidVolume = 1.1 * 28.316846592
	AirVolume = 30.0
	VentArea  = 650.0
	VentApart = 150.0
)

// VentDia is the diameter of a round opening of the area, mm (CHILD-05).
func VentDia(area float64) float64 { return 2 * math.Sqrt(area/math.Pi) }

// Edges: rounded by so much, or a chamfer like it, up to so high over where
// children stand, mm (DGUV rule 102-602, digests, read).
const EdgeRadius, EdgeHigh = 2.0, 2000.0

// Climbing: a ledge is a step where a toe finds room above it and the next is
// within a child's stride, mm (common practice).
const ToeRoom, Stride, FirstStep = 100.0, 450.0, 600.0

// Climb is how high a child gets on ledges at these heights (mm, rising), each
// within a stride of the one before (CHILD-06); 0 where the first is too high.
func Climb(ledges []float64) (high float64, steps int) {
	for _, y := range ledges {
		most := Stride
		if steps == 0 {
			most = FirstStep
		}
		if y-high > most {
			break
		}
		if y > high {
			high = y
			steps++
		}
	}
	return high, steps
}
