package arch

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestFilesAreShort(t *testing.T) {
	for _, file := range goFiles(t) {
		b, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Fatal(err)
		}
		lines := bytes.Count(b, []byte("\n"))
		if _, excepted := longFiles[file]; lines > maxLines && !excepted {
			t.Errorf("%s has %d lines; split it by idea (the limit is %d)", file, lines, maxLines)
		}
	}
}

func TestNoCatchAllPackages(t *testing.T) {
	for name := range tree(t) {
		switch filepath.Base(name) {
		case "util", "utils", "common", "helpers", "helper", "base", "types", "manager", "misc", "shared":
			t.Errorf("package %s: a name that says nothing", name)
		}
	}
}

// Every exported name has a doc comment, and every package a text.
func TestEverythingExportedIsDocumented(t *testing.T) {
	packageTexts := map[string]int{}
	for _, file := range goFiles(t) {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, filepath.Join(root, file), nil, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		dir := filepath.ToSlash(filepath.Dir(file))
		packageTexts[dir] += len(f.Doc.Text())
		for _, name := range undocumented(f) {
			t.Errorf("%s: %s is exported and has no doc comment", file, name)
		}
	}
	for dir, n := range packageTexts {
		if n < 40 {
			t.Errorf("package %s has no text that tells what it is", dir)
		}
	}
}

// undocumented lists the exported names of a file that have no comment.
func undocumented(f *ast.File) []string {
	var out []string
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Name.IsExported() && d.Doc.Text() == "" && exportedReceiver(d) {
				out = append(out, d.Name.Name)
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				out = append(out, undocumentedSpec(d, spec)...)
			}
		}
	}
	return out
}

// exportedReceiver tells whether a function can be reached from outside by its
// own name: a method of an unexported type only answers to an interface.
func exportedReceiver(d *ast.FuncDecl) bool {
	if d.Recv == nil || len(d.Recv.List) == 0 {
		return true
	}
	typ := d.Recv.List[0].Type
	if star, ok := typ.(*ast.StarExpr); ok {
		typ = star.X
	}
	if idx, ok := typ.(*ast.IndexExpr); ok {
		typ = idx.X
	}
	id, ok := typ.(*ast.Ident)
	return !ok || id.IsExported()
}

// undocumentedSpec: a comment on the whole group counts for its constants and
// variables, and so does the comment of the type whose values a group of
// constants lists, but a type needs one of its own.
func undocumentedSpec(d *ast.GenDecl, spec ast.Spec) []string {
	var out []string
	switch s := spec.(type) {
	case *ast.TypeSpec:
		if s.Name.IsExported() && s.Doc.Text() == "" && (d.Doc.Text() == "" || len(d.Specs) > 1) {
			out = append(out, s.Name.Name)
		}
	case *ast.ValueSpec:
		for _, n := range s.Names {
			if d.Tok == token.CONST && listsType(d) {
				break
			}
			if n.IsExported() && s.Doc.Text() == "" && s.Comment.Text() == "" && d.Doc.Text() == "" {
				out = append(out, n.Name)
			}
		}
	}
	return out
}

// listsType tells whether a group of constants lists the values of a type.
func listsType(d *ast.GenDecl) bool {
	first, ok := d.Specs[0].(*ast.ValueSpec)
	if !ok {
		return false
	}
	id, ok := first.Type.(*ast.Ident)
	return ok && id.IsExported()
}

func TestUndocumentedIsSeen(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "x.go", "package x\n\ntype T int\nfunc F() {}\nvar V, w = 1, 2\n// G is.\nfunc G() {}\nfunc (T) M() {}\nfunc (t t2) N() {}\n", parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(undocumented(f), " "); got != "T F V M" {
		t.Errorf("undocumented: %q", got)
	}
}

// What may stand nowhere in the tree: paths of the machine it was written on,
// names of package registries, and skips that continuous integration cannot
// see. The patterns are put together here so that this file does not hit itself.
var nowhere = []struct {
	what    string
	pattern *regexp.Regexp
	allow   []string
}{
	{"a path of someone's machine", regexp.MustCompile(`(^|[^\w./-])/(wo` + `rk|ro` + `ot|ho` + `me/\w+|Us` + `ers/\w+)(/|\b)`), nil},
	{"a path out of the tree", regexp.MustCompile(`\.\./sha` + `red\b`), nil},
	{"a registry's host", regexp.MustCompile(`(?i)(proxy\.go` + `lang|registry\.np` + `mjs|deb\.deb` + `ian|pypi\.o` + `rg|crates\.i` + `o|sum\.go` + `lang)`), nil},
}

