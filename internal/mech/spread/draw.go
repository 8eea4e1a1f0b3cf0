package spread

import "math"

// mix is the finalizer of a 64-bit splittable generator: each bit of the input
// turns about half of the bits of the result.
func mix(z uint64) uint64 {
	z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9
	z = (z ^ (z >> 27)) * 0x94d049bb133111eb
	return z ^ (z >> 31)
}

// golden is the odd number nearest to 2^64 over the golden ratio: steps of it
// spread a counter evenly over 64 bits.
const golden = 0x9e3779b97f4a7c15

// uniform is draw number i of build j, over 0 and under 1.
func uniform(seed, j, i uint64) float64 {
	z := mix(mix(seed+golden*(j+1)) + golden*(i+1))
	return (float64(z>>11) + 0.5) / (1 << 53)
}

// SeedOf makes a seed of a name, so that each fit has draws of its own and
// keeps them while its name stands (FNV-1a, 64 bits).
func SeedOf(name string) uint64 {
	h := uint64(0xcbf29ce484222325)
	for i := range len(name) {
		h = (h ^ uint64(name[i])) * 0x100000001b3
	}
	return h
}

// normal turns a uniform draw into one of mean 0 and deviation 1.
func normal(u float64) float64 { return quantile(u) }

// Coefficients of the rational approximation of the normal distribution's
// inverse by M. J. Wichura, 'Algorithm AS 241: The percentage points of the
// normal distribution', Applied Statistics 37 (1988) 477-484, PPND7: seven
// digits (from memory; held by a test against the error function).
var (
	midUp   = [...]float64{3.3871327179, 50.434271938, 159.29113202, 59.109374720}
	midDown = [...]float64{1, 17.895169469, 78.757757664, 67.187563600}
	nearUp  = [...]float64{1.4234372777, 2.7568153900, 1.3067284816, 0.17023821103}
	nearDn  = [...]float64{1, 0.73700164250, 0.12021132975}
	farUp   = [...]float64{6.6579051150, 3.0812263860, 0.42868294337, 0.017337203997}
	farDn   = [...]float64{1, 0.24197894225, 0.012258202635}
)

func poly(c []float64, x float64) float64 {
	v := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		v = v*x + c[i]
	}
	return v
}

// quantile is the inverse of the normal distribution, for p over 0 and under 1.
func quantile(p float64) float64 {
	q := p - 0.5
	if math.Abs(q) <= 0.425 {
		r := 0.180625 - q*q
		return q * poly(midUp[:], r) / poly(midDown[:], r)
	}
	r := math.Sqrt(-math.Log(math.Min(p, 1-p)))
	v := poly(farUp[:], r-5) / poly(farDn[:], r-5)
	if r <= 5 {
		v = poly(nearUp[:], r-1.6) / poly(nearDn[:], r-1.6)
	}
	return math.Copysign(v, q)
}
