package outdir

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

var book1 = []File{{"book.html", []byte("first")}, {"01-views.svg", []byte("<svg/>")}, {"templates/15-door.svg", []byte("<svg/>")}}
var book2 = []File{{"book.html", []byte("second")}, {"02-strip.svg", []byte("<svg/>")}, {"plan.json", []byte("{}")},
	{"templates/15-door.svg", []byte("<svg></svg>")}, {"labels/labels.pdf", []byte("%PDF")}}

// walk returns every file under root with its content; folders end in a slash.
func walk(root string) (map[string]string, error) {
	out := map[string]string{}
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil || path == root {
			return err
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		switch {
		case e.IsDir():
			out[rel+"/"] = ""
		case e.Type()&fs.ModeSymlink != 0:
			out[rel] = "link"
		default:
			b, err := os.ReadFile(path)
			out[rel] = string(b)
			return err
		}
		return nil
	})
	return out, err
}

func tree(t testing.TB, root string) map[string]string {
	t.Helper()
	out, err := walk(root)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func held(files []File, dir string) map[string]string {
	out := map[string]string{dir + "/": "", dir + "/" + ManifestName: string(manifestOf(files))}
	for _, f := range files {
		out[dir+"/"+f.Name] = string(f.Data)
		if sub := folderOf(f.Name); sub != "" {
			out[dir+"/"+sub+"/"] = ""
		}
	}
	return out
}

func mustWrite(t testing.TB, dir string, files []File) {
	t.Helper()
	if err := Write(context.Background(), dir, files); err != nil {
		t.Fatal(err)
	}
}

func TestWriteAndReplace(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "out")
	mustWrite(t, dir, book1)
	if d := cmp.Diff(held(book1, "out"), tree(t, root)); d != "" {
		t.Fatal(d)
	}
	mustWrite(t, dir, book2)
	if d := cmp.Diff(held(book2, "out"), tree(t, root)); d != "" {
		t.Fatal("replaced:", d)
	}
}

func TestEmptyFolderIsReplaced(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "out")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, dir, book1)
	if d := cmp.Diff(held(book1, "out"), tree(t, root)); d != "" {
		t.Fatal(d)
	}
}

// Each case makes the folder one that must not be replaced.
func TestRefuses(t *testing.T) {
	tests := []struct {
		name  string
		spoil func(t *testing.T, dir string)
		want  string
	}{
		{"a note beside", func(t *testing.T, dir string) { put(t, dir, "my notes.txt") }, `"my notes.txt"`},
		{"a folder in it", func(t *testing.T, dir string) { must(t, os.Mkdir(filepath.Join(dir, "pictures"), 0o755)) }, `"pictures"`},
		{"no manifest", func(t *testing.T, dir string) { must(t, os.Remove(filepath.Join(dir, ManifestName))) }, `"01-views.svg", "book.html"`},
		{"another's manifest", func(t *testing.T, dir string) {
			must(t, os.WriteFile(filepath.Join(dir, ManifestName), []byte(`{"files":[{"name":"book.html"}]}`), 0o644))
		}, `"manifest.json"`},
		{"a broken manifest", func(t *testing.T, dir string) {
			must(t, os.WriteFile(filepath.Join(dir, ManifestName), []byte(`{"made_by":`), 0o644))
		}, `"manifest.json"`},
		{"a listed name is a link", func(t *testing.T, dir string) {
			must(t, os.Remove(filepath.Join(dir, "book.html")))
			link(t, filepath.Join(dir, "01-views.svg"), filepath.Join(dir, "book.html"))
		}, `"book.html"`},
		{"the folder is a link", func(t *testing.T, dir string) {
			must(t, os.Rename(dir, dir+"-real"))
			link(t, dir+"-real", dir)
		}, "symbolic link"},
		{"the folder is a file", func(t *testing.T, dir string) {
			must(t, os.RemoveAll(dir))
			must(t, os.WriteFile(dir, nil, 0o644))
		}, "not a folder"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			root := t.TempDir()
			dir := filepath.Join(root, "out")
			mustWrite(t, dir, book1)
			tt.spoil(t, dir)
			before := tree(t, root)
			err := Write(context.Background(), dir, book2)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("error %v, want one with %s", err, tt.want)
			}
			if d := cmp.Diff(before, tree(t, root)); d != "" {
				t.Error("something changed:", d)
			}
		})
	}
}

