package design

import (
	"fmt"
	"math"
	"strings"

	"rodwork/internal/diag"
	"rodwork/internal/expr"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// none is the scope of the shop file, which has no names of its own.
type none struct{}

func (none) Value(string) (expr.Value, bool)                { return expr.Value{}, false }
func (none) Call(string, string) (expr.Value, string, bool) { return expr.Value{}, "", false }

// resolveShop reads the shop file. It never fails: what cannot be read is left
// out, and said.
func resolveShop(file string, src []byte, led *trace.Ledger) (*ShopFile, *decoder) {
	d := newDecoder(file, src, trace.Shop, led)
	d.env = none{}
	s := &ShopFile{File: file, Units: units.MM, Hands: 1, Places: d.places}
	tree, remarks := readTree(file, src)
	d.out = append(d.out, remarks...)
	if tree == nil {
		d.fill(habitsObject, nil, "habits")
		d.setHabits(s)
		return s, d
	}
	d.root = d.form(tree, shopSchema, "", diag.Range{File: file, Start: diag.Pos{Line: 1, Col: 1}, End: diag.Pos{Line: 1, Col: 2}})
	r := d.root
	d.header(r)
	s.Units, s.Currency, s.Name = system(d.lengths), d.currency, r.word("shop")
	d.reckon()
	d.fill(habitsObject, r.sub("habits"), "habits")
	s.Hands = r.whole("hands")
	for _, t := range r.lists["saws"] {
		s.Saws = append(s.Saws, d.saw(t))
	}
	for _, t := range r.lists["bits"] {
		s.Bits = append(s.Bits, &Bit{Name: t.name, Diameter: t.must("diameter"), Length: t.must("length"), At: t.at})
	}
	for _, t := range r.lists["bushes"] {
		s.Bushes = append(s.Bushes, &Bush{Name: t.name, Diameter: t.must("diameter"), Length: t.must("length"), At: t.at})
	}
	for _, t := range r.lists["stock"] {
		s.Stocks = append(s.Stocks, d.stock(t))
	}
	d.kerfSaw(r, s)
	d.hardware(r, s)
	d.setHabits(s)
	d.setRates(r, s)
	s.Spreads = d.spreads(r)
	for _, t := range r.lists["tests"] {
		s.Tests = append(s.Tests, d.test(t, s))
	}
	s.Written = d.written
	return s, d
}

// kerfSaw checks the habit that names a saw.
func (d *decoder) kerfSaw(r *rec, s *ShopFile) {
	h, ok := d.habits["kerf saw"]
	if !ok || d.gone("saws") {
		return
	}
	var names []string
	for _, w := range s.Saws {
		if w.Name == h.word {
			return
		}
		names = append(names, w.Name)
	}
	x := diag.Diagnostic{Code: "unknown-name", At: h.at, Path: "habits.kerf saw", Summary: fmt.Sprintf("There is no saw called '%s'", clip(h.word)),
		Nearest: diag.Nearest(h.word, names), Expected: "one of: " + strings.Join(firstFew(names), ", ")}
	if x.Nearest != "" {
		x.Mend = &diag.Edit{At: h.at, New: x.Nearest}
	}
	d.add(x)
}

// header reads what the rest of a file is read by.
func (d *decoder) header(r *rec) {
	d.lengths = r.wordOr("units")
	d.unsure = d.lengths == "" || !r.has("units") && d.lost[""] || d.complained("units")
	if d.lengths == "" {
		d.lengths = "mm"
	}
	d.scope.BareUnit = d.lengths
	d.currency = r.word("price in")
	d.scope.Currency = d.currency
}

// system is how quantities are printed for who counts in the unit.
func system(lengths string) units.System {
	if lengths == "in" || lengths == "ft" {
		return units.Inch
	}
	return units.MM
}

// spread reads a measured length: readings as one input, their mean.
func (d *decoder) spread(r *rec) Spread {
	if r == nil {
		return Spread{}
	}
	sp := Spread{Measured: r.word("measured"), Readings: r.whole("count")}
	if list := r.vals["readings"]; list != nil && len(list.items) > 0 {
		var xs []float64
		var texts []string
		for _, n := range r.nums("readings") {
			xs = append(xs, n.V)
		}
		for _, it := range list.items {
			texts = append(texts, it.n.text)
		}
		mean, sd := meanAndSpread(xs)
		at := list.items[0].n.at
		if last := list.items[len(list.items)-1].n.at; last.Start.Line == at.Start.Line {
			at.End = last.End
		}
		sp.Readings = len(xs)
		sp.Mean = d.led.Var(mean, trace.Input{Kind: trace.Shop, Path: r.path, At: at,
			Text: fmt.Sprintf("mean of %d readings: %s", len(xs), clip(strings.Join(texts, ", ")))})
		sp.SD = d.led.Var(sd, trace.Input{Kind: trace.Shop, Path: r.path + ".spread", At: at, Text: fmt.Sprintf("spread of %d readings", len(xs))})
		return sp
	}
	mean, ok := r.num("mean")
	if !ok && r.vals["mean"] == nil && r.vals["readings"] == nil {
		d.missing(r, r.obj.field("mean"))
	}
	sp.Mean = mean
	if sd, ok := r.num("spread"); ok {
		sp.SD = sd
	} else if r.vals["spread"] == nil {
		sp.SD = d.led.Var(0, trace.Input{Kind: trace.Rule, Path: join(r.path, "spread"), Text: "no spread was measured: reckoned as none", At: r.at})
	}
	return sp
}

// hingeWhole says so where one of two numbers is written that are of use only
// together.
func (d *decoder) hingeWhole(t *rec) {
	zero, high := t.vals["overlay at zero"] != nil, t.vals["plate height"] != nil
	if zero != high && !d.complained(t.path) {
		key := map[bool]string{true: "plate height", false: "overlay at zero"}[zero]
		d.missing(t, hingeObject.field(key))
	}
}

func (d *decoder) bought(t *rec) *Hardware {
	h := &Hardware{Name: t.name, Kind: t.word("kind"), Height: t.must("height"), Diameter: t.must("diameter"), Length: t.must("length"),
		Price: t.numOr("price"), InHand: t.whole("in hand"), At: t.at}
	if h.Kind == "foot" {
		h.Width = t.numOr("width")
	}
	need := map[string][]string{"foot": {"height"}, "wall screw": {"diameter", "length"}, "dowel": {"diameter", "length"}}
	for _, key := range need[h.Kind] {
		if t.vals[key] == nil && !d.complained(t.path) {
			d.missing(t, hardwareObject.field(key))
		}
	}
	return h
}

// meanAndSpread returns the mean and the standard deviation (n − 1) of readings.
func meanAndSpread(xs []float64) (mean, sd float64) {
	if len(xs) == 0 {
		return 0, 0
	}
	for _, x := range xs {
		mean += x
	}
	mean /= float64(len(xs))
	mean = math.Round(mean*1e9) / 1e9 // 17.7 and not 17.699999999999996
	if len(xs) < 2 {
		return mean, 0
	}
	for _, x := range xs {
		sd += (x - mean) * (x - mean)
	}
	return mean, math.Sqrt(sd / float64(len(xs)-1))
}

func (d *decoder) saw(r *rec) *Saw {
	s := &Saw{Name: r.name, Kind: r.word("kind"), Kerf: d.spread(r.sub("kerf")), Blade: r.word("blade"), DepthFrom: r.word("depth from"), At: r.at, Path: r.path}
	s.Depth = Spread{Mean: r.must("deepest cut"), SD: r.numOr("depth spread")}
	s.Grind, s.Index = r.wordOr("grind"), r.wordOr("index")
	if s.Grind == "bevel" {
		s.Bevel = r.numOr("bevel")
	}
	s.IndexSD, s.Longest = r.numOr("index spread"), r.must("longest cut")
	return s
}

func (d *decoder) stock(r *rec) *Stock {
	s := &Stock{Name: r.name, Thickness: d.spread(r.sub("thickness")), Batch: r.word("batch"), Layers: int(r.must("layers").V),
		FaceVeneer: r.must("face veneer"), InnerVeneer: r.must("inner veneer"), Species: r.word("species"),
		Density: r.must("density"), Length: r.must("length"), Width: r.must("width"), GrainAlong: r.word("grain along"),
		Stick: r.wordOr("form") == "stick", Price: r.numOr("price"), Trim: r.numOr("trim"), InHand: r.whole("in hand"), At: r.at, Path: r.path}
	s.Kind = StockKind(r.word("kind"))
	if n, ok := r.num("nominal"); ok {
		s.Nominal = n
	} else {
		s.Nominal = s.Thickness.Mean
	}
	if s.Kind == Plywood {
		d.plies(r, s)
	}
	return s
}

// plies checks that plywood's layers can make its thickness: a slip of a digit
// there would go into every strain of a bend.
func (d *decoder) plies(r *rec, s *Stock) {
	for _, k := range []string{"layers", "face veneer", "inner veneer"} {
		if r.vals[k] == nil {
			d.missing(r, r.obj.field(k))
			return
		}
	}
	if s.Layers == 0 || s.FaceVeneer.V == 0 || s.InnerVeneer.V == 0 || s.Thickness.Mean.V == 0 {
		return // told already
	}
	sum := 2*s.FaceVeneer.V + float64(s.Layers-2)*s.InnerVeneer.V
	if s.Layers%2 == 0 || s.Layers < 3 || math.Abs(sum-s.Thickness.Mean.V) > 0.15*s.Thickness.Mean.V {
		at, path := r.where("layers"), join(r.path, "layers")
		if n := s.Nominal.V; n > 0 && math.Abs(sum-n) <= 0.15*n && r.sub("thickness") != nil {
			at, path = r.sub("thickness").at, join(r.path, "thickness") // the label agrees with the layers: it is the measure that is odd
		}
		d.add(diag.Diagnostic{Code: "layers", At: at, Path: path, Summary: "The layers do not make the thickness",
			Detail:   fmt.Sprintf("%d layers come to %s; the panel was measured at %s.", s.Layers, printed(sum, units.Length), printed(s.Thickness.Mean.V, units.Length)),
			Expected: "an odd number of plies whose sum is within 15 % of the thickness"})
	}
}

func (d *decoder) hardware(r *rec, s *ShopFile) {
	for _, t := range r.lists["hinges"] {
		s.Hinges = append(s.Hinges, &Hinge{Name: t.name, Kind: t.word("kind"), Sets: t.strings("sets"), CupDia: t.must("cup"),
			CupDepth: t.must("cup depth"), CupEdge: t.must("cup edge"), PlateLine: t.must("plate line"), PlatePitch: t.must("plate pitch"),
			OverlayAtZero: t.maybe("overlay at zero"), PlateHigh: t.maybe("plate height"), CupLeast: t.numOr("least cup edge"), CupMost: t.numOr("most cup edge"),
			Price: t.numOr("price"), InHand: t.whole("in hand"), At: t.at})
		d.hingeWhole(t)
	}
	for _, t := range r.lists["hardware"] {
		s.Hardware = append(s.Hardware, d.bought(t))
	}
	for _, t := range r.lists["slides"] {
		s.Slides = append(s.Slides, &Slide{Name: t.name, Length: t.must("length"), Side: t.must("side"), Price: t.numOr("price"),
			InHand: t.whole("in hand"), At: t.at})
	}
	for _, t := range r.lists["pins"] {
		s.Pins = append(s.Pins, &Pin{Name: t.name, Diameter: t.must("diameter"), Depth: t.must("depth"), Line: t.must("line"),
			Price: t.numOr("price"), InHand: t.whole("in hand"), At: t.at})
	}
	for _, t := range r.lists["clamps"] {
		s.Clamps = append(s.Clamps, Clamp{Name: t.name, Reach: t.must("reach"), Force: t.must("force"), Count: t.whole("count")})
	}
	for _, t := range r.lists["glues"] {
		s.Glues = append(s.Glues, Glue{Name: t.name, Open: t.must("open time"), ClampTime: t.must("clamp time"), Spread: t.must("spread"), Price: t.numOr("price")})
	}
}

func (d *decoder) setHabits(s *ShopFile) {
	n := func(k string) trace.Num { return d.habits[k].num }
	s.Habits = Habits{Gap: n("gap"), HousingShare: n("housing share"), RabbetShare: n("rabbet share"), Fit: d.habits["fit"].word,
		Skin: n("skin"), LeastRib: n("least rib"), LeastMouth: n("least mouth"), Oversize: n("oversize"), SetBackDoor: n("door set back"),
		ShelfClear: n("shelf clearance"), HingeFromEnd: n("hinge from end"), KeptOffcut: n("kept offcut"),
		FitClearance: map[string]trace.Num{"press": n("press"), "snug": n("snug"), "sliding": n("sliding"), "loose": n("loose")}}
}

func (d *decoder) setRates(r *rec, s *ShopFile) {
	q := r.sub("rates")
	if q == nil {
		q = d.silent(ratesObject, "rates")
	}
	s.Rates = Rates{CutPerMetre: q.numOr("cut").Scale(1000), Hole: q.numOr("hole"), SpreadPerM2: q.numOr("glue").Scale(1e6), FinishPerM2: q.numOr("finish").Scale(1e6),
		Part: q.numOr("part"), Clamp: q.numOr("clamp")}
}

// silent is an object that is not written: everything in it is filled in.
func (d *decoder) silent(o *object, path string) *rec {
	return &rec{d: d, obj: o, path: path, at: placeOf(d.places, path), vals: map[string]*slot{}, subs: map[string]*rec{}, lists: map[string][]*rec{}}
}
