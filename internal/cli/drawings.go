package cli

import (
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"rodwork/internal/design"
	"rodwork/internal/outdir"
)

// drawings reads the drawings that a piece file names, from its own folder or
// below it: the file may come from a stranger. What is not there is left out,
// and the compiler says so at its place; a link that leads out of the folder is
// not followed.
func (s *session) drawings(pieceFile string, piece []byte) (map[string][]byte, error) {
	names := design.Drawings(piece)
	if len(names) == 0 || pieceFile == "-" {
		return nil, nil
	}
	root, err := os.OpenRoot(filepath.Dir(pieceFile))
	if err != nil {
		return nil, told(err)
	}
	defer root.Close()
	out := map[string][]byte{}
	for _, name := range names {
		b, err := readIn(root, name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, told(err)
		}
		out[name] = b
	}
	return out, nil
}

// readIn reads a file of a folder, no more of it than a drawing may have.
func readIn(root *os.Root, name string) ([]byte, error) {
	f, err := root.Open(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return nil, fs.ErrNotExist
	}
	return io.ReadAll(io.LimitReader(f, maxFile))
}

// drawingFiles are the drawings as files of the book's folder, where they lie
// to the piece file as they did.
func drawingFiles(files map[string][]byte) []outdir.File {
	var out []outdir.File
	for _, name := range slices.Sorted(maps.Keys(files)) {
		out = append(out, outdir.File{Name: name, Data: files[name]})
	}
	return out
}
