package web

import (
	"bytes"
	"context"
	"io/fs"
	"net/http"
	"path"
	"strings"

	"rodwork/examples"
	"rodwork/internal/drawing"
	"rodwork/internal/format/svg"
	"rodwork/internal/plan"
)

// sample is an example to start from, with its picture.
type sample struct {
	Key    string `json:"key"` // its folder: "bookcase"
	Name   string `json:"name"`
	About  string `json:"about"`
	Figure string `json:"figure"`
}

// exampleText is the piece file of an example.
func exampleText(key string) ([]byte, bool) {
	if key == "" || strings.ContainsAny(key, "/\\.") {
		return nil, false
	}
	b, err := examples.Files.ReadFile(key + "/piece.yaml")
	return b, err == nil
}

// samplesOf makes the pictures of all examples. One that has outlines of its
// own from another file is none: there is nothing here to copy them from.
func samplesOf(ctx context.Context) []sample {
	files, err := fs.Glob(examples.Files, "*/piece.yaml")
	if err != nil {
		return nil
	}
	_, shop := examples.Main()
	var out []sample
	for _, name := range files {
		text, err := examples.Files.ReadFile(name)
		if err != nil {
			continue
		}
		p, remarks := plan.Make(ctx, plan.Source{PieceFile: name, Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
		if p == nil || remarks.HasErrors() {
			continue
		}
		l, ok := drawing.Face(p, drawing.Options{}, true)
		if !ok {
			continue
		}
		key := path.Dir(name)
		out = append(out, sample{Key: key, Name: p.Design.Name, About: about(text), Figure: string(svg.Inline(l, "s-"+key+"-"))})
	}
	return out
}

// about is what a file says of itself: the comment that it begins with.
func about(text []byte) string {
	var words []string
	for _, line := range bytes.Split(text, []byte("\n")) {
		if !bytes.HasPrefix(line, []byte("#")) {
			break
		}
		words = append(words, strings.TrimSpace(string(line[1:])))
	}
	return strings.Join(words, " ")
}

// serveSamples tells of the examples; their pictures are made once.
func (d *desk) serveSamples(w http.ResponseWriter, r *http.Request) {
	d.sampling.Lock()
	if d.samples == nil {
		if all := samplesOf(r.Context()); r.Context().Err() == nil {
			d.samples = all
		}
	}
	all := d.samples
	d.sampling.Unlock()
	if r.Context().Err() == nil {
		reply(w, http.StatusOK, all)
	}
}
