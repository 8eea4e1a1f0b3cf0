package material_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rodwork/internal/cite"
	"rodwork/internal/material"
)

// The table of the Handbook of Finnish Plywood (birch, 1.4 mm veneers, sanded
// faces of 1.1 mm), from memory: plies, t, W, I, E along and across, f along
// and across, E in tension along and across.
func TestFinnishTable(t *testing.T) {
	for _, c := range []struct {
		n                                    int
		t, w, i, e0, e90, f0, f90, et0, et90 float64
	}{
		{3, 3.6, 2.16, 3.89, 16471, 1029, 65.9, 10.6, 10694, 6806},
		{5, 6.4, 6.83, 21.8, 12737, 4763, 50.9, 29.0, 9844, 7656},
		{7, 9.2, 14.1, 64.9, 11395, 6105, 45.6, 32.1, 9511, 7989},
		{9, 12.0, 24.0, 144, 10719, 6781, 42.9, 33.2, 9333, 8167},
		{11, 14.8, 36.5, 270, 10316, 7184, 41.3, 33.8, 9223, 8277},
		{13, 17.6, 51.6, 454, 10048, 7452, 40.2, 34.1, 9148, 8352},
		{15, 20.4, 69.4, 707, 9858, 7642, 39.4, 34.3, 9093, 8407},
		{17, 23.2, 89.7, 1041, 9717, 7783, 38.9, 34.4, 9052, 8448},
		{19, 26.0, 113, 1465, 9607, 7893, 38.4, 34.5, 9019, 8481},
		{21, 28.8, 138, 1991, 9519, 7981, 38.1, 34.6, 8993, 8507},
	} {
		p := material.Birch(c.n, 1.1, 1.4).Plate()
		for _, x := range []struct {
			name           string
			got, want, tol float64
		}{
			{"t", p.Thick, c.t, 0.05}, {"W", p.W, c.w, 0.005 * c.w}, {"I", p.I, c.i, 0.003 * c.i},
			{"E along", p.EAlong, c.e0, 0.5}, {"E across", p.EAcross, c.e90, 0.5},
			{"f along", p.FAlong, c.f0, 0.06}, {"f across", p.FAcross, c.f90, 0.06},
			{"tension along", p.EAAlong, c.et0, 0.5}, {"tension across", p.EAAcross, c.et90, 0.5},
		} {
			if math.Abs(x.got-x.want) > x.tol {
				t.Errorf("%d plies, %s: %g, printed %g", c.n, x.name, x.got, x.want)
			}
		}
	}
}

// Along and across share the veneers: the moduli add up to E_L + E_T, whatever
// the stack; a plate of one modulus is a plain board.
func TestPlateLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 25).Draw(t, "n")
		face, inner := rapid.Float64Range(0.3, 3).Draw(t, "f"), rapid.Float64Range(0.3, 4).Draw(t, "i")
		el, et := rapid.Float64Range(4000, 20000).Draw(t, "el"), rapid.Float64Range(0, 1500).Draw(t, "et")
		p := material.Stack(n, face, inner, el, et, 70).Plate()
		if got := p.EAlong + p.EAcross; math.Abs(got-el-et) > 1e-6*el {
			t.Errorf("E along and across make %g, want %g", got, el+et)
		}
		if math.Abs(p.NeutralAlong-p.Thick/2) > 1e-9 {
			t.Errorf("an even stack's neutral line lies at %g of %g", p.NeutralAlong, p.Thick)
		}
		q := material.Stack(n, face, inner, el, el, 70).Plate()
		if math.Abs(q.EAlong-el) > 1e-6*el || math.Abs(q.FAlong-70) > 1e-6 {
			t.Errorf("a board of one modulus: E %g of %g, f %g", q.EAlong, el, q.FAlong)
		}
	})
}

func TestRound(t *testing.T) {
	p := material.Birch(13, 1.1, 1.4)
	along, across := p.Round(true), p.Round(false)
	if along[0] != (material.Layer{Thick: 1.1, E: 17500}) || along[1] != (material.Layer{Thick: 1.4, E: 600}) || across[0].E != 600 || across[1].E != 17500 {
		t.Errorf("%v\n%v", along[:3], across[:3])
	}
}

