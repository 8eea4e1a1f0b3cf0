package outdir

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var errDisk = errors.New("the disk says no")

// failing is the real disk, of which the n-th operation fails, and with dead
// set every later one too.
type failing struct {
	osDisk
	count, failAt, writes int
	dead                  bool
	before                func(op string, count int)
}

func (d *failing) op(name string) error {
	if d.before != nil {
		d.before(name, d.count)
	}
	if name == "write" {
		d.writes++
	}
	n := d.count
	d.count++
	if n == d.failAt || d.dead && d.failAt >= 0 && n > d.failAt {
		return errDisk
	}
	return nil
}

func (d *failing) Lstat(name string) (fs.FileInfo, error) {
	if err := d.op("lstat"); err != nil {
		return nil, err
	}
	return d.osDisk.Lstat(name)
}

func (d *failing) MkdirTemp(dir, prefix string) (string, error) {
	if err := d.op("mkdir"); err != nil {
		return "", err
	}
	return d.osDisk.MkdirTemp(dir, prefix)
}

func (d *failing) Mkdir(name string) error {
	if err := d.op("mkdir"); err != nil {
		return err
	}
	return d.osDisk.Mkdir(name)
}

func (d *failing) ReadDir(name string) ([]fs.DirEntry, error) {
	if err := d.op("readdir"); err != nil {
		return nil, err
	}
	return d.osDisk.ReadDir(name)
}

func (d *failing) ReadFile(name string) ([]byte, error) {
	if err := d.op("read"); err != nil {
		return nil, err
	}
	return d.osDisk.ReadFile(name)
}

// WriteNew fails half-way, as a full disk does.
func (d *failing) WriteNew(name string, data []byte, perm fs.FileMode) error {
	if err := d.op("write"); err != nil {
		return errors.Join(err, d.osDisk.WriteNew(name, data[:len(data)/2], perm))
	}
	return d.osDisk.WriteNew(name, data, perm)
}

func (d *failing) Sync(dir string) error {
	if err := d.op("sync"); err != nil {
		return err
	}
	return d.osDisk.Sync(dir)
}

func (d *failing) Rename(from, to string) error {
	if err := d.op("rename"); err != nil {
		return err
	}
	return d.osDisk.Rename(from, to)
}

func (d *failing) Link(from, to string) error {
	if err := d.op("link"); err != nil {
		return err
	}
	return d.osDisk.Link(from, to)
}

func (d *failing) Remove(name string) error {
	if err := d.op("remove"); err != nil {
		return err
	}
	return d.osDisk.Remove(name)
}

// TestEveryOperationMayFail makes each operation of a replacement fail in turn.
// Afterwards the folder is the old one or the new one, whole; an error is
// returned if it is the old one; and no other file is left unless it is said.
func TestEveryOperationMayFail(t *testing.T) {
	for _, there := range []bool{false, true} {
		for n := 0; ; n++ {
			root := t.TempDir()
			dir := filepath.Join(root, "out")
			before := map[string]string{}
			if there {
				mustWrite(t, dir, book1)
				before = tree(t, root)
			}
			d := &failing{failAt: n}
			err := write(context.Background(), d, dir, book2)
			after := tree(t, root)
			if d.count <= n {
				if err != nil {
					t.Fatalf("nothing failed, and yet: %v", err)
				}
				break
			}
			want := before
			var left *LeftoverError
			if err == nil || errors.As(err, &left) {
				want = held(book2, "out")
			} else if !errors.Is(err, errDisk) {
				t.Errorf("there %v, operation %d: error %v does not tell of the disk", there, n, err)
			}
			if left != nil {
				dropBeside(after)
			}
			if d := cmp.Diff(want, after); d != "" {
				t.Errorf("there %v, operation %d failed (%v): %s", there, n, err, d)
			}
		}
	}
}

