// Package xlsx writes tables as a workbook of Office Open XML (ECMA-376 part 1,
// SpreadsheetML): one sheet for each table, a zip archive of a few small XML
// files, made with the standard library alone.
//
// A number is a number, in the unit that its column's head names, shown with
// the decimals that it deserves and kept with all it has. A text is an inline
// string, which no program takes for a formula, whatever it begins with. The
// head stays in sight when the rows are scrolled and is repeated on every
// printed page; columns are as wide as what is in them; a sheet prints one page
// wide. Below the rows, after an empty one, stands the table's note.
//
// The archive holds no time, so the same tables give the same bytes.
package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"

	"rodwork/internal/table"
	"rodwork/internal/units"
)

// The limits of a sheet, ECMA-376 18.3.1.73 and common practice of readers.
const (
	maxRows    = 1 << 20
	maxColumns = 1 << 14
	maxText    = 32767
)

// Book is a workbook.
type Book struct {
	Title  string // in the file's properties
	System units.System
	Tables []table.Table // one sheet each, named by its caption
}

// Render returns the workbook as a file. It fails where a table does not fit
// its columns or a sheet.
func Render(b Book) ([]byte, error) {
	if len(b.Tables) == 0 {
		return nil, fmt.Errorf("xlsx: a workbook needs a table")
	}
	names := sheetNames(b.Tables)
	files := []part{
		{"[Content_Types].xml", contentTypes(len(b.Tables))},
		{"_rels/.rels", packageRels},
		{"docProps/core.xml", coreProps(b.Title)},
		{"xl/workbook.xml", workbook(names, b.Tables)},
		{"xl/_rels/workbook.xml.rels", workbookRels(len(b.Tables))},
	}
	var styles formats
	var sheets []part
	for i, t := range b.Tables {
		if err := t.Check(); err != nil {
			return nil, err
		}
		if len(t.Rows)+3 > maxRows || len(t.Columns) > maxColumns {
			return nil, fmt.Errorf("xlsx: table %q has %d rows and %d columns, too many for a sheet", t.Key, len(t.Rows), len(t.Columns))
		}
		sheets = append(sheets, part{fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), sheet(t, b.System, &styles, i == 0)})
	}
	files = append(files, part{"xl/styles.xml", styles.xml()})
	return archive(append(files, sheets...))
}

// part is a file of the archive.
type part struct {
	name, xml string
}

const declaration = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

func archive(parts []part) ([]byte, error) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, p := range parts {
		w, err := z.Create(p.name) // without a time
		if err != nil {
			return nil, err
		}
		if _, err := w.Write([]byte(declaration + p.xml)); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// The namespaces and the stems of types, ECMA-376 parts 1 and 2.
const (
	main    = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	rel     = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	pkgRel  = "http://schemas.openxmlformats.org/package/2006/relationships"
	pkgType = "http://schemas.openxmlformats.org/package/2006/content-types"
	sheetML = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	coreNS  = "http://schemas.openxmlformats.org/package/2006/metadata/core-properties"
)

func contentTypes(sheets int) string {
	var b strings.Builder
	b.WriteString(`<Types xmlns="` + pkgType + `"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="xml" ContentType="application/xml"/>` +
		`<Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="` + sheetML + `sheet.main+xml"/>` +
		`<Override PartName="/xl/styles.xml" ContentType="` + sheetML + `styles+xml"/>`)
	for i := range sheets {
		fmt.Fprintf(&b, `<Override PartName="/xl/worksheets/sheet%d.xml" ContentType="%sworksheet+xml"/>`, i+1, sheetML)
	}
	b.WriteString(`</Types>`)
	return b.String()
}

const packageRels = `<Relationships xmlns="` + pkgRel + `"><Relationship Id="rId1" Type="` + rel + `/officeDocument" Target="xl/workbook.xml"/>` +
	`<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties" Target="docProps/core.xml"/></Relationships>`

func coreProps(title string) string {
	return `<cp:coreProperties xmlns:cp="` + coreNS + `" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>` + escape(title) + `</dc:title></cp:coreProperties>`
}

func workbookRels(sheets int) string {
	var b strings.Builder
	b.WriteString(`<Relationships xmlns="` + pkgRel + `">`)
	for i := range sheets {
		fmt.Fprintf(&b, `<Relationship Id="rId%d" Type="%s/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, rel, i+1)
	}
	fmt.Fprintf(&b, `<Relationship Id="rId%d" Type="%s/styles" Target="styles.xml"/></Relationships>`, sheets+1, rel)
	return b.String()
}

func workbook(names []string, tables []table.Table) string {
	var b strings.Builder
	b.WriteString(`<workbook xmlns="` + main + `" xmlns:r="` + rel + `"><sheets>`)
	for i, n := range names {
		fmt.Fprintf(&b, `<sheet name="%s" sheetId="%d" r:id="rId%d"/>`, escape(n), i+1, i+1)
	}
	b.WriteString(`</sheets><definedNames>`)
	for i, n := range names { // the head, on every printed page
		fmt.Fprintf(&b, `<definedName name="_xlnm.Print_Titles" localSheetId="%d">'%s'!$1:$1</definedName>`,
			i, escape(strings.ReplaceAll(n, "'", "''")))
	}
	b.WriteString(`</definedNames></workbook>`)
	return b.String()
}
