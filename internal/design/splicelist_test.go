package design_test

import (
	"bytes"
	"strings"
	"testing"

	"rodwork/internal/design"
)

// An item of a list is doubled or taken out, and nothing else moves.
func TestListsByItem(t *testing.T) {
	const head = "piece: a\nunits: mm # kept\n"
	for _, c := range []struct{ name, src, path, another, without string }{
		{"lines", "shelves:\n  - {in: a, count: 1} # low\n  - {in: b, count: 2}\nback: none\n", "shelves.0",
			"shelves:\n  - {in: a, count: 1} # low\n  - {in: a, count: 1} # low\n  - {in: b, count: 2}\nback: none\n",
			"shelves:\n  - {in: b, count: 2}\nback: none\n"},
		{"blocks", "shelves:\n  - in: a\n    count: 1\n  - in: b\n    count: 2\n", "shelves.1",
			"shelves:\n  - in: a\n    count: 1\n  - in: b\n    count: 2\n  - in: b\n    count: 2\n",
			"shelves:\n  - in: a\n    count: 1\n"},
		{"brackets", "inside: {bays: [{name: a, width: 3}, {name: b, width: equal}]}\n", "inside.bays.1",
			"inside: {bays: [{name: a, width: 3}, {name: b, width: equal}, {name: b 2, width: equal}]}\n",
			"inside: {bays: [{name: a, width: 3}]}\n"},
		{"the first in brackets", "fronts:\n  - {at: [80, -153], covers: [x]}\n", "fronts.0.at.0",
			"fronts:\n  - {at: [80, 80, -153], covers: [x]}\n",
			"fronts:\n  - {at: [-153], covers: [x]}\n"},
		{"names count on", "inside:\n  bays:\n    - {name: desk 2}\n    - {name: desk}\n", "inside.bays.0",
			"inside:\n  bays:\n    - {name: desk 2}\n    - {name: desk 3}\n    - {name: desk}\n",
			"inside:\n  bays:\n    - {name: desk}\n"},
	} {
		for _, w := range []struct {
			do   func(string, []byte, string) ([]byte, error)
			want string
		}{{design.Another, c.another}, {design.Without, c.without}} {
			got, err := w.do("p", []byte(head+c.src), c.path)
			if err != nil || string(got) != head+w.want {
				t.Errorf("%s: %v\n%s", c.name, err, got)
			}
		}
	}
}

func TestListsRefuse(t *testing.T) {
	src := []byte("piece: a\nshelves:\n  - {in: a}\nsizes: {w: 3}\n")
	for _, path := range []string{"shelves", "shelves.1", "shelves.-1", "shelves.x", "sizes.0", "nosuch.0", "", "shelves.0.in.0", "."} {
		for _, do := range []func(string, []byte, string) ([]byte, error){design.Another, design.Without} {
			if out, err := do("p", src, path); err == nil {
				t.Errorf("%q: %s", path, out)
			}
		}
	}
	if _, err := design.Without("p", src, "shelves.0"); err == nil || !strings.Contains(err.Error(), "only one") {
		t.Error(err)
	}
}

// To double an item and take the copy out again gives the same bytes.
func TestListsThereAndBack(t *testing.T) {
	for _, name := range []string{"main", "chest", "bookcase", "low-cabinet"} {
		piece, _ := load(t, name)
		for _, path := range []string{"shelves.0", "brief.holds.0", "fronts.0", "drawers.1", "rails.0", "inside.bays.0"} {
			more, err := design.Another("p", piece, path)
			if err != nil {
				continue // it has no such list
			}
			next := path[:len(path)-1] + string(path[len(path)-1]+1)
			back, err := design.Without("p", more, next)
			if err != nil || !bytes.Equal(back, piece) {
				t.Errorf("%s %s: %v", name, path, err)
			}
		}
	}
}
