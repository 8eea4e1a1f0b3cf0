package design_test

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"rodwork/internal/design"
	"rodwork/internal/diag"
)

// The mutator breaks a file in one place, in one of six ways, and looks at what
// is said: never a panic; each error in or beside the broken place, or, where a
// name was broken, at a use of it and naming it; and the right name given back.

// mark is a word or value of a file, by its line and runes.
type mark struct {
	line, from, to int // from 0
	text           string
	isKey          bool
	key            string // the key that it stands behind
	top            string // the top-level key that it lies under
}

// marks finds the words of a file by its own rough reading, which knows nothing
// of the package's.
func marks(src string) []mark {
	var out []mark
	top := ""
	for i, line := range strings.Split(src, "\n") {
		body := line
		if c := strings.Index(body, " #"); c >= 0 {
			body = body[:c]
		}
		if strings.HasPrefix(body, "#") {
			continue
		}
		if m := regexp.MustCompile(`^[a-z][a-z ]*`).FindString(body); m != "" {
			top = m
		}
		key := ""
		for _, loc := range regexp.MustCompile(`[^{}\[\],:]+:?`).FindAllStringIndex(body, -1) {
			text := body[loc[0]:loc[1]]
			isKey := strings.HasSuffix(text, ":")
			text = strings.TrimSuffix(text, ":")
			trimmed := strings.TrimLeft(text, " ")
			from := loc[0] + len(text) - len(trimmed)
			if strings.HasPrefix(trimmed, "- ") {
				from, trimmed = from+2, trimmed[2:]
			}
			trimmed = strings.TrimRight(trimmed, " ")
			if trimmed == "" || trimmed == "-" {
				continue
			}
			if isKey {
				key = trimmed
			}
			out = append(out, mark{line: i, from: from, to: from + len(trimmed), text: trimmed, isKey: isKey, key: key, top: top})
		}
	}
	return out
}

func put(src string, m mark, text string) string {
	lines := strings.Split(src, "\n")
	l := lines[m.line]
	lines[m.line] = l[:m.from] + text + l[m.to:]
	return strings.Join(lines, "\n")
}

func misspell(r *rand.Rand, s string) string {
	b := []byte(s)
	for {
		i := r.IntN(len(b) - 1)
		if b[i] == ' ' || b[i+1] == ' ' || b[i] < 'a' || b[i] > 'z' {
			continue
		}
		switch r.IntN(4) {
		case 0: // two neighbours change places
			if b[i] == b[i+1] {
				continue
			}
			b[i], b[i+1] = b[i+1], b[i]
			return string(b)
		case 1: // a letter is missing
			return string(b[:i]) + string(b[i+1:])
		case 2: // a letter stands twice
			return string(b[:i+1]) + string(b[i:])
		default: // a wrong letter
			c := byte('a' + r.IntN(26))
			if c == b[i] {
				continue
			}
			b[i] = c
			return string(b)
		}
	}
}

var nonsense = []string{"@@", "]", "}", "{", "[", `"`, "'", "- -", "é😀", "1e999", "-1", "0", "99999999 mm", "1/0 in", "&x", "*x", "!!int 3", "|",
	"?", "%", "~", "((((", "NaN", "inf", "10 000", "1.2.3", ": :", "\t", "a: b: c", "2,5", "1e9 mm", "-- 3"}

// mutate breaks one mark; how says in which way.
func mutate(r *rand.Rand, src string, ms []mark) (out string, m mark, how, now string) {
	for {
		m = ms[r.IntN(len(ms))]
		how = []string{"drop", "misspell", "wrong unit", "wrong type", "cycle", "nonsense"}[r.IntN(6)]
		number := m.text[0] >= '0' && m.text[0] <= '9'
		switch how {
		case "drop":
		case "misspell":
			if len(m.text) < 4 || !regexp.MustCompile(`^[a-z ]*[a-z]{3}[a-z ]*$`).MatchString(m.text) {
				continue
			}
			now = misspell(r, m.text)
		case "wrong unit":
			if m.isKey || !number {
				continue
			}
			now = strings.Fields(m.text)[0] + []string{" kg", " mmm", " EUR", " deg", " psi", " furlong"}[r.IntN(6)]
		case "wrong type":
			if m.isKey {
				continue
			}
			now = []string{"[1, 2]", "{a: 1}", "yes", "some words", "[]"}[r.IntN(5)]
		case "cycle":
			if m.isKey || m.top != "sizes" {
				continue
			}
			now = m.key + " + 1 mm"
		case "nonsense":
			now = nonsense[r.IntN(len(nonsense))]
		}
		if out = put(src, m, now); out != src {
			return out, m, how, now
		}
	}
}

