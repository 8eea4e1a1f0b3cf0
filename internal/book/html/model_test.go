package html

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"

	"rodwork/examples"
	"rodwork/internal/book"
	"rodwork/internal/plan"
)

// mostWithModel bounds the page of a book with its model: an aim of the project.
const mostWithModel = 3_000_000

// The page of every example has a model in its one figure of the whole piece,
// which refers to places of the page, stays small, and is read as XML.
func TestPagesWithModels(t *testing.T) {
	dirs, err := examples.Files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	_, shop := examples.Main()
	for _, d := range dirs {
		text, err := examples.Files.ReadFile(path.Join(d.Name(), "piece.yaml"))
		if err != nil {
			t.Fatal(err)
		}
		shop := shop
		if own, err := examples.Files.ReadFile(path.Join(d.Name(), "shop.yaml")); err == nil {
			shop = own
		}
		p, ds := plan.Make(context.Background(), plan.Source{PieceFile: "piece.yaml", Piece: text, ShopFile: "shop.yaml", Shop: shop}, plan.Options{})
		if p == nil {
			t.Fatalf("%s: %v", d.Name(), ds)
		}
		page := Render(book.Make(p, book.Options{Model: true}))
		if len(page) > mostWithModel {
			t.Errorf("%s: the page takes %d bytes", d.Name(), len(page))
		}
		data := inData.FindAllSubmatch(page, -1)
		if len(data) != 1 || bytes.Count(page, []byte(`<script type="module">`)) != 1 {
			t.Fatalf("%s: %d models, %d scripts", d.Name(), len(data), bytes.Count(page, []byte("<script"))-len(data))
		}
		var doc struct {
			Parts []struct{ Name, Place string }
		}
		if err := json.Unmarshal(data[0][1], &doc); err != nil {
			t.Fatalf("%s: %v", d.Name(), err)
		}
		if len(doc.Parts) < len(p.Piece.Parts) {
			t.Errorf("%s: %d parts of %d", d.Name(), len(doc.Parts), len(p.Piece.Parts))
		}
		for _, q := range doc.Parts {
			if at := `id="` + strings.TrimPrefix(q.Place, "#") + `"`; q.Place != "" && !bytes.Contains(page, []byte(at)) {
				t.Errorf("%s: part %q leads to %q, which is not there", d.Name(), q.Name, q.Place)
			}
		}
		if d.Name() == "main" { // with the script and all it is XML
			if n := len(find(parse(t, page), func(e element) bool { return e.name == "script" })); n != 2 {
				t.Errorf("%d scripts are read", n)
			}
		}
	}
}

var inData = regexp.MustCompile(`(?s)<script type="application/json">(.*?)</script>`)

// The page lets run the one script that it has, told by its hash, and no other.
func TestOneScriptMayRun(t *testing.T) {
	page := Render(book.Make(demo(t), book.Options{Model: true}))
	m := regexp.MustCompile(`(?s)<script type="module">(.*?)</script>`).FindSubmatch(page)
	if m == nil {
		t.Fatal("no script")
	}
	sum := sha256.Sum256(m[1])
	want := "script-src &#39;sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "&#39;;"
	if !bytes.Contains(page, []byte(want)) {
		t.Errorf("the policy does not tell the hash of the script: %s", want)
	}
	if n := bytes.Count(page, []byte("script-src")); n != 1 {
		t.Errorf("%d policies for scripts", n)
	}
	if bytes.Contains(Render(book.Make(demo(t), book.Options{})), []byte("<script")) {
		t.Error("a book without a model has a script")
	}
}

// The script can stand in a page, asks for nothing, and carries the licence of
// what it is made of.
func TestModelScript(t *testing.T) {
	for _, bad := range []string{"</script", "<!--", "]]>"} {
		if strings.Contains(strings.ToLower(modelBundle), bad) {
			t.Errorf("the script holds %q, which ends it early", bad)
		}
	}
	for _, bad := range []string{"eval(", "new Function(", "innerHTML="} {
		if strings.Contains(modelBundle, bad) {
			t.Errorf("the script has %q", bad)
		}
	}
	for _, m := range regexp.MustCompile(`https?://[^"'`+"`"+`\s]*`).FindAllString(modelBundle, -1) {
		if !strings.HasPrefix(m, "http://www.w3.org/") {
			t.Errorf("the script names %q", m)
		}
	}
	if !strings.Contains(modelBundle[:2000], "Permission is hereby granted, free of charge") {
		t.Error("the licence of three.js does not travel with it")
	}
	if len(modelBundle) > 700_000 {
		t.Errorf("the script takes %d bytes", len(modelBundle))
	}
}

// Our own modules never write mark-up from a text, nor a style into an element.
func TestModulesAreCareful(t *testing.T) {
	files, err := os.ReadDir("model")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !strings.HasSuffix(f.Name(), ".js") {
			continue
		}
		text, err := os.ReadFile(path.Join("model", f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{"innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "fetch(", "'style'", ".cssText"} {
			if bytes.Contains(text, []byte(bad)) {
				t.Errorf("%s has %q", f.Name(), bad)
			}
		}
	}
}
