package design

import (
	"fmt"

	"rodwork/internal/diag"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// spreadsObject has how well work repeats in this shop, where no tool says it.
var spreadsObject = &object{
	name: "spreads", doc: "How well work repeats in this shop, as standard deviations; told where a fit is reckoned.",
	fields: []field{
		length("fence", 0, 3, "One setting of a fence, stop or guide against another.").orElse(0.05, "a fence set against a block repeats within 0.05 mm: common practice"),
		length("bit", 0, 1, "What a bit cuts against its diameter: run-out, and the hand.").orElse(0.02, "0.02 mm of run-out: common practice"),
		length("cut length", 0, 3, "A part's length, cut at a stop.").orElse(0.15, "a length repeats within 0.15 mm: common practice"),
		length("template", 0, 3, "An outline that follows a template.").orElse(0.1, "0.1 mm between template and part: common practice"),
		length("depth", 0, 3, "A router's depth.").orElse(0.1, "0.1 mm: common practice"),
		amount("moisture", units.None, 0, 10, "Change of the wood's moisture between calliper and glue, in points of per cent.").orElse(0.5, "half a point in a dry shop: common practice"),
	},
}

// feelWords are how a test joint feels, from too tight to too loose.
var feelWords = []string{"too tight", "press", "snug", "sliding", "loose", "too loose"}

// testObject is one test piece that was cut and measured.
var testObject = &object{
	name: "test", doc: "A test piece that was cut and measured. It counts for its tool, blade, stock and batch, and is stale once one of them is another.",
	fields: []field{
		word("kind", "What was tried.", "fit", "bend").required(),
		named("tool", "saw or bit of the shop", "What cut it.").required(),
		named("stock", "stock of the shop", "What was cut.").required(),
		named("other", "stock of the shop", "What went in, for a fit; left out, the same stock."),
		text("blade", "The blade that was in the saw, as the saw's `blade` calls it."),
		text("batch", "The batch of the stock, as its `batch` calls it."),
		text("measured", "When: a date, as 2026-03-14.").required(),
		word("cut", "Of a fit: the cut.", "housing", "groove", "rabbet", "end groove", "mortise", "lap", "notch"),
		length("set", 0.5, 200, "Of a fit: the width of slot that was set."),
		inner("slot", spreadObject).bounded(0.5, 200),
		inner("panel", spreadObject).bounded(0.4, 200),
		word("feels", "Of a fit: how the scrap goes in.", feelWords...),
		length("best", -1, 5, "Of a step test piece: the clearance of the slot that felt as the fit should."),
		word("fit", "Of a step test piece: the fit that `best` is for.", "press", "snug", "sliding", "loose"),
		inner("kerf", spreadObject).bounded(0.3, 12),
		inner("double", spreadObject).bounded(0.4, 24),
		inner("skin", spreadObject).bounded(0.1, 20),
		inner("turned once", turnObject), inner("turned twice", turnObject),
		amount("held to", units.Angle, 0, 90*degree, "Of a bend: the largest turn of one kerf that it bore without a crack."),
		amount("cracked at", units.Angle, 0, 90*degree, "Of a bend: the turn of one kerf at which it cracked; left out, it did not."),
		length("mouth", 0, 20, "Of a bend: a kerf's mouth, measured when bent as far as the part will be."),
		text("note", "A word about it."),
	},
}

// turnObject is what kerfs turned under a weight.
var turnObject = &object{
	name: "measured turn", short: "turn", doc: "What one kerf turned under a weight, on the mean over several: `turned once` of single kerfs, `turned twice` of doubled ones, under the same weight.",
	fields: []field{
		amount("turn", units.Angle, 0.0005, 90*degree, "Mean of the kerfs' turns."),
		amount("spread", units.Angle, 0, 20*degree, "Standard deviation from kerf to kerf."),
		count("count", 1, 1000, "How many kerfs."),
	},
}

// Spreads are how well work repeats, as standard deviations, mm; Moisture in
// points of per cent.
type Spreads struct {
	Fence, Bit, CutLength, Template, Depth, Moisture trace.Num
}

// Test is one entry of the shop's register of test pieces.
type Test struct {
	Name, Kind string // Kind: "fit", "bend"
	Tool       string // of a saw or a bit
	Stock      string
	Other      string // what went in, of a fit
	Blade      string
	Batch      string
	Measured   string // date, as written
	Cut        string // "housing"
	Set        *trace.Num
	Slot       *Spread
	Panel      *Spread
	Feels      string
	Best       *trace.Num // clearance
	Fit        string     // that Best is for
	Kerf       *Spread
	Double     *Spread
	Skin       *Spread
	Once       *Spread // rad, for each single kerf
	Twice      *Spread // rad, for each doubled one
	HeldTo     *trace.Num
	CrackedAt  *trace.Num
	Mouth      *trace.Num
	Note       string
	At         diag.Range
	Path       string
}

// spreads reads how well work repeats.
func (d *decoder) spreads(r *rec) Spreads {
	q := r.sub("spreads")
	if q == nil {
		q = d.silent(spreadsObject, "spreads")
	}
	return Spreads{Fence: q.numOr("fence"), Bit: q.numOr("bit"), CutLength: q.numOr("cut length"), Template: q.numOr("template"),
		Depth: q.numOr("depth"), Moisture: q.numOr("moisture")}
}

// test reads one test piece.
func (d *decoder) test(r *rec, s *ShopFile) *Test {
	t := &Test{Name: r.name, Kind: r.word("kind"), Tool: r.word("tool"), Stock: r.word("stock"), Other: r.word("other"), Blade: r.word("blade"),
		Batch: r.word("batch"), Measured: r.word("measured"), Cut: r.word("cut"), Set: r.maybe("set"), Feels: r.word("feels"), Best: r.maybe("best"),
		Fit: r.word("fit"), HeldTo: r.maybe("held to"), CrackedAt: r.maybe("cracked at"), Mouth: r.maybe("mouth"), Note: r.word("note"), At: r.at, Path: r.path}
	for key, to := range map[string]**Spread{"slot": &t.Slot, "panel": &t.Panel, "kerf": &t.Kerf, "double": &t.Double, "skin": &t.Skin} {
		if sub := r.sub(key); sub != nil {
			sp := d.spread(sub)
			*to = &sp
		}
	}
	t.Once, t.Twice = d.turn(r.sub("turned once")), d.turn(r.sub("turned twice"))
	if t.Kind == "fit" && t.Other == "" {
		t.Other = t.Stock
	}
	d.testWhole(r, t)
	d.testNames(r, s)
	return t
}

// turn reads a measured turn, or nil.
func (d *decoder) turn(r *rec) *Spread {
	if r == nil {
		return nil
	}
	return &Spread{Mean: r.must("turn"), SD: r.must("spread"), Readings: r.whole("count")}
}

// testWhole asks for what a test tells nothing without.
func (d *decoder) testWhole(r *rec, t *Test) {
	need := func(key string) {
		if !r.has(key) && !d.complained(r.path) {
			d.missing(r, testObject.field(key))
		}
	}
	switch {
	case t.Kind == "fit":
		need("cut")
		if t.Best != nil {
			need("fit")
		}
	case t.Kind == "bend" && (r.has("turned once") || r.has("turned twice")):
		for _, key := range []string{"turned once", "turned twice", "kerf", "double", "skin"} {
			need(key)
		}
	}
	if t.Measured != "" && !isDate(t.Measured) && !d.complained(join(r.path, "measured")) {
		d.add(diag.Diagnostic{Code: "no-date", At: r.where("measured"), Path: join(r.path, "measured"), Summary: "This is no date",
			Detail: "A date tells whether the blade or the stock was measured anew since.", Expected: "year, month and day, as 2026-03-14"})
	}
}

// testNames holds the names of saws, bits and stocks that the shop does not have,
// until the piece file has told which names it uses: the slip may be in the
// definition.
func (d *decoder) testNames(r *rec, s *ShopFile) {
	var tools, stocks []string
	for _, x := range s.Saws {
		tools = append(tools, x.Name)
	}
	for _, x := range s.Bits {
		tools = append(tools, x.Name)
	}
	for _, x := range s.Stocks {
		stocks = append(stocks, x.Name)
	}
	for _, q := range []struct {
		key, what, table string
		names            []string
	}{{"tool", "saw or bit", heldTool, tools}, {"stock", "stock", heldStock, stocks}, {"other", "stock", heldStock, stocks}} {
		name := r.word(q.key)
		if name == "" {
			continue
		}
		h := heldName{table: q.table, name: name, known: has(q.names, name)}
		if !h.known {
			h.d = diag.Diagnostic{Code: "unknown-name", At: r.where(q.key), Path: join(r.path, q.key), Offending: clip(name), Summary: fmt.Sprintf("There is no %s called '%s'", q.what, clip(name))}
		}
		d.held = append(d.held, h)
	}
}

func has(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// isDate tells whether a text is a day as 2026-03-14.
func isDate(s string) bool {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return false
	}
	for i, c := range s {
		if i != 4 && i != 7 && (c < '0' || c > '9') {
			return false
		}
	}
	return s[5:7] >= "01" && s[5:7] <= "12" && s[8:] >= "01" && s[8:] <= "31"
}
