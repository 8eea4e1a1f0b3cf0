// Package text prints a book for a terminal.
package text

import "rodwork/internal/book"

// Options for the terminal.
type Options struct {
	Width int // columns; 0 is 80
}

// Render returns the text.
func Render(b *book.Book, o Options) []byte { return nil }
