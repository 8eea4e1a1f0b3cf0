// Package browser has the tests that open the book as a reader does: in a real
// browser, from a file, with nothing else to be had. It has no code of its own.
package browser
