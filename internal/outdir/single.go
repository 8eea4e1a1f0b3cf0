package outdir

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// Create writes one new file whole. It returns an error that is
// [fs.ErrExist] where the name is taken, and then changes nothing.
func Create(path string, data []byte) error { return create(osDisk{}, path, data) }

func create(d disk, path string, data []byte) error {
	if _, err := d.Lstat(path); err == nil {
		return &fs.PathError{Op: "create", Path: path, Err: fs.ErrExist}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return beside(d, path, data, 0o644, func(temp string) error {
		// A link fails where the name was taken meanwhile; a rename would not.
		if err := d.Link(temp, path); err != nil {
			if errors.Is(err, fs.ErrExist) {
				return err
			}
			// A file system without links: a plain new file, as good as it gets.
			err := d.WriteNew(path, data, 0o644)
			if err != nil && !errors.Is(err, fs.ErrExist) {
				err = errors.Join(err, d.Remove(path))
			}
			return err
		}
		return nil
	})
}

// ErrChanged says that a file is no longer what it was when it was read.
var ErrChanged = errors.New("the file was changed by someone else meanwhile")

// Replace writes a file anew, whole, if it still holds the bytes in was. Its
// permissions stay. A symbolic link is refused.
func Replace(path string, was, data []byte) error { return replace(osDisk{}, path, was, data) }

func replace(d disk, path string, was, data []byte) error {
	info, err := d.Lstat(path)
	if err != nil {
		return err
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%s is not a plain file", path)
	}
	return beside(d, path, data, info.Mode().Perm(), func(temp string) error {
		now, err := d.ReadFile(path)
		if err != nil {
			return err
		}
		if !bytes.Equal(now, was) {
			return fmt.Errorf("%s: %w", path, ErrChanged)
		}
		return d.Rename(temp, path)
	})
}

// beside writes a temporary file in a folder of its own beside path, has it
// landed, and takes away whatever is left of it.
func beside(d disk, path string, data []byte, perm fs.FileMode, land func(temp string) error) error {
	parent, base, err := split(path)
	if err != nil {
		return err
	}
	dir, err := d.MkdirTemp(parent, "."+base+".new-")
	if err != nil {
		if dir != "" {
			err = errors.Join(err, d.Remove(dir))
		}
		return err
	}
	temp := filepath.Join(dir, "file")
	err = d.WriteNew(temp, data, perm)
	if err == nil {
		err = land(temp)
	}
	if e := d.Remove(temp); e != nil && !errors.Is(e, fs.ErrNotExist) {
		err = errors.Join(err, e)
	}
	if e := d.Remove(dir); e != nil {
		err = errors.Join(err, e)
	}
	if err != nil {
		return err
	}
	_ = d.Sync(parent) // see write: the file is whole either way
	return nil
}
