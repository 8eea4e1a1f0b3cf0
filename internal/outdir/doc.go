// Package outdir puts a set of files into a folder whole or not at all, and
// single files likewise.
//
// A maker's folder may hold years of notes beside a book that a program wrote
// this morning. So the rules are few and strict:
//
//   - The files are written into a temporary folder beside the wanted one,
//     flushed to the disk, and the temporary folder is renamed. Whoever looks
//     sees the old folder or the new one, never half of either.
//   - A folder that is there already is replaced only if it is empty, or if its
//     manifest (see [ManifestName]) lists every file in it. Else the write is
//     refused, and names what it does not know.
//   - Files are taken away one by one, by their listed names. A file that is
//     not listed is never removed, not even one that appeared while the new
//     folder was being written: it is brought back, and the write is refused.
//   - Files may lie one folder deep; such a folder is ours as long as it holds
//     listed files only.
//   - Symbolic links are refused, as the folder and in it: what they point to
//     is not ours.
//
// # What can still go wrong
//
// Replacing a folder takes two renames: the old one aside, the new one in. If
// the power fails between the two, the folder's name is missing for the while
// and both lie beside it, whole, under names that begin with a dot and the
// folder's name. Nothing is lost, but a person has to rename one of them.
//
// # Names
//
// [Name] and [Names] make file names that every system takes: letters a to z,
// digits and hyphens, the number first, no name that an old system reserves
// for a device, and no two that differ in capitals only.
package outdir
