package pack

import (
	"math/bits"

	"rodwork/internal/sheet"
)

// job is a problem made ready for the search: copies are items, all is enlarged
// by the kerf.
type job struct {
	p      sheet.Problem
	stocks []stock
	items  []item
	shift  uint  // of areas, so that a worth stays under 2^50
	trials int64 // done so far
	// reaching is set once the number of sheets is settled: then layouts are also
	// judged by the saw's reach; and obey while items go where it reaches, if they
	// can.
	reaching, obey bool
}

type stock struct {
	l, w      int64 // usable, enlarged by the kerf
	weight    int64 // cents × 4096 + 1: cheaper first, then fewer
	available int
	offcut    bool
}

// rate is the weight by area.
func (s stock) rate() float64 { return float64(s.weight) / float64(s.l*s.w) }

type item struct {
	part, copy int
	lies       []sheet.Lie // enlarged by the kerf
	area       int64
}

func newJob(p sheet.Problem) *job {
	j := &job{p: p}
	largest := int64(1)
	for _, s := range p.Stocks {
		l, w := s.Usable()
		k := stock{l: l + p.Kerf, w: w + p.Kerf, weight: s.Price*4096 + 1, available: s.Available, offcut: s.Offcut}
		if s.Offcut {
			k.weight = s.Price * 4096
		}
		if k.available == sheet.Unlimited {
			k.available = sheet.MaxCopies
		}
		largest = max(largest, k.l*k.w)
		j.stocks = append(j.stocks, k)
	}
	if n := bits.Len64(uint64(largest)); n > 40 {
		j.shift = uint(n - 40)
	}
	for i, q := range p.Parts {
		lies := q.Lies()
		for k := range lies {
			lies[k].DX += p.Kerf
			lies[k].DY += p.Kerf
		}
		for c := range q.Copies {
			j.items = append(j.items, item{part: i, copy: c, lies: lies, area: lies[0].DX * lies[0].DY})
		}
	}
	return j
}

// fits tells whether item i fits an empty sheet of stock s.
func (j *job) fits(i int32, s int32) bool {
	for _, lie := range j.items[i].lies {
		if lie.DX <= j.stocks[s].l && lie.DY <= j.stocks[s].w {
			return true
		}
	}
	return false
}

func (j *job) newTree() *tree {
	return &tree{used: make([]int, len(j.stocks))}
}