// parent returns the line of the key that a line lies under.
func parent(src string, line int) int {
	lines := strings.Split(src, "\n")
	indent := func(s string) int { return len(s) - len(strings.TrimLeft(s, " ")) }
	for i := line - 1; i >= 0; i-- {
		if t := strings.TrimSpace(lines[i]); t != "" && t[0] != '#' && indent(lines[i]) < indent(lines[line]) {
			return i
		}
	}
	return line
}

// beside reports whether a remark stands in or beside the broken place: on its
// line, on the line of the key over it, or at a use of the name that was broken.
func beside(d diag.Diagnostic, file, src string, m mark, now string) bool {
	if d.At.File == file {
		line := d.At.Start.Line - 1
		if line == m.line || line == parent(src, m.line) || line == parent(src, parent(src, m.line)) {
			return true
		}
	}
	names := []string{m.text, now}
	if m.top == "sizes" || m.top == "stock" { // the value of a name was broken
		names = append(names, m.key)
	}
	for _, name := range names {
		if len(name) > 2 && (strings.Contains(d.Summary, name) || d.Nearest == name || strings.Contains(d.Offending, name) || d.Code == "circle" && strings.Contains(d.Detail, name)) {
			return true
		}
	}
	return false
}

// ownText are the keys behind which stands a text of the writer's own, whose
// slips nobody can know.
var ownText = []string{"piece", "id", "shop", "what", "name", "species", "measured", "kind"}

func TestMutator(t *testing.T) {
	all := make([]outcome, len(examples))
	t.Run("examples", func(t *testing.T) { // side by side: each has its own lots
		for n, name := range examples {
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				all[n] = breakExample(t, n, name)
			})
		}
	})
	answered, right := 0, 0
	var missed []string
	for _, o := range all {
		answered, right, missed = answered+o.answered, right+o.right, append(missed, o.missed...)
	}
	if share := float64(right) / float64(answered); share < 0.9 {
		t.Errorf("%.0f %% of %d misspellings got the right name back:\n%s", 100*share, answered, strings.Join(missed, "\n"))
	} else {
		t.Logf("%d of %d misspellings got the right name back; not: \n%s", right, answered, strings.Join(missed, "\n"))
	}
}

// outcome counts the misspellings that were answered, and those that got the
// right name back.
type outcome struct {
	answered, right int
	missed          []string
}

// breakExample breaks one example in 500 ways.
func breakExample(t *testing.T, n int, name string) outcome {
	const each = 500
	var out outcome
	piece, shop := load(t, name)
	pieceMarks, shopMarks := marks(string(piece)), marks(string(shop))
	r := rand.New(rand.NewPCG(uint64(n)+1, 7))
	for range each {
		p, s, file := string(piece), string(shop), "piece.yaml"
		var m mark
		var how, now, broken string
		if r.IntN(4) == 0 {
			file = "shop.yaml"
			s, m, how, now = mutate(r, s, shopMarks)
			broken = s
		} else {
			p, m, how, now = mutate(r, p, pieceMarks)
			broken = p
		}
		_, remarks := design.Resolve("piece.yaml", []byte(p), "shop.yaml", []byte(s))
		where := fmt.Sprintf("%s/%s:%d: %s %q → %q", name, file, m.line+1, how, m.text, now)
		for _, d := range remarks {
			if d.At.IsZero() || d.Summary == "" || d.Code == "" {
				t.Errorf("%s: an unlocated remark %+v", where, d)
			}
			if !beside(d, file, broken, m, now) {
				t.Errorf("%s: %s: %s", where, d.At, d.Summary)
			}
		}
		if how != "misspell" {
			continue
		}
		if len(remarks) == 0 {
			if !slices.Contains(ownText, m.key) && m.top != "joints" && !(m.isKey && (m.top == "sizes" || file == "shop.yaml")) {
				t.Errorf("%s: not a word was said", where)
			}
			continue
		}
		out.answered++
		if slices.ContainsFunc(remarks, func(d diag.Diagnostic) bool {
			return d.Nearest == m.text || d.Mend != nil && strings.Contains(d.Mend.New, m.text) || d.Nearest != "" && strings.Contains(m.text, d.Nearest)
		}) {
			out.right++
		} else {
			out.missed = append(out.missed, where+": "+remarks[0].Summary+" nearest "+remarks[0].Nearest)
		}
	}
	return out
}
