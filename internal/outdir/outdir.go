package outdir

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
)

// File is one file to be written, with all its bytes: a plain name, or one in a
// folder of the folder, "labels/labels.pdf".
type File struct {
	Name string
	Data []byte
}

// Write makes dir hold exactly the files and their manifest. The folder above
// dir must be there. It returns an [*UnlistedError] where dir holds anything
// else, ctx's error where it was cancelled, and other errors of the disk; after
// any error dir is as it was, except after a [*LeftoverError], where it is new.
func Write(ctx context.Context, dir string, files []File) error {
	return write(ctx, osDisk{}, dir, files)
}

// LeftoverError says that the new folder is in place and whole, but that the
// old one could not be taken away and lies beside it.
type LeftoverError struct {
	Old string
	Err error
}

// Error names the old folder.
func (e *LeftoverError) Error() string {
	return fmt.Sprintf("the new files are in place, but the old ones could not all be taken away from %s: %v", e.Old, e.Err)
}

// Unwrap returns the disk's error.
func (e *LeftoverError) Unwrap() error { return e.Err }

func write(ctx context.Context, d disk, dir string, files []File) error {
	if err := checkNames(files); err != nil {
		return err
	}
	parent, base, err := split(dir)
	if err != nil {
		return err
	}
	target := filepath.Join(parent, base)
	there, err := replaceable(d, target)
	if err != nil {
		return err
	}
	temp, err := d.MkdirTemp(parent, "."+base+".new-")
	if err != nil {
		if temp != "" {
			err = errors.Join(err, d.Remove(temp))
		}
		return err
	}
	if err := fill(ctx, d, temp, files); err != nil {
		return errors.Join(err, empty(d, temp, files))
	}
	if !there {
		err = d.Rename(temp, target)
	} else {
		err = swap(d, temp, target, parent, base)
	}
	// Both names are whole by now; flushing the folder above only says how soon
	// the disk knows, so a disk that cannot is no failure.
	_ = d.Sync(parent)
	var left *LeftoverError
	if err != nil && !errors.As(err, &left) {
		return errors.Join(err, empty(d, temp, files))
	}
	return err
}

// replaceable tells whether the folder is there, and refuses what must not be
// replaced.
func replaceable(d disk, target string) (there bool, err error) {
	info, err := d.Lstat(target)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	if info.Mode()&fs.ModeSymlink != 0 {
		return false, fmt.Errorf("%s is a symbolic link; name the folder itself", target)
	}
	if !info.IsDir() {
		return false, fmt.Errorf("%s is there and is not a folder", target)
	}
	_, err = ours(d, target)
	return true, err
}

// fill writes the files and the manifest into the folder.
func fill(ctx context.Context, d disk, dir string, files []File) error {
	folders := foldersOf(files)
	for _, sub := range folders {
		if err := d.Mkdir(filepath.Join(dir, sub)); err != nil {
			return err
		}
	}
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := d.WriteNew(filepath.Join(dir, filepath.FromSlash(f.Name)), f.Data, 0o644); err != nil {
			return err
		}
	}
	for _, sub := range folders {
		if err := d.Sync(filepath.Join(dir, sub)); err != nil {
			return err
		}
	}
	if err := d.WriteNew(filepath.Join(dir, ManifestName), manifestOf(files), 0o644); err != nil {
		return err
	}
	if err := d.Sync(dir); err != nil {
		return err
	}
	return ctx.Err() // the last moment at which Ctrl-C changes anything
}

// empty takes away a temporary folder with what fill may have put there.
func empty(d disk, dir string, files []File) error {
	var errs []error
	names := []string{ManifestName}
	for _, f := range files {
		names = append(names, f.Name)
	}
	for _, n := range append(names, foldersOf(files)...) {
		if err := d.Remove(filepath.Join(dir, filepath.FromSlash(n))); err != nil && !errors.Is(err, fs.ErrNotExist) {
			errs = append(errs, err)
		}
	}
	if err := d.Remove(dir); err != nil && !errors.Is(err, fs.ErrNotExist) {
		errs = append(errs, err)
	}
	return errors.Join(errs...)
}

// swap moves the old folder aside and the new one in. It looks into the old
// folder once more after it has been moved, where nobody adds to it by its old
// name any longer, and brings it back if something came in meanwhile.
func swap(d disk, temp, target, parent, base string) error {
	aside, err := d.MkdirTemp(parent, "."+base+".old-")
	if err != nil {
		if aside != "" {
			err = errors.Join(err, d.Remove(aside))
		}
		return err
	}
	old := filepath.Join(aside, base)
	if err := d.Rename(target, old); err != nil {
		return errors.Join(err, d.Remove(aside))
	}
	back := func(err error) error {
		if e := d.Rename(old, target); e != nil {
			return errors.Join(err, fmt.Errorf("the old folder is now %s: %w", old, e))
		}
		return errors.Join(err, d.Remove(aside))
	}
	names, err := ours(d, old)
	if err != nil {
		return back(err)
	}
	if err := d.Rename(temp, target); err != nil {
		return back(err)
	}
	return discard(d, aside, old, names)
}

// discard takes away the old folder, name by name. Remove refuses a folder
// that is not empty, so what is not listed stays.
func discard(d disk, aside, old string, names []string) error {
	var errs []error
	for _, n := range names {
		errs = append(errs, d.Remove(filepath.Join(old, filepath.FromSlash(n))))
	}
	errs = append(errs, d.Remove(old), d.Remove(aside))
	if err := errors.Join(errs...); err != nil {
		return &LeftoverError{Old: aside, Err: err}
	}
	return nil
}
