package design

import "fmt"

// Stale tells in a few words why a test no longer counts, or "": the blade or
// the batch is called otherwise now, or was measured after the test.
func (s *ShopFile) Stale(t *Test) string {
	for _, w := range s.Saws {
		if w.Name != t.Tool {
			continue
		}
		switch {
		case w.Blade != t.Blade:
			return fmt.Sprintf("the blade in the %s is another", w.Name)
		case later(w.Kerf.Measured, t.Measured):
			return fmt.Sprintf("the kerf of the %s was measured after it", w.Name)
		}
	}
	for _, k := range s.Stocks {
		if k.Name != t.Stock && k.Name != t.Other {
			continue
		}
		switch {
		case k.Name == t.Stock && k.Batch != t.Batch:
			return fmt.Sprintf("the batch of %s is another", k.Name)
		case later(k.Thickness.Measured, t.Measured):
			return fmt.Sprintf("%s was measured after it", k.Name)
		}
	}
	return ""
}

// later compares two days; a day that is not known is never later.
func later(a, b string) bool { return isDate(a) && isDate(b) && a > b }

// BendTest returns the last test of bends for a saw in a stock that is not
// stale, or nil, and the last one of all.
func (s *ShopFile) BendTest(saw, stock string) (fresh, last *Test) {
	return s.test(func(t *Test) bool { return t.Kind == "bend" && t.Tool == saw && t.Stock == stock })
}

// FitTest returns the same of a fit: a kind of cut, by a tool, in a stock, for
// another.
func (s *ShopFile) FitTest(cut, tool, stock, other string) (fresh, last *Test) {
	return s.test(func(t *Test) bool {
		return t.Kind == "fit" && t.Cut == cut && t.Tool == tool && t.Stock == stock && t.Other == other
	})
}

// test finds by the day of measuring; of one day the one further down.
func (s *ShopFile) test(is func(*Test) bool) (fresh, last *Test) {
	if s == nil {
		return nil, nil
	}
	newer := func(t, than *Test) bool { return than == nil || t.Measured >= than.Measured }
	for _, t := range s.Tests {
		if !is(t) {
			continue
		}
		if newer(t, last) {
			last = t
		}
		if s.Stale(t) == "" && newer(t, fresh) {
			fresh = t
		}
	}
	return fresh, last
}
