package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"rodwork/examples"
	"rodwork/internal/diag"
	"rodwork/internal/plan"
)

// maxFile is the most that is read of a file; the parser refuses what is longer
// than one megabyte with a located remark, so one byte more is read than that.
const maxFile = 1<<20 + 1

// read returns the bytes of a file; "-" is the standard input.
func (s *session) read(name string) ([]byte, error) {
	if name == "-" {
		return io.ReadAll(io.LimitReader(s.in, maxFile))
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, told(err)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder; name the piece file in it", name)
	}
	b, err := io.ReadAll(io.LimitReader(f, maxFile))
	if err != nil {
		return nil, told(err)
	}
	return b, nil
}

// told says an error of the disk in a person's words.
func told(err error) error {
	var p *fs.PathError
	switch {
	case !errors.As(err, &p):
		return err
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no file %s", p.Path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may not be read", p.Path)
	case errors.Is(err, fs.ErrExist):
		return fmt.Errorf("%s is there already; it is never overwritten", p.Path)
	}
	return fmt.Errorf("%s: %w", p.Path, p.Err)
}

// demo is the source of the example piece, which the program carries in it.
func demo() plan.Source {
	piece, shop := examples.Main()
	return plan.Source{PieceFile: "examples/main/piece.yaml", Piece: piece, ShopFile: demoShop, Shop: shop}
}

const demoShop = "examples/main/shop.yaml"

// source reads the piece file and its shop file: the one named by --shop, else
// the one that the piece file names, else the example's, which is said.
func (s *session) source(a pieceArgs) (plan.Source, diag.List, error) {
	piece, err := s.read(a.File)
	if err != nil {
		return plan.Source{}, nil, err
	}
	src := plan.Source{PieceFile: a.File, Piece: piece}
	if src.Files, err = s.drawings(a.File, piece); err != nil {
		return src, nil, err
	}
	name, at, named := shopName(a.File, piece)
	switch {
	case a.Shop != "":
		src.ShopFile = a.Shop
	case named:
		if why := badShopName(name); why != "" {
			return src, diag.List{shopRemark(name, at, why)}, nil
		}
		src.ShopFile = filepath.Join(filepath.Dir(a.File), filepath.FromSlash(name))
	default:
		_, shop := examples.Main()
		src.ShopFile, src.Shop = demoShop, shop
		s.say("no shop file named: working with the example's shop, which is not yours (--shop FILE, or a line 'shop: FILE' in the piece file)")
		return src, nil, nil
	}
	src.Shop, err = s.read(src.ShopFile)
	if err != nil && a.Shop == "" {
		return src, diag.List{shopRemark(name, at, err.Error())}, nil
	}
	return src, nil, err
}

// shopName finds the top-level key 'shop' of a piece file. A line that begins
// with the key at its first column can be nothing else in YAML's block style:
// everything within a value is indented.
func shopName(file string, src []byte) (name string, at diag.Range, ok bool) {
	for i, line := range bytes.Split(src, []byte("\n")) {
		rest, found := strings.CutPrefix(string(line), "shop:")
		if !found || rest != "" && !strings.HasPrefix(rest, " ") {
			continue
		}
		if c := strings.Index(rest, " #"); c >= 0 {
			rest = rest[:c]
		}
		value := strings.Trim(strings.TrimSpace(rest), `"'`)
		if value == "" {
			return "", diag.Range{}, false
		}
		col := len([]rune(string(line[:bytes.Index(line, []byte(value))]))) + 1
		start := diag.Pos{Line: i + 1, Col: col}
		end := diag.Pos{Line: i + 1, Col: col + len([]rune(value))}
		return value, diag.Range{File: file, Start: start, End: end}, true
	}
	return "", diag.Range{}, false
}

// badShopName says why a name in a piece file is not read: a piece file may
// come from a stranger, and it must not make the program show any file.
func badShopName(name string) string {
	switch ext := strings.ToLower(filepath.Ext(name)); {
	case filepath.IsAbs(name) || strings.HasPrefix(name, "/") || strings.HasPrefix(name, `\`) || strings.Contains(name, ":"):
		return "a piece file names its shop file relative to itself; --shop takes any"
	case ext != ".yaml" && ext != ".yml":
		return "a shop file's name ends in .yaml"
	}
	return ""
}

func shopRemark(name string, at diag.Range, why string) diag.Diagnostic {
	return diag.Diagnostic{
		Code: "shop-not-read", Severity: diag.Error, Summary: "the shop file cannot be used",
		Detail: strings.ToUpper(why[:1]) + why[1:] + ".", At: at, Offending: name,
		Expected: "the name of a shop file, relative to the piece file: shop.yaml", Path: "shop",
	}
}
