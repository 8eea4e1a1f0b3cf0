// Package design reads the two documents that Rodwork works from: the piece
// file, which a maker writes about one piece, and the shop file, which tells
// what is in the shop as measured. Resolve turns both into a Design, in which
// every name, formula and habit has become a number that knows its sources.
//
// # The way of a value
//
// The text of a file is read into a small tree (tree.go, read.go, convert.go)
// that keeps each value's tight place and leaves its letters as they are. A
// schema (schema*.go) says what may stand where; the decoder (decode.go) checks
// the tree against it and is the only place that knows of unknown keys and
// wrong kinds. Then formulas are reckoned (value.go, sizes.go): the sizes first,
// in the order in which they stand on each other, then all other values. The
// builders (shop.go, piece*.go) read the outcome off.
//
// # Nothing is silent
//
// A written amount becomes a trace.Input under its path. A value that is absent
// is filled in by a habit of the shop, and becomes an input of kind Habit that
// points to where the habit is written; where the shop has no such habit, the
// program's own value is an input of kind Rule whose text gives the reason.
// Words that are filled in are booked too, as inputs that move nothing.
//
// # Remarks
//
// All remarks of one reading are given at once, in the order of the file. Each
// has the tight place of the offending text, what was expected there, and the
// nearest right name where one is near. A name that is used and not defined is
// blamed on its definition if that is near it and nothing uses it.
package design

