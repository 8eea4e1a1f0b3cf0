// Package examples carries the example pieces in the program, so that it can
// show its book and check a piece against a shop without any file beside it.
package examples

import "embed"

// Files holds every example: main/piece.yaml and main/shop.yaml is the choir
// sideboard that the program shows, the others stand beside it.
//
//go:embed */*.yaml
var Files embed.FS

// Main returns the piece file and the shop file of the choir sideboard.
func Main() (piece, shop []byte) {
	return must("main/piece.yaml"), must("main/shop.yaml")
}

// must returns a file that was built into the program.
func must(name string) []byte {
	b, err := Files.ReadFile(name)
	if err != nil {
		panic("examples: built without " + name)
	}
	return b
}
