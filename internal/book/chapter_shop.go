package book

import (
	"cmp"
	"slices"
	"strings"

	"rodwork/internal/design"
	"rodwork/internal/diag"
	"rodwork/internal/plan"
	"rodwork/internal/say"
	"rodwork/internal/table"
	"rodwork/internal/units"
)

// Shop is the chapter of the shop file: its tools, stock, hardware, habits and
// rates in sentences, each value as it stands there. It is no part of the book
// of a piece; a page that can write the shop file puts it behind the last
// chapter of b.
func Shop(p *plan.Plan, b *Book) (Chapter, bool) {
	w := newWriter(p, Options{System: b.System})
	c := Chapter{Key: "shop", Number: len(b.Chapters) + 1, Title: "The shop"}
	if w.d.Shop == nil {
		return c, false
	}
	w.key = c.Key
	w.shop()
	c.Blocks = w.blocks
	return c, len(w.blocks) > 0
}

// shelf is a table of the shop file, as the chapter tells it.
type shelf struct{ key, title string }

var shelves = []shelf{{"saws", "Saws"}, {"bits", "Router bits"}, {"bushes", "Guide bushes"}, {"stock", "Sheets and sticks"}, {"hinges", "Hinges"},
	{"slides", "Drawer slides"}, {"pins", "Shelf pins"}, {"hardware", "Other hardware"}, {"clamps", "Clamps"}, {"glues", "Glues"}}

// clauses say what a key of the shop file means, with its value in it; one that
// is not here is said by its own name. A key may mean another thing on another
// shelf: that is told under 'shelf/key'.
var clauses = map[string]string{
	"kind": "a {}", "stock/kind": "{}", "hinges/kind": "a {} hinge", "form": "a {}", "kerf": "its kerf is {}", "kerf.mean": "its kerf is {}", "kerf.spread": "give or take {}",
	"kerf.count": "from {} cuts", "kerf.measured": "measured {}", "deepest cut": "it cuts {} deep at most",
	"depth spread": "keeps a depth within {}", "depth from": "set from the {}", "grind": "its teeth are ground {}",
	"index": "its cuts are placed from a {}", "index spread": "each within {}", "longest cut": "it cuts {} long at most",
	"nominal": "called {}", "thickness": "{} thick by the calliper", "thickness.mean": "{} thick by the calliper",
	"thickness.spread": "give or take {}", "thickness.count": "from {} readings", "thickness.measured": "measured {}",
	"layers": "of {} plies", "face veneer": "its faces {}", "inner veneer": "its inner veneers {}", "species": "of {}",
	"density": "weighing {}", "length": "{} long", "width": "{} wide", "grain along": "its grain along its {}", "price": "at {}",
	"trim": "trimmed by {} along each edge", "in hand": "{} in hand", "diameter": "{} across", "cup": "its cup {} across",
	"cup depth": "{} deep", "cup edge": "{} from the door’s edge", "plate line": "its plate {} behind the door",
	"plate pitch": "with holes {} apart", "sets": "for fronts that are set {}", "side": "with {} of room on each side", "depth": "{} deep",
	"line": "{} behind the front edge", "height": "{} high", "reach": "reaching {}", "force": "pressing with {}", "count": "{} of them",
	"open time": "open for {}", "clamp time": "clamped for {}", "spread": "{} of it spread",
	"bits/length": "cutting {} deep", "bushes/length": "standing out by {}",
}

func (w *writer) shop() {
	s := w.d.Shop
	in := shopText{lines: strings.Split(string(w.p.Source.Shop), "\n"), places: s.Places, amounts: map[string]design.Written{}}
	for _, a := range s.Written {
		in.amounts[a.Path] = a
	}
	in.paths, in.parent = sortedByPlace(s.Places), map[string]bool{}
	for _, path := range in.paths {
		for i := strings.LastIndexByte(path, '.'); i > 0; i = strings.LastIndexByte(path[:i], '.') {
			in.parent[path[:i]] = true
		}
	}
	intro := say.F("What a cut depends on is measured here, not taken from a catalogue. Every number below stands in {}, and is changed there where it is changed here.",
		say.Name(s.File))
	w.say("what", intro)
	for _, sh := range shelves {
		names := in.below(sh.key)
		if len(names) == 0 {
			continue
		}
		w.head(sh.key, sh.title)
		for _, path := range names {
			w.say(path, in.sentence(w, sh.key, path))
		}
	}
	w.shopTable("habits", "Habits: what fills in where a piece file is silent", "habit", in)
	w.shopTable("rates", "How long work takes here", "work", in)
	if a, ok := in.amounts["hands"]; ok {
		w.say("hands", say.F("At a glue-up there are {} pairs of hands.", in.quantity(a)))
	}
}

