package starter

import "slices"

// Thing is something that pieces are made for: its height as it stands, its
// depth into the piece and its thickness along the row, mm, and its mass, kg.
type Thing struct {
	Name, Plural             string
	Height, Depth, Thickness float64
	Mass                     float64
}

// Things are what can be chosen from, each with one size of its sort. They are
// ours, taken with a rule from a few of each, and stand in the file to be
// measured anew: no standard lies behind them.
func Things() []Thing {
	return []Thing{
		{"novel", "novels", 205, 135, 24, 0.34},
		{"paperback", "paperbacks", 190, 125, 25, 0.25},
		{"picture book", "picture books", 290, 230, 10, 0.38},
		{"reference book", "reference books", 290, 220, 40, 1.2},
		{"atlas", "atlases", 330, 250, 35, 1.9},
		{"ring binder", "ring binders", 320, 290, 75, 2.6},
		{"score folder", "score folders", 320, 240, 22, 0.9},
		{"record", "records", 315, 315, 4, 0.25},
		{"board game", "board games", 300, 300, 65, 1.2},
		{"storage jar", "storage jars", 200, 110, 110, 1.1},
		{"spice jar", "spice jars", 110, 50, 50, 0.18},
		{"plant pot", "plant pots", 220, 180, 180, 2.5},
		{"pair of shoes", "pairs of shoes", 130, 310, 220, 0.9},
		{"folded blanket", "folded blankets", 180, 300, 110, 0.9},
	}
}

func thingOf(name string) (Thing, bool) {
	all := Things()
	i := slices.IndexFunc(all, func(t Thing) bool { return t.Name == name || t.Plural == name })
	if i < 0 {
		return Thing{}, false
	}
	return all[i], true
}

// Plural is what several of a thing are called.
func Plural(name string) string {
	if t, ok := thingOf(name); ok {
		return t.Plural
	}
	return name
}
