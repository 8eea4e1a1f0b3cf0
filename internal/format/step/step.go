// Package step writes solids as STEP files (ISO 10303-21, application protocol
// 214, automotive design), which programs for drawing and machining in space
// read: with true planes and cylinders, not with triangles.
//
// Each body becomes a manifold solid: faces that are planes or cylinders,
// bounded by straight lines and circular arcs, each edge shared by the two
// faces that meet there. Boundary.go tells how it is found. What a saw or a
// router has left flush is one face, however many cuts lie beside it. A body of
// several pieces becomes several solids of one product.
//
// Lengths are in millimetres. Several products stand together in an assembly,
// each drawn in its own frame and placed by its pose. The time in the file's
// head is always the same one, so that the same bodies give the same bytes.
package step

import (
	"errors"
	"fmt"

	"rodwork/internal/geom/r3"
	"rodwork/internal/geom/solid"
)

// Product is a body with a name.
type Product struct {
	ID   string // unique in the file
	Name string // in words
	Body solid.Body
	// Bores are round holes that no slab has, in the body's own frame: into its
	// edges and ends.
	Bores []solid.Bore
}

// Part returns the file of one body in its own frame; its pose is left out. It
// fails where the body is empty or touches itself along a line.
func Part(p Product) ([]byte, error) {
	w := newWriter(p.Name)
	if _, err := w.write(p); err != nil {
		return nil, fmt.Errorf("%s: %w", p.ID, err)
	}
	return w.file(), nil
}

// Assembly returns the file of bodies that stand together, each in its pose.
// Those that Part would refuse are left out, and returned by their id with the
// reason; it fails where none is left.
func Assembly(name string, products []Product) ([]byte, map[string]error, error) {
	w := newWriter(name)
	left := map[string]error{}
	var parts []placed
	for _, p := range products {
		s, err := w.write(p)
		if err != nil {
			left[p.ID] = err
			continue
		}
		parts = append(parts, placed{s, p})
	}
	if len(parts) == 0 {
		return nil, left, errors.New("step: no body that could be written")
	}
	w.assemble(name, parts)
	return w.file(), left, nil
}

// placed is a product that has been written, to be placed in an assembly.
type placed struct {
	entities shape
	product  Product
}

// shape is the entities by which a product is referred to.
type shape struct {
	definition, representation, frame ref
}

// write writes a body with all that makes it a product.
func (w *writer) write(p Product) (shape, error) {
	o, err := gather(p.Body)
	if err != nil {
		return shape{}, err
	}
	b, err := o.boundary()
	if err != nil {
		return shape{}, err
	}
	if len(b.shells) == 0 {
		return shape{}, errors.New("step: an empty body")
	}
	solids := b.brep()
	for _, h := range p.Body.Within {
		if solids, err = solids.cut(h.N, h.D); err != nil {
			return shape{}, err
		}
	}
	for _, h := range p.Bores {
		if err := solids.bore(h); err != nil {
			return shape{}, err
		}
	}
	var s shape
	s.definition = w.definition(p.ID, p.Name)
	s.frame = w.placement(r3.Vec{}, r3.Vec{Z: 1}, r3.Vec{X: 1})
	items := append([]ref{s.frame}, w.solids(solids, p.Name)...)
	s.representation = w.add("ADVANCED_BREP_SHAPE_REPRESENTATION(%s,%s,%s)", text(p.Name), list(items), w.context)
	w.add("SHAPE_DEFINITION_REPRESENTATION(%s,%s)", w.add("PRODUCT_DEFINITION_SHAPE('','',%s)", s.definition), s.representation)
	return s, nil
}

// assemble writes the product that holds the others.
func (w *writer) assemble(name string, parts []placed) {
	definition := w.definition("assembly", name)
	frame := w.placement(r3.Vec{}, r3.Vec{Z: 1}, r3.Vec{X: 1})
	items := []ref{frame}
	places := make([]ref, len(parts))
	for i, p := range parts {
		pose := p.product.Body.Pose
		places[i] = w.placement(pose.O, pose.Z, pose.X)
		items = append(items, places[i])
	}
	whole := w.add("SHAPE_REPRESENTATION(%s,%s,%s)", text(name), list(items), w.context)
	w.add("SHAPE_DEFINITION_REPRESENTATION(%s,%s)", w.add("PRODUCT_DEFINITION_SHAPE('','',%s)", definition), whole)
	for i, p := range parts {
		use := w.add("NEXT_ASSEMBLY_USAGE_OCCURRENCE(%s,%s,'',%s,%s,$)", text(fmt.Sprint(i+1)), text(p.product.Name), definition, p.entities.definition)
		move := w.add("ITEM_DEFINED_TRANSFORMATION('','',%s,%s)", p.entities.frame, places[i])
		relation := w.add("(REPRESENTATION_RELATIONSHIP('','',%s,%s)REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(%s)SHAPE_REPRESENTATION_RELATIONSHIP())",
			p.entities.representation, whole, move)
		w.add("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(%s,%s)", relation, w.add("PRODUCT_DEFINITION_SHAPE('','',%s)", use))
	}
}
