package material

import (
	"fmt"
	"slices"
	"strings"

	"rodwork/internal/cite"
	"rodwork/internal/diag"
)

// Value is one property with its source.
type Value struct {
	V      float64
	Source cite.Source
}

// Material is a stock's substance. A Value of nought is not known.
type Material struct {
	Kind    string // "plywood", "solid", "fibreboard", "particleboard", as shop files say it
	Species string // "birch", "white oak"; "" for boards
	Name    string // "birch plywood"
	Density Value  // kg/m³, as it stands in a room
	E       Value  // mean modulus in bending along the grain (boards: either way), MPa
	// EAcross is E across the face grain where it is known apart.
	EAcross Value
	// Strength in bending along the grain, MPa. Characteristic tells whether
	// it is one that 5 % of pieces stay under; else it is a mean.
	Strength       Value
	Characteristic bool
	Creep          CreepClass
	// Shear is the modulus in the plane of a sheet, MPa.
	Shear Value
	// Radial and Tangential are the shares by which solid wood moves for each
	// 1 % of moisture; Plane that of a sheet for each 10 % of relative humidity.
	Radial, Tangential, Plane Value
}

// Mass returns the mass, kg, of a volume in mm³.
func (m *Material) Mass(volume float64) float64 { return m.Density.V * 1e-9 * volume }

// NameError says that no material of a kind and species is in the table.
type NameError struct {
	Kind, Species string
	Nearest       string
	Known         []string // species of that kind, or the kinds
}

// Error names what was asked for and what is nearest.
func (e *NameError) Error() string {
	s := fmt.Sprintf("material: no %s of %q is in the table", e.Kind, e.Species)
	if e.Nearest != "" {
		return s + fmt.Sprintf(": did you mean %q?", e.Nearest)
	}
	return s + ": it has " + strings.Join(e.Known, ", ")
}

// Find returns the material of the kind and species. Plywood of a species that
// is not in the table is not guessed at. The error is a *NameError.
func Find(kind, species string) (*Material, error) {
	var of []string
	for _, m := range table {
		if m.Kind != kind {
			continue
		}
		if strings.EqualFold(m.Species, strings.TrimSpace(species)) {
			return m, nil
		}
		of = append(of, m.Species)
	}
	if len(of) == 0 {
		for _, m := range table {
			if !slices.Contains(of, m.Kind) {
				of = append(of, m.Kind)
			}
		}
		return nil, &NameError{kind, species, diag.Nearest(kind, of), of}
	}
	if len(of) == 1 && of[0] == "" {
		for _, m := range table { // boards are not of a species
			if m.Kind == kind {
				return m, nil
			}
		}
	}
	return nil, &NameError{kind, species, diag.Nearest(species, of), of}
}

// All returns the materials in the table's order. The slice is a copy, its
// elements are shared: do not change them.
func All() []*Material { return slices.Clone(table) }
