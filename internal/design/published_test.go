package design_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"rodwork/internal/design"
)

var update = flag.Bool("update", false, "write the schemas and the tables of the reference anew")

// current compares a published file with what is made now, or writes it.
func current(t *testing.T, path string, now []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, now, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	was, err := os.ReadFile(path)
	if err != nil || !bytes.Equal(was, now) {
		t.Errorf("%s is not current: run go test ./internal/design -update", filepath.Base(path))
	}
}

func TestSchemasAreCurrent(t *testing.T) {
	for name, schema := range map[string][]byte{"piece": design.PieceSchema(), "shop": design.ShopSchema()} {
		if !json.Valid(schema) {
			t.Fatalf("the schema of the %s file is no JSON", name)
		}
		current(t, filepath.Join("..", "..", "schema", name+".schema.json"), schema)
	}
}

func TestReferenceIsCurrent(t *testing.T) {
	for name, shop := range map[string]bool{"piece-file.md": false, "shop-file.md": true} {
		path := filepath.Join("..", "..", "docs", name)
		doc, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		now, missing, err := design.Reference(doc, shop)
		if err != nil || len(missing) > 0 {
			t.Errorf("%s: %v; not shown: %v", name, err, missing)
		}
		current(t, path, now)
	}
}

var block = regexp.MustCompile("(?s)```yaml( wrong ([a-z-]+))?\n(.*?)```(\n\n> ([^\n]*))?")
var lineNumber = regexp.MustCompile(`line \d+`)

// Every block of the reference is read: a whole file as it is, a few keys in
// place of the same keys of an example. A block that is marked wrong must give
// exactly one remark, with its code.
func TestBlocksOfTheReferenceAreRead(t *testing.T) {
	for name, isShop := range map[string]bool{"piece-file.md": false, "shop-file.md": true} {
		doc, err := os.ReadFile(filepath.Join("..", "..", "docs", name))
		if err != nil {
			t.Fatal(err)
		}
		blocks := block.FindAllStringSubmatch(string(doc), -1)
		if len(blocks) < 4 {
			t.Errorf("%s has %d blocks", name, len(blocks))
		}
		for _, b := range blocks {
			piece, shop := load(t, "main")
			if isShop {
				shop = replaceKeys(shop, b[3])
			} else {
				piece = replaceKeys(piece, b[3])
			}
			d, remarks := design.Resolve("piece.yaml", piece, "shop.yaml", shop)
			switch code := b[2]; {
			case code == "" && (d == nil || remarks.HasErrors()):
				t.Errorf("%s: this block is not read:\n%s", name, b[3])
				_ = remarks.Write(testWriter{t}, func(string) []byte { return nil })
			case code != "" && (len(remarks) != 1 || remarks[0].Code != code):
				t.Errorf("%s: this block should give %s alone:\n%s", name, code, b[3])
				_ = remarks.Write(testWriter{t}, func(string) []byte { return nil })
			case code != "" && b[5] != "":
				said := remarks[0].Summary + ". " + remarks[0].Detail
				if strip := func(s string) string { return lineNumber.ReplaceAllString(s, "") }; strip(said) != strip(b[5]) {
					t.Errorf("%s quotes %q; said is %q", name, b[5], said)
				}
			}
		}
	}
}

// replaceKeys puts the top-level keys of a fragment in place of those of a file.
func replaceKeys(file []byte, fragment string) []byte {
	if strings.Contains(fragment, "rodwork: 1") {
		return []byte(fragment)
	}
	gone := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^([a-z][a-z ]*):`).FindAllStringSubmatch(fragment, -1) {
		gone[m[1]] = true
	}
	var out strings.Builder
	skip := false
	for _, line := range strings.SplitAfter(string(file), "\n") {
		if m := regexp.MustCompile(`^([a-z][a-z ]*):`).FindStringSubmatch(line); m != nil {
			skip = gone[m[1]]
		}
		if !skip {
			out.WriteString(line)
		}
	}
	return []byte(out.String() + "\n" + fragment)
}
