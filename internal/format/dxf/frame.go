package dxf

import (
	"strings"

	"rodwork/internal/geom/r2"
)

// tables writes what a file has beside its drawing: line types, layers, a
// style of letters, a view, and the records of its two spaces.
func (w *writer) tables() {
	w.section("TABLES", func() {
		w.table("VPORT", hVports, 1, w.viewport)
		w.table("LTYPE", hLtypes, 3, w.lineTypes)
		w.table("LAYER", hLayers, len(w.order), w.layerTable)
		w.table("STYLE", hStyles, 1, w.style)
		w.table("VIEW", hViews, 0, func() {})
		w.table("UCS", hUcs, 0, func() {})
		w.table("APPID", hAppids, 1, func() {
			w.record("APPID", hAcad, hAppids, "AcDbRegAppTableRecord", "ACAD")
		})
		w.table("DIMSTYLE", hDimstyles, 1, w.dimStyle)
		w.table("BLOCK_RECORD", hRecords, 2, func() {
			w.record("BLOCK_RECORD", hModel, hRecords, "AcDbBlockTableRecord", "*Model_Space")
			w.handle(340, hModelLayout)
			w.record("BLOCK_RECORD", hPaper, hRecords, "AcDbBlockTableRecord", "*Paper_Space")
			w.handle(340, hPaperLayout)
		})
	})
}

func (w *writer) table(name string, handle, count int, body func()) {
	w.pair(0, "TABLE")
	w.pair(2, name)
	w.handle(5, handle)
	w.handle(330, 0)
	w.pair(100, "AcDbSymbolTable")
	w.int(70, count)
	if name == "DIMSTYLE" {
		w.pair(100, "AcDbDimStyleTable")
	}
	body()
	w.pair(0, "ENDTAB")
}

// record begins a record of a table, with its flags.
func (w *writer) record(kind string, handle, owner int, class, name string) {
	w.pair(0, kind)
	w.handle(5, handle)
	w.handle(330, owner)
	w.pair(100, "AcDbSymbolTableRecord")
	w.pair(100, class)
	w.pair(2, name)
	if kind != "BLOCK_RECORD" {
		w.int(70, 0)
	}
}

func (w *writer) lineTypes() {
	for _, l := range []struct {
		name   string
		handle int
	}{{"ByBlock", hByBlock}, {"ByLayer", hByLayer}, {"Continuous", hContinuous}} {
		w.record("LTYPE", l.handle, hLtypes, "AcDbLinetypeTableRecord", l.name)
		w.pair(3, "")
		w.int(72, 65)
		w.int(73, 0)
		w.num(40, 0)
	}
}

func (w *writer) layerTable() {
	for _, name := range w.order {
		w.record("LAYER", w.names[strings.ToLower(name)], hLayers, "AcDbLayerTableRecord", name)
		w.int(62, 7)
		w.pair(6, "Continuous")
		w.int(370, -3)
	}
}

func (w *writer) style() {
	w.record("STYLE", hStandard, hStyles, "AcDbTextStyleTableRecord", "Standard")
	w.num(40, 0)
	w.num(41, 1)
	w.num(50, 0)
	w.int(71, 0)
	w.num(42, 2.5)
	w.pair(3, "txt")
	w.pair(4, "")
}

func (w *writer) dimStyle() {
	w.pair(0, "DIMSTYLE")
	w.handle(105, hDimStandard)
	w.handle(330, hDimstyles)
	w.pair(100, "AcDbSymbolTableRecord")
	w.pair(100, "AcDbDimStyleTableRecord")
	w.pair(2, "Standard")
	w.int(70, 0)
}

// viewport sets the view that a reader opens with, on the whole drawing as far
// as it matters; readers zoom by themselves.
func (w *writer) viewport() {
	w.record("VPORT", hVport, hVports, "AcDbViewportTableRecord", "*Active")
	two := func(code int, x, y float64) { w.num(code, x); w.num(code+10, y) }
	two(10, 0, 0)
	two(11, 1, 1)
	two(12, 0, 0)
	two(13, 0, 0)
	two(14, 10, 10)
	two(15, 10, 10)
	three := func(code int, x, y, z float64) { two(code, x, y); w.num(code+20, z) }
	three(16, 0, 0, 1) // looked at from above
	three(17, 0, 0, 0)
	w.num(40, 1000)
	w.num(41, 1.5)
	w.num(42, 50)
}

// blocks writes the two spaces; what is drawn stands in the section of the
// entities and belongs to the first.
func (w *writer) blocks() {
	w.section("BLOCKS", func() {
		w.block("*Model_Space", hModel, hModelBegin, hModelEnd)
		w.block("*Paper_Space", hPaper, hPaperBegin, hPaperEnd)
	})
}

func (w *writer) block(name string, owner, begin, end int) {
	start := func(kind, class string, handle int) {
		w.pair(0, kind)
		w.handle(5, handle)
		w.handle(330, owner)
		w.pair(100, "AcDbEntity")
		w.pair(8, "0")
		w.pair(100, class)
	}
	start("BLOCK", "AcDbBlockBegin", begin)
	w.pair(2, name)
	w.int(70, 0)
	w.at(10, r2.Vec{})
	w.pair(3, name)
	w.pair(1, "")
	start("ENDBLK", "AcDbBlockEnd", end)
}

// objects writes the root dictionary with what readers look for in it: groups
// (none) and the layouts of the two spaces.
func (w *writer) objects() {
	w.section("OBJECTS", func() {
		w.dictionary(hRoot, 0, []entry{{"ACAD_GROUP", hGroups}, {"ACAD_LAYOUT", hLayouts}})
		w.dictionary(hGroups, hRoot, nil)
		w.dictionary(hLayouts, hRoot, []entry{{"Model", hModelLayout}, {"Layout1", hPaperLayout}})
		w.layout("Model", hModelLayout, hModel, 0)
		w.layout("Layout1", hPaperLayout, hPaper, 1)
	})
}

type entry struct {
	name   string
	handle int
}

func (w *writer) dictionary(handle, owner int, entries []entry) {
	w.pair(0, "DICTIONARY")
	w.handle(5, handle)
	w.handle(330, owner)
	w.pair(100, "AcDbDictionary")
	w.int(281, 1)
	for _, e := range entries {
		w.pair(3, e.name)
		w.handle(350, e.handle)
	}
}

func (w *writer) layout(name string, handle, record, tab int) {
	w.pair(0, "LAYOUT")
	w.handle(5, handle)
	w.handle(330, hLayouts)
	w.pair(100, "AcDbPlotSettings")
	w.pair(1, "")
	w.int(70, 1024*(1-tab))
	w.pair(100, "AcDbLayout")
	w.pair(1, name)
	w.int(70, 1)
	w.int(71, tab)
	w.handle(330, record)
}
