package sheet_test

import (
	"errors"
	"fmt"
	"testing"

	"rodwork/internal/sheet"
)

func TestLies(t *testing.T) {
	for _, c := range []struct {
		part sheet.Part
		want string
	}{
		{sheet.Part{Length: 7, Width: 4, Grain: sheet.Along}, "[{7 4 false}]"},
		{sheet.Part{Length: 7, Width: 4, Grain: sheet.Across}, "[{4 7 true}]"},
		{sheet.Part{Length: 7, Width: 4}, "[{7 4 false} {4 7 true}]"},
		{sheet.Part{Length: 4, Width: 4}, "[{4 4 false}]"},
	} {
		if got := fmt.Sprint(c.part.Lies()); got != c.want {
			t.Errorf("%+v lies %s, want %s", c.part, got, c.want)
		}
	}
}

// TestAllAtOnce: every bad value is named, not the first alone.
func TestAllAtOnce(t *testing.T) {
	p := sheet.Problem{Stocks: []sheet.Stock{{Name: "ply", Length: 0, Width: 100, Price: -1}},
		Parts: []sheet.Part{{ID: "a", Length: 1, Width: -1, Copies: 1}, {ID: "b", Length: 1, Width: 1, Copies: 0}}}
	joined, ok := p.Validate().(interface{ Unwrap() []error })
	if !ok {
		t.Fatal("no errors")
	}
	bad := map[string]bool{}
	var walk func(errs []error)
	walk = func(errs []error) {
		for _, err := range errs {
			if more, ok := err.(interface{ Unwrap() []error }); ok {
				walk(more.Unwrap())
				continue
			}
			var in *sheet.InputError
			if errors.As(err, &in) {
				bad[in.What] = true
			}
		}
	}
	walk(joined.Unwrap())
	for _, want := range []string{"stock 0 (ply): length", "stock 0 (ply): price", "part 0 (a): width", "part 1 (b): copies"} {
		if !bad[want] {
			t.Errorf("%q is not named: %v", want, bad)
		}
	}
}

func TestTooLargeTakesTheNearerWay(t *testing.T) {
	p := sheet.Problem{Stocks: []sheet.Stock{{Length: 2440, Width: 1220, Trim: 10, Available: sheet.Unlimited}},
		Parts: []sheet.Part{{ID: "top", Length: 1300, Width: 2500, Copies: 1}}}
	var large *sheet.TooLargeError
	if !errors.As(p.Validate(), &large) || large.NeedLength != 2520 || large.NeedWidth != 1320 {
		t.Errorf("%v, want 2520 × 1320", p.Validate())
	}
}
