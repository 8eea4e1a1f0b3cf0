package design_test

import (
	"math"
	"slices"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/trace"
)

func sources(d *design.Design, n trace.Num) []string {
	var out []string
	for _, id := range n.Sources() {
		in := d.Ledger.Inputs()[id]
		out = append(out, string(in.Kind)+" "+in.Path)
	}
	return out
}

func TestValuesKnowWhereTheyComeFrom(t *testing.T) {
	piece, shop := load(t, "main")
	d, _ := design.Resolve("p", piece, "s", shop)
	for _, c := range []struct {
		name string
		n    trace.Num
		v    float64
		want []string
	}{
		{"height", d.Body.Height, 760, []string{"size sizes.height", "size sizes.plinth"}},
		{"radius", d.Body.Corners[design.TopLeft].Radius, 140, []string{"size sizes.turn"}},
		{"skin", d.Body.Bend.Skin, 1.6, []string{"field body.bend.skin"}},
		{"gap", d.Fronts[0].Gap, 2.5, []string{"size sizes.gap"}},
		{"thickness", d.Roles["shell"].Stock.Thickness.Mean, 17.7, []string{"shop stock.birch ply 18.thickness"}},
		{"joint", *d.Joints[0].Depth, 5.9, []string{"shop stock.birch ply 18.thickness"}},
		{"kerf", d.Body.Bend.Saw.Kerf.Mean, 2.2, []string{"shop saws.track saw.kerf.mean"}},
		{"finger hole", d.Fronts[0].PullDia, 30, []string{"field fronts.0.pull"}},
		{"youngest", *d.Brief.Youngest, 4, []string{"field brief.people.youngest"}},
		{"share", d.Shop.Habits.HousingShare, 1.0 / 3, []string{"shop habits.housing share"}},
	} {
		if got := sources(d, c.n); math.Abs(c.n.V-c.v) > 1e-9 || !slices.Equal(got, c.want) {
			t.Errorf("%s = %v from %v, want %v from %v", c.name, c.n.V, got, c.v, c.want)
		}
	}
}

func TestHabitsFillIn(t *testing.T) {
	piece, shop := load(t, "plain-box")
	d, _ := design.Resolve("p", piece, "s", shop)
	if got := sources(d, d.Fronts[0].Gap); !slices.Equal(got, []string{"shop habits.gap", "habit fronts.0.gap"}) {
		t.Error(got)
	}
	// The same box in a shop without habits: a rule of the program, with its reason.
	bare := replaceKeys(shop, "habits: {}\n")
	d, remarks := design.Resolve("p", piece, "s", bare)
	if remarks.HasErrors() {
		t.Fatal(remarks)
	}
	if got := sources(d, d.Fronts[0].Gap); !slices.Equal(got, []string{"rule habits.gap", "rule fronts.0.gap"}) {
		t.Error(got)
	}
	for _, in := range d.Ledger.Inputs() {
		if in.Text == "" || in.Path == "" || in.Kind != trace.Rule && in.At.IsZero() {
			t.Errorf("an input without text, path or place: %+v", in)
		}
	}
}

// Every quantity that stands in the files is an input or a formula of inputs.
func TestEveryWrittenValueIsBooked(t *testing.T) {
	for _, name := range examples {
		piece, shop := load(t, name)
		d, _ := design.Resolve("p", piece, "s", shop)
		for _, w := range append(slices.Clone(d.Written), d.Shop.Written...) {
			booked := slices.ContainsFunc(d.Ledger.Inputs(), func(in trace.Input) bool {
				return in.Path == w.Path || len(w.Path) > len(in.Path) && w.Path[:len(in.Path)] == in.Path // a reading under its mean
			})
			if !booked && len(w.Num.Sources())+len(w.Num.Steps()) == 0 {
				t.Errorf("%s: %s is not booked", name, w.Path)
			}
		}
	}
}

func TestSameBytesSameDesign(t *testing.T) {
	piece, shop := load(t, "main")
	a, _ := design.Resolve("p", piece, "s", shop)
	b, _ := design.Resolve("p", piece, "s", shop)
	if !slices.Equal(a.Ledger.Inputs(), b.Ledger.Inputs()) {
		t.Error("two readings book differently")
	}
}
