// Package web serves the book of one piece as a page that answers: every value
// that a maker wrote can be changed where it stands, and all else follows.
//
// # The working text
//
// The file on the disk is the working text. A session holds the revisions that
// it has seen, each the whole text of the piece file and the shop file with the
// book that was made of it. An edit names the revision that it was based on;
// where another has come meanwhile (by an editor, by another page) the edit is
// refused with both texts, and nothing is ever merged. Undo and redo are edits
// too: they write an older text, as a new revision. What can be taken back is
// kept from one start to the next, in a log that is bounded by its oldest.
//
// What stands in no file (a habit of the shop filled it in) has a value too: it
// is written into the piece file when it is changed. A mean is changed by its
// readings. An item of a list is doubled or taken away as a whole.
//
// # What travels
//
// A book is cut into fragments, each a block with its findings, under ids that
// stay while the things keep their names. An answer carries only the fragments
// that differ from those of the revision that the page shows. While a value is
// dragged the page asks for previews, which write nothing: it tells which
// fragments it shows from an earlier preview, so that these come back even
// where they are again as they were. It tells too which are in sight: then only
// those are made, figures elsewhere are not drawn, and the answer says that the
// rest is behind. The page marks it so, and asks for it where the hand rests; the
// plan is at hand by then. One computation runs at a time; a page
// that no longer waits for one has it given up between its stages.
//
// # Who may ask
//
// The page is for the person at this machine. The server listens on the
// loopback interface only; a request must name it as its host (so that no other
// name can be pointed at it), an edit must come from the page itself (its
// origin, and a token that is made anew at each start), and bodies are bounded.
// The policy sent with the page lets it load nothing from elsewhere and run no
// script but its own files.
package web
