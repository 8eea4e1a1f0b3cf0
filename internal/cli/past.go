package cli

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// mostPast is the most of a log of revisions that is read, in bytes.
const mostPast = 32 << 20

// past is the file in the data folder that keeps what can be taken back in a
// piece file from one start to the next.
type past string

func pastOf(data, file string) (past, error) {
	whole, err := filepath.Abs(file)
	if err != nil {
		return "", err
	}
	return past(filepath.Join(data, "past-"+noteOf(data, whole).id)), nil
}

// recall reads it; there need be none.
func (p past) recall() ([]byte, error) {
	f, err := os.Open(string(p))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, mostPast))
}

// remember writes it anew, whole or not at all: its texts are the maker's, and
// nobody else's to read.
func (p past) remember(b []byte) error {
	f, err := os.CreateTemp(filepath.Dir(string(p)), ".past-*")
	if err != nil {
		return told(err)
	}
	_, err = f.Write(b)
	err = errors.Join(err, f.Close())
	if err == nil {
		err = os.Rename(f.Name(), string(p))
	}
	if err != nil {
		_ = os.Remove(f.Name()) // it is not wanted half
	}
	return told(err)
}
