package arch

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
)

const module = "rodwork"

// root is the folder of the module, seen from this package's.
const root = "../.."

// pkg is one package with what it imports, tests apart.
type pkg struct {
	imports, tests map[string]bool
}

// tree reads the import clauses of every Go file.
func tree(t *testing.T) map[string]*pkg {
	t.Helper()
	pkgs := map[string]*pkg{}
	for _, file := range goFiles(t) {
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, file), nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		dir := path.Dir(file)
		p := pkgs[dir]
		if p == nil {
			p = &pkg{map[string]bool{}, map[string]bool{}}
			pkgs[dir] = p
		}
		into := p.imports
		if strings.HasSuffix(file, "_test.go") {
			into = p.tests
		}
		for _, spec := range f.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			into[strings.TrimPrefix(name, module+"/")] = true
		}
	}
	return pkgs
}

// goFiles lists the Go files of the tree, with slashes, in order.
func goFiles(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, f := range allFiles(t) {
		if strings.HasSuffix(f, ".go") {
			out = append(out, f)
		}
	}
	return out
}

// allFiles lists the files of the tree, without what git keeps for itself and
// what is made by running it.
func allFiles(t *testing.T) []string {
	t.Helper()
	var out []string
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && (name == ".git" || name == "out" || e.Name() == "node_modules"):
			return fs.SkipDir
		case strings.HasSuffix(name, ".test") || strings.HasSuffix(name, ".prof") || name == "rodwork":
		case e.Type().IsRegular():
			out = append(out, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	sort.Strings(out)
	return out
}

// matches tells whether a package is meant by a pattern: itself, or anything
// below 'x/*'; '*' is all.
func matches(pattern, name string) bool {
	if pattern == "*" || pattern == name {
		return true
	}
	below, ok := strings.CutSuffix(pattern, "/*")
	return ok && strings.HasPrefix(name, below+"/")
}

func anyMatches(patterns []string, name string) bool {
	for _, p := range patterns {
		if matches(p, name) {
			return true
		}
	}
	return false
}

// floorOf returns the floor of a package, −1 where it has none. An exact entry
// goes before a pattern.
func floorOf(name string) int {
	found := -1
	for i, f := range floors {
		for _, p := range f {
			if p == name {
				return i
			}
			if matches(p, name) {
				found = i
			}
		}
	}
	return found
}

func TestImportsRunDownwards(t *testing.T) {
	pkgs := tree(t)
	for name, p := range pkgs {
		mine := floorOf(name)
		if mine < 0 {
			t.Errorf("package %s has no floor in policy.go", name)
			continue
		}
		for imp := range p.imports {
			if pkgs[imp] == nil {
				continue
			}
			if theirs := floorOf(imp); theirs >= mine {
				t.Errorf("%s (floor %d) imports %s (floor %d): imports run downwards only", name, mine, imp, theirs)
			}
		}
	}
}

func TestBans(t *testing.T) {
	for name, p := range tree(t) {
		for _, b := range bans {
			if !anyMatches(b.who, name) || anyMatches(b.allow, name) {
				continue
			}
			for imp := range p.imports {
				if anyMatches(b.not, imp) {
					t.Errorf("%s imports %s: %s", name, imp, b.why)
				}
			}
		}
	}
}

func TestOnlyKnownModulesAreBuiltIn(t *testing.T) {
	for name, p := range tree(t) {
		for imp := range p.imports {
			if first, _, _ := strings.Cut(imp, "/"); strings.Contains(first, ".") && !known(imp) {
				t.Errorf("%s is built from %s, which policy.go does not know", name, imp)
			}
		}
	}
}

func known(imp string) bool {
	for dep := range deps {
		if imp == dep || strings.HasPrefix(imp, dep+"/") {
			return true
		}
	}
	return false
}

// Lots are drawn only from a seed: of math/rand/v2 only what takes one is used.
func TestRandomNumbersHaveASeed(t *testing.T) {
	seeded := map[string]bool{"New": true, "NewSource": true, "NewPCG": true, "NewChaCha8": true, "Rand": true, "PCG": true, "Source": true}
	for _, file := range goFiles(t) {
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, file), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		uses := false
		for _, spec := range f.Imports {
			uses = uses || spec.Path.Value == `"math/rand/v2"` || spec.Path.Value == `"math/rand"`
		}
		if !uses {
			continue
		}
		ast.Inspect(f, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if id, ok := sel.X.(*ast.Ident); ok && id.Name == "rand" && !seeded[sel.Sel.Name] && id.Obj == nil {
				t.Errorf("%s draws from rand.%s, which has no seed", file, sel.Sel.Name)
			}
			return true
		})
	}
}

// The policy itself must not name what is not there any longer.
func TestPolicyIsAboutThisTree(t *testing.T) {
	pkgs := tree(t)
	for _, f := range floors {
		for _, pattern := range f {
			found := false
			for name := range pkgs {
				found = found || matches(pattern, name)
			}
			if !found {
				t.Errorf("policy.go has a floor for %s, which is not there", pattern)
			}
		}
	}
	for file := range longFiles {
		if _, err := os.Stat(filepath.Join(root, file)); err != nil {
			t.Errorf("policy.go excepts %s, which is not there", file)
		}
	}
}

// The enforcing code is tried on a made-up import, so that it cannot pass by
// never looking.
func TestFloorsTellUpFromDown(t *testing.T) {
	if floorOf("internal/units") >= floorOf("internal/plan") || floorOf("internal/mech/bend") >= floorOf("internal/compile") {
		t.Error("floors are upside down")
	}
	if floorOf("internal/nowhere") != -1 {
		t.Error("an unknown package has a floor")
	}
	if !anyMatches([]string{"internal/mech/*"}, "internal/mech/bend") || anyMatches([]string{"internal/mech/*"}, "internal/mechanic") {
		t.Error("patterns match what they should not")
	}
}