// shopTable sets the values below a key, one to a row.
func (w *writer) shopTable(key, caption, head string, in shopText) {
	t := table.Table{Key: key, Caption: caption, Columns: []table.Column{table.Names(head), table.Words("as measured or agreed")}}
	for _, path := range in.paths {
		name, ok := strings.CutPrefix(path, key+".")
		if !ok {
			continue
		}
		if v := in.value(path); v != nil {
			t.Add(table.T(strings.ReplaceAll(name, ".", ", ")), table.S(w.alive(v)))
		}
	}
	w.table(t)
}

// shopText is the shop file by its paths.
type shopText struct {
	lines   []string
	places  map[string]diag.Range
	paths   []string // in the order of the file
	amounts map[string]design.Written
	parent  map[string]bool // paths that others lead through
}

func sortedByPlace(places map[string]diag.Range) []string {
	out := make([]string, 0, len(places))
	for p := range places {
		out = append(out, p)
	}
	slices.SortFunc(out, func(a, b string) int {
		x, y := places[a].Start, places[b].Start
		return cmp.Or(x.Line-y.Line, x.Col-y.Col, len(a)-len(b), strings.Compare(a, b))
	})
	return out
}

// below are the entries of a table: the shortest paths that lead into it.
func (t shopText) below(key string) []string {
	var out []string
	for _, p := range t.paths {
		if strings.HasPrefix(p, key+".") && !slices.ContainsFunc(out, func(q string) bool { return strings.HasPrefix(p, q+".") }) {
			out = append(out, p)
		}
	}
	return out
}

// sentence tells one entry: its name, what it is, and its values one after
// another.
func (t shopText) sentence(w *writer, shelf, entry string) say.Sentence {
	s := say.F("{}", say.Name(upper(strings.TrimPrefix(entry, shelf+"."))))
	between := ", "
	for _, path := range t.paths {
		key, ok := strings.CutPrefix(path, entry+".")
		if !ok {
			continue
		}
		v := t.value(path)
		if v == nil {
			continue
		}
		pattern := cmp.Or(clauses[shelf+"/"+key], clauses[key], strings.ReplaceAll(key, ".", " ")+" {}")
		s = append(s, say.Span{Text: between})
		s = append(s, say.F(pattern, v)...)
		if between = ", "; key == "kind" {
			between = ": "
		}
	}
	return append(s, say.Span{Text: "."})
}

// value is what stands at a path as a sentence shows it; nil where that is no
// value by itself. Of readings the mean is shown, at the path that they measure.
func (t shopText) value(path string) say.Sentence {
	if a, ok := t.amounts[path]; ok {
		if strings.Contains(path, ".readings.") {
			return nil
		}
		switch a.Dim.Plain() {
		case units.Money, units.MoneyPerMass, units.Time, units.None: // with its currency, its unit, its fraction
			return say.F("{}", say.Choice(a.Text, path))
		}
		return say.F("{}", t.quantity(a))
	}
	if n := t.mean(path); n != nil {
		return n
	}
	if list := design.ListText(t.lines, t.places, path); list != "" && !strings.HasSuffix(path, ".readings") {
		return say.F("{}", say.Choice(strings.Trim(list, "[]"), path))
	}
	if t.parent[path] || strings.Contains(path, ".readings") || t.within(path) {
		return nil
	}
	return say.F("{}", say.Choice(t.text(path), path))
}

// within tells whether a path is an item of a list that is shown whole.
func (t shopText) within(path string) bool {
	i := strings.LastIndexByte(path, '.')
	return i >= 0 && design.ListText(t.lines, t.places, path[:i]) != ""
}

func (t shopText) quantity(a design.Written) say.Quantity {
	return say.Quantity{V: a.Num.V, Dim: a.Dim, Decimals: written(inReadersUnit(a)), Path: a.Path}
}

// inReadersUnit is an amount in the unit that metric readers see it in, since
// its decimals are counted there.
func inReadersUnit(a design.Written) float64 {
	if f, _ := units.Scale(a.Dim, units.MM); f != 0 {
		return a.Num.V / f
	}
	return a.Num.V
}

// mean of the readings below a path.
func (t shopText) mean(path string) say.Sentence {
	sum, n := 0.0, 0
	for _, p := range t.paths {
		if a, ok := t.amounts[p]; ok && strings.HasPrefix(p, path+".readings.") {
			sum += a.Num.V
			n++
		}
	}
	if n == 0 {
		return nil
	}
	return say.F("{}", say.Quantity{V: sum / float64(n), Dim: units.Length, Decimals: onSteel, Path: path})
}

// text is what stands at a path, on one line, without quotes.
func (t shopText) text(path string) string {
	at := t.places[path]
	if at.Start.Line < 1 || at.Start.Line > len(t.lines) || at.End.Line != at.Start.Line {
		return ""
	}
	r := []rune(t.lines[at.Start.Line-1])
	if at.Start.Col < 1 || at.End.Col-1 > len(r) || at.End.Col < at.Start.Col {
		return ""
	}
	return strings.Trim(string(r[at.Start.Col-1:at.End.Col-1]), `"'`)
}
