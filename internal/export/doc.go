// Package export turns a plan into plain documents for other programs: what
// `--json` prints and what the book's folder holds as plan.json.
//
// # The promise
//
// The names of fields carry their units (`mouth_mm`, `angle_deg`, `mass_kg`);
// a length is in millimetres whatever the reader's own unit is. A field that
// was once published keeps its name and its meaning: fields are added, never
// removed, and a test keeps the list. The JSON Schema in schema/output.schema.json
// is made from the types here, so it can't say anything else than they do.
//
// # Numbers
//
// A number is rounded to ten significant digits, and what is smaller than a
// billionth is nought. That is finer than anything that can be measured in a
// shop, and coarser than the last bits in which one processor's arithmetic
// differs from another's, so the same input gives the same bytes on both. What
// is not a number (a ratio by nought) is null.
package export
