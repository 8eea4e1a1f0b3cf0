package material

import "rodwork/internal/cite"

// CreepClass groups materials that creep alike.
type CreepClass string

// The classes.
const (
	SolidCreep         CreepClass = "solid wood"
	PlywoodCreep       CreepClass = "plywood"
	ParticleboardCreep CreepClass = "particleboard"
	FibreboardCreep    CreepClass = "fibreboard"
)

// Creep is a class's factor k_def: the long-term sag is the first times 1 + k.
type Creep struct {
	Class   CreepClass
	Service int     // 1: heated rooms; 2: covered, unheated
	K       float64 // used: the larger of the published values
	Source  cite.Source
	// Other is a published value that disagrees; 0: none known.
	Other       float64
	OtherSource cite.Source
}

var (
	lvl    = cite.Source{Text: "LVL Handbook Europe, 2025", Locator: "Table 4.3 (LVL-P as solid timber; LVL-C flatwise, like plywood)", Label: cite.Read}
	ec5    = cite.Source{Text: "EN 1995-1-1 (Eurocode 5)", Locator: "Table 3.2", Label: cite.FromMemory}
	nds    = cite.Source{Text: "NDS, National Design Specification for Wood Construction", Locator: "3.5.2: total over first 1.5 for seasoned lumber", Label: cite.Quoted}
	ndsPly = cite.Source{Text: "NDS, National Design Specification for Wood Construction", Locator: "3.5.2: K_cr 2.0 for panels", Label: cite.FromMemory}
	mdf    = cite.Source{Text: "a fibreboard trade association's page on shelves", Locator: "long-term increase up to 50 %", Label: cite.Read}
)

var creeps = []Creep{
	{SolidCreep, 1, 0.6, lvl, 0.5, nds},
	{SolidCreep, 2, 0.8, lvl, 0, cite.Source{}},
	{PlywoodCreep, 1, 1.0, ndsPly, 0.8, lvl},
	{PlywoodCreep, 2, 1.0, lvl, 0, cite.Source{}},
	{ParticleboardCreep, 1, 2.25, ec5, 0, cite.Source{}},
	{ParticleboardCreep, 2, 3.0, ec5, 0, cite.Source{}},
	{FibreboardCreep, 1, 2.25, ec5, 0.5, mdf},
	{FibreboardCreep, 2, 3.0, cite.Source{Text: "taken as particleboard: MDF is not for damp rooms", Label: cite.Practice}, 0, cite.Source{}},
}

// CreepOf returns the creep of a class in a service class, 1 or 2 (MAT-03). ok
// is false for others: furniture does not stand in the rain.
func CreepOf(class CreepClass, service int) (Creep, bool) {
	for _, c := range creeps {
		if c.Class == class && c.Service == service {
			return c, true
		}
	}
	return Creep{}, false
}

// LongTermStrength returns the bending strength, MPa, that a shelf may use for
// years (MAT-04): k_mod for a permanent load over γ_M of Eurocode 5 on a
// characteristic strength; a mean strength is first brought down by a third,
// which stands for the 5 % value of clear wood (a coefficient of variation of
// 16 to 20 %).
func (m *Material) LongTermStrength() float64 {
	f := m.Strength.V
	if !m.Characteristic {
		f *= 2.0 / 3
	}
	k, gamma := 0.6, 1.3
	switch m.Creep {
	case PlywoodCreep:
		k, gamma = 0.6, 1.2
	case ParticleboardCreep:
		k, gamma = 0.3, 1.3
	case FibreboardCreep:
		k, gamma = 0.2, 1.3
	}
	return f * k / gamma
}
