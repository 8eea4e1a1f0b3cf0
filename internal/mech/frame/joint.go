package frame

// A jointKind is how stiff a kind of joint is for its size, and what share of
// the joined part's own bending strength it bears.
type jointKind struct {
	name  string
	c     float64 // MPa for each rad: k = c·b·h²
	share float64
}

// joints by kind, on the cautious side (common practice). Their order, glue over
// screws, follows tests of cases (N. Tankut, Effect of various factors on the
// rigidity of furniture cases, African Journal of Biotechnology, abstract,
// read: glued joints made stiffer cases than dry ones).
var joints = []jointKind{
	{"lap", 40, 0.5}, {"dowel", 30, 0.35}, {"loose tenon", 30, 0.4}, {"tenon", 30, 0.4}, {"finger", 20, 0.35},
	{"housing", 10, 0.2}, {"rabbet", 10, 0.2}, {"mitre", 6, 0.15}, {"groove", 5, 0.1},
	{"notch", 5, 0.15}, {"butt", 5, 0.15}, {"screwed", 4, 0.15}, {"bend", 0, 0},
}

// Joint returns the spring of a joint of a kind, N·mm/rad, and the moment that
// it may be given, N·mm (FRAME-04). The part that ends there is wide (mm) along
// the joint and high (mm) in the plane in which it turns; strength is its own in
// bending, MPa. A kind that is not known, pins and hinges hold nothing. A joint
// without glue has a third of both.
func Joint(kind string, glued bool, wide, high, strength float64) (spring, moment float64) {
	for _, j := range joints {
		if j.name != kind {
			continue
		}
		spring, moment = j.c*wide*high*high, j.share*strength*wide*high*high/6
		if !glued && kind != "screwed" {
			spring, moment = spring/3, moment/3
		}
		return spring, moment
	}
	return 0, 0
}

// BackShear is the stiffness in shear, N/mm, of a panel of the modulus g (MPa)
// and thickness t (mm) that is w wide and h high and held along its edges: by
// glue, or by screws or nails, whose edge gives 1 mm for 5 N on each mm of it
// (common practice, cautious). The two are springs in a row (FRAME-03).
func BackShear(g, t, w, h float64, glued bool) float64 {
	own := g * t
	if glued || w <= 0 || h <= 0 {
		return own
	}
	// Each edge slips by shear flow over stiffness; slips of the four edges add
	// to an angle of 2·q/s·(1/w + 1/h).
	slip := 2 / edgeSlip * (1/w + 1/h)
	return 1 / (1/own + slip)
}

// edgeSlip is the give of a screwed or nailed edge: N/mm of edge for each mm of
// slip.
const edgeSlip = 5.0