func TestTableIsSourced(t *testing.T) {
	for _, m := range material.All() {
		if !(m.Density.V > 100 && m.Density.V < 1200 && m.E.V > 500 && m.E.V < 25000 && m.Strength.V > 5) {
			t.Errorf("%s %s: %+v", m.Kind, m.Species, m)
		}
		for name, x := range map[string]material.Value{"density": m.Density, "E": m.E, "E across": m.EAcross, "strength": m.Strength,
			"shear": m.Shear, "radial": m.Radial, "tangential": m.Tangential, "plane": m.Plane} {
			s := x.Source
			if x.V != 0 && (s.Text == "" || s.Label == "" || s.Locator == "" && s.Label != cite.Derived && s.Label != cite.Practice) {
				t.Errorf("%s %s: the source of %s is %+v", m.Kind, m.Species, name, s)
			}
		}
		if _, ok := material.CreepOf(m.Creep, 1); !ok {
			t.Errorf("%s: no creep", m.Name)
		}
		if f := m.LongTermStrength(); !(f > 0 && f < m.Strength.V) {
			t.Errorf("%s: bears %g of %g for years", m.Name, f, m.Strength.V)
		}
		if got, err := material.Find(m.Kind, m.Species); err != nil || got != m {
			t.Errorf("%s %s is not found: %v", m.Kind, m.Species, err)
		}
	}
}

func TestFind(t *testing.T) {
	if m, err := material.Find("plywood", " Birch "); err != nil || m.Name != "birch plywood" {
		t.Errorf("%v %v", m, err)
	}
	if m, err := material.Find("fibreboard", "whatever"); err != nil || m.Name != "MDF" {
		t.Errorf("boards have no species: %v %v", m, err)
	}
	for _, c := range [][3]string{{"plywood", "brich", "birch"}, {"solid", "wite oak", "white oak"}, {"plywod", "birch", "plywood"}, {"plywood", "xylophone", ""}} {
		var ne *material.NameError
		if m, err := material.Find(c[0], c[1]); !errors.As(err, &ne) || ne.Nearest != c[2] {
			t.Errorf("%v: %v %v", c, m, err)
		}
	}
}

func TestEN315(t *testing.T) {
	for _, x := range []float64{11.99, 25.01, 0, -18, math.NaN(), math.Inf(1)} {
		if _, _, ok := material.EN315(x); ok {
			t.Errorf("%g mm is not covered", x)
		}
	}
	for _, c := range [][3]float64{{12, 0.56, 0.76}, {18, 0.74, 0.94}, {25, 0.95, 1.15}} {
		if a, b, ok := material.EN315(c[0]); !ok || math.Abs(a-c[1]) > 1e-9 || math.Abs(b-c[2]) > 1e-9 {
			t.Errorf("%g mm: +%g −%g", c[0], a, b)
		}
	}
}

func TestCreepIsTheCautiousOne(t *testing.T) {
	for _, class := range []material.CreepClass{material.SolidCreep, material.PlywoodCreep, material.ParticleboardCreep, material.FibreboardCreep} {
		dry, ok1 := material.CreepOf(class, 1)
		damp, ok2 := material.CreepOf(class, 2)
		if !ok1 || !ok2 || dry.K < dry.Other || damp.K < dry.K {
			t.Errorf("%s: %+v then %+v", class, dry, damp)
		}
	}
	if _, ok := material.CreepOf(material.PlywoodCreep, 3); ok {
		t.Error("furniture in the rain")
	}
}

func TestMass(t *testing.T) {
	m, err := material.Find("plywood", "birch")
	if err != nil {
		t.Fatal(err)
	}
	if got := m.Mass(2440 * 1220 * 17.7); math.Abs(got-36.09) > 0.005 {
		t.Errorf("a sheet weighs %g", got)
	}
	if got := material.Movement(300, 0.00365, 8, 12); math.Abs(got-4.38) > 1e-9 {
		t.Errorf("oak moves %g", got)
	}
}
