package design

import (
	"strings"

	"rodwork/internal/diag"
)

// placeOf returns the place of a path, or of its nearest parent that has one.
func placeOf(places map[string]diag.Range, path string) diag.Range {
	for {
		if r, ok := places[path]; ok {
			return r
		}
		i := strings.LastIndexByte(path, '.')
		if i < 0 {
			return places[""]
		}
		path = path[:i]
	}
}
