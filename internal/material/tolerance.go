package material

// EN315 returns how much thicker and thinner than its nominal thickness t (mm)
// a sanded plywood may be, mm: +(0.2 + 0.03t), −(0.4 + 0.03t) (MAT-02). ok is
// false outside 12 to 25 mm, for which the clause was read.
func EN315(t float64) (over, under float64, ok bool) {
	if !(t >= 12 && t <= 25) {
		return 0, 0, false
	}
	return 0.2 + 0.03*t, 0.4 + 0.03*t, true
}

// WithinSheet is how much the thickness of one sheet may vary, mm, by the same
// clause.
const WithinSheet = 0.6

// Movement returns how much a size (mm) changes when the moisture of solid wood
// goes from one to another percentage: D·C·(M_f − M_i) (MAT-05). Its linear
// form holds from 6 to 14 %.
func Movement(size, coefficient, from, to float64) float64 {
	return size * coefficient * (to - from)
}
