package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// writer puts objects one after the other and remembers where each is. Those
// that are not streams themselves are gathered into compressed object streams
// (ISO 32000-1, 7.5.7), since there is one for each cell of each table.
type writer struct {
	buf    bytes.Buffer
	at     []where // by object number - 1
	packed []int   // objects that wait for an object stream
	bodies []string
}

// where is the place of an object: in the file, or in an object stream.
type where struct {
	kind  byte // 1 at an offset, 2 in a stream
	place int  // the offset, or the stream's number
	index int  // in the stream
}

// reserve takes the next object number.
func (w *writer) reserve() int {
	w.at = append(w.at, where{})
	return len(w.at)
}

func (w *writer) object(id int, body string) {
	w.packed, w.bodies = append(w.packed, id), append(w.bodies, body)
}

// mostPacked is how many objects one object stream holds.
const mostPacked = 200

// pack writes the objects that wait.
func (w *writer) pack() error {
	for len(w.packed) > 0 {
		n := min(mostPacked, len(w.packed))
		id := w.reserve()
		var index, data bytes.Buffer
		for i := range n {
			fmt.Fprintf(&index, "%d %d ", w.packed[i], data.Len())
			data.WriteString(w.bodies[i] + "\n")
			w.at[w.packed[i]-1] = where{2, id, i}
		}
		first := index.Len()
		index.Write(data.Bytes())
		if err := w.stream(id, fmt.Sprintf("/Type/ObjStm/N %d/First %d", n, first), index.Bytes()); err != nil {
			return err
		}
		w.packed, w.bodies = w.packed[n:], w.bodies[n:]
	}
	return nil
}

// stream writes a compressed stream; more is what its dictionary has besides.
func (w *writer) stream(id int, more string, data []byte) error {
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	if _, err := z.Write(data); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	w.at[id-1] = where{1, w.buf.Len(), 0}
	fmt.Fprintf(&w.buf, "%d 0 obj\n<</Length %d/Filter/FlateDecode%s>>\nstream\n", id, packed.Len(), more)
	w.buf.Write(packed.Bytes())
	w.buf.WriteString("\nendstream\nendobj\n")
	return nil
}

// Bytes returns the document. The same calls give the same bytes. A document
// has at least one page; one is added where there is none.
func (d *Doc) Bytes() ([]byte, error) {
	if len(d.pages) == 0 {
		d.AddPage(210, 297)
	}
	w := &writer{}
	w.buf.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	catalog, tree, info := w.reserve(), w.reserve(), w.reserve()
	pageIDs := make([]int, len(d.pages))
	for i := range d.pages {
		pageIDs[i] = w.reserve()
	}
	fontIDs, err := d.writeFonts(w)
	if err != nil {
		return nil, err
	}
	if err := d.writePages(w, tree, pageIDs, fontIDs); err != nil {
		return nil, err
	}
	outline := d.writeOutline(w, pageIDs)
	structure := d.writeStructure(w, pageIDs)
	lang := ""
	if d.info.Lang != "" {
		lang = "/Lang(" + plainWord(d.info.Lang) + ")"
	}
	w.object(catalog, fmt.Sprintf("<</Type/Catalog/Pages %d 0 R%s/ViewerPreferences<</PrintScaling/None/DisplayDocTitle true>>%s%s>>",
		tree, lang, outline, structure))
	subject := ""
	if d.info.Subject != "" {
		subject = "/Subject " + textString(d.info.Subject)
	}
	w.object(info, fmt.Sprintf("<</Title %s%s/Producer(Rodwork)>>", textString(d.info.Title), subject))
	if err := w.finish(catalog, info); err != nil {
		return nil, err
	}
	return w.buf.Bytes(), nil
}

// plainWord keeps the letters, digits and hyphens of a language's code.
func plainWord(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' {
			return r
		}
		return -1
	}, s)
}

// finish writes the table of places, itself a stream, and the file's end.
func (w *writer) finish(catalog, info int) error {
	if err := w.pack(); err != nil {
		return err
	}
	id, start := w.reserve(), w.buf.Len()
	w.at[id-1] = where{1, start, 0}
	table := []byte{0, 0, 0, 0, 0, 0xff, 0xff}
	for _, o := range w.at {
		table = append(table, o.kind)
		table = binary.BigEndian.AppendUint32(table, uint32(o.place))
		table = binary.BigEndian.AppendUint16(table, uint16(o.index))
	}
	sum := sha256.Sum256(w.buf.Bytes())
	err := w.stream(id, fmt.Sprintf("/Type/XRef/Size %d/W[1 4 2]/Root %d 0 R/Info %d 0 R/ID[<%X><%X>]",
		len(w.at)+1, catalog, info, sum[:16], sum[:16]), table)
	fmt.Fprintf(&w.buf, "startxref\n%d\n%%%%EOF\n", start)
	return err
}

