package material

import "rodwork/internal/cite"

// The sources that the table is taken from.
var (
	handbook = func(locator string, label cite.Label) cite.Source {
		return cite.Source{Text: "Wood Handbook, Forest Products Laboratory, FPL-GTR-190, 2010", Locator: locator, Label: label}
	}
	finnish     = cite.Source{Text: "Handbook of Finnish Plywood, 2002/2007", Locator: "section 3.1, birch, 1.4 mm veneer; every value is reproduced by MAT-01", Label: cite.FromMemory}
	birchSheet  = cite.Source{Text: "unnamed trade sheet (birch plywood, sanded; year not printed)", Locator: "table of thickness and weight", Label: cite.Read}
	fromDensity = cite.Source{Text: "1000 · 1.12 · specific gravity at 12 % moisture (oven-dry mass over volume at 12 %)", Label: cite.Derived}
	en622       = cite.Source{Text: "EN 622-5, MDF for dry use, as a mill's data sheet prints it", Locator: "over 12 to 19 mm", Label: cite.Quoted}
	en312       = cite.Source{Text: "EN 312, type P2, as a merchant's data sheet prints it", Locator: "15 to 18 mm", Label: cite.Quoted}
	movement    = handbook("Table 13-5", cite.Read)
	planeSource = cite.Source{Text: "a plywood trade association's technical text", Locator: "0.0002 in/in for each 10 % of relative humidity", Label: cite.Quoted}
)

// boards are the sheet materials. Plywood's moduli here stand for 18 mm in 13
// veneers; where a sheet's veneers are known, Plate computes them.
var boards = []*Material{
	{
		Kind: "plywood", Species: "birch", Name: "birch plywood",
		Density: Value{685, birchSheet}, E: Value{10048, finnish}, EAcross: Value{7452, finnish},
		Strength: Value{40.2, finnish}, Characteristic: true, Creep: PlywoodCreep,
		Shear: Value{620, finnish}, Plane: Value{0.0002, planeSource},
	},
	{
		Kind: "plywood", Species: "poplar", Name: "poplar plywood",
		Density:  Value{430, cite.Source{Text: "unnamed trade sheet (aspen-core hardwood plywood, 17.5 mm, ASTM D1037)", Locator: "table of properties", Label: cite.Read}},
		E:        Value{4300, cite.Source{Text: "unnamed trade sheet (aspen-core hardwood plywood, 17.5 mm, ASTM D1037)", Locator: "table of properties", Label: cite.Read}},
		EAcross:  Value{4300, cite.Source{Text: "taken as along: the sheet tells no direction", Label: cite.Derived}},
		Strength: Value{34, cite.Source{Text: "unnamed trade sheet (aspen-core hardwood plywood, 17.5 mm, ASTM D1037)", Locator: "table of properties", Label: cite.Read}},
		Creep:    PlywoodCreep, Plane: Value{0.0002, planeSource},
	},
	{
		Kind: "plywood", Species: "softwood", Name: "softwood plywood",
		Density:  Value{560, fromDensity},
		E:        Value{6960, handbook("Table 12-1, 'plywood', lower end", cite.Read)},
		EAcross:  Value{3480, cite.Source{Text: "half of along, a cautious guess", Label: cite.Practice}},
		Strength: Value{33.7, handbook("Table 12-1, 'plywood', lower end", cite.Read)},
		Creep:    PlywoodCreep, Plane: Value{0.0002, planeSource},
	},
	{
		Kind: "fibreboard", Name: "MDF",
		Density: Value{740, cite.Source{Text: "at least 700 by a mill's data sheet to EN 622-5; 740 as usual", Label: cite.Practice}},
		E:       Value{2200, en622}, EAcross: Value{2200, en622},
		Strength: Value{20, en622}, Characteristic: true, Creep: FibreboardCreep,
	},
	{
		Kind: "particleboard", Name: "particleboard P2",
		Density: Value{650, cite.Source{Text: "a mill's data sheet to EN 312", Locator: "18 mm", Label: cite.Read}},
		E:       Value{1600, en312}, EAcross: Value{1600, en312},
		Strength: Value{13, en312}, Characteristic: true, Creep: ParticleboardCreep,
	},
}

// wood is one row of the tables of solid wood: specific gravity, modulus of
// rupture and elasticity at 12 % (MPa), movement for each 1 %.
type wood struct {
	species             string
	gravity, rupture, e float64
	strength            cite.Source
	radial, tangential  float64
	moves               cite.Source
}

func solid(w wood) *Material {
	return &Material{
		Kind: "solid", Species: w.species, Name: w.species,
		Density: Value{1120 * w.gravity, fromDensity},
		E:       Value{w.e, w.strength}, Strength: Value{w.rupture, w.strength}, Creep: SolidCreep,
		Radial: Value{w.radial, w.moves}, Tangential: Value{w.tangential, w.moves},
	}
}

var (
	t12read = handbook("Table 12-1", cite.Read)
	t5read  = handbook("Table 5-3, as quoted in an engineering table", cite.Quoted)
	t5mem   = handbook("Table 5-3", cite.FromMemory)
	mvMem   = handbook("Table 13-5", cite.FromMemory)
)

var woods = []wood{
	{"white oak", .68, 104.8, 12270, t12read, .00180, .00365, movement},
	{"red oak", .63, 98.6, 12550, t5mem, .00158, .00369, movement},
	{"hard maple", .63, 109, 12600, t5read, .00165, .00353, movement},
	{"red maple", .54, 92.4, 11310, t12read, .00137, .00289, movement},
	{"walnut", .55, 101, 11600, t5read, .00190, .00274, movement},
	{"cherry", .50, 85, 10300, t5read, .00126, .00248, movement},
	{"birch", .62, 114, 13900, t5read, .00256, .00338, movement},
	{"beech", .64, 103, 11900, t5read, .00190, .00431, movement},
	{"ash", .60, 103, 12000, t5mem, .00169, .00274, movement},
	{"yellow-poplar", .42, 70, 10900, t5read, .00158, .00289, mvMem},
	{"white pine", .35, 59, 8500, t5mem, .00071, .00212, movement},
	{"ponderosa pine", .40, 65, 8900, handbook("Table 5-3a, p. 107", cite.Read), .00133, .00216, movement},
	{"Douglas-fir", .48, 85.5, 13440, t12read, 0, .00267, handbook("Table 13-5, as quoted by a flooring text", cite.Quoted)},
}

var table = func() []*Material {
	all := append([]*Material(nil), boards...)
	for _, w := range woods {
		all = append(all, solid(w))
	}
	return all
}()