import (
	"fmt"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/expr"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// Resolve reads a piece file and the shop file that it is built in. It never
// panics, and returns what it could read with remarks on the rest, in reading
// order. The Design is nil only if the piece file cannot be read at all; it
// must not be built from while a remark is an error.
func Resolve(pieceFile string, pieceSrc []byte, shopFile string, shopSrc []byte) (*Design, diag.List) {
	led := &trace.Ledger{}
	shop, sd := resolveShop(shopFile, shopSrc, led)
	p := newPiece(pieceFile, pieceSrc, led, shop, sd)
	out := p.resolve(pieceSrc)
	remarks := append(p.d.out, sd.out...)
	remarks.Sort()
	return out, remarks
}

// pieceReader builds a Design from a piece file.
type pieceReader struct {
	d    *decoder
	sd   *decoder
	shop *ShopFile
	out  *Design
	root *rec
	tree *node

	sizes                               *sizeSet
	roles, spaces                       glossary
	stocks, saws, hinges, slides, tools glossary
	hardware                            glossary
}

func newPiece(file string, src []byte, led *trace.Ledger, shop *ShopFile, sd *decoder) *pieceReader {
	p := &pieceReader{d: newDecoder(file, src, trace.Field, led), sd: sd, shop: shop}
	p.d.habits = sd.habits
	p.out = &Design{File: file, Shop: shop, Ledger: led, Roles: map[string]Role{}, Places: p.d.places, Units: units.MM}
	p.roles.what, p.spaces.what = "role", "bay or level"
	p.stocks.what, p.saws.what, p.hinges.what, p.slides.what, p.tools.what = "stock in the shop", "saw in the shop", "hinge in the shop", "slide in the shop", "tool in the shop"
	p.hardware.what = "hardware in the shop"
	for _, s := range shop.Hardware {
		p.hardware.define(s.Name, s.At)
	}
	for _, s := range shop.Stocks {
		p.stocks.define(s.Name, s.At)
	}
	for _, s := range shop.Saws {
		p.saws.define(s.Name, s.At)
		p.tools.define(s.Name, s.At)
	}
	for _, s := range shop.Bits {
		p.tools.define(s.Name, s.At)
	}
	for _, s := range shop.Hinges {
		p.hinges.define(s.Name, s.At)
	}
	for _, s := range shop.Slides {
		p.slides.define(s.Name, s.At)
	}
	return p
}

func (p *pieceReader) resolve(src []byte) *Design {
	d := p.d
	tree, remarks := readTree(d.file, src)
	d.out = append(d.out, remarks...)
	if tree == nil {
		return nil
	}
	p.tree = tree
	p.root = d.form(tree, pieceSchema, "", diag.Range{File: d.file, Start: diag.Pos{Line: 1, Col: 1}, End: diag.Pos{Line: 1, Col: 2}})
	d.root = p.root
	p.head()
	p.stock()
	p.sizesAndFields()
	p.brief()
	p.body()
	p.inside()
	p.shelves()
	p.fronts()
	p.drawers()
	p.rest()
	p.shapes()
	p.names()
	p.out.Written = d.written
	return p.out
}

func (p *pieceReader) head() {
	r := p.root
	p.d.header(r)
	p.out.ID, p.out.Name, p.out.Units = r.word("id"), r.word("piece"), system(p.d.lengths)
	p.out.Currency = p.d.currency
	switch {
	case p.out.Currency == "":
		p.out.Currency = p.shop.Currency
	case p.shop.Currency != "" && p.shop.Currency != p.out.Currency:
		p.d.add(diag.Diagnostic{Code: "currency", At: r.where("price in"), Path: "price in", Summary: "The shop counts in another currency",
			Detail: fmt.Sprintf("The shop file has its prices in %s, and no rate of exchange is known.", p.shop.Currency), Expected: p.shop.Currency})
	}
}

// stock gives each role its stock.
func (p *pieceReader) stock() {
	tbl := p.root.vals["stock"]
	if tbl == nil {
		return
	}
	for _, it := range tbl.items {
		name := it.path[len("stock."):]
		p.roles.define(name, it.keyAt)
		it.ok = it.n.shape == scalar && p.d.text(it.f, it.n, it.path)
		role := Role{Name: name, At: it.n.at}
		if it.ok {
			role.Stock = p.shopStock(it.n.text, it.n.at, it.path)
		}
		p.out.Roles[name] = role
	}
	for _, known := range builtRoles {
		p.roles.use(known) // these are picked by name when the piece is built
	}
	if kind := p.root.sub("body").word("kind"); !p.roles.use("shell") && (kind == string(BentShell) || kind == string(Box)) {
		p.roles.refer("shell", tbl.keyAt, "stock.shell", "The body is made of the stock with this role.")
	}
}

// builtRoles are the roles that parts are made of without being told to.
var builtRoles = []string{"panels", "dividers", "boards", "shelves", "doors", "drawers", "drawer floors", "rails", "plinth", "legs", "posts", "back", "front panel", "lids", "tongues", "formers"}

// idleRoles remarks on roles that nothing uses: a role that is misspelt would
// else be passed over, and its parts made of something else.
func (p *pieceReader) idleRoles() {
	for i := range p.roles.defs {
		t := &p.roles.defs[i]
		if t.used {
			continue
		}
		x := diag.Diagnostic{Code: "unused-role", Severity: diag.Warning, At: t.at, Path: "stock." + t.name, Offending: clip(t.name),
			Summary: fmt.Sprintf("Nothing uses the role '%s'", clip(t.name)), Detail: "No part is made of it.",
			Expected: "a role that a part names, or one of: " + strings.Join(builtRoles, ", ")}
		var free []string
		for _, k := range builtRoles {
			if _, ok := p.out.Roles[k]; !ok {
				free = append(free, k)
			}
		}
		if x.Nearest = diag.Nearest(t.name, free); x.Nearest != "" {
			x.Severity, x.Code = diag.Error, "misspelt-definition"
			x.Mend = &diag.Edit{At: x.At, New: x.Nearest}
		} else if p.d.out.HasErrors() {
			continue // what would use it may be among what was not understood
		}
		p.d.add(x)
	}
}

// unreadShop tells that the shop file could not be read, so that no name in it
// can be blamed.
func (p *pieceReader) unreadShop() bool { return p.sd.root == nil }

func (p *pieceReader) shopStock(name string, at diag.Range, path string) *Stock {
	if p.unreadShop() || !p.stocks.refer(name, at, path, "The shop file lists what there is under 'stock'.") {
		return nil
	}
	for _, s := range p.shop.Stocks {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// role finds a role, or a stock of the shop by its own name, that a field names.
func (p *pieceReader) role(r *rec, key string) Role {
	name := r.word(key)
	if name == "" {
		return Role{}
	}
	at := r.where(key)
	if p.roles.use(name) {
		x := p.out.Roles[name]
		x.At = at
		return x
	}
	for _, s := range p.shop.Stocks {
		if s.Name == name {
			p.stocks.use(name)
			return Role{Name: name, Stock: s, At: at}
		}
	}
	// Neither: the nearest of both, roles first.
	u := diag.Nearest(name, p.roles.names())
	if u == "" {
		u = diag.Nearest(name, p.stocks.names())
	}
	p.roles.refer(name, at, join(r.path, key), "It is neither a role under 'stock' nor a stock of the shop.")
	p.roles.uses[len(p.roles.uses)-1].d.Nearest = u
	return Role{}
}

func (p *pieceReader) sizesAndFields() {
	d := p.d
	p.sizes = newSizes(d, p.root)
	p.sizes.call = p.call
	d.env = p.sizes
	d.scope.Names = p.sizes.names
	d.scope.Calls = map[string][]string{"thickness": p.roles.names(), "face veneer": p.roles.names(), "nominal": p.roles.names(), "kerf": p.saws.names()}
	d.scope.Currency = p.out.Currency
	p.sizes.resolve()
	p.out.Sizes = p.sizes.out
	d.reckon()
}

// call gives the functions over what the shop knows.
func (p *pieceReader) call(fn, arg string) (expr.Value, string, bool) {
	if fn == "kerf" {
		for _, s := range p.shop.Saws {
			if s.Name == arg {
				p.saws.use(arg)
				return expr.Value{Num: s.Kerf.Mean, Dim: units.Length}, "", true
			}
		}
		return expr.Value{}, "", false
	}
	p.roles.use(arg)
	s := p.out.Roles[arg].Stock
	if s == nil {
		return expr.Value{}, "", false
	}
	n := map[string]trace.Num{"thickness": s.Thickness.Mean, "face veneer": s.FaceVeneer, "nominal": s.Nominal}[fn]
	if n.V == 0 {
		return expr.Value{}, fmt.Sprintf("The shop file does not give it for '%s'.", s.Name), false
	}
	return expr.Value{Num: n, Dim: units.Length}, "", true
}

// namesOfTests brings what the shop's register of tests names to the names of
// saws, bits and stocks.
func (p *pieceReader) namesOfTests() {
	for _, h := range p.sd.held {
		g := map[string]*glossary{heldTool: &p.tools, heldStock: &p.stocks}[h.table]
		switch {
		case g == nil:
			p.sd.add(h.d)
		case h.known:
			g.use(h.name)
		default:
			g.uses = append(g.uses, h)
		}
	}
}

// names says which names are used and not defined.
func (p *pieceReader) names() {
	sizes := glossary{what: "size"}
	if p.sizes != nil {
		for i, n := range p.sizes.names {
			sizes.define(n, p.sizes.slots[i].keyAt)
			if p.sizes.used[n] {
				sizes.use(n)
			}
		}
	}
	sizes.lost, p.roles.lost = p.d.gone("sizes"), p.d.gone("stock")
	p.spaces.lost = p.d.gone("inside")
	if !p.unreadShop() {
		p.stocks.lost, p.saws.lost, p.hinges.lost, p.slides.lost = p.sd.gone("stock"), p.sd.gone("saws"), p.sd.gone("hinges"), p.sd.gone("slides")
		p.tools.lost = p.saws.lost || p.sd.gone("bits")
		p.hardware.lost = p.sd.gone("hardware")
	}
	for _, h := range p.d.held {
		switch h.table {
		case "size":
			sizes.uses = append(sizes.uses, h)
		case "role":
			p.roles.uses = append(p.roles.uses, h)
		default:
			p.saws.uses = append(p.saws.uses, h)
		}
	}
	p.namesOfTests()
	for _, g := range []*glossary{&sizes, &p.roles, &p.spaces, &p.stocks, &p.saws, &p.hinges, &p.slides, &p.tools, &p.hardware} {
		g.report(p.d)
	}
	p.idleRoles()
}
