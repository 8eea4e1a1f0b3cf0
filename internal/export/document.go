package export

import (
	"bytes"
	"encoding/json"
	"io"

	"rodwork/internal/diag"
	"rodwork/internal/plan"
)

// Version is the version of the documents. It rises only if a field had to
// change its meaning, which is not planned ever to happen.
const Version = 1

// Head stands first in every document and tells what it is.
type Head struct {
	Rodwork  int    `json:"rodwork" doc:"version of the documents"`
	Document string `json:"document" doc:"which document this is"`
}

// PieceHead is the head of a document about a piece.
type PieceHead struct {
	Head
	Piece PieceName `json:"piece" doc:"the piece that this is about"`
	Stops int       `json:"stops" doc:"findings that say stop; the exit status is 1 where there are any"`
}

// PieceName tells one piece from another.
type PieceName struct {
	Name     string `json:"name" doc:"as the piece file says"`
	ID       string `json:"id" doc:"the piece file's id; empty where it has none"`
	File     string `json:"file" doc:"the piece file"`
	Shop     string `json:"shop" doc:"the shop file"`
	Currency string `json:"currency" doc:"of all prices, ISO 4217"`
}

func head(kind string) Head { return Head{Version, kind} }

func pieceHead(kind string, p *plan.Plan) PieceHead {
	h := PieceHead{Head: head(kind), Stops: Stops(p)}
	h.Piece = PieceName{File: p.Source.PieceFile, Shop: p.Source.ShopFile}
	if d := p.Design; d != nil {
		h.Piece.Name, h.Piece.ID, h.Piece.Currency = d.Name, d.ID, d.Currency
	}
	return h
}

// Write prints a document with an indent of two.
func Write(w io.Writer, doc any) error {
	b, err := Bytes(doc)
	if err != nil {
		return err
	}
	_, err = w.Write(b)
	return err
}

// Bytes is what Write writes.
func Bytes(doc any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(doc); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// Diagnostics is printed instead of the document where the input can't be used.
type Diagnostics struct {
	Head
	Diagnostics []Diagnostic `json:"diagnostics" doc:"what is wrong, in reading order"`
}

// Diagnostic is one located remark.
type Diagnostic struct {
	Code      string `json:"code" doc:"stable name of this kind of remark"`
	Severity  string `json:"severity" doc:"error: the value could not be used; warning: it was used, and may not be what was meant"`
	Summary   string `json:"summary" doc:"a title of a few words"`
	Detail    string `json:"detail" doc:"what is, what was wanted, what to do"`
	At        Range  `json:"at" doc:"where the offending text stands"`
	Offending string `json:"offending" doc:"the offending text"`
	Expected  string `json:"expected" doc:"what could stand there"`
	Nearest   string `json:"nearest" doc:"the nearest right spelling, or empty"`
	Path      string `json:"path" doc:"the value's path in the document"`
	Mend      *Edit  `json:"mend,omitempty" doc:"an edit that would settle it"`
}

// Range is a stretch of a file.
type Range struct {
	File  string `json:"file" doc:"name of the file"`
	Start Place  `json:"start" doc:"first character"`
	End   Place  `json:"end" doc:"the place after the last character"`
}

// Place is a place in a text.
type Place struct {
	Line int `json:"line" doc:"from 1; 0 is nowhere"`
	Col  int `json:"col" doc:"in characters, from 1"`
}

// Edit is a mend.
type Edit struct {
	At  Range  `json:"at" doc:"the text to replace"`
	New string `json:"new" doc:"what to put there"`
}

// DiagnosticsOf makes the document of a list of remarks.
func DiagnosticsOf(l diag.List) Diagnostics {
	return Diagnostics{head("diagnostics"), each(l, diagnosticOf)}
}

func diagnosticOf(d diag.Diagnostic) Diagnostic {
	out := Diagnostic{d.Code, d.Severity.String(), d.Summary, d.Detail, rangeOf(d.At), d.Offending, d.Expected, d.Nearest, d.Path, nil}
	if d.Mend != nil {
		out.Mend = &Edit{rangeOf(d.Mend.At), d.Mend.New}
	}
	return out
}

func rangeOf(r diag.Range) Range {
	return Range{r.File, Place(r.Start), Place(r.End)}
}
