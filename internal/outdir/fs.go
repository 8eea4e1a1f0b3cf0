package outdir

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
)

// disk is the few things that this package does to a file system. It is a seam
// so that tests can make each of them fail.
type disk interface {
	Lstat(name string) (fs.FileInfo, error)
	// MkdirTemp makes a new folder in dir, its name begun with prefix.
	MkdirTemp(dir, prefix string) (string, error)
	// Mkdir makes a folder that is not there yet.
	Mkdir(name string) error
	ReadDir(name string) ([]fs.DirEntry, error)
	ReadFile(name string) ([]byte, error)
	// WriteNew makes a file that is not there yet, writes all of it, and
	// flushes it to the disk.
	WriteNew(name string, data []byte, perm fs.FileMode) error
	// Sync flushes a folder's names to the disk.
	Sync(dir string) error
	Rename(from, to string) error
	// Link gives a file a second name, which must not be there yet.
	Link(from, to string) error
	// Remove takes away one file or one empty folder.
	Remove(name string) error
}

// osDisk is the real one.
type osDisk struct{}

func (osDisk) Mkdir(name string) error                    { return os.Mkdir(name, 0o755) }
func (osDisk) Lstat(name string) (fs.FileInfo, error)     { return os.Lstat(name) }
func (osDisk) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }
func (osDisk) Rename(from, to string) error               { return os.Rename(from, to) }
func (osDisk) Link(from, to string) error                 { return os.Link(from, to) }
func (osDisk) Remove(name string) error                   { return os.Remove(name) }
func (osDisk) MkdirTemp(dir, prefix string) (string, error) {
	name, err := os.MkdirTemp(dir, prefix)
	if err != nil {
		return "", err
	}
	// MkdirTemp makes it private; the book is for whoever may read the folder.
	return name, os.Chmod(name, 0o755)
}

// ReadFile reads a whole file of at most maxManifest bytes.
func (osDisk) ReadFile(name string) ([]byte, error) {
	info, err := os.Lstat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() || info.Size() > maxManifest {
		return nil, &fs.PathError{Op: "read", Path: name, Err: errors.New("not a manifest")}
	}
	return os.ReadFile(name)
}

func (osDisk) WriteNew(name string, data []byte, perm fs.FileMode) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, perm)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}

func (osDisk) Sync(dir string) error {
	if runtime.GOOS == "windows" {
		return nil // folders cannot be flushed there
	}
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		err = nil // some network file systems cannot
	}
	return errors.Join(err, f.Close())
}

// split returns the folder that a path lies in, and its last name.
func split(path string) (parent, base string, err error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", "", err
	}
	parent, base = filepath.Dir(abs), filepath.Base(abs)
	if parent == abs {
		return "", "", errors.New("the root folder cannot be replaced")
	}
	return parent, base, nil
}
