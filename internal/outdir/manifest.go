package outdir

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"sort"
)

// ManifestName is the file in each written folder that lists all the others.
const ManifestName = "manifest.json"

// maker marks a manifest as ours: another program's file of the same name is
// no leave to replace its folder.
const maker = "rodwork"

// maxManifest bounds what is read of a file that claims to be a manifest.
const maxManifest = 4 << 20

type manifest struct {
	MadeBy string        `json:"made_by"`
	Note   string        `json:"note"`
	Files  []manifestRow `json:"files"`
}

type manifestRow struct {
	Name   string `json:"name"`
	Bytes  int    `json:"bytes"`
	SHA256 string `json:"sha256"`
}

// manifestOf lists the files by name, so that the same files give the same bytes.
func manifestOf(files []File) []byte {
	m := manifest{MadeBy: maker, Note: "This folder is replaced as a whole, as long as it holds only the files listed here.", Files: []manifestRow{}}
	for _, f := range files {
		sum := sha256.Sum256(f.Data)
		m.Files = append(m.Files, manifestRow{f.Name, len(f.Data), hex.EncodeToString(sum[:])})
	}
	sort.Slice(m.Files, func(i, j int) bool { return m.Files[i].Name < m.Files[j].Name })
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(m); err != nil {
		panic("outdir: a manifest of strings and numbers cannot be written: " + err.Error())
	}
	return b.Bytes()
}

// listed returns the names that the folder's manifest lists; none where there
// is no manifest, or one that is not ours.
func listed(d disk, dir string) (map[string]bool, error) {
	src, err := d.ReadFile(filepath.Join(dir, ManifestName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var m manifest
	if json.Unmarshal(src, &m) != nil || m.MadeBy != maker {
		return nil, nil
	}
	names := map[string]bool{ManifestName: true}
	for _, f := range m.Files {
		if checkPath(f.Name) == nil {
			names[f.Name] = true
		}
	}
	return names, nil
}

// UnlistedError says that a folder holds what was not put there by us.
type UnlistedError struct {
	Dir   string
	Names []string // sorted
}

// Error names the first few of them.
func (e *UnlistedError) Error() string {
	const few = 5
	names := e.Names
	more := ""
	if len(names) > few {
		more = fmt.Sprintf(" and %d more", len(names)-few)
		names = names[:few]
	}
	return fmt.Sprintf("%s holds files that are not in its manifest: %s%s; move them away, or name another folder",
		e.Dir, quoteAll(names), more)
}

func quoteAll(names []string) string {
	var b bytes.Buffer
	for i, n := range names {
		if i > 0 {
			b.WriteString(", ")
		}
		fmt.Fprintf(&b, "%q", n)
	}
	return b.String()
}

// ours returns the names in a folder if each of them is a listed, regular
// file, or a folder that holds only such; else an [*UnlistedError]. A folder
// follows the files in it.
func ours(d disk, dir string) ([]string, error) {
	entries, err := d.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	if len(entries) == 0 {
		return nil, nil
	}
	known, err := listed(d, dir)
	if err != nil {
		return nil, err
	}
	s := sorter{known: known}
	for _, e := range entries {
		if e.IsDir() && s.isFolder(e.Name()) {
			inside, err := d.ReadDir(filepath.Join(dir, e.Name()))
			if err != nil {
				return nil, err
			}
			for _, f := range inside {
				s.file(e.Name()+"/"+f.Name(), f)
			}
			s.names = append(s.names, e.Name())
			continue
		}
		s.file(e.Name(), e)
	}
	if len(s.foreign) > 0 {
		sort.Strings(s.foreign)
		return nil, &UnlistedError{Dir: dir, Names: s.foreign}
	}
	return s.names, nil
}

// sorter tells listed names from foreign ones.
type sorter struct {
	known          map[string]bool
	names, foreign []string
}

func (s *sorter) file(name string, e fs.DirEntry) {
	if s.known[name] && e.Type().IsRegular() {
		s.names = append(s.names, name)
		return
	}
	s.foreign = append(s.foreign, name)
}

// isFolder tells whether a listed file is in a folder of this name.
func (s *sorter) isFolder(name string) bool {
	for n := range s.known {
		if folderOf(n) == name {
			return true
		}
	}
	return false
}