// TestADyingDiskLosesNothing lets every operation from the n-th on fail, as
// when the disk is pulled out. Every byte of the old book is still somewhere,
// under its own name or beside it, or the new book is whole in its place.
func TestADyingDiskLosesNothing(t *testing.T) {
	for n := 0; ; n++ {
		root := t.TempDir()
		dir := filepath.Join(root, "out")
		mustWrite(t, dir, book1)
		d := &failing{failAt: n, dead: true}
		err := write(context.Background(), d, dir, book2)
		if d.count <= n {
			break
		}
		all := tree(t, root)
		if !wholeAnywhere(all, book1) && !wholeAnywhere(all, book2) {
			t.Errorf("dead from operation %d on (%v): neither book is whole in %v", n, err, all)
		}
		if err == nil && !wholeAnywhere(all, book2) {
			t.Errorf("dead from operation %d on: no error, and no new book", n)
		}
	}
}

// dropBeside takes the temporary names out of a tree.
func dropBeside(files map[string]string) {
	for name := range files {
		if strings.HasPrefix(name, ".out.") {
			delete(files, name)
		}
	}
}

func wholeAnywhere(all map[string]string, files []File) bool {
	for name := range all {
		root, ok := strings.CutSuffix(name, ManifestName)
		if !ok {
			continue
		}
		whole := all[name] == string(manifestOf(files))
		for _, f := range files {
			whole = whole && all[root+f.Name] == string(f.Data)
		}
		if whole {
			return true
		}
	}
	return false
}

// A file that comes into the folder between the look and the rename is not
// taken away: the old folder comes back with it.
func TestALateFileIsBroughtBack(t *testing.T) {
	root := t.TempDir()
	dir := filepath.Join(root, "out")
	mustWrite(t, dir, book1)
	d := &failing{failAt: -1}
	done := false
	d.before = func(op string, _ int) {
		if op == "rename" && !done {
			done = true
			put(t, dir, "late.txt")
		}
	}
	err := write(context.Background(), d, dir, book2)
	var unlisted *UnlistedError
	if !errors.As(err, &unlisted) {
		t.Fatalf("error %v", err)
	}
	want := held(book1, "out")
	want["out/late.txt"] = "mine"
	if d := cmp.Diff(want, tree(t, root)); d != "" {
		t.Error(d)
	}
}

func TestCreateNeverOverwrites(t *testing.T) {
	root := t.TempDir()
	path := filepath.Join(root, "piece.yaml")
	must(t, Create(path, []byte("one")))
	if err := Create(path, []byte("two")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("error %v", err)
	}
	if d := cmp.Diff(map[string]string{"piece.yaml": "one"}, tree(t, root)); d != "" {
		t.Error(d)
	}
}

func TestSingleFilesWholeOrNotAtAll(t *testing.T) {
	ops := map[string]func(d disk, path string) error{
		"create":  func(d disk, path string) error { return create(d, path+".new", []byte("a longer text")) },
		"replace": func(d disk, path string) error { return replace(d, path, []byte("old"), []byte("a longer text")) },
	}
	for name, run := range ops {
		for n := 0; ; n++ {
			root := t.TempDir()
			path := filepath.Join(root, "f")
			must(t, os.WriteFile(path, []byte("old"), 0o600))
			d := &failing{failAt: n}
			err := run(d, path)
			if d.count <= n {
				break
			}
			for file, text := range tree(t, root) {
				if !strings.HasPrefix(file, ".") && text != "old" && text != "a longer text" {
					t.Errorf("%s, operation %d failed (%v): %s holds %q", name, n, err, file, text)
				}
			}
		}
	}
}

func TestReplaceSeesAnothersChange(t *testing.T) {
	path := filepath.Join(t.TempDir(), "f")
	must(t, os.WriteFile(path, []byte("theirs"), 0o600))
	if err := Replace(path, []byte("old"), []byte("new")); !errors.Is(err, ErrChanged) {
		t.Errorf("error %v", err)
	}
	must(t, Replace(path, []byte("theirs"), []byte("new")))
	info, err := os.Stat(path)
	must(t, err)
	if info.Mode().Perm() != 0o600 {
		t.Errorf("permissions are now %v", info.Mode())
	}
}
