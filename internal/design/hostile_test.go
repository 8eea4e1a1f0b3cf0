package design_test

import (
	"strings"
	"testing"
	"time"

	"rodwork/internal/design"
)

// Files that were made to hurt are answered in bounded time and never panic.
func TestHostileFiles(t *testing.T) {
	const mb = 1 << 20
	for name, src := range map[string]string{
		"empty": "", "spaces": "   \n  ", "null": "~", "scalar": "hello", "list": "- 1\n- 2",
		"too large":       strings.Repeat("a", mb+1),
		"one word":        strings.Repeat("a", mb-1),
		"brackets":        strings.Repeat("[", mb-1),
		"braces":          "a: " + strings.Repeat("{a: ", 100_000),
		"closing":         strings.Repeat("]", mb-1),
		"quotes":          strings.Repeat(`"`, mb-1),
		"dashes":          strings.Repeat("- ", mb/2-1),
		"colons":          strings.Repeat("a: ", mb/3-1),
		"lines":           strings.Repeat("\n", mb-1),
		"keys":            "rodwork: 1\nsizes:\n" + strings.Repeat("  a: 1\n", 100_000),
		"many sizes":      "rodwork: 1\npiece: x\nsizes:\n" + sizes(20_000),
		"questions":       strings.Repeat("? ", mb/2-1),
		"anchors":         strings.Repeat("a: &x 1\n", 1000),
		"alias":           "a: &x [1]\nb: *x\nc: {<<: *x}",
		"tags":            "a: !!str 1",
		"documents":       "rodwork: 1\n---\nrodwork: 1",
		"deep":            deep(400),
		"latin 1":         "piece: caf\xe9",
		"nul":             "piece: a\x00b",
		"mark":            "\ufeffrodwork: 1",
		"deep formula":    "rodwork: 1\nsizes: {a: " + strings.Repeat("(", 500) + "1" + strings.Repeat(")", 500) + "}",
		"long formula":    "rodwork: 1\nsizes: {a: 1" + strings.Repeat(" + 1", 10_000) + "}",
		"great product":   "rodwork: 1\nsizes: {a: " + strings.Repeat("1e9 m * ", 90) + "1}",
		"self":            "rodwork: 1\nsizes: {a: a}",
		"long chain":      "rodwork: 1\nsizes:\n" + chain(3000),
		"text in a block": "piece: |\n  a\n  b\n",
		"colon key":       ": : :\n",
		"comma":           "{,}",
		"tabs":            "a:\n\tb: 1",
		"crlf":            "rodwork: 1\r\npiece: a\r\nsizes:\r\n  a: 2 mm\r\n",
	} {
		began := time.Now()
		_, remarks := design.Resolve("p", []byte(src), "s", []byte("rodwork: 1\nshop: s\n"))
		took := time.Since(began)
		if took > 5*time.Second {
			t.Errorf("%s: took %v", name, took)
		}
		if len(remarks) == 0 {
			t.Errorf("%s: not a word was said", name)
		}
		for _, d := range remarks {
			if d.At.Start.Line < 1 || d.At.Start.Col < 1 || d.At.End.Before(d.At.Start) || d.Summary == "" {
				t.Errorf("%s: %+v", name, d)
				break
			}
		}
	}
}

func sizes(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("  s" + letters(i) + ": 1 mm\n")
	}
	return b.String()
}

// chain makes sizes that each stand on the next.
func chain(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("  s" + letters(i) + ": s" + letters(i+1) + " + 1 mm\n")
	}
	return b.String()
}

func letters(i int) string {
	out := ""
	for range 4 {
		out = string(rune('a'+i%26)) + out
		i /= 26
	}
	return out
}

func deep(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

func FuzzResolve(f *testing.F) {
	for _, name := range examples {
		piece, shop := load(f, name)
		f.Add(string(piece), string(shop))
	}
	f.Add("a: {b: [1, 'x'], c: ~}", "- - -")
	f.Fuzz(func(t *testing.T, piece, shop string) {
		d, remarks := design.Resolve("p", []byte(piece), "s", []byte(shop))
		if d == nil && !remarks.HasErrors() {
			t.Fatal("no design and no error")
		}
		for _, r := range remarks {
			if r.At.IsZero() || r.Summary == "" || r.At.End.Before(r.At.Start) {
				t.Fatalf("%+v", r)
			}
		}
	})
}
