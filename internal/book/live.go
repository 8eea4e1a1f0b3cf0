package book

import (
	"math"
	"strings"

	"rodwork/internal/say"
	"rodwork/internal/trace"
	"rodwork/internal/units"
)

// The number of decimals that a kind of measure deserves, in mm: what a rule
// and a pencil can do on wood, and what a calliper or a set-up can.
const (
	onWood  = 1
	onSteel = 2
)

// mostDecimals bounds the search for the decimals of a written number.
const mostDecimals = 3

// written returns the least decimals, at most three, that show v as it was
// written: 140 has none, 17.7 has one.
func written(v float64) int {
	for d := range mostDecimals {
		p := math.Pow(10, float64(d))
		if math.Abs(math.Round(v*p)/p-v) < 1e-9 {
			return d
		}
	}
	return mostDecimals
}

// quantity returns a number for a sentence or a cell: alive where it is a named
// size; else with the name under which the ledger knows it among the values of
// owner ("divider 1").
func (w *writer) quantity(n trace.Num, d units.Dim, decimals int, owner string) say.Quantity {
	q := say.Quantity{V: n.V, Dim: d, Decimals: decimals}
	if path := w.sizePath(n); path != "" {
		q.Path, q.Decimals = path, max(written(n.V), 0)
	}
	q.ID = w.idOf(n, owner)
	return q
}

// computed is a number of a list: never alive, since it is one of many places
// that the same written value is shown in.
func (w *writer) computed(n trace.Num, d units.Dim, decimals int, owner string) say.Quantity {
	return say.Quantity{V: n.V, Dim: d, Decimals: decimals, ID: w.idOf(n, owner)}
}

// idOf returns the name under which the ledger knows the number among the
// values of owner, or "".
func (w *writer) idOf(n trace.Num, owner string) string {
	for _, id := range w.owned[owner] {
		if v, ok := w.p.Ledger.Find(id); ok && v.Num.V == n.V && sameSources(v.Num, n) {
			return id
		}
	}
	return ""
}

// field is a number that stands in one of the two files at a path. If what is
// written there is just the name of a size, the size is what may be changed.
func (w *writer) field(n trace.Num, d units.Dim, path string) say.Quantity {
	q := w.quantity(n, d, written(n.V), "")
	if q.Path == "" {
		q.Path = path
	}
	return q
}

// at is a length written at a path, without its unit word.
func (w *writer) at(n trace.Num, path string) say.Quantity {
	return w.field(n, units.Length, path).Plain()
}

// length is a computed length with its unit word; bare is one without.
func (w *writer) length(n trace.Num, owner string) say.Quantity {
	return w.quantity(n, units.Length, onWood, owner)
}

func (w *writer) bare(n trace.Num, owner string) say.Quantity {
	return w.length(n, owner).Plain()
}

// rough is a length that no cut depends on: in whole millimetres, or eighths of
// an inch.
func (w *writer) rough(mm float64) say.Quantity {
	if w.sys == units.Inch {
		const eighth = 25.4 / 8
		mm = math.Round(mm/eighth) * eighth
	}
	return say.Len(mm, 0)
}

// fine is a length to a hundredth, without its unit word.
func (w *writer) fine(n trace.Num, owner string) say.Quantity {
	return w.quantity(n, units.Length, onSteel, owner).Plain()
}

// sizePath returns the path of the size that the number is, as it stands: it
// has the size's value and moves with it one to one. A size that is a formula
// moves with its parts too; of several that agree the last booked is meant.
func (w *writer) sizePath(n trace.Num) string {
	path := ""
	for _, s := range w.d.Sizes {
		if s.Num.V == n.V && math.Abs(n.D(s.Input)-1) < 1e-12 && sameSources(n, s.Num) {
			path = s.Path
		}
	}
	return path
}

func sameSources(a, b trace.Num) bool {
	p, q := a.Sources(), b.Sources()
	if len(p) != len(q) {
		return false
	}
	for i := range p {
		if p[i] != q[i] {
			return false
		}
	}
	return true
}

// indexLedger sorts the ids of the ledger by their owner: "divider 1/length"
// belongs to "divider 1".
func (w *writer) indexLedger() {
	w.owned = map[string][]string{}
	w.inputs = map[string]bool{}
	if w.p.Ledger == nil {
		return
	}
	for _, in := range w.p.Ledger.Inputs() {
		w.inputs[in.Path] = true
	}
	for _, v := range w.p.Ledger.Values() {
		owner := ""
		if i := strings.LastIndexByte(v.ID, '/'); i >= 0 {
			owner = v.ID[:i]
		}
		w.owned[owner] = append(w.owned[owner], v.ID)
	}
}
