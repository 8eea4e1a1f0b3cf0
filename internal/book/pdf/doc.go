// Package pdf sets a book on pages of paper, as a document that prints the same
// everywhere: a first page with the piece's picture and the contents, running
// heads, page numbers, chapters in the order of the work, and the rules that
// the numbers stand on at the end.
//
// # How a page is made up
//
// Sentences stand in one column, broken line by line as each fits (no line is
// stretched, none is hyphenated). What a check found stands in the margin
// beside the sentence that causes it, gravest first; what the margin has no
// room for stands in a band of three columns below. Tables, figures and cautions take the
// whole width. A heading never stands alone at the foot of a page, a paragraph
// leaves two lines at least on each, a table's row is whole and its head is
// repeated. A table that would leave a few rows over is set closer instead.
//
// Figures are printed in the size that they were drawn for, so that a scale
// that is named beside them holds, even where that takes them past the text's
// margins. One that is larger than the page is made smaller, and says so. A
// figure that the rest of a page has no room for waits for the top of the next;
// the text goes on, but never past the end of its section, nor past the tables
// that follow the figure; none comes between the rows of a table.
//
// A state is never told by colour alone: each has a mark and a word. Written
// values are in bold, as on the screen; computed ones are not.
//
// Page numbers are needed before the pages are known ("p. 31" beside a
// finding): the book is set again with the numbers that came out, until they
// hold.
package pdf