func (d *Doc) writePages(w *writer, tree int, pageIDs []int, fontIDs [faces]int) error {
	var resources strings.Builder
	resources.WriteString("<</Font<<")
	for f, id := range fontIDs {
		if id > 0 {
			fmt.Fprintf(&resources, "/F%d %d 0 R", f, id)
		}
	}
	resources.WriteString(">>>>")
	shared := w.reserve()
	w.object(shared, resources.String())
	var kids strings.Builder
	for i, p := range d.pages {
		for len(p.saved) > 0 {
			p.Unclip()
		}
		p.end()
		body := w.reserve()
		if err := w.stream(body, "", p.buf.Bytes()); err != nil {
			return err
		}
		fmt.Fprintf(&kids, "%d 0 R ", pageIDs[i])
		w.object(pageIDs[i], fmt.Sprintf("<</Type/Page/Parent %d 0 R/MediaBox[0 0 %s %s]/Resources %d 0 R/Contents %d 0 R/StructParents %d/Tabs/S%s>>",
			tree, number(p.W*perMM), number(p.H*perMM), shared, body, i, d.annotations(p, pageIDs)))
	}
	w.object(tree, fmt.Sprintf("<</Type/Pages/Count %d/Kids[%s]>>", len(d.pages), kids.String()))
	return nil
}

func (d *Doc) annotations(p *Page, pageIDs []int) string {
	var b strings.Builder
	for _, l := range p.links {
		to, ok := d.dests[l.to]
		if !ok {
			continue
		}
		fmt.Fprintf(&b, "<</Type/Annot/Subtype/Link/Border[0 0 0]/Rect[%s %s %s %s]/Dest%s>>",
			number(p.x(l.x)), number(p.y(l.y+l.h)), number(p.x(l.x+l.w)), number(p.y(l.y)), d.dest(to, pageIDs))
	}
	if b.Len() == 0 {
		return ""
	}
	return "/Annots[" + b.String() + "]"
}

func (d *Doc) dest(to place, pageIDs []int) string {
	return fmt.Sprintf("[%d 0 R/XYZ null %s null]", pageIDs[to.page], number(d.pages[to.page].y(to.y)))
}

// writeOutline writes the bookmarks, and returns what the catalog says of them.
func (d *Doc) writeOutline(w *writer, pageIDs []int) string {
	if len(d.marks) == 0 {
		return ""
	}
	root := w.reserve()
	ids := make([]int, len(d.marks))
	for i := range ids {
		ids[i] = w.reserve()
	}
	parentOf := make([]int, len(d.marks)) // index, or -1
	last := map[int]int{}                 // level -> latest index
	kids := make(map[int][]int)
	for i, m := range d.marks {
		parentOf[i] = -1
		if m.level > 0 {
			parentOf[i] = last[m.level-1]
		}
		last[m.level] = i
		kids[parentOf[i]] = append(kids[parentOf[i]], i)
	}
	family := func(of int) string {
		k := kids[of]
		if len(k) == 0 {
			return ""
		}
		count := -len(k) // closed
		if of < 0 {
			count = len(k)
		}
		return fmt.Sprintf("/First %d 0 R/Last %d 0 R/Count %d", ids[k[0]], ids[k[len(k)-1]], count)
	}
	for i, m := range d.marks {
		parent, beside := root, kids[parentOf[i]]
		if parentOf[i] >= 0 {
			parent = ids[parentOf[i]]
		}
		var next string
		at := slices.Index(beside, i)
		if at > 0 {
			next += fmt.Sprintf("/Prev %d 0 R", ids[beside[at-1]])
		}
		if at+1 < len(beside) {
			next += fmt.Sprintf("/Next %d 0 R", ids[beside[at+1]])
		}
		w.object(ids[i], fmt.Sprintf("<</Title %s/Parent %d 0 R%s%s/Dest%s>>", textString(m.title), parent, next, family(i), d.dest(m.at, pageIDs)))
	}
	w.object(root, "<</Type/Outlines"+family(-1)+">>")
	return fmt.Sprintf("/Outlines %d 0 R/PageMode/UseOutlines", root)
}