func TestBadNamesAreRefusedBeforeAnything(t *testing.T) {
	for _, files := range [][]File{
		{{"../up", nil}}, {{"a", nil}, {"A", nil}}, {{"Manifest.json", nil}}, {{"nul.txt", nil}},
	} {
		root := t.TempDir()
		if Write(context.Background(), filepath.Join(root, "out"), files) == nil {
			t.Errorf("%v accepted", files)
		}
		if len(tree(t, root)) != 0 {
			t.Errorf("%v left something", files)
		}
	}
}

func TestCancelledLeavesNothing(t *testing.T) {
	root := t.TempDir()
	for n := range len(book1) + 1 {
		d := &failing{failAt: -1}
		ctx, cancel := context.WithCancel(context.Background())
		d.before = func(op string, count int) {
			if op == "write" && d.writes == n {
				cancel()
			}
		}
		err := write(ctx, d, filepath.Join(root, "out"), book1)
		if !errors.Is(err, context.Canceled) {
			t.Fatalf("cancelled at write %d: error %v", n, err)
		}
		if left := tree(t, root); len(left) != 0 {
			t.Fatalf("cancelled at write %d: left %v", n, slices.Sorted(maps.Keys(left)))
		}
	}
}

// Whatever a folder holds, after Write it is new and whole, or all is as it
// was; and no unlisted file is ever gone.
func TestNothingUnlistedIsEverLost(t *testing.T) {
	root := t.TempDir()
	count := 0
	rapid.Check(t, func(t *rapid.T) {
		count++
		top := filepath.Join(root, fmt.Sprint("case ", count))
		dir := filepath.Join(top, "out")
		if err := os.Mkdir(top, 0o755); err != nil {
			t.Fatal(err)
		}
		if rapid.Bool().Draw(t, "there") {
			if err := Write(context.Background(), dir, book1); err != nil {
				t.Fatal(err)
			}
			for _, extra := range rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"notes.txt", "02-strip.svg", "BOOK.html", ".hidden"}), 0, 2, rapid.ID).Draw(t, "extras") {
				if err := os.WriteFile(filepath.Join(dir, extra), []byte("mine"), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
		before, err := walk(top)
		if err != nil {
			t.Fatal(err)
		}
		err = Write(context.Background(), dir, book2)
		after, werr := walk(top)
		if werr != nil {
			t.Fatal(werr)
		}
		want := before
		if err == nil {
			want = held(book2, "out")
		}
		if d := cmp.Diff(want, after); d != "" {
			t.Fatalf("err %v: %s", err, d)
		}
	})
}

func put(t *testing.T, dir, name string) {
	t.Helper()
	must(t, os.WriteFile(filepath.Join(dir, name), []byte("mine"), 0o644))
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func link(t *testing.T, to, at string) {
	t.Helper()
	if err := os.Symlink(to, at); err != nil && runtime.GOOS != "windows" {
		t.Fatal(err)
	}
}

// What a maker puts into a folder of ours, or a folder of the maker's own, keeps
// all of it from being replaced.
func TestFoldersOfTheFolder(t *testing.T) {
	for _, foreign := range []string{"templates/mine.svg", "mine/15-door.svg", "templates/deep/15-door.svg"} {
		dir := filepath.Join(t.TempDir(), "out")
		mustWrite(t, dir, book1)
		path := filepath.Join(dir, filepath.FromSlash(foreign))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
			t.Fatal(err)
		}
		before := tree(t, dir)
		var unlisted *UnlistedError
		if err := Write(t.Context(), dir, book2); !errors.As(err, &unlisted) {
			t.Errorf("%s: replaced all the same: %v", foreign, err)
		}
		if d := cmp.Diff(before, tree(t, dir)); d != "" {
			t.Errorf("%s: %s", foreign, d)
		}
	}
}

func TestNamesOfFoldersAreRefused(t *testing.T) {
	for _, names := range [][]string{
		{"a/b/c"}, {"/a"}, {"a/"}, {"../a"}, {"a/.."}, {"a/.hidden"}, {"nul/a"}, {"x", "x/a"}, {"X/a", "x/b"}, {"manifest.json/a"},
	} {
		var files []File
		for _, n := range names {
			files = append(files, File{Name: n})
		}
		if checkNames(files) == nil {
			t.Errorf("%q were taken", names)
		}
	}
}