func TestNothingForbiddenInTheTree(t *testing.T) {
	for _, file := range allFiles(t) {
		if strings.HasSuffix(file, ".woff2") || strings.HasSuffix(file, ".png") || strings.HasSuffix(file, ".ttf") || file == "go.sum" {
			continue
		}
		b, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range nowhere {
			if at := n.pattern.FindIndex(b); at != nil {
				t.Errorf("%s:%d holds %s: %q", file, 1+bytes.Count(b[:at[0]], []byte("\n")), n.what, b[at[0]:at[1]])
			}
		}
	}
}

func TestForbiddenIsSeen(t *testing.T) {
	for _, text := range []string{"see /wo" + "rk/main", "(/ro" + "ot/go)", "../sha" + "red/design", "https://proxy.go" + "lang.org"} {
		hit := false
		for _, n := range nowhere {
			hit = hit || n.pattern.MatchString(text)
		}
		if !hit {
			t.Errorf("%q is not seen", text)
		}
	}
	for _, text := range []string{"internal/work/work.go", "rodwork/internal/work", "the /workbench", "frame/root"} {
		for _, n := range nowhere {
			if n.pattern.MatchString(text) {
				t.Errorf("%q is taken for %s", text, n.what)
			}
		}
	}
}

// Only package noskip may skip a test: it fails where no test may skip. (A
// *rapid.T skips a drawn case, not the test.)
func TestOnlyNoskipSkips(t *testing.T) {
	for _, file := range goFiles(t) {
		if strings.HasPrefix(file, "internal/noskip/") {
			continue
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, filepath.Join(root, file), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range skips(f) {
			t.Errorf("%s:%d skips by itself; use noskip.Skip, which says so in continuous integration", file, fset.Position(at).Line)
		}
	}
}

// skips returns the places where a test's handle is told to skip.
func skips(f *ast.File) []token.Pos {
	var out []token.Pos
	var walk func(n ast.Node, handles map[string]bool)
	walk = func(n ast.Node, handles map[string]bool) {
		ast.Inspect(n, func(x ast.Node) bool {
			switch x := x.(type) {
			case *ast.FuncDecl:
				if x != n && x.Body != nil {
					walk(x.Body, withHandles(handles, x.Type))
					return false
				}
			case *ast.FuncLit:
				walk(x.Body, withHandles(handles, x.Type))
				return false
			case *ast.CallExpr:
				sel, ok := x.Fun.(*ast.SelectorExpr)
				if !ok || !strings.HasPrefix(sel.Sel.Name, "Skip") {
					break
				}
				if id, ok := sel.X.(*ast.Ident); ok && handles[id.Name] {
					out = append(out, x.Pos())
				}
			}
			return true
		})
	}
	walk(f, map[string]bool{})
	return out
}

// withHandles adds a function's parameters to the names that are, or in an
// outer function were, a handle of package testing.
func withHandles(outer map[string]bool, f *ast.FuncType) map[string]bool {
	out := maps.Clone(outer)
	for _, field := range f.Params.List {
		typ := field.Type
		if star, ok := typ.(*ast.StarExpr); ok {
			typ = star.X
		}
		sel, ok := typ.(*ast.SelectorExpr)
		isHandle := false
		if ok {
			pkg, _ := sel.X.(*ast.Ident)
			isHandle = pkg != nil && pkg.Name == "testing"
		}
		for _, name := range field.Names {
			out[name.Name] = isHandle
		}
	}
	return out
}

func TestSkipsAreSeen(t *testing.T) {
	src := `package x
func TestA(t *testing.T) { t.Skip("no") }
func TestB(t *testing.T) { rapid.Check(t, func(t *rapid.T) { t.Skip("fine") }) }
func TestC(t *testing.T) { t.Run("x", func(tt *testing.T) { t.SkipNow(); tt.Skipf("no") }) }
`
	f, err := parser.ParseFile(token.NewFileSet(), "x.go", src, 0)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(skips(f)); n != 3 {
		t.Errorf("%d skips seen, of 3", n)
	}
}

func TestGoModStandsAlone(t *testing.T) {
	b, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	for _, word := range []string{"replace", "exclude", "retract"} {
		if regexp.MustCompile(`(?m)^\s*` + word + `\b`).Match(b) {
			t.Errorf("go.mod has a %s", word)
		}
	}
}

// Every relative link in a document leads somewhere.
func TestLinksLead(t *testing.T) {
	link := regexp.MustCompile(`\]\(([^)#\s]+)[^)]*\)`)
	for _, file := range allFiles(t) {
		if !strings.HasSuffix(file, ".md") {
			continue
		}
		b, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range link.FindAllSubmatch(b, -1) {
			target := string(m[1])
			if strings.Contains(target, "://") || strings.HasPrefix(target, "mailto:") {
				continue
			}
			if _, err := os.Stat(filepath.Join(root, filepath.Dir(file), target)); err != nil {
				t.Errorf("%s links to %s, which is not there", file, target)
			}
		}
	}
}
