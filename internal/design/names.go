package design

import (
	"fmt"
	"strings"

	"rodwork/internal/diag"
)

// glossary is a set of names that one place of a file defines and others use. A
// misspelt name shows at its uses; but where the name was misspelt in its
// definition, it is the definition that must be mended, and it is told apart by
// that nothing uses it.
type glossary struct {
	what string // "size", "role", "bay or level"
	lost bool   // the place where the names are defined was not understood
	defs []term
	uses []heldName
}

type term struct {
	name string
	at   diag.Range // zero where it lies in another file
	used bool
}

func (g *glossary) define(name string, at diag.Range) {
	g.defs = append(g.defs, term{name: name, at: at})
}

// use marks a name as used and reports whether it is defined.
func (g *glossary) use(name string) bool {
	found := false
	for i := range g.defs {
		if g.defs[i].name == name {
			g.defs[i].used, found = true, true
		}
	}
	return found
}

func (g *glossary) names() []string {
	out := make([]string, len(g.defs))
	for i, t := range g.defs {
		out[i] = t.name
	}
	return out
}

// refer uses a name at a place, and holds a remark if it is not defined.
func (g *glossary) refer(name string, at diag.Range, path, detail string) bool {
	if g.use(name) {
		return true
	}
	g.uses = append(g.uses, heldName{table: g.what, name: name, d: diag.Diagnostic{Code: "unknown-name", At: at, Path: path,
		Offending: clip(name), Summary: fmt.Sprintf("There is no %s called '%s'", g.what, clip(name)), Detail: detail}})
	return false
}

// report adds the remarks about names that are used and not defined.
func (g *glossary) report(d *decoder) {
	blamed := map[string]bool{} // names whose definition was found to be misspelt
	for _, u := range g.uses {
		if blamed[u.name] || g.lost && u.d.Nearest == "" && diag.Nearest(u.name, g.names()) == "" {
			continue
		}
		if t := g.misspelt(u.name, u.d.At.File); t != nil {
			blamed[u.name] = true
			t.used = true
			d.add(diag.Diagnostic{Code: "misspelt-definition", At: t.at, Path: u.d.Path, Offending: clip(t.name), Nearest: u.name,
				Summary:  fmt.Sprintf("Nothing uses the %s '%s'", g.what, clip(t.name)),
				Detail:   fmt.Sprintf("Line %d speaks of '%s', which is not defined.", u.d.At.Start.Line, u.name),
				Expected: u.name, Mend: &diag.Edit{At: t.at, New: u.name}})
			continue
		}
		x := u.d
		if x.Nearest == "" {
			x.Nearest = diag.Nearest(u.name, g.names())
		}
		if x.Nearest != "" {
			x.Mend = &diag.Edit{At: x.At, New: x.Nearest}
		}
		if x.Expected == "" || g.what != "size" {
			x.Expected = "one of: " + strings.Join(firstFew(g.names()), ", ")
		}
		d.add(x)
	}
}

// vocabulary is every key and word of both files: a name among them is the less
// likely to be a slip.
var vocabulary = func() map[string]bool {
	out := map[string]bool{}
	seen := map[*object]bool{}
	var walk func(o *object)
	walk = func(o *object) {
		if seen[o] {
			return
		}
		seen[o] = true
		for _, f := range o.fields {
			out[f.key] = true
			for _, w := range f.words {
				out[w] = true
			}
			if f.sub != nil {
				walk(f.sub)
			}
		}
	}
	walk(pieceSchema)
	walk(shopSchema)
	for _, w := range []string{"shell", "panels", "dividers", "boards", "drawer floors", "edging"} {
		out[w] = true
	}
	return out
}()

// misspelt returns the definition, in the same file, that nothing uses and that
// is near the name, if no used definition is as near. Which of two near names
// is the slip can be told if one is a word of the trade, or if the other is
// used more than once; else the use is blamed, as the shorter way to mend it.
func (g *glossary) misspelt(name, file string) *term {
	var unused []string
	for _, t := range g.defs {
		if !t.used && t.at.File == file && !t.at.IsZero() {
			unused = append(unused, t.name)
		}
	}
	near := diag.Nearest(name, unused)
	if near == "" || diag.Nearest(name, g.names()) != near {
		return nil
	}
	known, uses := vocabulary[name], 0
	for _, u := range g.uses {
		if u.name == name {
			uses++
		}
	}
	if vocabulary[near] && !known || vocabulary[near] == known && uses < 2 {
		return nil
	}
	for i := range g.defs {
		if g.defs[i].name == near {
			return &g.defs[i]
		}
	}
	return nil
}

func firstFew(names []string) []string {
	if len(names) > 15 {
		return append(append([]string{}, names[:15]...), "…")
	}
	return names
}