// writeStructure writes the tree of elements, and returns what the catalog says
// of it.
func (d *Doc) writeStructure(w *writer, pageIDs []int) string {
	if d.root.prune() {
		return ""
	}
	top, parents := w.reserve(), w.reserve()
	d.root.number(w)
	d.root.write(w, top, pageIDs)
	var nums strings.Builder
	for i, p := range d.pages {
		fmt.Fprintf(&nums, "%d[", i)
		for _, e := range p.marks {
			fmt.Fprintf(&nums, "%d 0 R ", e.id)
		}
		nums.WriteString("]")
	}
	w.object(parents, "<</Nums["+nums.String()+"]>>")
	w.object(top, fmt.Sprintf("<</Type/StructTreeRoot/K %d 0 R/ParentTree %d 0 R/ParentTreeNextKey %d>>", d.root.id, parents, len(d.pages)))
	return fmt.Sprintf("/StructTreeRoot %d 0 R/MarkInfo<</Marked true>>", top)
}

func (e *Element) number(w *writer) {
	e.id = w.reserve()
	for _, k := range e.kids {
		if c, ok := k.(*Element); ok {
			c.number(w)
		}
	}
}

func (e *Element) write(w *writer, parent int, pageIDs []int) {
	var kids strings.Builder
	for _, k := range e.kids {
		switch k := k.(type) {
		case *Element:
			k.write(w, e.id, pageIDs)
			fmt.Fprintf(&kids, "%d 0 R ", k.id)
		case content:
			fmt.Fprintf(&kids, "<</Type/MCR/Pg %d 0 R/MCID %d>>", pageIDs[k.page], k.mark)
		}
	}
	alt := ""
	if e.alt != "" {
		alt = "/Alt " + textString(e.alt)
	}
	w.object(e.id, fmt.Sprintf("<</Type/StructElem/S/%s/P %d 0 R/K[%s]%s>>", e.kind, parent, kids.String(), alt))
}

// writeFonts embeds the faces that were used.
func (d *Doc) writeFonts(w *writer) (ids [faces]int, err error) {
	for face := range faces {
		if len(d.used[face]) == 0 {
			continue
		}
		ids[face] = w.reserve()
		if err := d.writeFont(w, ids[face], face); err != nil {
			return ids, err
		}
	}
	return ids, nil
}

// writeFont embeds one face as a composite font whose codes are its glyphs.
func (d *Doc) writeFont(w *writer, id int, face Face) error {
	f, used := fonts[face](), slices.Sorted(maps.Keys(d.used[face]))
	file, unicode, descriptor, inner := w.reserve(), w.reserve(), w.reserve(), w.reserve()
	data := f.cutDown(used)
	sum := sha256.Sum256(data)
	tag := make([]byte, 6) // six capitals that tell this cut from others
	for i := range tag {
		tag[i] = 'A' + sum[i]%26
	}
	name := string(tag) + "+Rodwork-" + faceNames[face]
	if err := w.stream(file, fmt.Sprintf("/Length1 %d", len(data)), data); err != nil {
		return err
	}
	if err := w.stream(unicode, "", d.letters(face, used)); err != nil {
		return err
	}
	flags, slant, stem := 4, 0, 80
	if face == TextItalic || face == TableItalic {
		flags, slant = flags|64, -11
	}
	if face <= Title {
		flags |= 2
	}
	if face == TextBold || face == TableBold {
		stem = 120
	}
	w.object(descriptor, fmt.Sprintf("<</Type/FontDescriptor/FontName/%s/Flags %d/FontBBox[%s %s %s %s]/ItalicAngle %d/Ascent %s/Descent %s/CapHeight 665/StemV %d/FontFile2 %d 0 R>>",
		name, flags, number(f.box[0]), number(f.box[1]), number(f.box[2]), number(f.box[3]), slant, number(f.ascent), number(f.descent), stem, file))
	var widths strings.Builder
	for _, g := range used {
		fmt.Fprintf(&widths, "%d[%s]", g, number(f.advance[g]))
	}
	w.object(inner, fmt.Sprintf("<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %d 0 R/CIDToGIDMap/Identity/W[%s]>>",
		name, descriptor, widths.String()))
	w.object(id, fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>", name, inner, unicode))
	return nil
}

// letters is the map from glyphs back to letters.
func (d *Doc) letters(face Face, used []uint16) []byte {
	var b bytes.Buffer
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n")
	for part := range slices.Chunk(used, 100) {
		fmt.Fprintf(&b, "%d beginbfchar\n", len(part))
		for _, g := range part {
			fmt.Fprintf(&b, "<%04X> <%s>\n", g, utf16Hex(d.used[face][g]))
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return b.Bytes()
}
