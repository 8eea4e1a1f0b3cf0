package design

import (
	"strconv"
	"strings"

	"rodwork/internal/diag"
)

// ListText is the text of a list that stands in brackets on one line, brackets
// and all, by the places of its items; "" where there is no such list.
func ListText(lines []string, places map[string]diag.Range, path string) string {
	first, ok := places[path+".0"]
	if !ok {
		return ""
	}
	last := first
	for i := 1; ; i++ {
		at, ok := places[path+"."+strconv.Itoa(i)]
		if !ok {
			break
		}
		last = at
	}
	line := first.Start.Line
	if last.End.Line != line || line < 1 || line > len(lines) {
		return ""
	}
	r := []rune(lines[line-1])
	from, to := first.Start.Col-1, last.End.Col-1
	if from < 0 || to > len(r) || from > to {
		return ""
	}
	before, after := strings.TrimRight(string(r[:from]), " "), strings.TrimLeft(string(r[to:]), " ")
	if !strings.HasSuffix(before, "[") || !strings.HasPrefix(after, "]") {
		return ""
	}
	return "[" + string(r[from:to]) + "]"
}
