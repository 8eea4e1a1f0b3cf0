package dxf

import (
	"math"
	"strconv"
	"strings"

	"rodwork/internal/geom/r2"
)

// Bytes returns the drawing as a file. It fails where a number is not finite.
func Bytes(d Drawing) ([]byte, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	w := &writer{next: firstFree}
	w.layers(d)
	var body writer
	body.next, body.names = w.next, w.names
	for _, e := range d.Entities {
		e.write(&body, hModel)
	}
	w.next = body.next
	if d.Note != "" {
		w.pair(999, plain(d.Note))
	}
	w.header(d)
	w.section("CLASSES", func() {})
	w.tables()
	w.blocks()
	w.section("ENTITIES", func() { w.b.WriteString(body.b.String()) })
	w.objects()
	w.pair(0, "EOF")
	return []byte(w.b.String()), nil
}

// The handles of what every file has, hexadecimal in print. Entities are
// numbered from firstFree on.
const (
	hRoot = 0x0a + iota
	hGroups
	hLayouts
	hModelLayout
	hPaperLayout
	hVports
	hLtypes
	hLayers
	hStyles
	hViews
	hUcs
	hAppids
	hDimstyles
	hRecords
	hModel
	hPaper
	hModelBegin
	hModelEnd
	hPaperBegin
	hPaperEnd
	hByBlock
	hByLayer
	hContinuous
	hStandard
	hAcad
	hDimStandard
	hVport
	firstFree = 0x40
)

type writer struct {
	b     strings.Builder
	next  int
	order []string       // of the layers
	names map[string]int // the layers' handles
}

// pair writes a group: its code, and its value on the line below.
func (w *writer) pair(code int, value string) {
	s := strconv.Itoa(code)
	w.b.WriteString("   "[min(3, len(s)):] + s + "\n" + value + "\n")
}

func (w *writer) int(code, v int)    { w.pair(code, strconv.Itoa(v)) }
func (w *writer) handle(code, h int) { w.pair(code, strings.ToUpper(strconv.FormatInt(int64(h), 16))) }

// num writes a number with nine decimals.
func (w *writer) num(code int, v float64) { w.pair(code, decimals(v, 9)) }

func decimals(v float64, n int) string {
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// at writes a place: x under code, y under code+10, z = 0 under code+20.
func (w *writer) at(code int, p r2.Vec) {
	w.num(code, p.X)
	w.num(code+10, p.Y)
	w.num(code+20, 0)
}

func (w *writer) section(name string, body func()) {
	w.pair(0, "SECTION")
	w.pair(2, name)
	body()
	w.pair(0, "ENDSEC")
}

// layers numbers the layers: 0, which every file has, those of the drawing,
// and those that only entities name.
func (w *writer) layers(d Drawing) {
	w.names = map[string]int{}
	add := func(name string) {
		name = layerName(name)
		key := strings.ToLower(name) // readers take no notice of case
		if _, ok := w.names[key]; !ok {
			w.names[key] = w.next
			w.next++
			w.order = append(w.order, name)
		}
	}
	add("0")
	for _, l := range d.Layers {
		add(l)
	}
	for _, e := range d.Entities {
		add(e.layer())
	}
}

func (w *writer) header(d Drawing) {
	box := r2.EmptyBox()
	for _, e := range d.Entities {
		box = box.Union(e.box())
	}
	if len(d.Entities) == 0 {
		box = r2.Box{}
	}
	text := func(name string, code int, v string) { w.pair(9, name); w.pair(code, v) }
	place := func(name string, p r2.Vec) { w.pair(9, name); w.at(10, p) }
	w.section("HEADER", func() {
		text("$ACADVER", 1, "AC1015")
		text("$DWGCODEPAGE", 3, "ANSI_1252")
		text("$INSUNITS", 70, "4")
		text("$MEASUREMENT", 70, "1")
		text("$LUNITS", 70, "2")
		text("$AUNITS", 70, "0")
		text("$EXTNAMES", 290, "1")
		place("$INSBASE", r2.Vec{})
		place("$EXTMIN", box.Min)
		place("$EXTMAX", box.Max)
		text("$HANDSEED", 5, strings.ToUpper(strconv.FormatInt(int64(w.next+1), 16)))
	})
}

// entity writes what every entity begins with.
func (w *writer) entity(kind, class, layer string, owner int) {
	w.pair(0, kind)
	w.handle(5, w.next)
	w.next++
	w.handle(330, owner)
	w.pair(100, "AcDbEntity")
	w.pair(8, layerName(layer))
	w.pair(100, class)
}

func (e Line) write(w *writer, owner int) {
	w.entity("LINE", "AcDbLine", e.Layer, owner)
	w.at(10, e.A)
	w.at(11, e.B)
}

func (e Circle) write(w *writer, owner int) {
	w.entity("CIRCLE", "AcDbCircle", e.Layer, owner)
	w.at(10, e.Center)
	w.num(40, e.Radius)
}

func (e Arc) write(w *writer, owner int) {
	w.entity("ARC", "AcDbCircle", e.Layer, owner)
	w.at(10, e.Center)
	w.num(40, e.Radius)
	w.pair(100, "AcDbArc")
	w.num(50, degrees(e.From))
	w.num(51, degrees(e.To))
}

func degrees(rad float64) float64 { return rad * 180 / math.Pi }

func (e Polyline) write(w *writer, owner int) {
	w.entity("LWPOLYLINE", "AcDbPolyline", e.Layer, owner)
	w.int(90, len(e.Loop))
	flags := 0
	if e.Closed {
		flags = 1
	}
	w.int(70, flags)
	w.num(43, 0)
	for i, v := range e.Loop {
		w.num(10, v.P.X)
		w.num(20, v.P.Y)
		if v.Bulge != 0 && (e.Closed || i < len(e.Loop)-1) {
			w.pair(42, decimals(v.Bulge, 12))
		}
	}
}

func (e Text) write(w *writer, owner int) {
	w.entity("TEXT", "AcDbText", e.Layer, owner)
	w.at(10, e.At)
	w.num(40, e.Height)
	w.pair(1, plain(e.S))
	w.num(50, degrees(e.Turn))
	w.pair(7, "Standard")
	w.int(72, int(e.Align))
	if e.Align != Left {
		w.at(11, e.At)
	}
	w.pair(100, "AcDbText")
}

// plain writes words in ASCII on one line, with nothing in them that a reader
// takes for a code: %% begins one (readers differ on how to escape it, so the
// two are set apart), as do ^ and a backslash.
func plain(s string) string {
	var b strings.Builder
	last := ' '
	for _, r := range s {
		if r == '%' && last == '%' {
			b.WriteByte(' ')
		}
		last = r
		switch {
		case r < ' ' || r == 0x7f:
			b.WriteByte(' ')
		case r == '\\':
			b.WriteString(`\U+005C`)
		case r == '^':
			b.WriteString("^ ")
		case r < 0x7f:
			b.WriteRune(r)
		case r > 0xffff:
			b.WriteByte('?')
		default:
			hex := strings.ToUpper(strconv.FormatInt(int64(r), 16))
			b.WriteString(`\U+` + "0000"[min(4, len(hex)):] + hex)
		}
	}
	return b.String()
}

// layerName returns the name without what names of layers may not hold, and
// "0" for an empty one.
func layerName(s string) string {
	s = strings.TrimSpace(strings.Map(func(r rune) rune {
		if r < ' ' || r >= 0x7f || strings.ContainsRune("<>/\\\":;?*|,=`", r) {
			return '-'
		}
		return r
	}, s))
	if s == "" {
		return "0"
	}
	return s
}
