// Package pdf writes documents of pages in the Portable Document Format
// (ISO 32000-1, PDF 1.7): words, lines, leaves, links and bookmarks, with places
// in millimetres from the upper left, y down. It knows no trade.
//
// # What a document holds
//
// Faces are embedded, cut down to the letters that are used, each with its map
// back to Unicode, so that text can be searched and read aloud; a letter that a
// face lacks is taken from a face of signs, and what that lacks is shown as a
// box with a question mark in it. Pairs of letters are kerned. Lines keep the
// widths and dashes of package leaf; circular arcs become cubic curves, split so
// that they are off by less than a ten-thousandth of a millimetre on any page.
//
// Ink is pure black and paper is not painted: a laser printer breaks thin lines
// of any other tone into dots. Soft words are grey, and the accent is one colour.
//
// Documents ask viewers to print them without scaling (PrintScaling None). Not
// every viewer listens, so full-size sheets carry a square to measure.
//
// # The same bytes
//
// Nothing of the clock, the machine or chance goes in: there is no date, objects
// stand in a fixed order, and the file's identifier is a sum of its content.
//
// # Full-size sheets
//
// FullSize puts a leaf that is drawn at 1 : 1 on one page as large as it needs.
// Tiled puts it on ordinary paper: see there for how the tiles join.
//
// # Structure
//
// A page's content may be marked for readers that cannot see it: Begin opens an
// element (a heading, a paragraph, a figure with its words, a table's cell), End
// closes it. What stands outside of any is decoration to them.
package pdf
